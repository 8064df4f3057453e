package window

import (
	"image"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// What is out of view is not painted but keeps its place, its name and the keys,
// and is there when it comes into view.
func TestWordsOutOfViewAreNotPaintedUntilTheyComeIntoIt(t *testing.T) {
	w := open(t, true)
	c := w.column
	c.full = true
	c.refresh()
	painted := func() (n int) {
		for _, o := range c.list.Objects {
			if b, ok := o.(*touch); ok {
				y := o.Position().Y + columnPad - c.scroll.Offset.Y
				require.True(t, b.Visible(), "the keys reach it")
				if y+o.Size().Height > 0 && y < c.scroll.Size().Height {
					require.True(t, b.body.Visible(), texts(b.body))
				}
				if b.body.Visible() {
					n++
				}
			}
		}
		return n
	}
	all := 0
	for _, o := range c.list.Objects {
		if _, ok := o.(*touch); ok {
			all++
		}
	}
	tall := c.scroll.Content.MinSize().Height
	require.Less(t, painted(), all/2)
	for y := float32(0); y < tall; y += 90 {
		rollTo(c.scroll, fyne.NewPos(0, y))
		require.Less(t, painted(), all)
		require.Equal(t, tall, c.scroll.Content.MinSize().Height)
	}
	c.full = false
	c.refresh()
	painted()
	w.win.Resize(fyne.NewSize(1280, 500))
	painted()
	w.win.Resize(fyne.NewSize(1280, 1000))
	painted()
}

func TestALongPageIsPaintedWhereItIsRolledTo(t *testing.T) {
	w := open(t, true)
	w.keysPage()
	read := func() string {
		size := w.win.Canvas().Size()
		lines := textsShown(w.win.Canvas().Overlays().Top(), fyne.Position{}, image.Rect(0, 0, int(size.Width), int(size.Height)), false)
		require.NotEmpty(t, lines)
		var all string
		for _, l := range lines {
			all += l.of.Text + "\n"
		}
		return all
	}
	head := read()
	w.sheet.rolled(fyne.KeyEnd)
	foot := read()
	require.NotEqual(t, head, foot)
	require.Greater(t, strings.Count(foot, "\n"), strings.Count(head, "\n")/2)
	w.backOut()
}

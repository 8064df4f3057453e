package window

import (
	"image"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/lesson"
)

// Page Down and Page Up turn the pages wherever on the print page the keys are,
// and its words and the table of keys say so.
func TestPagesOfAPrintTurnByPageDownAndPageUp(t *testing.T) {
	w := open(t, true)
	w.printPage()
	require.Contains(t, w.onPage(), "Map of the pages Page Down turns on")
	told := false
	for _, g := range lesson.Keys() {
		for _, k := range g.Keys {
			told = told || k.Keys == "Ctrl + P" && strings.Contains(k.Does, "Page Down and Page Up turn its pages")
		}
	}
	require.True(t, told)
	down, up := &fyne.KeyEvent{Name: fyne.KeyPageDown}, &fyne.KeyEvent{Name: fyne.KeyPageUp}
	kinds := map[string]bool{}
	for _, f := range reachable(w.sheet.pop.Content) {
		if b, ok := f.(*touch); ok && b.disabled {
			continue
		}
		w.win.Canvas().Focus(f)
		f.TypedKey(down)
		require.Contains(t, w.onPage(), "Page 1 of 3", "%T", f)
		f.TypedKey(down)
		require.Contains(t, w.onPage(), "Page 2 of 3, row 1, column 1", "%T", f)
		f.TypedKey(up)
		f.TypedKey(up)
		require.Contains(t, w.onPage(), "Map of the pages", "%T", f)
		switch f.(type) {
		case *choice:
			kinds["list"] = true
		case *entry:
			kinds["field"] = true
		case *tick:
			kinds["tick"] = true
		case *touch:
			kinds["word"] = true
		}
	}
	require.Len(t, kinds, 4)
	w.win.Canvas().Unfocus()
	w.key(down)
	require.Contains(t, w.onPage(), "Page 1 of 3")
}

// Left and right in a closed list change nothing unseen.
func TestArrowsAsideInAClosedListChangeNothing(t *testing.T) {
	picked := 0
	c := newChoice([]string{"A4", "Letter"}, "A4", func(string) { picked++ })
	test.NewTempWindow(t, c).Canvas().Focus(c)
	for _, k := range []fyne.KeyName{fyne.KeyLeft, fyne.KeyRight} {
		c.TypedKey(&fyne.KeyEvent{Name: k})
		require.Equal(t, "A4", c.Selected)
	}
	require.Zero(t, picked)
}

// A page that is not drawn yet is turned to at once and says so; presses while
// one is drawn count once each, and only the page at which they stop is drawn.
func TestTurningDoesNotWaitForThePagesToBeDrawn(t *testing.T) {
	w := open(t, true)
	turned := w.openPrint()
	turned.drawing = true
	turned.turn(1)
	require.Contains(t, w.onPage(), "Page 1 of 3")
	require.Contains(t, w.onPage(), "Drawing this page …")
	turned.turn(1)
	require.Contains(t, w.onPage(), "Page 2 of 3, row 1, column 1")
	require.Empty(t, turned.drawn)
	turned.drawing = false
	turned.show()
	require.NotContains(t, w.onPage(), "Drawing this page …")
	require.Len(t, turned.drawn, 1)
	require.IsType(t, &image.RGBA{}, turned.drawn[2])
}

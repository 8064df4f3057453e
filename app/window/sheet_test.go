package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// The pages that are larger in a larger window follow it while they are open.
func TestOpenPagesFollowTheSizeOfTheWindow(t *testing.T) {
	w := open(t, true)
	pages := map[string]struct {
		show  func()
		grows bool // with the room there is
	}{
		"print":            {w.printPage, true},
		"sizes":            {w.sizesPage, false}, // as tall as its rows
		"wires":            {func() { w.fitPage() }, true},
		"keys":             {w.keysPage, true},
		"signs":            {w.signsPage, true},
		"tools":            {w.toolsPage, true},
		"checks":           {w.checksPage, true},
		"open":             {func() { w.openAsk() }, true},
		"cloth and sewing": {w.clothPage, true},
	}
	for name, page := range pages {
		t.Run(name, func(t *testing.T) {
			w.win.Resize(fyne.NewSize(1280, 800))
			page.show()
			require.NotNil(t, w.sheet)
			at := func(width, height float32) float32 {
				w.win.Resize(fyne.NewSize(width, height))
				body := w.sheet.pop.Content
				room := w.win.Canvas().Size()
				require.LessOrEqual(t, body.MinSize().Height, room.Height, "%s in %v", name, room)
				require.LessOrEqual(t, body.MinSize().Width, room.Width, "%s in %v", name, room)
				require.Equal(t, body.MinSize(), body.Size(), "it is laid out as it asks for")
				top := body.Position().Y
				require.InDelta(t, (room.Height-body.Size().Height)/2, top, 1, "it lies in the middle")
				require.Equal(t, fyne.NewPos(down(body.Position().X), down(top)), body.Position(), "on whole units")
				return body.Size().Height
			}
			at(960, 510) // 1920 × 1080 where each unit has two pixels
			low, high := at(1280, 720), at(1600, 1050)
			if page.grows {
				require.Greater(t, high, low, name)
			}
			require.LessOrEqual(t, at(1280, 720), low)
			w.backOut()
		})
	}
}

func TestRealSizeSaysWhatItRestsOnUntilARulerWasHeld(t *testing.T) {
	w := open(t, false)
	w.rune('1')
	require.Contains(t, strings.Join(texts(w.prompt.row), " "), "hold a ruler")
	w.set.SetFloat(prefScale, 4)
	w.rune('0')
	w.prompt.say(nil)
	w.show()
	w.rune('1')
	require.NotContains(t, strings.Join(texts(w.prompt.row), " "), "hold a ruler")
}

// On a page Tab comes first to what it is for, and last to the word that closes
// it.
func TestTabOnAPageComesToTheWordThatClosesLast(t *testing.T) {
	w := open(t, false)
	w.printPage()
	w.win.Canvas().Unfocus()
	first, ok := func() (c *choice, ok bool) {
		w.win.Canvas().FocusNext()
		c, ok = w.win.Canvas().Focused().(*choice)
		return c, ok
	}()
	require.True(t, ok, "the paper")
	require.Contains(t, first.Options, papers[0].words)
	w.win.Canvas().FocusPrevious()
	last, ok := w.win.Canvas().Focused().(*touch)
	require.True(t, ok)
	require.Equal(t, []string{"Close  Esc"}, texts(last))
	last.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	require.Nil(t, w.sheet)
}

package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
)

// pressWord presses what bears a word in the column.
func (w *Window) pressWord(t *testing.T, word string) {
	t.Helper()
	for _, f := range reachable(w.column.list) {
		if b, ok := f.(*touch); ok && strings.Join(texts(b.body), " ") == word {
			test.Tap(b)
			return
		}
	}
	require.FailNow(t, "no such word", word)
}

func TestSheSaysWhetherAChangeGoesToAllSizesOrToOne(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.SetSize("75C"))
	before := w.written(t)
	w.pressWord(t, "only 75C")
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.key(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Equal(t, "Accept for 75C  ↵", texts(w.prompt.acts)[0])
	w.key(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Equal(t, []string{"75C"}, w.desk.Document().Recipe[0].Sizes)
	require.Contains(t, strings.Join(texts(w.column.list), " "), "(only 75C)")

	w.column.open = w.desk.Document().Recipe[0].ID
	w.column.refresh()
	w.pressWord(t, "For all sizes")
	require.Empty(t, w.desk.Document().Recipe[0].Sizes)
	w.pressWord(t, "Only for 75C")
	require.Equal(t, []string{"75C"}, w.desk.Document().Recipe[0].Sizes)
	w.pressWord(t, "all sizes")
	w.key(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Equal(t, "Accept  ↵", texts(w.prompt.acts)[0])
	w.abandon()
	for w.desk.CanUndo() {
		w.undo()
	}
	require.Equal(t, before, w.written(t))
}

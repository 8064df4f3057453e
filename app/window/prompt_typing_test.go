package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
)

// typeIn puts the keys into a field above the tray and types there, letter by
// letter, in place of what stood there.
func (w *Window) typeIn(t *testing.T, field, typed string) *entry {
	t.Helper()
	e, ok := w.prompt.boxes[field].(*entry)
	require.True(t, ok, field)
	w.win.Canvas().Focus(e)
	for _, r := range typed {
		e.TypedRune(r)
	}
	require.Same(t, e, w.prompt.boxes[field], "what is typed stays")
	return e
}

// pushed is how far across the tool would push, in mm.
func (w *Window) pushed(t *testing.T) string {
	t.Helper()
	for _, f := range w.tool().Fields() {
		if f.Name == "x" {
			return f.Text
		}
	}
	require.FailNow(t, "no field")
	return ""
}

func TestWhatIsTypedShowsOnTheMatWhileItIsTyped(t *testing.T) {
	w := open(t, false)
	before := w.written(t)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.show()
	e := w.typeIn(t, "x", "1")
	require.Equal(t, "1 mm", w.pushed(t))
	require.True(t, w.shown.names["cradle"], "the mat shows it")
	require.Contains(t, w.prompt.hint.Text, "Enter keeps what is typed, Escape goes back to 0 mm")
	e.TypedRune('/')
	require.Equal(t, "1 mm", w.pushed(t), "what was read stays until there is more to read")
	require.Empty(t, w.prompt.wrong.Text, "nothing is wrong yet")
	e.TypedRune('4')
	require.Equal(t, "6.35 mm", w.pushed(t))
	w.typeHere(fyne.KeyEscape)
	require.Equal(t, "0 mm", w.pushed(t))
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused())
	require.False(t, w.shown.asked)

	e = w.typeIn(t, "x", "1/4 i")
	require.Equal(t, "6.35 mm", w.pushed(t))
	w.typeHere(fyne.KeyReturn)
	require.Contains(t, w.prompt.wrong.Text, "1/4 i", "now it is")
	require.Equal(t, "0 mm", w.pushed(t), "and changes nothing")
	require.Equal(t, "1/4 i", e.Text, "it stays to be mended")
	w.win.Canvas().Focused().TypedRune('n')
	require.Empty(t, w.prompt.wrong.Text)
	require.Equal(t, "6.35 mm", w.pushed(t))
	w.typeHere(fyne.KeyEscape)
	require.Equal(t, "0 mm", w.pushed(t))

	w.typeIn(t, "x", "5")
	w.typeHere(fyne.KeyReturn)
	require.Equal(t, "5 mm", w.pushed(t))
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused(), "the keys are on the mat again")
	require.Equal(t, before, w.written(t), "nothing is accepted yet")
	w.key(&fyne.KeyEvent{Name: fyne.KeyTab})
	require.Equal(t, w.prompt.boxes["y"], w.win.Canvas().Focused(), "Tab goes on behind it")
	all := reachable(w.prompt.fields)
	last := all[len(all)-1].(interface{ named() string }).named()
	for _, anew := range []struct {
		left, to string
		does     func()
	}{
		{last, "x", func() {}}, // from the last to the first
		{"x", "y", func() {}},
		{"x", "x", func() { w.choose(w.active) }},
		{"x", "x", func() { w.key(&fyne.KeyEvent{Name: fyne.KeyRight}) }},
	} {
		w.prompt.leave(anew.left)
		anew.does()
		w.key(&fyne.KeyEvent{Name: fyne.KeyTab})
		require.Equal(t, anew.to, w.win.Canvas().Focused().(interface{ named() string }).named())
	}
	w.focusMat()
	w.key(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Len(t, w.desk.Document().Recipe, 1)
}

// After a length was typed in the walk the space bar drops a notch there.
func TestTheSpaceBarDropsANotchWhereAWalkWasTypedTo(t *testing.T) {
	w := open(t, false)
	w.focusMat()
	w.rune('C')
	require.NoError(t, w.tool().Set("seam", "vertical seam"))
	w.show()
	w.typeIn(t, "walked", "12.5")
	w.typeHere(fyne.KeyReturn)
	w.typeHere(fyne.KeySpace)
	w.typeHere(fyne.KeyReturn)
	require.Len(t, w.desk.Document().Recipe, 1)
	require.Contains(t, w.desk.Document().Recipe[0].Step.Sentence(), "12.5 mm")
}

// What a list gave is taken back to the mat, where N and Space go together; Tab
// goes on behind it.
func TestAfterAChoiceTheKeysAreOnTheMat(t *testing.T) {
	w := open(t, true)
	w.rune('A')
	w.show()
	c, ok := w.prompt.boxes["share"].(*choice)
	require.True(t, ok)
	w.win.Canvas().Focus(c)
	w.typeHere(fyne.KeyReturn)
	w.typeHere(fyne.KeyDown)
	w.typeHere(fyne.KeyReturn)
	require.NotEqual(t, "no", c.Selected)
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused())
}

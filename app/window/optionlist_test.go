package window

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
)

// An option that is lit, by the keys or under the pointer, shows on the mat what
// it would do; leaving the list takes it back, taking one keeps it.
func TestAnOptionThatIsLitShowsWhatItWouldDo(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.show()
	lay := w.prompt.boxes["lay"].(*choice)
	w.win.Canvas().Focus(lay)
	w.typeHere(fyne.KeySpace)
	require.False(t, w.shown.asked, "what is picked already")
	w.typeHere(fyne.KeyDown)
	require.True(t, w.shown.asked)
	require.True(t, w.shown.names["cradle"])
	lies := func() geom.Motion {
		return (&pattern.Pattern{Pieces: w.shown.pieces}).Piece("cradle").Pose
	}
	one := lies()
	w.typeHere(fyne.KeyDown)
	w.typeHere(fyne.KeyDown)
	require.NotEqual(t, one, lies(), "against another piece")
	w.typeHere(fyne.KeyEscape)
	require.False(t, w.shown.asked)
	require.Equal(t, fyne.Focusable(lay), w.win.Canvas().Focused(), "the keys are where they were")
	require.Equal(t, lay.Options[0], w.prompt.value("lay"))

	test.Tap(lay)
	list := w.win.Canvas().Focused().(*optionList)
	list.rows[2].MouseIn(nil)
	require.True(t, w.shown.asked)
	list.over.Tapped(nil)
	require.False(t, w.shown.asked, "a press beside it leaves it")
	test.Tap(lay)
	list = w.win.Canvas().Focused().(*optionList)
	list.rows[1].MouseIn(nil)
	test.Tap(list.rows[1])
	require.True(t, w.shown.asked)
	require.Equal(t, lay.Options[1], w.prompt.value("lay"))
	require.Equal(t, one, lies())
}

// Whatever is tried in a list of any tool, leaving the list gives all of it back.
func TestATriedOptionIsGivenBack(t *testing.T) {
	tried := 0
	for _, altered := range []bool{false, true} {
		w := open(t, altered)
		for i := range w.tools {
			w.desk.Select(tool.Selection{})
			w.choose(i)
			for range 3 {
				before, selected, was := fmt.Sprintf("%#v", w.tool().Fields()), w.desk.Selection(), w.tool().Proposal()
				for _, f := range w.tool().Fields() {
					for _, o := range f.Options {
						w.prompt.try(f.Name, o)
						tried++
					}
					w.prompt.untry()
					require.Equal(t, before, fmt.Sprintf("%#v", w.tool().Fields()), "%s, %s", w.tool().Name(), f.Name)
					require.Equal(t, was, w.tool().Proposal(), "%s, %s", w.tool().Name(), f.Name)
					require.Equal(t, selected, w.desk.Selection())
				}
				w.rune('n')
				w.key(&fyne.KeyEvent{Name: fyne.KeySpace})
			}
			w.abandon()
		}
	}
	require.Greater(t, tried, 200)
}

// A list that is longer than there is room for rolls along with the keys.
func TestALongListRollsAlongWithTheKeys(t *testing.T) {
	var options []string
	for i := range 40 {
		options = append(options, fmt.Sprint("edge ", i))
	}
	got := ""
	c := newChoice(options, options[0], func(s string) { got = s })
	win := test.NewTempWindow(t, container.New(stack{}, c))
	win.Resize(fyne.NewSize(400, 300))
	win.Canvas().Focus(c)
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	list := win.Canvas().Focused().(*optionList)
	seen := func() {
		r := list.rows[list.lit]
		y := r.Position().Y - list.roll.Offset.Y
		require.GreaterOrEqual(t, y, float32(0))
		require.LessOrEqual(t, y+r.Size().Height, list.roll.Size().Height)
	}
	for range 41 {
		list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
		seen()
	}
	require.Equal(t, 39, list.lit)
	for range 41 {
		list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
		seen()
	}
	require.Equal(t, 0, list.lit)
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	seen()
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Equal(t, "edge 39", got)
}

// In a low window the list of a tool's field stays below the mat and the lesson,
// at its field: neither what it previews nor what is read there is covered.
func TestTheListOfAFieldLeavesMatAndLessonFreeInALowWindow(t *testing.T) {
	w := open(t, false)
	w.win.Resize(lowest)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.show()
	w.prompt.focus("lay")
	lay := w.prompt.boxes["lay"].(*choice)
	w.typeHere(fyne.KeySpace)
	w.typeHere(fyne.KeyDown)
	list := w.win.Canvas().Focused().(*optionList)
	place := fyne.CurrentApp().Driver().AbsolutePositionForObject
	at, field := place(list), place(lay)
	require.InDelta(t, field.X, at.X, 8, "as far as the longest option lets it")
	require.InDelta(t, field.Y, at.Y, 8)
	require.GreaterOrEqual(t, at.Y, place(w.prompt.hint).Y+w.prompt.hint.Size().Height, "what an option would do is told above it")
	require.LessOrEqual(t, at.Y+list.Size().Height, lowest.Height)
	require.Greater(t, list.Size().Height, 3*list.rows[0].Size().Height, "enough of it to choose from")
}

// In a larger window it shows whole and covers as little of the mat as it can.
func TestTheListOfAFieldLiesOnTheTrayBeforeTheMat(t *testing.T) {
	w := open(t, false)
	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.show()
	w.prompt.focus("lay")
	w.typeHere(fyne.KeySpace)
	w.typeHere(fyne.KeyDown)
	list := w.win.Canvas().Focused().(*optionList)
	require.Equal(t, list.MinSize().Height, list.Size().Height)
	require.InDelta(t, w.win.Canvas().Size().Height, fyne.CurrentApp().Driver().AbsolutePositionForObject(list).Y+list.Size().Height, 12)
}

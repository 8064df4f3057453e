package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// While a number of a step is typed all that is told of the step is of that
// number, and of the kept one again afterwards.
func TestNotesOfAStepFollowItsNumberWhileItIsTyped(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.Accept(&step.Add{EdgeEnd: step.EdgeEnd{Piece: "cradle", Edge: "side seam", End: pattern.End}, Amount: step.Lit(6)}))
	require.NoError(t, w.desk.Accept(&step.True{Seam: "side seam", End: "start", Reach: ptr(step.Lit(25))}))
	e := w.desk.Document().Recipe[1]
	d := w.openStep(t, e.ID)
	w.win.Canvas().Focus(d)
	notes := func() (told []string) {
		for _, n := range w.column.retold {
			told = append(told, n.said...)
		}
		return told
	}
	shown := func() string { return strings.Join(texts(w.column.list), " ") }
	flat := func(s string) string { return strings.ReplaceAll(unit.Restate(s, w.unit), " ", "") }
	own := notes()
	require.NotEmpty(t, own)
	require.Contains(t, strings.Join(own, " "), "move")

	for _, typed := range []string{"4", "40"} {
		w.pending = true // shown below, and not by a clock
		d.SetText(typed)
		w.show()
		require.NotNil(t, w.rehearsal)
		rep, ok := w.rehearsal.report()
		require.True(t, ok)
		require.NotEmpty(t, rep.Notes)
		require.NotEqual(t, own, notes())
		for _, n := range rep.Notes {
			require.Contains(t, strings.ReplaceAll(shown(), " ", ""), flat(n))
		}
		require.Equal(t, fyne.Focusable(d), w.win.Canvas().Focused())
		require.Contains(t, w.dials(), d, "nothing was made anew under the keys")
	}
	w.typeHere(fyne.KeyEscape)
	require.Nil(t, w.rehearsal)
	require.Equal(t, own, notes())

	w.pending = true
	d.SetText("9")
	w.show()
	w.column.refresh() // as when a check is pressed
	require.NotEqual(t, own, notes())
}

// What a number comes to times its figure follows it, too, and the number of a
// size stands alike in both of its fields.
func TestWhatANumberComesToFollowsItWhileItIsTyped(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetSize("75C"))
	d := w.openStep(t, "share-out")
	was := w.column.retold[0].said
	require.Contains(t, was[0], "Times overlap of step")
	w.pending = true // shown below, and not by a clock
	d.SetText("2")
	w.show()
	require.NotNil(t, w.rehearsal)
	overlap := w.desk.Figures()["tape.overlap"]
	require.Contains(t, w.column.retold[0].said[0], w.column.write(2*overlap))
	d.SetText(d.was)
	w.show()
	require.Equal(t, was, w.column.retold[0].said)

	i := w.desk.Document().Recipe.Index("share-out")
	e := w.desk.Document().Recipe[i]
	next, err := withNumber(e, []string{"amount"}, step.PerSize(w.column.everySize(step.Lit(6), 6)))
	require.NoError(t, err)
	require.NoError(t, w.desk.Amend(next))
	w.column.ways["share-out\x00amount"] = true
	d = w.openStep(t, "share-out")
	w.pending = true
	d.SetText("7")
	alike := 0
	for _, other := range w.dials() {
		if other.Text == "7" {
			alike++
		}
	}
	require.Equal(t, 2, alike)
	d.SetText(d.was)
	require.Equal(t, d.was, d.like.Text)
}

package window

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/app/tool"
)

// typeWhole types a number into every field of the step that is open, figure by
// figure: it stands there whole, with the keys, and nothing is kept.
func (w *Window) typeWhole(t require.TestingT, fields ...int) {
	before := w.written(t)
	for _, i := range fields {
		d := w.dials()[i]
		w.win.Canvas().Focus(d)
		typed := ""
		for _, r := range "85.25" {
			d.TypedRune(r)
			typed += string(r)
			w.show()
			require.Equal(t, typed, d.Text, "%s beside %s", d.name, w.tool().Name())
			require.Equal(t, fyne.Focusable(d), w.win.Canvas().Focused(), "%s beside %s, at %s", d.name, w.tool().Name(), typed)
			require.Equal(t, before, w.written(t), "%s beside %s, at %s", d.name, w.tool().Name(), typed)
		}
		pressed(d, fyne.KeyEscape)
		w.show()
		require.Equal(t, before, w.written(t))
	}
}

// A number of a step is typed whole whatever is in the hand, also when a walk
// that was kept goes on or what was begun is let go by the typing.
func TestANumberIsTypedWholeWhateverIsInTheHand(t *testing.T) {
	w := someSizes(t, entryOf(t, furtherSteps[4]))
	w.column.open = "drops"
	keys := []tool.KeyName{tool.Next, tool.Next, tool.Previous, tool.Choose, tool.Choose, tool.Left, tool.Up, tool.Down}
	walks, walk := 0, slices.IndexFunc(w.tools, func(o tool.Tool) bool { return o.Name() == "walk" })
	rapid.Check(t, func(t *rapid.T) {
		if w.choose(rapid.IntRange(0, len(w.tools)-1).Draw(t, "tool")); rapid.Bool().Draw(t, "walks") {
			w.choose(walk)
			require.NoError(t, w.tool().Set("seam", rapid.SampledFrom(w.desk.Pattern().Seams).Draw(t, "seam").Name))
		}
		for range rapid.IntRange(0, 8).Draw(t, "acts") {
			switch pc := rapid.SampledFrom(w.desk.Pattern().Pieces).Draw(t, "piece"); {
			case rapid.Bool().Draw(t, "by key"):
				w.press(tool.Key{Name: rapid.SampledFrom(keys).Draw(t, "key"), Step: 1, Count: 1})
			default:
				e := rapid.SampledFrom(pc.Edges).Draw(t, "edge")
				at := pc.Pose.Apply(e.Path.At(rapid.SampledFrom([]float64{0, 0.4, 1}).Draw(t, "along") * e.Length()))
				for _, act := range []tool.Act{tool.Press, tool.Release} {
					w.pointer(tool.Event{Act: act, At: at, Reach: 3})
				}
			}
		}
		if w.column.walked != "" {
			walks++
		}
		w.typeWhole(t, rapid.IntRange(0, len(w.dials())-1).Draw(t, "field"))
	})
	require.Positive(t, walks)
}

// The same for every number of every step while a walk goes on that was taken
// up after the step was opened.
func TestEveryNumberIsTypedWholeThoughAWalkGoesOn(t *testing.T) {
	table := exampleSteps(t)
	try := func(w *Window, id string) {
		w.column.open = id
		w.column.refresh()
		for i := range w.dials() {
			w.choose(slices.IndexFunc(w.tools, func(o tool.Tool) bool { return o.Name() == "walk" }))
			require.NoError(t, w.tool().Set("seam", w.desk.Pattern().Seams[0].Name))
			w.show()
			require.NotEmpty(t, w.column.walked, "the walk is in the hand")
			w.typeWhole(t, i)
		}
	}
	w := someSizes(t, table...)
	for _, e := range table {
		try(w, e.ID)
	}
	for _, text := range furtherSteps {
		e := entryOf(t, text)
		try(someSizes(t, e), e.ID)
	}
}

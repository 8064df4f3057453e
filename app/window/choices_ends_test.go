package window

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// The ends of an edge or a seam are picked by what is met there, as the sentence
// of the step and the tools tell them; the step keeps which end it is.
func TestEndsAreNamedByWhatIsMetThere(t *testing.T) {
	w := open(t, false)
	p := w.desk.Pattern()
	for _, c := range []struct {
		step  step.Step
		label string
		words []string
		now   int
	}{
		{&step.Add{EdgeEnd: step.EdgeEnd{Piece: "cradle", Edge: "side seam", End: pattern.End}, Amount: step.Lit(4)}, "End", []string{"hem", "top"}, 1},
		{&step.True{Seam: "side seam", End: "start"}, "End", []string{"top", "hem"}, 0},
		{&step.Level{Seam: "side seam", Bend: "b", Moves: "end"}, "Moves", []string{"top", "hem"}, 1},
		{&step.Walk{Seam: "side seam", From: "end", Drop: []step.Drop{{On: "a", Name: "x", MM: ptr(step.Lit(9))}}}, "From", []string{"top", "hem"}, 1},
		{&step.Walk{A: []pattern.Part{{Piece: "cradle", Edge: "side seam"}}, B: []pattern.Part{{Piece: "band", Edge: "side seam"}}, From: "start"}, "From", []string{"hem", "top"}, 0},
		{&step.Notch{Act: "add", Piece: "cradle", Name: "x", Edge: "side seam", From: "start", MM: step.Lit(9)}, "Counted from", []string{"hem", "top"}, 0},
		{&step.Smooth{Piece: "cradle", Edge: "side seam", From: &pattern.Along{From: "end", MM: 20}}, "From: counted from", []string{"hem", "top"}, 1},
		{&step.Place{Piece: "cradle", Edge: "side seam", End: "start", Onto: &step.EdgeEnd{Piece: "band", Edge: "side seam", End: "start"}}, "End", []string{"hem", "top"}, 0},
		{&step.Spread{Piece: "cradle", Hinge: &step.Hinge{Inner: "no edge", End: "end"}}, "Hinge end", []string{"start", "end"}, 1},
		{&step.True{Seam: "no seam", End: "end"}, "End", []string{"start", "end"}, 1},
	} {
		e := step.Entry{ID: "a", Step: c.step}
		var found *pick
		var have []string
		for _, k := range picks(e, p) {
			have = append(have, k.label)
			if k.label == c.label {
				found = &k
			}
		}
		require.NotNil(t, found, "%s of %s: %q", c.label, c.step.Kind(), have)
		t.Log(c.step.Kind(), found.words, step.Told(c.step, p))
		require.Equal(t, c.words, found.words, c.step.Kind())
		require.Equal(t, c.now, found.now, c.step.Kind())
		next, err := found.with(e, 1-c.now)
		require.NoError(t, err)
		back, err := found.with(next, c.now)
		require.NoError(t, err)
		require.Equal(t, c.step, back.Step, "the kept value stays one of start and end")
		require.NotEqual(t, c.step, next.Step)
	}
}

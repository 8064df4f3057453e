package window

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// A walk tells of a notch it dropped that a later step carries off its length: that
// of the piece that is altered where the walk starts, and not that of the other.
func TestANotchThatALaterStepCarriesIsToldWithTheWalk(t *testing.T) {
	w := open(t, false)
	at := step.Lit(40)
	require.NoError(t, w.desk.Accept(&step.Walk{Seam: "side seam", Drop: []step.Drop{{On: walk.A, Name: "mine", MM: &at}, {On: walk.B, Name: "mine", MM: &at}}}))
	id := w.desk.Document().Recipe[0].ID
	w.openStep(t, id)
	shown := func() string { return strings.Join(texts(w.column.list), " ") }
	require.NotContains(t, shown(), "later step carries")

	require.NoError(t, w.desk.Accept(&step.Add{EdgeEnd: step.EdgeEnd{Piece: "cradle", Edge: "side seam", End: pattern.End}, Amount: step.Lit(6)}))
	w.openStep(t, id)
	require.Contains(t, shown(), "A later step carries notch \"mine\"")
	s := w.desk.Document().Recipe[0].Step.(*step.Walk)
	mm, piece, there := s.Lies(w.desk.Pattern(), s.Drop[0])
	require.True(t, there)
	require.Equal(t, "cradle", piece)
	pc := w.desk.Pattern().Piece("cradle")
	length := pc.Edge("side seam").Length()
	require.InDelta(t, length-pc.Notch("mine").At(length), mm, 1e-9, "from the top, where the edge ends")
	require.Greater(t, math.Abs(mm-40), carried)
	require.Contains(t, shown(), "it lies "+unit.MM(mm)+" from the top on cradle")
	mm, piece, there = s.Lies(w.desk.Pattern(), s.Drop[1])
	require.True(t, there)
	require.Equal(t, "band", piece)
	require.InDelta(t, 40, mm, 1e-9)
	require.Equal(t, 1, strings.Count(shown(), "later step carries notch"))

	w.undo()
	w.openStep(t, id)
	require.NotContains(t, shown(), "later step carries")
}

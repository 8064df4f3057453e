package demo

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// In every size the side seam keeps its length and its end when the hem across
// it, which was given a kink there, is trued with the corner kept.
func TestTheCornerStaysInEverySize(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	reach := step.Lit(25)
	kinked := step.Recipe{{ID: "one", Step: &step.Straighten{Piece: cradlePiece, From: pattern.AtEnd(cradlePiece, "hem", pattern.Start), To: pattern.AtEnd(cradlePiece, "hem", pattern.End), Name: "hem", Role: pattern.Hem}}}
	trued := append(kinked[:1:1], step.Entry{ID: "two", Step: &step.True{Seam: "side seam", End: pattern.End, Reach: &reach, Hold: "corner"}})
	was, is := kinked.Replay(run), trued.Replay(run)
	require.Len(t, is, len(run.Sizes))
	for i, r := range is {
		require.Nil(t, r.Upset(), r.Size.Label)
		require.NoError(t, r.Size.Pattern.Validate())
		rep := r.Reports[1]
		assert.Greater(t, max(rep.Figures["kink_before"], -rep.Figures["kink_before"]), 0.5, "there was a kink")
		assert.InDelta(t, 0, rep.Figures["kink_after"], 1e-6, r.Size.Label)
		for _, piece := range []string{cradlePiece, bandPiece} {
			a, b := was[i].Size.Pattern.Piece(piece).Edge("side seam"), r.Size.Pattern.Piece(piece).Edge("side seam")
			assert.InDelta(t, a.Length(), b.Length(), 1e-9, r.Size.Label)
			assert.LessOrEqual(t, a.Path.Start().Dist(b.Path.Start()), 1e-9)
			assert.LessOrEqual(t, a.Path.End().Dist(b.Path.End()), 1e-9)
		}
	}
}

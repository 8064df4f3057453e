package demo

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Every size of the Tern takes a split of its upper outer cup and a curved
// neckline, and its seams are as long as before on both sides.
func TestSplitAndCurvedNecklineInEverySize(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	recipe := step.Recipe{
		{ID: "split", Step: &step.Split{
			Piece: "upper outer cup", Right: "strap cup", Name: "strap seam", Notches: []float64{1.0 / 3, 2.0 / 3},
			From:  pattern.Spot{Edge: "cross seam", Along: pattern.Along{Share: 0.5}},
			To:    pattern.Spot{Edge: "neckline", Along: pattern.Along{Share: 0.5}},
			Curve: &step.Curve{From: step.Lean{Square: true}, To: step.Lean{Degrees: step.Lit(8)}},
		}},
		{ID: "neck", Step: &step.CutOff{
			Piece: "inner cup", Keep: "right", Name: "lace edge", Role: pattern.LaceEdge,
			From:  pattern.AtEnd("inner cup", "wire", pattern.Start),
			To:    pattern.AtNotch("inner cup", "above apex"),
			Curve: &step.Curve{From: step.Lean{Degrees: step.Lit(-6)}, To: step.Lean{Degrees: step.Lit(4)}},
		}},
	}
	for i, res := range recipe.Replay(run) {
		require.Nil(t, res.Upset(), "%s: %v", res.Size.Label, res.Upset())
		was, now := run.Sizes[i].Pattern, res.Size.Pattern
		require.InDelta(t, was.Piece("upper outer cup").Area(), now.Piece("upper outer cup").Area()+now.Piece("strap cup").Area(), 1e-6)
		require.InDelta(t, was.Piece("inner cup").Area(), now.Piece("inner cup").Area()+res.Figures()["neck.trimmed"], 1e-6)
		for _, s := range now.Seams {
			a, b := now.SeamLengths(s)
			before := 0.0
			if old := was.Seam(s.Name); old != nil {
				oa, ob := was.SeamLengths(*old)
				before = oa - ob - old.Ease
				if s.Name != "vertical seam" { // which the neckline shortens
					require.InDelta(t, oa, a, 1e-9, "%s %s", res.Size.Label, s.Name)
				}
			}
			require.InDelta(t, before, a-b-s.Ease, 1e-9, "%s %s", res.Size.Label, s.Name)
		}
	}
}

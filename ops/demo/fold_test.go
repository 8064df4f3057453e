package demo

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/check"
	"truemat/ops/step"
)

func TestTheBridgeUnfoldsAndFoldsBackInEverySize(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	whole := step.Recipe{{ID: "unfold", Step: &step.Unfold{Piece: bridgePiece}}, {ID: "mark", Step: &step.Mark{Piece: bridgePiece, Text: "WHOLE"}}}
	_, results, err := whole.Append(run, step.Entry{ID: "fold", Step: &step.Fold{Piece: bridgePiece, Along: "fold"}})
	require.NoError(t, err)
	for _, r := range results {
		was, is := r.Before.Piece(bridgePiece), r.Size.Pattern.Piece(bridgePiece)
		assert.Equal(t, was.Edges, is.Edges, r.Size.Label)
		assert.Equal(t, was.Notches, is.Notches)
		assert.Equal(t, r.Before.Seams, r.Size.Pattern.Seams)
		assert.Equal(t, r.Before.Lines, r.Size.Pattern.Lines)
		assert.InDelta(t, 0, r.Reports[2].Figures["greatest_deviation"], 1e-9)
	}
	for _, r := range whole.Replay(run) {
		require.False(t, r.Behind())
		half, is := r.Before.Piece(bridgePiece), r.Size.Pattern.Piece(bridgePiece)
		assert.InDelta(t, 2*half.Area(), is.Area(), 1e-6)
		cut, err := half.CutArea()
		require.NoError(t, err)
		all, err := is.CutArea()
		require.NoError(t, err)
		assert.InDelta(t, 2*cut, all, 0.1)
		width := map[string]float64{}
		for _, c := range check.Run(r.Before, r.Size.Pattern, check.Defaults()) {
			assert.Equal(t, check.Holds, c.Verdict, "%s: %s", r.Size.Label, c.Text)
			width[c.ID] = c.Measured
		}
		for _, c := range check.Run(r.Before, r.Before, check.Defaults()) {
			if c.ID == check.BridgeTop {
				assert.InDelta(t, c.Measured, width[check.BridgeTop], 0.01, "as wide unfolded as twice the half")
			}
		}
		assert.InDelta(t, 0, width[check.HalvesAlike], 1e-9)
	}
}

func TestAnInnerCupIsLinedInEverySize(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	for _, sewn := range []bool{false, true} {
		_, results, err := step.Recipe{}.Append(run, step.Entry{ID: "line", Step: &step.LineIt{
			Piece: innerPiece, Name: "inner cup lining", Cloth: "tulle", PullIn: number(3), Sewn: sewn,
		}})
		require.NoError(t, err)
		for _, r := range results {
			cup, lining := r.Size.Pattern.Piece(innerPiece), r.Size.Pattern.Piece("inner cup lining")
			neck := cup.Edge("neckline")
			for _, q := range lining.Edge("neckline").Path.Flatten(0.1) {
				assert.InDelta(t, 3, neck.Path.Nearest(q).Dist, 0.1, r.Size.Label)
			}
			for _, c := range check.Run(r.Before, r.Size.Pattern, check.Defaults()) {
				assert.Equal(t, check.Holds, c.Verdict, "%s: %s", r.Size.Label, c.Text)
			}
		}
	}
}

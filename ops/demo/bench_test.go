package demo

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// longRecipe is the Tern in lace with eight more steps, 25 in all: the kinds
// that look for something, not only those that write a number.
func longRecipe(t testing.TB) step.Recipe {
	reach := step.Lit(20)
	amount := step.Lit(2)
	low := -60.0
	r := append(TernInLace(),
		step.Entry{ID: "more-wire", Step: &step.Smooth{Piece: framePiece, Edge: "wire", At: &pattern.Along{From: pattern.End, Share: 0.7}, Reach: &reach, Keep: "length"}},
		step.Entry{ID: "more-band", Step: &step.Add{EdgeEnd: step.EdgeEnd{Piece: bandPiece, Edge: "closure", End: pattern.End}, Amount: amount}},
		step.Entry{ID: "less-band", Step: &step.Add{EdgeEnd: step.EdgeEnd{Piece: bandPiece, Edge: "closure", End: pattern.End}, Amount: step.Lit(-2)}},
		step.Entry{ID: "turn-band", Step: &step.Turn{Piece: bandPiece, Pin: pattern.AtEnd(bandPiece, "side seam", pattern.Start), Direction: step.Clockwise, Until: &step.Until{Touch: "hem", Datum: &pattern.Datum{Y: &low}}}},
		step.Entry{ID: "true-again", Step: &step.True{Seam: "side seam", End: pattern.Start, Reach: &reach}},
		step.Entry{ID: "push", Step: &step.Move{Piece: bandPiece, DX: step.Lit(10), DY: step.Lit(0)}},
		step.Entry{ID: "walk", Step: &step.Walk{Seam: "cross seam", Drop: []step.Drop{{On: "a", Name: "walked", MM: number(20)}}}},
		step.Entry{ID: "half", Step: &step.Notch{Act: step.AddNotch, Piece: bandPiece, Name: "half", Edge: "top", Share: step.Lit(0.5)}},
		step.Entry{ID: "third", Step: &step.Notch{Act: step.AddNotch, Piece: bandPiece, Name: "third", Edge: "hem", Share: step.Lit(1.0 / 3)}},
		step.Entry{ID: "third-double", Step: &step.Notch{Act: step.MakeDouble, Piece: bandPiece, Name: "third"}},
	)
	require.Len(t, r, 25)
	return r
}

func BenchmarkReplayOneSize(b *testing.B) {
	run, err := Tern()
	require.NoError(b, err)
	r := longRecipe(b)
	one := run
	one.Sizes = run.Sizes[6:7]
	require.Nil(b, r.Replay(one)[0].Upset())
	for b.Loop() {
		r.Replay(one)
	}
}

func BenchmarkReplayEightSizes(b *testing.B) {
	run, err := Tern()
	require.NoError(b, err)
	r := longRecipe(b)
	eight := run
	eight.Sizes = run.Sizes[:8]
	for _, res := range r.Replay(eight) {
		require.Nil(b, res.Upset())
	}
	for b.Loop() {
		r.Replay(eight)
	}
}

// The recipe that is measured applies in every size.
func TestTheLongRecipeApplies(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	for _, res := range longRecipe(t).Replay(run) {
		require.Nil(t, res.Upset(), res.Size.Label)
	}
}

// Taped with all their allowances on, bridge and cradle have a cut line in
// every size, over the small hollow that the hem then has.
func TestTheFrameTapedWithItsAllowancesHasACutLine(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	var taped step.Recipe
	for _, e := range TernInLace() {
		switch e.Step.Kind() {
		case "place", "turn", "tape":
			taped = append(taped, e)
		}
	}
	for _, res := range taped.Replay(run) {
		require.Nil(t, res.Upset(), res.Size.Label)
		cut, err := res.Size.Pattern.Piece(framePiece).CutLine()
		require.NoError(t, err, res.Size.Label)
		require.Empty(t, cut.SelfCrossings(), res.Size.Label)
	}
}

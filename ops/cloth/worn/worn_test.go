package worn_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/cloth/worn"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

func laid(t *testing.T, p pattern.Pattern) map[string]worn.Placed {
	l, err := worn.Lay(p)
	require.NoError(t, err)
	require.Len(t, l.Placed, len(p.Pieces))
	out := map[string]worn.Placed{}
	for i, a := range l.Placed {
		out[a.Piece] = a
		require.False(t, a.Motion.Mirrors())
		for _, b := range l.Placed[:i] {
			require.Empty(t, geom.Cross(a.Outline, b.Outline).Crossings, "%s and %s", a.Piece, b.Piece)
			require.False(t, a.Outline.Contains(b.Outline.Start()), "%s on %s", b.Piece, a.Piece)
		}
	}
	require.Len(t, l.Meets, len(p.Seams))
	return out
}

// In a bra, seen from outside, the wearer's left at the right: the bridge at
// centre front, the cradle beside it, the band beyond; the cup above the
// frame, its inner part towards centre front and the lower below the upper.
func TestTheTernLiesAsItIsWorn(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, s := range run.Sizes {
		at := laid(t, s.Pattern)
		x := func(piece string) float64 { return at[piece].Outline.Centroid().X }
		y := func(piece string) float64 { return at[piece].Outline.Centroid().Y }
		require.InDelta(t, 0, x("bridge"), 1e-6, "whole, about centre front")
		require.Less(t, x("bridge"), x("cradle"))
		require.Less(t, x("cradle"), x("band"))
		require.Greater(t, y("inner cup"), y("cradle"))
		require.Less(t, x("inner cup"), x("lower outer cup"))
		require.Less(t, y("lower outer cup"), y("upper outer cup"))
		require.True(t, at["bridge"].Middle)
		require.False(t, at["band"].Middle)
	}
}

func TestTheAlteredTernLiesAsItIsWorn(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, r := range demo.TernInLace().Replay(run) {
		at := laid(t, r.Size.Pattern)
		require.InDelta(t, 0, at["frame"].Outline.Centroid().X, 1e-6)
		hem := r.Size.Pattern.Piece("frame").Edge("hem").Path.Transform(at["frame"].Motion)
		require.InDelta(t, hem.Start().Y, hem.End().Y, 1, "the hem lies level")
	}
}

// Without a fold and without seams the pieces keep their turn.
func TestPiecesThatAreSewnToNothingStandBeside(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern.Clone()
	p.Seams = nil
	laid(t, p)

	_, err = worn.Lay(pattern.Pattern{})
	require.ErrorContains(t, err, "no pieces")
}

// The edges of the altered Tern look the ways that a wearer sees.
func TestEveryPieceTellsWhichWayRoundItGoes(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, r := range demo.TernInLace().Replay(run) {
		l, err := worn.Lay(r.Size.Pattern)
		require.NoError(t, err)
		ways := map[string]worn.Way{}
		for _, w := range worn.Ways(r.Size.Pattern, l) {
			ways[w.Piece] = w
		}
		require.Len(t, ways, len(l.Placed))
		require.Equal(t, worn.Way{Piece: "frame", Up: "wire", Down: "hem", Front: "fold", Side: "side seam", Seams: []string{"side seam", "wire seam"}}, ways["frame"])
		require.Equal(t, worn.Way{Piece: "band", Up: "top", Down: "hem", Front: "side seam", Side: "closure", Seams: []string{"side seam"}}, ways["band"])
		require.Equal(t, "lace edge", ways["inner cup"].Up)
		require.Equal(t, "wire", ways["inner cup"].Down)
		require.Equal(t, "cross seam", ways["lower outer cup"].Up)
	}
}

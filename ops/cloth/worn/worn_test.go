package worn_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/cloth/worn"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
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
			for _, e := range b.Outline.Flatten(1) {
				require.Greater(t, a.Outline.Nearest(e).Dist, 5.0, "room between %s and %s", a.Piece, b.Piece)
			}
		}
	}
	// Every seam is met on every piece that it concerns.
	for _, s := range p.Seams {
		on := map[string]bool{}
		for _, m := range l.Meets {
			if m.Seam == s.Name {
				on[l.Placed[m.On[0]].Piece], on[l.Placed[m.On[1]].Piece] = true, true
				require.NotEqual(t, m.On[0], m.On[1])
			}
		}
		for _, pt := range append(append(pattern.Side(nil), s.A...), s.B...) {
			require.True(t, on[pt.Piece], "%s on %s", s.Name, pt.Piece)
		}
	}
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

// Whichever way round pieces lie on the mat, they are laid as they are worn: of
// the upper outer cup the strap's end looks up, the cross seam down, the
// vertical seam to centre front and the underarm to the side.
func TestEveryPieceTellsWhichWayRoundItGoes(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, r := range demo.TernInLace().Replay(run) {
		p := r.Size.Pattern
		l, err := worn.Lay(p)
		require.NoError(t, err)
		ways := map[string]worn.Way{}
		for _, w := range worn.Ways(p, l) {
			ways[w.Piece] = w
		}
		require.Len(t, ways, len(l.Placed))
		require.Equal(t, worn.Way{Piece: "frame", Up: "wire", Down: "hem", Front: "fold", Side: "side seam", Seams: []string{"side seam", "wire seam"}}, ways["frame"])
		require.Equal(t, worn.Way{Piece: "band", Up: "top", Down: "hem", Front: "side seam", Side: "closure", Seams: []string{"side seam"}}, ways["band"])
		inner, upper, lower := ways["inner cup"], ways["upper outer cup"], ways["lower outer cup"]
		require.Equal(t, "vertical seam", inner.Side)
		require.Contains(t, inner.Down, "wire")
		require.Contains(t, upper.Up, "strap")
		require.Equal(t, "cross seam", upper.Down)
		require.Contains(t, upper.Front, "vertical seam")
		require.Contains(t, upper.Side, "underarm")
		require.Equal(t, "cross seam", lower.Up)
		require.Equal(t, "vertical seam", lower.Front)
		require.Contains(t, lower.Down+lower.Side, "wire")

		if r.Size.Label != run.Sizes[0].Label {
			continue
		}
		turned := p.Clone()
		for i := range turned.Pieces {
			turned.Pieces[i].Pose = geom.Turn(geom.Angle(1.1*float64(i+1)), geom.Point{}).Then(turned.Pieces[i].Pose)
		}
		again, err := worn.Lay(turned)
		require.NoError(t, err)
		require.Equal(t, worn.Ways(p, l), worn.Ways(turned, again))
	}
}

// altered applies steps to the Tern and returns its first size.
func altered(t *testing.T, steps ...step.Step) pattern.Pattern {
	run, err := demo.Tern()
	require.NoError(t, err)
	var r step.Recipe
	for _, s := range steps {
		r = append(r, step.Entry{ID: r.NewID(s.Kind(), nil), Step: s})
	}
	res := r.Replay(run)[0]
	require.Nil(t, res.Upset())
	return res.Size.Pattern
}

// Set apart, the pieces of the wearer's right lie in her half as the mirror
// image of those of her left, and tell the same way round.
func TestPiecesOfOneHalfLieInTheirs(t *testing.T) {
	p := altered(t, &step.Mirror{Piece: "band", Name: "band right", Apart: true}, &step.Mirror{Piece: "cradle", Name: "cradle right", Apart: true})
	at := laid(t, p)
	l, err := worn.Lay(p)
	require.NoError(t, err)
	ways := map[string]worn.Way{}
	for _, w := range worn.Ways(p, l) {
		ways[w.Piece] = w
	}
	for _, name := range []string{"band", "cradle"} {
		a, b := at[name].Outline.Centroid(), at[name+" right"].Outline.Centroid()
		require.True(t, at[name+" right"].Right)
		require.InDelta(t, -a.X, b.X, 5)
		require.InDelta(t, a.Y, b.Y, 5)
		own, other := ways[name], ways[name+" right"]
		require.Equal(t, []string{own.Up, own.Down, own.Front, own.Side}, []string{other.Up, other.Down, other.Front, other.Side})
	}
	for _, m := range l.Meets {
		if m.Seam == "side seam other" {
			require.Negative(t, m.A.X)
			require.Negative(t, m.B.X)
			require.Less(t, m.A.Dist(m.B), 40.0)
		}
	}
}

// What is sewn to the mirrored hand meets it in the other half.
func TestSeamsOfTheMirroredHandMeetInTheOtherHalf(t *testing.T) {
	l, err := worn.Lay(altered(t, &step.Unfold{Piece: "bridge"}))
	require.NoError(t, err)
	found := 0
	for _, m := range l.Meets {
		if m.Seam == "bridge seam other" {
			found++
			require.Negative(t, m.A.X)
			require.Negative(t, m.B.X)
			require.Less(t, m.A.Dist(m.B), 40.0)
		}
	}
	require.Positive(t, found)
}

package border_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/clothtest"
	"truemat/ops/pattern"
)

// A jaw on the first border, open to the right between y = 10 and 30 and 40 mm
// deep, and an arm from the second border that reaches 35 mm into it: together
// they are as long as the jaw and the arm's post. Were the jaw's hollow filled,
// they would be 40 mm longer.
func TestAnArmReachesIntoAHollow(t *testing.T) {
	l := lace(true)
	l.Lace.Repeat = 1
	high := l.Usable()
	jaw := piece("jaw", 60, false, geom.Pt(60, 10), geom.Pt(20, 10), geom.Pt(20, 30), geom.Pt(60, 30), geom.Pt(60, high), geom.Pt(0, high))
	// As it lies on the second border turned half round, its arm points left, 15
	// to 25 mm above the first valley line.
	arm := piece("arm", 20, false, geom.Pt(20, high-25), geom.Pt(60, high-25), geom.Pt(60, high-15), geom.Pt(0, high-15))
	wishes := []cloth.Wish{{Piece: "jaw", Motif: at(0), Spot: &pattern.Spot{Edge: "lace"}}, {Piece: "arm", Motif: at(0), Spot: &pattern.Spot{Edge: "lace"}}}
	got := plan(t, l, wishes, jaw, arm)
	require.InDelta(t, 80, got.Length, 1e-6)
	require.True(t, got.Least)
	require.NotEqual(t, got.Placed[0].Second, got.Placed[1].Second)
	require.Less(t, overlap(got), grazes)

	cuts, err := border.Cuts(pattern.Pattern{Pieces: []pattern.Piece{jaw, arm}}, l, wishes)
	require.NoError(t, err)
	for _, c := range []struct{ gap, want float64 }{{4, 84}, {5, 85}, {6, 60 + 4 + 60}} {
		got, err := border.Lay(l, cuts, c.gap, nil)
		require.NoError(t, err)
		require.InDelta(t, c.want, got.Length, 1e-6, "the arm fits with 5 mm above and below it, %g are asked", c.gap)
	}
}

// hollowed is a piece with a step or a jaw in each of its sides.
func hollowed(t *rapid.T, name string) pattern.Piece {
	long, high := rapid.Float64Range(40, 100).Draw(t, "long"), rapid.Float64Range(60, 175).Draw(t, "high")
	deep := rapid.Float64Range(12, 0.45*long).Draw(t, "deep")
	low := rapid.Float64Range(0.1, 0.6).Draw(t, "low") * high
	up := low + rapid.Float64Range(0.1, 0.35).Draw(t, "wide")*high
	lean := rapid.Float64Range(-10, 10).Draw(t, "lean")
	if rapid.Bool().Draw(t, "right") {
		return piece(name, long, false, geom.Pt(long, low), geom.Pt(long-deep, low+1), geom.Pt(long-deep, up), geom.Pt(long+lean, up), geom.Pt(long, high), geom.Pt(0, high))
	}
	return piece(name, long, false, geom.Pt(long, high), geom.Pt(0, high), geom.Pt(-lean, up), geom.Pt(deep, up), geom.Pt(deep, low+1), geom.Pt(0, low))
}

// Pieces with hollows against going through all places in a few repeats, where
// the clipping of polygons by tdewolff/canvas tells what overlaps.
func TestNoPlanThatUsesHollowsIsShorter(t *testing.T) {
	used := 0
	rapid.Check(t, func(t *rapid.T) {
		l := lace(true)
		l.Lace.Repeat = 20
		var pieces []pattern.Piece
		var wishes []cloth.Wish
		for i := range 2 {
			name := fmt.Sprintf("piece %d", i)
			pieces = append(pieces, hollowed(t, name))
			wishes = append(wishes, cloth.Wish{Piece: name, Motif: at(rapid.Float64Range(0, l.Lace.Repeat).Draw(t, "motif"))})
		}
		got := plan(t, l, wishes, pieces...)
		require.True(t, got.Least)
		require.Less(t, overlap(got), grazes)
		a, b := got.Placed[0], got.Placed[1]
		best := math.Inf(1)
		for _, second := range [][2]bool{{false, false}, {false, true}, {true, false}, {true, true}} {
			one := outline(l, a.Cut, second[0], 0)
			for k := -12; k <= 12; k++ {
				other := outline(l, b.Cut, second[1], k)
				left, right := min(one.Bounds().Min.X, other.Bounds().Min.X), max(one.Bounds().Max.X, other.Bounds().Max.X)
				if right-left < best && clothtest.Overlap([]geom.Path{one, other}) < grazes {
					best = right - left
				}
			}
		}
		require.InDelta(t, best, got.Length, 1e-6)
		if ab, bb := a.Outline().Bounds(), b.Outline().Bounds(); min(ab.Max.X, bb.Max.X)-max(ab.Min.X, bb.Min.X) > 1 {
			used++
		}
	})
	require.Greater(t, used, 5, "some reach into each other")
}

// outline lays a cut k repeats along a border of a mirrored lace.
func outline(l cloth.Cloth, c border.Cut, second bool, k int) geom.Path {
	if second {
		half := geom.Turn(math.Pi, geom.Pt(0, l.Usable()/2))
		return c.Outline.Transform(half).Transform(geom.Shift(geom.Pt(l.Lace.Repeat*float64(k)-c.Motif, 0)))
	}
	return c.Outline.Transform(geom.Shift(geom.Pt(l.Lace.Repeat*float64(k)+c.Motif, 0)))
}

// Pieces lie as far apart as the gap asks, measured straight between their cut
// lines, and touch that distance where the motif lets them.
func TestTheGapIsKeptBetweenCutLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lace(true)
		l.Lace.Repeat = 0.5
		pieces := []pattern.Piece{hollowed(t, "a"), hollowed(t, "b")}
		gap := rapid.Float64Range(0.5, 8).Draw(t, "gap")
		cuts, err := border.Cuts(pattern.Pattern{Pieces: pieces}, l, []cloth.Wish{{Piece: "a", Motif: at(0)}, {Piece: "b", Motif: at(0)}})
		require.NoError(t, err)
		got, err := border.Lay(l, cuts, gap, nil)
		require.NoError(t, err)
		near := math.Inf(1)
		a, b := got.Placed[0].Outline().Flatten(0.01), got.Placed[1].Outline().Flatten(0.01)
		for i := 1; i < len(a); i++ {
			for k := 1; k < len(b); k++ {
				near = min(near, fromSide(a[i], b[k-1], b[k]), fromSide(b[k], a[i-1], a[i]))
			}
		}
		require.GreaterOrEqual(t, near, gap-1e-5)
	})
}

// fromSide returns the distance of a point from a straight line between two.
func fromSide(q, a, b geom.Point) float64 {
	d := b.Sub(a)
	s := min(max(q.Sub(a).Dot(d)/d.Dot(d), 0), 1)
	return q.Dist(a.Add(d.Mul(s)))
}

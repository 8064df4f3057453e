package walk

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// blobs are two random pieces; one edge or a chain of two of each is a side.
func blobs(t *rapid.T) (pattern.Pattern, pattern.Seam) {
	a, b := patterntest.Blob(t), patterntest.Blob(t)
	a.Name, b.Name = "one", "two"
	b.Pose = geom.Turn(geom.Angle(rapid.Float64Range(-3, 3).Draw(t, "turned")), geom.Pt(20, 30))
	side := func(pc pattern.Piece, back bool) pattern.Side {
		var s pattern.Side
		first := rapid.IntRange(0, len(pc.Edges)-1).Draw(t, "edge of "+pc.Name)
		for i := range rapid.IntRange(1, 2).Draw(t, "edges of "+pc.Name) {
			s = append(s, pattern.Whole(pc.Name, pc.Edges[(first+i)%len(pc.Edges)].Name))
		}
		if back {
			s = backwards(s)
		}
		return s
	}
	p := pattern.Pattern{Pieces: []pattern.Piece{a, b}}
	s := pattern.Seam{Name: "seam", A: side(a, false), B: side(b, rapid.Bool().Draw(t, "as sewn"))}
	s.Ease = rapid.Float64Range(-0.05, 0.05).Draw(t, "ease") * min(p.Length(s.A), p.Length(s.B))
	p.Seams = []pattern.Seam{s}
	require.NoError(t, p.Validate())
	return p, s
}

// inside reports on which hand of a direction at a place of its outline a
// piece lies: it compares areas, and so does not lean on how edges are traced.
func inside(t require.TestingT, pc *pattern.Piece, pose geom.Motion, at, along geom.Point) bool {
	o, err := pc.Outline()
	require.NoError(t, err)
	const step = 0.01
	return o.Transform(pose).Contains(at.Add(along.Perp().Mul(step)))
}

func TestWalkingEitherSideGivesTheSameNotchesAndLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, s := blobs(t)
		from := rapid.SampledFrom([]pattern.EndName{pattern.Start, pattern.End}).Draw(t, "from")
		on, err := New(p, s, Way{From: from, Rolls: A})
		require.NoError(t, err)
		under, err := New(p, s, Way{From: from, Rolls: B})
		require.NoError(t, err)
		require.Equal(t, on.Table(), under.Table())
		require.Equal(t, on.A.Length, under.A.Length)
		end, _ := on.End()
		for range 10 {
			at := rapid.Float64Range(0, end).Draw(t, "at")
			b := on.On(B, at)
			require.InDelta(t, at, on.On(A, b), 1e-9)
			c, d := on.At(at, 1), under.At(at, 1)
			require.Equal(t, c.B, d.B)
			require.Equal(t, c.Difference, d.Difference)
			require.InDelta(t, at-b, c.Ease, 1e-9)

			// The running difference is that of the rows of the table walked by.
			walked, differs := 0.0, 0.0
			for _, r := range on.Table().Rows {
				if walked += r.A; min(walked, end) > at+lengthSlack {
					break
				}
				differs += r.Difference
			}
			require.InDelta(t, differs, c.Difference, 8*lengthSlack, "notches within the slack are one")

			// The contact points coincide, whoever rolls.
			pa, pb := place(on.A, at), place(on.B, b)
			require.LessOrEqual(t, c.Pose.Apply(pa).Dist(c.Point), 1e-9)
			require.LessOrEqual(t, c.Point.Dist(pb), 1e-9)
			require.LessOrEqual(t, d.Pose.Apply(pb).Dist(pa), 1e-9)
			for _, q := range []geom.Point{geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(0, 100)} {
				require.LessOrEqual(t, c.Pose.Then(d.Pose).Apply(q).Dist(q), 1e-9)
			}
		}
	})
}

// Whichever side of a seam is called A: where its ease is what the sides
// differ by, B walked on A gives the notches that A walked on B gives.
func TestWithTheSidesExchangedTheNotchesAreTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, s := blobs(t)
		s.Ease = p.Length(s.A) - p.Length(s.B)
		if math.Abs(s.Ease) > 0.8*min(p.Length(s.A), p.Length(s.B)) {
			t.Skip("no ease that can be sewn in")
		}
		on, err := New(p, s, Way{})
		require.NoError(t, err)
		back, err := New(p, pattern.Seam{Name: s.Name, A: s.B, B: s.A, Ease: -s.Ease}, Way{})
		require.NoError(t, err)
		require.Len(t, back.Pairs, len(on.Pairs))
		for i, pr := range on.Pairs {
			require.Equal(t, Pair{A: pr.B, B: pr.A, NotchA: pr.NotchB, NotchB: pr.NotchA}, back.Pairs[i])
		}
		require.InDelta(t, on.Table().Difference, -back.Table().Difference, 1e-9)
		rows := on.Table().Rows
		for i, r := range back.Table().Rows {
			require.InDelta(t, rows[i].A, r.B, 1e-9)
			require.InDelta(t, rows[i].B, r.A, 1e-9)
		}
		require.Len(t, back.Unmatched(), len(on.Unmatched()))
		for _, l := range on.Unmatched() {
			require.Condition(t, func() bool {
				return slices.ContainsFunc(back.Unmatched(), func(o Lone) bool {
					return o.Side == l.Side.Other() && o.Notch == l.Notch && o.Piece == l.Piece && math.Abs(o.Other-l.Other) < 1e-9
				})
			}, "notch %s falls on the same place", l.Notch)
		}
		for range 10 {
			at := rapid.Float64Range(0, on.A.Length).Draw(t, "at")
			require.InDelta(t, on.On(B, at), back.On(A, at), 1e-9)
		}
	})
}

func place(r Run, at float64) geom.Point {
	i, s := r.locate(at, false)
	return r.paths[i].At(s)
}

func TestThePiecesLieOnBothHandsOfTheSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, s := blobs(t)
		w, err := New(p, s, Way{})
		require.NoError(t, err)
		end, _ := w.End()
		at := rapid.Float64Range(0.1, 0.9).Draw(t, "share") * end
		for _, c := range append(w.A.corners, w.B.corners...) {
			if math.Abs(c-at) < 1 || math.Abs(w.On(A, c)-at) < 1 {
				t.Skip("too close to a corner for a look aside")
			}
		}
		c := w.At(at, 1)
		i, f := w.B.locate(c.B, false)
		along := w.B.paths[i].TangentAt(f)
		stands := inside(t, p.Piece("two"), geom.Identity(), c.Point, along)
		rolls := inside(t, p.Piece("one"), c.Pose, c.Point, along)
		require.NotEqual(t, stands, rolls)
		j, m := w.A.locate(c.A, false)
		require.LessOrEqual(t, c.Pose.Vector(w.A.paths[j].TangentAt(m)).Dist(along), 1e-9)
	})
}

func TestAPiecePivotsAboutACorner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, s := blobs(t)
		w, err := New(p, s, Way{})
		require.NoError(t, err)
		end, _ := w.End()
		last := 0.0
		for _, stop := range w.Stops() {
			gap := stop.A - last // a notch may lie all but on a corner, and what does is taken to be there
			last = stop.A
			if stop.A >= end-1e-6 || stop.A < 1e-6 || gap < 4e-6 {
				continue
			}
			whole := w.Pivot(stop.A)
			before, half, after := w.At(stop.A, 0), w.At(stop.A, 0.5), w.At(stop.A, 1)
			require.LessOrEqual(t, before.Point.Dist(after.Point), 1e-9)
			require.InDelta(t, float64(whole)/2, float64(turnBetween(before, half)), 1e-9)
			require.InDelta(t, float64(whole), float64(turnBetween(before, after)), 1e-9)
			a := place(w.A, stop.A)
			require.LessOrEqual(t, half.Pose.Apply(a).Dist(half.Point), 1e-9)
			near := w.At(stop.A-min(1e-5, gap/2), 1)
			require.InDelta(t, 0, float64(turnBetween(near, before)), 1e-3)
		}
	})
}

func turnBetween(a, b Contact) geom.Angle {
	x, _, _ := a.Pose.Parts()
	y, _, _ := b.Pose.Parts()
	return (y - x).Normalized()
}

func TestAPieceIsWalkedAlongItsMirrorImage(t *testing.T) {
	p := patterntest.Sample()
	cradle := p.Piece(patterntest.Cradle)
	mirrored := pattern.Whole(patterntest.Cradle, "side")
	mirrored.Mirrored = true
	s := pattern.Seam{Name: "back", A: pattern.Side{pattern.Whole(patterntest.Cradle, "side")}, B: pattern.Side{mirrored}}
	w, err := New(p, s, Way{})
	require.NoError(t, err)
	for at := 5.0; at < w.A.Length; at += 5 {
		c := w.At(at, 1)
		assert.True(t, c.Pose.Mirrors())
		e := cradle.Edge("side")
		// The mirror image across the tangent at the place of contact.
		m, err := geom.Mirror(e.Path.At(at), e.Path.At(at).Add(e.Path.TangentAt(at)))
		require.NoError(t, err)
		assert.LessOrEqual(t, c.Pose.Apply(geom.Pt(3, 4)).Dist(m.Apply(geom.Pt(3, 4))), 1e-9)
	}
}

func TestADartIsWalkedFromItsTip(t *testing.T) {
	corner := func(pts ...geom.Point) (out []pattern.Edge) {
		for i, a := range pts {
			out = append(out, pattern.Edge{Name: fmt.Sprint("e", i), Role: pattern.SeamEdge, Path: geom.Must(geom.Polyline(a, pts[(i+1)%len(pts)]))})
		}
		return out
	}
	pc := pattern.Piece{Name: "cup", Edges: corner(geom.Pt(0, 0), geom.Pt(40, 0), geom.Pt(50, 50), geom.Pt(60, 0), geom.Pt(100, 0), geom.Pt(100, 100), geom.Pt(0, 100)),
		Arrow: pattern.Arrow{Kind: pattern.Grain, To: geom.Pt(0, 10)}, Cut: pattern.Cut{Count: 1}, Pose: geom.Identity()}
	p := pattern.Pattern{Pieces: []pattern.Piece{pc}}
	require.NoError(t, p.Validate())
	w, err := New(p, pattern.Seam{A: pattern.Side{pattern.Whole("cup", "e1").Backwards()}, B: pattern.Side{pattern.Whole("cup", "e2")}}, Way{})
	require.NoError(t, err)
	c := w.At(10, 1)
	// Folded along the dart, the one leg lies on the other.
	assert.LessOrEqual(t, c.Pose.Apply(geom.Pt(40, 0)).Dist(geom.Pt(60, 0)), 1e-9)
	assert.False(t, c.Pose.Mirrors(), "it is walked flat, as it lies when closed")
}

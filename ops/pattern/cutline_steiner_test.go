package pattern_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
	. "truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// convex draws the corners of a convex polygon, counter-clockwise: points of
// an ellipse.
func convex(t *rapid.T) []geom.Point {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	a, b := rapid.Float64Range(50, 120).Draw(t, "a"), rapid.Float64Range(50, 120).Draw(t, "b")
	pts := make([]geom.Point, n)
	for i := range pts {
		at := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.45).Draw(t, "at")) / float64(n)
		pts[i] = geom.Pt(a*math.Cos(at), b*math.Sin(at))
	}
	return pts
}

// figures returns area and perimeter of a polygon and the turns at its corners.
func figures(pts []geom.Point) (area, perimeter float64, turns []float64) {
	for i, p := range pts {
		q, r := pts[(i+1)%len(pts)], pts[(i+2)%len(pts)]
		area += p.Cross(q) / 2
		perimeter += p.Dist(q)
		u, v := q.Sub(p), r.Sub(q)
		turns = append(turns, math.Atan2(u.Cross(v), u.Dot(v)))
	}
	return area, perimeter, turns
}

func sum(list []float64, f func(float64) float64) float64 {
	s := 0.0
	for _, v := range list {
		s += f(v)
	}
	return s
}

// Steiner's formula (J. Steiner, Über parallele Flächen, 1840): the body at the
// distance d of a convex one with area A and perimeter P has the area
// A + P·d + π·d² and the perimeter P + 2π·d, its corners being rounded. With
// corners cut blunt each sector of the angle θ becomes a triangle, d²·sin θ/2,
// its arc a chord, 2d·sin θ/2; where the cut lines run on it becomes a kite,
// d²·tan θ/2 with two sides d·tan θ/2.
func TestCutLineOfAConvexPieceFollowsSteiner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := convex(t)
		d := rapid.Float64Range(0.5, 15).Draw(t, "d")
		area, perimeter, turns := figures(pts)
		if slices.Max(turns) > 150*math.Pi/180 {
			t.Skip("so sharp that the tip is cut off")
		}
		check := func(pc *Piece, wantArea, wantLength, slack float64) {
			cut, err := pc.CutLine()
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(cut.Area()-wantArea) > slack*perimeter || math.Abs(cut.Length()-wantLength) > slack*10 {
				t.Fatalf("area %v, should be %v; length %v, should be %v", cut.Area(), wantArea, cut.Length(), wantLength)
			}
		}
		widths := slices.Repeat([]float64{d}, len(pts))
		pc := shape(widths, pts...)
		check(pc, area+perimeter*d+d*d*sum(turns, func(v float64) float64 { return math.Tan(v / 2) }),
			perimeter+2*d*sum(turns, func(v float64) float64 { return math.Tan(v / 2) }), 1e-8)
		for i := range pc.Edges {
			pc.Edges[i].Corner.End = Blunt
		}
		check(pc, area+perimeter*d+d*d/2*sum(turns, math.Sin),
			perimeter+2*d*sum(turns, func(v float64) float64 { return math.Sin(v / 2) }), 1e-8)

		// The same piece with its corners rounded by r is the body at the
		// distance r; its cut line is the body at the distance r + d.
		r := rapid.Float64Range(1, 20).Draw(t, "r")
		pc = &Piece{Name: "round"}
		for i, p := range pts {
			q, next := pts[(i+1)%len(pts)], pts[(i+2)%len(pts)]
			out := q.Sub(p).Unit().Perp().Mul(-r)
			side := geom.Must(geom.Polyline(p.Add(out), q.Add(out)))
			turn := geom.Between(q.Sub(p), next.Sub(q))
			arc := geom.Must(geom.Arc(q, r, out.Direction(), turn))
			for k, path := range []geom.Path{side, arc} {
				pc.Edges = append(pc.Edges, Edge{Name: string(rune('a' + 2*i + k)), Role: SeamEdge, Allowance: d, Path: path})
			}
		}
		check(pc, area+perimeter*(r+d)+math.Pi*(r+d)*(r+d), perimeter+2*math.Pi*(r+d), 0.003)
	})
}

// A hollow edge, two straight sides at a right angle with a rounded bottom
// tighter than the allowance is wide: loops and cusps are gone and the cut
// lines of the sides meet where straight lines would.
func TestTightHollowHasNoLoop(t *testing.T) {
	for _, c := range []struct{ radius, width float64 }{{1, 6.35}, {3, 12}, {6, 6.35}, {5, 30}, {0.2, 20}} {
		b := geom.Pt(50, 0) // the bottom, were it sharp
		cut := c.radius     // taken off each side by the rounding
		u, v := geom.Pt(1, -1).Unit(), geom.Pt(1, 1).Unit()
		into, from := b.Sub(u.Mul(cut)), b.Add(v.Mul(cut))
		arc := geom.Must(geom.Arc(into.Add(u.Perp().Mul(c.radius)), c.radius, u.Perp().Mul(-1).Direction(), 90*geom.Degree))
		// The edge runs from right to left over the top of the piece.
		top := geom.Must(geom.Join(geom.Must(geom.Polyline(b.Sub(u.Mul(60)), into)), arc, geom.Must(geom.Polyline(from, b.Add(v.Mul(60)))))).Reverse()
		l, r := top.End(), top.Start()
		pc := &Piece{Name: "vee", Edges: []Edge{
			{Name: "top", Role: Neckline, Path: top, Allowance: c.width},
			{Name: "left", Role: SeamEdge, Path: geom.Must(geom.Polyline(l, geom.Pt(l.X, -80)))},
			{Name: "hem", Role: Hem, Path: geom.Must(geom.Polyline(geom.Pt(l.X, -80), geom.Pt(r.X, -80)))},
			{Name: "right", Role: SeamEdge, Path: geom.Must(geom.Polyline(geom.Pt(r.X, -80), r))},
		}}
		require.NoError(t, (Pattern{Pieces: []Piece{withArrow(*pc)}}).Validate())
		line, err := pc.CutLine()
		require.NoError(t, err)
		assert.Empty(t, line.SelfCrossings())
		low := line.Nearest(geom.Pt(50, c.width*math.Sqrt2))
		want := math.Sqrt2 * c.width
		if c.radius > c.width { // wide enough to be followed
			want = math.Inf(1)
		}
		if !math.IsInf(want, 1) {
			assert.InDelta(t, 0, low.Dist, 0.005, "the cut lines of the sides meet %v above the bottom", want)
		}
		for k := range 400 {
			at := line.At(line.Length() * float64(k) / 400)
			if at.Y > 0 && at.X > l.X+2*c.width && at.X < r.X-2*c.width {
				assert.GreaterOrEqual(t, top.Nearest(at).Dist, c.width-0.005)
			}
		}
	}
}

func withArrow(pc Piece) Piece {
	pc.Arrow = Arrow{Kind: Grain, From: geom.Pt(0, 0), To: geom.Pt(0, 1)}
	pc.Cut.Count = 1
	pc.Pose = geom.Identity()
	return pc
}

// Whatever ends at the corners of a frame: the cut line is simple, encloses
// the sew line, and away from corners lies at the allowance from it.
func TestCutLineKeepsItsDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patterntest.Frame(t)
		for i := range p.Pieces {
			pc := &p.Pieces[i]
			widest := 0.0
			for j := range pc.Edges {
				e := &pc.Edges[j]
				if e.Role != Fold {
					e.Allowance = rapid.SampledFrom([]float64{0, 2, 5, 6.35, 10, 12}).Draw(t, "allowance")
				}
				e.Corner = Corner{End: rapid.SampledFrom(CornerEnds).Draw(t, "end")}
				if e.Corner.End != RunsOn && e.Corner.End != Blunt {
					e.Corner.Of = rapid.SampledFrom([]Neighbour{Before, After}).Draw(t, "of")
				}
				widest = max(widest, e.Allowance)
			}
			cut, err := pc.CutLine()
			if err != nil {
				t.Fatal(err)
			}
			if c := cut.SelfCrossings(); len(c) > 0 {
				t.Fatalf("%s crosses itself at %v", pc.Name, c[0])
			}
			for j := range pc.Edges {
				e := &pc.Edges[j]
				for k := range 33 {
					s := e.Length() * float64(k) / 32
					if in := e.Path.At(s).Add(e.Path.TangentAt(s).Perp().Mul(0.02)); !cut.Contains(in) && k > 0 && k < 32 {
						t.Fatalf("%s of %s: the sew line at %v lies outside", e.Name, pc.Name, s)
					}
					if s < roomAt(pc, j)*widest || e.Length()-s < roomAt(pc, pc.Next(j))*widest {
						continue
					}
					at := e.Path.At(s).Sub(e.Path.TangentAt(s).Perp().Mul(e.Allowance))
					if d := cut.Nearest(at).Dist; d > 0.005 {
						t.Fatalf("%s of %s: the cut line at %v is %v from where it should be", e.Name, pc.Name, s, d)
					}
				}
			}
		}
	})
}

// cornerRoom is how far from a joint, in widths of the widest allowance, its
// corner may shape the cut line: four, over which an allowance fades out and a
// sharp corner may run on.
const cornerRoom = 4.2

// roomAt is cornerRoom, and where an allowance folds back at a corner of the
// angle α up to twice 1/tan α, over which it is cut away so as not to stick out
// beyond the sharp tip it covers.
func roomAt(pc *Piece, joint int) float64 {
	if pc.Edges[joint].Corner.End != FoldsBack {
		return cornerRoom
	}
	if tan := math.Tan(float64(pc.JointAngle(joint))); tan > 0 {
		return max(cornerRoom, 2/tan)
	}
	return cornerRoom
}

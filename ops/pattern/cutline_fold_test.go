package pattern_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"truemat/geom"
	. "truemat/ops/pattern"
)

// runOn returns a hem run on straight beyond its joints.
func runOn(hem geom.Path) geom.Path {
	a, b := hem.Start(), hem.End()
	return geom.Must(geom.Join(
		geom.Must(geom.Polyline(a.Sub(hem.TangentAt(0).Mul(100)), a)), hem,
		geom.Must(geom.Polyline(b, b.Add(hem.TangentBefore(hem.Length()).Mul(100))))))
}

// A hem of any gentle curve that folds back at both ends lies on the piece
// when it is turned: the ends of its allowance fall on the cut lines of both
// neighbours. On a straight hem exactly; on a curved one the corner is shaped
// about the tangent at the joint, and a place at the depth h whose foot lies s
// inside the joint is off by up to 2·h·s/R on a hem of the radius R.
func TestTurnedHemLiesOnBothNeighbours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(5, 20).Draw(t, "hem")
		lean := rapid.Float64Range(-18, 18)
		l, r := lean.Draw(t, "left"), lean.Draw(t, "right")
		bow := rapid.SampledFrom([]float64{0, -4, 4, 8}).Draw(t, "bow")
		pc := shape([]float64{h, 6, 6, 5}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100+r, 80), geom.Pt(l, 80))
		radius := math.Inf(1)
		if bow != 0 {
			radius = (50*50 + bow*bow) / 2 / math.Abs(bow)
			from := geom.Angle(2 * math.Atan2(bow, 50))
			c := geom.Pt(50, math.Copysign(radius, bow)-bow)
			pc.Edges[0].Path = geom.Must(geom.Arc(c, radius, geom.Pt(0, 0).Sub(c).Direction(), 2*from))
		}
		pc.Edges[1].Corner = Corner{FoldsBack, Before}
		pc.Edges[0].Corner = Corner{FoldsBack, After}
		hem := pc.Edges[0].Path
		if hem.End().Dist(geom.Pt(100, 0)) > 1e-9 {
			t.Fatalf("the hem ends at %v", hem.End())
		}
		parts, err := pc.CutEdges()
		if err != nil {
			t.Fatal(err)
		}
		cut, err := pc.CutLine()
		if err != nil {
			t.Fatal(err)
		}
		if len(cut.SelfCrossings()) > 0 {
			t.Fatal("crosses itself")
		}
		line, compared := runOn(hem), 0
		for _, side := range []geom.Path{parts[1], parts[3]} {
			for k := range 200 {
				q := side.At(side.Length() * float64(k) / 199)
				foot := line.Nearest(q)
				below := line.TangentAt(foot.S).Cross(q.Sub(foot.Point)) < 0
				if !below || foot.Dist > h-0.05 || foot.Dist < 0.05 {
					continue // on the piece, or on the hem's own cut line
				}
				compared++
				at := foot.Point.Mul(2).Sub(q)
				inside := max(0, min(foot.Point.X, 100-foot.Point.X))
				if off := cut.Nearest(at).Dist; off > 2*foot.Dist*inside/radius+0.006 {
					t.Fatalf("the allowance at %v, turned to %v, is %v off the cut line", q, at, off)
				}
			}
		}
		if compared < 8 {
			t.Fatalf("only %d places compared", compared)
		}
	})
}

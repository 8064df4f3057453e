package pattern

import (
	"errors"
	"fmt"
	"math"

	"truemat/geom"
)

// SewEdges finds the sew line of a piece of which the cut line was drawn.
//
// Each edge given has the drawn cut line as its path, counter-clockwise, and
// the width of its allowance; the edges returned have the sew line, each
// starting where the one before it ends. Corners are taken to run on unless
// the edges say otherwise; a short stretch of the drawing that only shapes
// the allowance at a corner that does not run on, or cuts off a sharp tip, is
// left out. The second result is the greatest distance in mm between the
// drawn cut line and the one computed from the result: it tells how well the
// drawing fits the allowances.
//
// What an allowance hides cannot be found again: at an inner corner the sew
// line is run on straight from where the drawing ends.
func SewEdges(edges []Edge) ([]Edge, float64, error) {
	if len(edges) < 2 {
		return nil, 0, fmt.Errorf("%d edges do not make an outline; it needs at least two", len(edges))
	}
	if len(edges) > maxEdges {
		return nil, 0, atMost("edges", len(edges), maxEdges)
	}
	for i := range edges {
		if err := edges[i].validate(); err != nil {
			return nil, 0, fmt.Errorf("edge %q: %w", edges[i].Name, err)
		}
	}
	drawn, err := (&Piece{Edges: edges}).Outline()
	if err != nil {
		return nil, 0, err
	}
	if !(drawn.Area() > 0) {
		return nil, 0, fmt.Errorf("the outline runs clockwise or encloses nothing (area %.4g mm²); edges run counter-clockwise", drawn.Area())
	}
	runs, err := sewRunsOf(edges)
	if err != nil {
		return nil, 0, err
	}
	joints := make([]geom.Point, len(runs))
	for i, r := range runs {
		joints[i] = joinSewRuns(runs[(i+len(runs)-1)%len(runs)], r)
	}
	out := make([]Edge, len(edges))
	for i, e := range edges {
		if e.Path, err = runs[i].between(joints[i], joints[(i+1)%len(runs)]); err != nil {
			return nil, 0, fmt.Errorf("edge %q: its allowance of %g mm and those beside it leave nothing of its sew line", e.Name, e.Allowance)
		}
		out[i] = e
	}
	cut, err := (&Piece{Edges: out}).CutLine()
	if err != nil {
		return nil, 0, err
	}
	there, _ := drawn.Farthest(cut)
	back, _ := cut.Farthest(drawn)
	return out, max(there, back), nil
}

// sewRun is the sew line found beside a drawn edge.
type sewRun struct {
	drawn      geom.Path
	path       geom.Path
	width      float64
	head, tail float64 // mm taken off path
}

func sewRunsOf(edges []Edge) ([]*sewRun, error) {
	out := make([]*sewRun, len(edges))
	for i, e := range edges {
		before, after := edges[(i+len(edges)-1)%len(edges)], edges[(i+1)%len(edges)]
		drawn := e.Path
		if after.Corner.shapes() || bluntedTip(e, after) {
			drawn = withoutShaping(drawn.Reverse(), e.Allowance+after.Allowance).Reverse()
		}
		if e.Corner.shapes() || bluntedTip(before, e) {
			drawn = withoutShaping(drawn, e.Allowance+before.Allowance)
		}
		// A rim of negative width is the line inside the drawn one.
		inner := &rim{run: drawn, width: -e.Allowance}
		inner.fadeHead = e.Corner == Corner{FadesOut, After}
		inner.fadeTail = after.Corner == Corner{FadesOut, Before}
		path, err := inner.beside()
		if err != nil {
			return nil, fmt.Errorf("the sew line of edge %q: %w", e.Name, err)
		}
		out[i] = &sewRun{drawn: drawn, path: path, width: e.Allowance}
	}
	return out, nil
}

// shapes reports whether the cut line may turn aside at the corner.
func (c Corner) shapes() bool { return c.End != "" && c.End != RunsOn }

// tipTurn is the turn from which a corner that runs on may have been cut off
// (see mitreLimit; sharper than 29° when both allowances are equal).
const tipTurn = 140 * geom.Degree

// bluntedTip reports whether two drawn edges, without what turns aside where
// they meet, have so sharp a corner that its tip may be cut off.
func bluntedTip(before, after Edge) bool {
	size := before.Allowance + after.Allowance
	u := withoutShaping(before.Path.Reverse(), size).TangentAt(0).Mul(-1)
	turn := geom.Between(u, withoutShaping(after.Path, size).TangentAt(0))
	return turn > tipTurn
}

// shapingTurn is the least angle by which a stretch that only shapes an
// allowance turns away from the rest of its edge.
const shapingTurn = 15 * geom.Degree

// withoutShaping drops the first segments of an edge up to a turn, when they
// are not much longer than size.
func withoutShaping(p geom.Path, size float64) geom.Path {
	segs := p.Segments()
	for i := 1; i < len(segs) && p.LengthTo(i, 0) <= size*1.5; i++ {
		turn := geom.Between(segs[i-1].Tangent(1), segs[i].Tangent(0))
		if math.Abs(float64(turn)) < float64(shapingTurn) {
			continue
		}
		if rest, err := geom.NewPath(segs[i:]...); err == nil {
			return rest
		}
	}
	return p
}

// joinSewRuns returns where two neighbouring sew runs meet and notes what is
// to be taken off them: where they cross, else where one runs on to the
// other, else where both run on. Where none of this is near, the wider
// allowance's end is the joint.
func joinSewRuns(before, after *sewRun) geom.Point {
	u := before.drawn.TangentBefore(before.drawn.Length())
	v := after.drawn.TangentAt(0)
	x := newArm(before.path, u, u.Perp(), before.width)
	y := newArm(after.path.Reverse(), v.Mul(-1), v.Perp(), after.width)
	at := x.joinTo(y)
	before.tail, after.head = x.trim, y.trim
	return at
}

func (x *arm) joinTo(y *arm) geom.Point {
	if x.end.Dist(y.end) <= weld {
		return x.end
	}
	reach := mitreLimit*max(x.width, y.width) + weld
	best := math.Inf(1)
	var at geom.Point
	for _, c := range geom.Cross(x.path, y.path).Crossings {
		backX, backY := x.path.Length()-c.S, y.path.Length()-c.T
		if back := backX + backY; back < best && backX <= 2*reach && backY <= 2*reach {
			best, at = back, c.Point
			x.trim, y.trim = backX, backY
		}
	}
	if !math.IsInf(best, 1) {
		return at
	}
	if s, ok := y.lastOn(geom.Line{Point: x.end, Dir: x.way}, reach); ok {
		y.trim = y.path.Length() - s
		return y.path.At(s)
	}
	if s, ok := x.lastOn(geom.Line{Point: y.end, Dir: y.way}, reach); ok {
		x.trim = x.path.Length() - s
		return x.path.At(s)
	}
	if t, s, ok := meet(x.end, x.way, y.end, y.way); ok && t >= 0 && s >= 0 && t <= reach && s <= reach {
		return x.end.Add(x.way.Mul(t))
	}
	if x.width >= y.width {
		return x.end
	}
	return y.end
}

// between returns what is left of the run, led straight from a and to b.
func (r *sewRun) between(a, b geom.Point) (geom.Path, error) {
	if r.path.IsStraight() {
		if b.Sub(a).Dot(r.path.End().Sub(r.path.Start())) <= 0 {
			return geom.Path{}, errors.New("nothing is left")
		}
		return geom.Polyline(a, b)
	}
	rest, err := r.path.Sub(r.head, r.path.Length()-r.tail)
	if err != nil {
		return geom.Path{}, err
	}
	segs := rest.Segments()
	for len(segs) > 1 && segs[0].Length() <= stub {
		segs = segs[1:]
	}
	for len(segs) > 1 && segs[len(segs)-1].Length() <= stub {
		segs = segs[:len(segs)-1]
	}
	if first := &segs[0]; first.Start().Dist(a) <= 2*stub {
		*first = first.WithEnds(a, first.End())
	}
	if last := &segs[len(segs)-1]; last.End().Dist(b) <= 2*stub {
		*last = last.WithEnds(last.Start(), b)
	}
	segs = chain([]geom.Cubic{point(a)}, segs...)
	return geom.NewPath(chain(segs, point(b))...)
}

// stub is the length in mm up to which an end of a sew line says nothing: its
// direction comes from rounding, and a corner made by it would be a spike.
const stub = 0.005

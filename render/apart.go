package render

import (
	"cmp"
	"math"
	"slices"

	"truemat/geom"
)

// Sizes that lie on each other take more room than one of them: neighbours
// are pushed apart, each pair by half of what parts their convex hulls the
// shortest way (the separating axis with the least overlap), until all stand
// free. So pieces stay in the order in which they lie on the mat.

// rounds is how often all pairs are pushed at most; what does not come free by
// then is laid in a row.
const rounds = 200

// apart moves the poses of nests that would overlap, fold pieces whole when
// asked for.
func apart(nests []*nest, whole bool) error {
	hulls := make([][]geom.Point, len(nests))
	for i, n := range nests {
		var pts []geom.Point
		for k, pc := range n.each {
			v, err := newVersion(pc, n.moves[k].Then(n.pose), n.label[k], whole, n.laces[k]...)
			if err != nil {
				return err
			}
			pts = append(pts, v.shape.cut.Flatten(0.1)...)
		}
		hulls[i] = hull(pts)
	}
	shift := make([]geom.Point, len(nests))
	move := func(i int, by geom.Point) {
		shift[i] = shift[i].Add(by)
		for k := range hulls[i] {
			hulls[i][k] = hulls[i][k].Add(by)
		}
	}
	free := false
	for round := 0; round < rounds && !free; round++ {
		free = true
		for i := range nests {
			for j := range i {
				if way, hit := parting(hulls[j], hulls[i]); hit {
					free = false
					move(i, way.Mul(0.51))
					move(j, way.Mul(-0.51))
				}
			}
		}
	}
	if !free {
		row(hulls, move)
	}
	for i, n := range nests {
		n.pose = n.pose.Then(geom.Shift(shift[i]))
	}
	return nil
}

// row lays hulls beside each other, their lowest points level.
func row(hulls [][]geom.Point, move func(int, geom.Point)) {
	x := 0.0
	for i, h := range hulls {
		b := geom.BoxOf(h...)
		move(i, geom.Pt(x-b.Min.X, -b.Min.Y))
		x += b.Width() + pieceGap
	}
}

// hull returns the convex hull, counter-clockwise (A. M. Andrew's monotone
// chain, 1979).
func hull(pts []geom.Point) []geom.Point {
	pts = slices.Clone(pts)
	slices.SortFunc(pts, func(a, b geom.Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	var out []geom.Point
	half := func(from int, p geom.Point) {
		for len(out) >= from+2 && out[len(out)-1].Sub(out[len(out)-2]).Cross(p.Sub(out[len(out)-1])) <= 0 {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	for _, p := range pts {
		half(0, p)
	}
	lower := len(out) - 1
	for _, p := range slices.Backward(pts) {
		half(lower, p)
	}
	return out[:len(out)-1]
}

// parting returns the shortest way for b that leaves the gap between two convex
// outlines; false when there is as much already.
func parting(a, b []geom.Point) (geom.Point, bool) {
	least, way := math.Inf(1), geom.Point{}
	for _, h := range [2][]geom.Point{a, b} {
		for i, p := range h {
			axis := h[(i+1)%len(h)].Sub(p).Unit().Perp()
			a0, a1 := along(a, axis)
			b0, b1 := along(b, axis)
			for _, over := range []struct{ by, sign float64 }{{a1 + pieceGap - b0, 1}, {b1 + pieceGap - a0, -1}} {
				if over.by <= 1e-6 {
					return geom.Point{}, false
				}
				if over.by < least {
					least, way = over.by, axis.Mul(over.sign*over.by)
				}
			}
		}
	}
	return way, true
}

// along returns how far points reach along an axis.
func along(pts []geom.Point, axis geom.Point) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, p := range pts {
		d := p.Dot(axis)
		least, most = min(least, d), max(most, d)
	}
	return least, most
}

package render

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// How an arrow is drawn clear of lines, in mm: how far it keeps from them, how
// far it is looked for, and by what steps; and the least share of its length.
const (
	arrowClear = 1.0
	arrowReach = 24.0
	arrowStep  = 1.0
	arrowLeast = 0.6
)

// outlines are the cut lines and sew lines of all sizes.
func (d *drawer) outlines() (lines []geom.Path) {
	for _, v := range d.sizes {
		lines = append(lines, v.shape.cut)
		for _, e := range v.shape.edges {
			if e.beside() {
				lines = append(lines, e.path)
			}
		}
	}
	return lines
}

// ClearArrow returns an arrow as it is drawn: where it is, unless an alteration
// brought one of these lines upon it; else, in the same direction, as near to that
// as it is clear of them, and shortened only where it is clear nowhere near. Where
// it never is it stays. Lines and arrow are in the same coordinates, in mm.
func ClearArrow(a pattern.Arrow, lines ...geom.Path) pattern.Arrow {
	d := a.To.Sub(a.From)
	if d.Norm() < 2*headLength {
		return a
	}
	var at []geom.Point
	for _, l := range lines {
		if l.Bounds().Grow(arrowReach + d.Norm()).Overlaps(geom.BoxOf(a.From, a.To)) {
			at = append(at, walkPoints(l, arrowStep)...)
		}
	}
	u := d.Unit()
	v := u.Perp()
	mid := a.From.Lerp(a.To, 0.5)
	free := func(c geom.Point, half float64) bool {
		for _, q := range at {
			w := q.Sub(c)
			if math.Abs(w.Dot(u)) < half+arrowClear && math.Abs(w.Dot(v)) < arrowHalf+arrowClear {
				return false
			}
		}
		return true
	}
	half := d.Norm() / 2
	if free(mid, half) {
		return a
	}
	// On the same side of all lines: it never passes over one.
	crossed := func(c geom.Point) bool {
		way := polyline(mid, c)
		for _, l := range lines {
			if len(geom.Cross(way, l).Crossings) > 0 {
				return true
			}
		}
		return false
	}
	for share := 1.0; share >= arrowLeast; share -= 0.1 {
		best, far := geom.Point{}, math.Inf(1)
		for x := -arrowReach; x <= arrowReach; x += arrowStep {
			for y := -arrowReach; y <= arrowReach; y += arrowStep {
				c := mid.Add(u.Mul(x)).Add(v.Mul(y))
				if off := c.Dist(mid); off < far && free(c, share*half) && !crossed(c) {
					best, far = c, off
				}
			}
		}
		if !math.IsInf(far, 1) {
			a.From, a.To = best.Sub(u.Mul(share*half)), best.Add(u.Mul(share*half))
			return a
		}
	}
	return a
}

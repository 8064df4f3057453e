package svg

import (
	"math"

	"truemat/geom"
)

// ArcError is how far, in mm at real size, the cubics of an arc, circle or
// ellipse may lie from the true curve.
const ArcError = 1e-4

// arc draws an elliptical arc from the current point after the conversion of
// SVG 2, appendix B.2.4, radii too small being scaled up (B.2.5).
func (p *pen) arc(rx, ry, degrees float64, large, sweep bool, to geom.Point) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if to == p.at {
		return
	}
	if rx == 0 || ry == 0 {
		p.line(to)
		return
	}
	sin, cos := sincosDegrees(degrees)
	half := p.at.Sub(to).Mul(0.5)
	// x, y: half the chord in the frame of the ellipse, scaled to a unit circle.
	x, y := (cos*half.X+sin*half.Y)/rx, (cos*half.Y-sin*half.X)/ry
	d2 := x*x + y*y
	if d2 > 1 {
		s := math.Sqrt(d2)
		rx, ry, x, y, d2 = rx*s, ry*s, x/s, y/s, 1
	}
	k := math.Sqrt(math.Max(1-d2, 0) / d2)
	if large == sweep {
		k = -k
	}
	cx, cy := k*y, -k*x
	from := math.Atan2(y-cy, x-cx)
	turn := math.Mod(math.Atan2(-y-cy, -x-cx)-from, 2*math.Pi)
	switch {
	case sweep && turn < 0:
		turn += 2 * math.Pi
	case !sweep && turn > 0:
		turn -= 2 * math.Pi
	}
	place := matrix{a: rx * cos, b: rx * sin, c: -ry * sin, d: ry * cos}
	mid := p.at.Add(to).Mul(0.5).Add(place.apply(geom.Pt(cx, cy)))
	place.e, place.f = mid.X, mid.Y
	p.round(place, from, turn, math.Max(rx, ry), to)
}

// round draws the part of the unit circle from the angle from through turn
// as place maps it, ending exactly at to; r is the larger radius.
//
// A cubic with handles 4/3·tan(θ/4) over the angle θ leaves a unit circle by
// at most 2.7253e-4·(θ/90°)⁶ for θ up to 90°.
func (p *pen) round(place matrix, from, turn, r float64, to geom.Point) {
	quarters := math.Abs(turn) / (math.Pi / 2)
	n := int(math.Ceil(quarters*math.Max(1, math.Pow(2.7253e-4*r/p.arcTol, 1.0/6)) - 1e-9))
	n = min(max(n, 1), maxArcPieces)
	step := turn / float64(n)
	h := 4.0 / 3 * math.Tan(step/4)
	for i := range n {
		a, b := from+float64(i)*step, from+float64(i+1)*step
		sa, ca := math.Sincos(a)
		sb, cb := math.Sincos(b)
		end := place.apply(geom.Pt(cb, sb))
		if i == n-1 {
			end = to
		}
		p.segs = append(p.segs, geom.Curve(p.at,
			place.apply(geom.Pt(ca-h*sa, sa+h*ca)),
			place.apply(geom.Pt(cb+h*sb, sb-h*cb)), end))
		p.at = end
	}
}

// maxArcPieces is enough for an arc of the largest radius there can be
// ([geom.Reach]) within [ArcError].
const maxArcPieces = 256

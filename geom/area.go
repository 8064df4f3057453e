package geom

import "math"

// Area returns the signed area the path encloses in mm², positive when it
// runs counter-clockwise; parts it runs round twice count twice. An open path
// is closed by its chord. Exact but for rounding: the integral ½∮(x dy − y dx)
// of a cubic is a weighted sum of the cross products of its control points.
func (p Path) Area() float64 {
	if p.Empty() {
		return 0
	}
	o := p.Start()
	sum := 0.0
	for _, c := range p.segs {
		sum += c.sweep(o)
	}
	return sum
}

// sweep is the signed area between the cubic and the rays from o to its ends.
func (c Cubic) sweep(o Point) float64 {
	a, d := c.P[0].Sub(o), c.P[3].Sub(o)
	if c.straight {
		return a.Cross(d) / 2
	}
	b, e := c.P[1].Sub(o), c.P[2].Sub(o)
	return (6*(a.Cross(b)+e.Cross(d)) + 3*(a.Cross(e)+b.Cross(e)+b.Cross(d)) + a.Cross(d)) / 20
}

// Centroid returns the centre of gravity of the area the path encloses, an
// open path closed by its chord. Where the area vanishes it returns the middle
// of the bounds. The integrand has degree 8, so that Gauss–Legendre with five
// nodes is exact but for rounding.
func (p Path) Centroid() Point {
	if p.Empty() {
		return Point{}
	}
	o := p.Start()
	var moment Point
	for _, c := range p.segs {
		for i, x := range gauss5X {
			t := (1 + x) / 2
			r := c.At(t).Sub(o)
			moment = moment.Add(r.Mul(r.Cross(c.Deriv(t)) * gauss5W[i] / 6))
		}
	}
	area := p.Area()
	if math.Abs(area) <= Coincident*p.Length() {
		return p.Bounds().Center()
	}
	return o.Add(moment.Mul(1 / area))
}

// Nodes and weights of Gauss–Legendre with five points on [−1, 1]
// (Abramowitz & Stegun, table 25.4).
var (
	gauss5X = [5]float64{-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831, 0.9061798459386640}
	gauss5W = [5]float64{0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891}
)

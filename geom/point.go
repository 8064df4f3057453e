package geom

import "math"

// Point is a place or a displacement in the plane, in millimetres, y up.
type Point struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// Pt is shorthand for Point{x, y}.
func Pt(x, y float64) Point { return Point{x, y} }

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p − q, the displacement from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul returns p scaled by k.
func (p Point) Mul(k float64) Point { return Point{p.X * k, p.Y * k} }

// Dot returns the scalar product of p and q.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z component of p × q: positive when q lies to the left of p.
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Norm returns the length of p.
func (p Point) Norm() float64 { return math.Hypot(p.X, p.Y) }

// Dist returns the distance from p to q.
func (p Point) Dist(q Point) float64 { return p.Sub(q).Norm() }

// Unit returns p scaled to length 1, or the zero point when p has no length.
func (p Point) Unit() Point {
	n := p.Norm()
	if n == 0 {
		return Point{}
	}
	return Point{p.X / n, p.Y / n}
}

// Perp returns p turned a quarter turn counter-clockwise: the left normal of a direction.
func (p Point) Perp() Point { return Point{-p.Y, p.X} }

// Lerp returns the point a share t of the way from p to q.
func (p Point) Lerp(q Point, t float64) Point {
	return Point{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t}
}

// Direction returns the angle of p from the x axis, in (−π, π].
func (p Point) Direction() Angle { return Angle(math.Atan2(p.Y, p.X)) }

// Near reports whether p and q are within tol of each other.
func (p Point) Near(q Point, tol float64) bool { return p.Dist(q) <= tol }

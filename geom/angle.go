package geom

import "math"

// Angle is an angle in radians, counter-clockwise positive.
type Angle float64

// Degree is one degree.
const Degree = Angle(math.Pi / 180)

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a / Degree) }

// Normalized returns a brought into (−π, π].
func (a Angle) Normalized() Angle {
	r := math.Remainder(float64(a), 2*math.Pi)
	if r <= -math.Pi {
		r += 2 * math.Pi
	}
	return Angle(r)
}

// Unit returns the direction of length 1 at angle a from the x axis.
func (a Angle) Unit() Point {
	s, c := math.Sincos(float64(a))
	return Point{c, s}
}

// Between returns the signed angle that turns direction p into direction q, in (−π, π].
func Between(p, q Point) Angle { return Angle(math.Atan2(p.Cross(q), p.Dot(q))) }

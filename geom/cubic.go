package geom

import (
	"fmt"
	"math"
)

// Cubic is a cubic Bézier segment with the control points P[0] … P[3] in
// millimetres. A straight one is made by [Straight]; do not edit its points.
type Cubic struct {
	P        [4]Point
	straight bool
}

// Straight returns the segment from a to b with its handles at thirds.
func Straight(a, b Point) Cubic {
	return Cubic{P: [4]Point{a, a.Lerp(b, 1.0/3), a.Lerp(b, 2.0/3), b}, straight: true}
}

// Curve returns the cubic from a to d with the handles b and c.
func Curve(a, b, c, d Point) Cubic { return Cubic{P: [4]Point{a, b, c, d}} }

// IsStraight reports whether c was made as a straight segment, or comes from
// one by moving, splitting or reversing.
func (c Cubic) IsStraight() bool { return c.straight }

// Start returns the first point.
func (c Cubic) Start() Point { return c.P[0] }

// End returns the last point.
func (c Cubic) End() Point { return c.P[3] }

// At returns the point at parameter t in [0, 1]; the ends are exact.
func (c Cubic) At(t float64) Point {
	switch t {
	case 0:
		return c.P[0]
	case 1:
		return c.P[3]
	}
	if c.straight {
		return c.P[0].Lerp(c.P[3], t)
	}
	u := 1 - t
	a, b, d, e := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{
		a*c.P[0].X + b*c.P[1].X + d*c.P[2].X + e*c.P[3].X,
		a*c.P[0].Y + b*c.P[1].Y + d*c.P[2].Y + e*c.P[3].Y,
	}
}

// Deriv returns the first derivative by t at t.
func (c Cubic) Deriv(t float64) Point {
	if c.straight {
		return c.P[3].Sub(c.P[0])
	}
	u := 1 - t
	a, b, d := 3*u*u, 6*u*t, 3*t*t
	return Point{
		a*(c.P[1].X-c.P[0].X) + b*(c.P[2].X-c.P[1].X) + d*(c.P[3].X-c.P[2].X),
		a*(c.P[1].Y-c.P[0].Y) + b*(c.P[2].Y-c.P[1].Y) + d*(c.P[3].Y-c.P[2].Y),
	}
}

// Second returns the second derivative by t at t.
func (c Cubic) Second(t float64) Point {
	if c.straight {
		return Point{}
	}
	p := c.P[2].Sub(c.P[1].Mul(2)).Add(c.P[0])
	q := c.P[3].Sub(c.P[2].Mul(2)).Add(c.P[1])
	return p.Mul(6 * (1 - t)).Add(q.Mul(6 * t))
}

// Tangent returns the unit direction of travel at t. Where a handle has no
// length the limit of the direction is returned; a cubic without extent gives
// the zero point.
func (c Cubic) Tangent(t float64) Point {
	scale := c.P[1].Sub(c.P[0]).Norm() + c.P[2].Sub(c.P[1]).Norm() + c.P[3].Sub(c.P[2]).Norm()
	if d := c.Deriv(t); d.Norm() > 1e-10*scale {
		return d.Unit()
	}
	if d := c.Second(t); d.Norm() > 1e-10*scale {
		if t > 0.5 {
			d = d.Mul(-1)
		}
		return d.Unit()
	}
	return c.P[3].Sub(c.P[0]).Unit()
}

// Curvature returns the signed curvature at t in 1/mm, positive where the
// curve bends to the left; 0 where the derivative vanishes.
func (c Cubic) Curvature(t float64) float64 {
	if c.straight {
		return 0
	}
	d := c.Deriv(t)
	n := d.Norm()
	if n == 0 {
		return 0
	}
	return d.Cross(c.Second(t)) / (n * n * n)
}

// Split cuts the cubic at t into two that trace the same curve.
func (c Cubic) Split(t float64) (Cubic, Cubic) {
	if c.straight {
		m := c.At(t)
		return Straight(c.P[0], m), Straight(m, c.P[3])
	}
	p01, p12, p23 := c.P[0].Lerp(c.P[1], t), c.P[1].Lerp(c.P[2], t), c.P[2].Lerp(c.P[3], t)
	p012, p123 := p01.Lerp(p12, t), p12.Lerp(p23, t)
	m := p012.Lerp(p123, t)
	return Curve(c.P[0], p01, p012, m), Curve(m, p123, p23, c.P[3])
}

// Sub returns the part between the parameters t0 ≤ t1.
func (c Cubic) Sub(t0, t1 float64) Cubic {
	if t1 < 1 {
		c, _ = c.Split(t1)
		t0 /= t1
	}
	if t0 > 0 {
		_, c = c.Split(t0)
	}
	return c
}

// Reverse returns the cubic traced the other way.
func (c Cubic) Reverse() Cubic {
	if c.straight {
		return Straight(c.P[3], c.P[0])
	}
	c.P = [4]Point{c.P[3], c.P[2], c.P[1], c.P[0]}
	return c
}

// Transform returns the cubic moved by m.
func (c Cubic) Transform(m Motion) Cubic {
	if c.straight {
		return Straight(m.Apply(c.P[0]), m.Apply(c.P[3]))
	}
	for i := range c.P {
		c.P[i] = m.Apply(c.P[i])
	}
	return c
}

// WithEnds returns the cubic with its ends set to a and b, each handle moving
// with its end; meant for closing gaps of rounding size.
func (c Cubic) WithEnds(a, b Point) Cubic {
	if c.straight {
		return Straight(a, b)
	}
	if a != c.P[0] {
		c.P[1] = c.P[1].Add(a.Sub(c.P[0]))
	}
	if b != c.P[3] {
		c.P[2] = c.P[2].Add(b.Sub(c.P[3]))
	}
	c.P[0], c.P[3] = a, b
	return c
}

func (c Cubic) check() error {
	for i, p := range c.P {
		if !p.Finite() {
			return fmt.Errorf("control point %d (%g, %g) is not a finite place within %g mm", i+1, p.X, p.Y, Reach)
		}
	}
	return nil
}

// extent is the length of the control polygon, an upper bound of the length.
func (c Cubic) extent() float64 {
	return math.Max(c.P[1].Dist(c.P[0])+c.P[2].Dist(c.P[1])+c.P[3].Dist(c.P[2]), 0)
}

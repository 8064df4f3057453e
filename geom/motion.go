package geom

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
)

// Motion is a rigid motion of the plane: an optional mirroring across the
// x axis, then a rotation, then a shift. Lengths and the size of angles are
// kept. The zero value is not a motion; start from [Identity].
type Motion struct {
	cos, sin float64
	shift    Point
	mirror   bool
}

// Identity leaves everything where it is.
func Identity() Motion { return Motion{cos: 1} }

// Shift moves everything by v.
func Shift(v Point) Motion { return Motion{cos: 1, shift: v} }

// Turn rotates by a about the point pin.
func Turn(a Angle, pin Point) Motion {
	sin, cos := math.Sincos(float64(a))
	m := Motion{cos: cos, sin: sin}
	m.shift = pin.Sub(m.Vector(pin))
	return m
}

// Mirror reflects across the line through a and b; an error when they coincide.
func Mirror(a, b Point) (Motion, error) {
	d := b.Sub(a)
	if d.Norm() <= Coincident {
		return Identity(), errors.New("a mirror line needs two different points")
	}
	u := d.Unit()
	m := Motion{cos: u.X*u.X - u.Y*u.Y, sin: 2 * u.X * u.Y, mirror: true}
	m.shift = a.Sub(m.Vector(a))
	return m, nil
}

// Carry returns the motion without mirroring that takes a onto a2 and the
// direction a→b onto the direction a2→b2; an error when either pair coincides.
func Carry(a, b, a2, b2 Point) (Motion, error) {
	d, d2 := b.Sub(a), b2.Sub(a2)
	if d.Norm() <= Coincident || d2.Norm() <= Coincident {
		return Identity(), errors.New("a motion between two pairs of points needs two different points in each pair")
	}
	u, u2 := d.Unit(), d2.Unit()
	m := Motion{cos: u.Dot(u2), sin: u.Cross(u2)}
	m.shift = a2.Sub(m.Vector(a))
	return m, nil
}

// NewMotion rebuilds a motion from the numbers that [Motion.Parts] gives.
// It is refused when a number is not finite.
func NewMotion(turn Angle, shift Point, mirror bool) (Motion, error) {
	if math.IsNaN(float64(turn)) || math.IsInf(float64(turn), 0) || !shift.Finite() {
		return Identity(), errors.New("a motion needs finite numbers")
	}
	sin, cos := math.Sincos(float64(turn))
	return Motion{cos: cos, sin: sin, shift: shift, mirror: mirror}, nil
}

// Parts returns the rotation in (−π, π], the shift and whether the motion
// mirrors; mirroring across the x axis comes first, then the rotation, then
// the shift.
func (m Motion) Parts() (Angle, Point, bool) {
	return Angle(math.Atan2(m.sin, m.cos)), m.shift, m.mirror
}

// Mirrors reports whether the motion turns the plane over.
func (m Motion) Mirrors() bool { return m.mirror }

// Apply returns where the motion takes the place p.
func (m Motion) Apply(p Point) Point { return m.Vector(p).Add(m.shift) }

// Vector returns what the motion makes of the displacement v (no shift).
func (m Motion) Vector(v Point) Point {
	if m.mirror {
		v.Y = -v.Y
	}
	return Point{m.cos*v.X - m.sin*v.Y, m.sin*v.X + m.cos*v.Y}
}

// Then returns the motion that does m first and next after it.
func (m Motion) Then(next Motion) Motion {
	s := m.sin
	if next.mirror {
		s = -s
	}
	r := Motion{
		cos:    next.cos*m.cos - next.sin*s,
		sin:    next.sin*m.cos + next.cos*s,
		mirror: m.mirror != next.mirror,
	}
	n := math.Hypot(r.cos, r.sin)
	r.cos, r.sin = r.cos/n, r.sin/n
	r.shift = next.Apply(m.shift)
	return r
}

// Inverse returns the motion that undoes m.
func (m Motion) Inverse() Motion {
	r := Motion{cos: m.cos, sin: -m.sin, mirror: m.mirror}
	if m.mirror {
		r.sin = m.sin
	}
	r.shift = r.Vector(m.shift).Mul(-1)
	return r
}

type motionJSON struct {
	Cos    float64 `json:"cos"`
	Sin    float64 `json:"sin"`
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Mirror bool    `json:"mirror,omitempty"`
}

// MarshalJSON writes the motion so that it reads back bit for bit.
func (m Motion) MarshalJSON() ([]byte, error) {
	return json.Marshal(motionJSON{m.cos, m.sin, m.shift.X, m.shift.Y, m.mirror})
}

// UnmarshalJSON reads what [Motion.MarshalJSON] writes; it refuses numbers
// that are not finite or whose cosine and sine do not belong to one angle.
func (m *Motion) UnmarshalJSON(b []byte) error {
	var j motionJSON
	if err := json.Unmarshal(b, &j); err != nil {
		return err
	}
	if n := math.Hypot(j.Cos, j.Sin); !(math.Abs(n-1) < unitSlack) {
		return fmt.Errorf("cos %g and sin %g do not belong to one angle", j.Cos, j.Sin)
	}
	if s := Pt(j.X, j.Y); !s.Finite() {
		return fmt.Errorf("the shift (%g, %g) is not within %g mm", j.X, j.Y, Reach)
	}
	*m = Motion{cos: j.Cos, sin: j.Sin, shift: Pt(j.X, j.Y), mirror: j.Mirror}
	return nil
}

// unitSlack is how far cos² + sin² of a written motion may be from 1.
const unitSlack = 1e-9

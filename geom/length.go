package geom

import "math"

// Length returns the arc length of the cubic within 1e-12 of it, cusps
// included.
func (c Cubic) Length() float64 { return c.lengthTo(1) }

// LengthTo returns the arc length from the start to parameter t, clamped to
// [0, 1], as exactly as [Cubic.Length].
func (c Cubic) LengthTo(t float64) float64 { return c.lengthTo(t) }

func (c *Cubic) lengthTo(t float64) float64 {
	if !(t > 0) {
		return 0
	}
	t = math.Min(t, 1)
	if c.straight {
		return c.P[0].Dist(c.P[3]) * t
	}
	v := c.velocity()
	return v.arc(0, t, 0)
}

// ParamAt returns the parameter at arc length s from the start, s clamped to
// the cubic; the point there is within 1e-9 mm of the one wanted.
func (c Cubic) ParamAt(s float64) float64 { return c.paramAt(s, c.Length()) }

// paramAt is ParamAt for a known total length. Newton's method kept inside a
// bracket; each step adds only the short arc between two guesses, so that a
// step costs little, and halves the bracket where the curve hardly moves.
func (c *Cubic) paramAt(s, total float64) float64 {
	switch {
	case !(s > 0):
		return 0
	case s >= total:
		return 1
	case c.straight:
		return s / total
	}
	v := c.velocity()
	lo, hi := 0.0, 1.0
	t, at := 0.0, 0.0 // at is the length to t
	next := s / total
	for range rootSteps {
		if next > t {
			at += v.arc(t, next, 0)
		} else {
			at -= v.arc(next, t, 0)
		}
		t = next
		miss := s - at
		if miss > 0 {
			lo = t
		} else {
			hi = t
		}
		if math.Abs(miss) <= lengthSlack*total {
			return t
		}
		next = t + miss/v.speed(t)
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
	}
	return t
}

// velocity is the derivative of a cubic, v0 + v1·t + v2·t², read as complex
// numbers x + iy.
type velocity struct{ v0, v1, v2 Point }

func (c *Cubic) velocity() velocity {
	d0, d1, d2 := c.P[1].Sub(c.P[0]), c.P[2].Sub(c.P[1]), c.P[3].Sub(c.P[2])
	return velocity{d0.Mul(3), d1.Sub(d0).Mul(6), d2.Sub(d1).Sub(d1.Sub(d0)).Mul(3)}
}

func (v *velocity) speed(t float64) float64 {
	x := v.v0.X + t*(v.v1.X+t*v.v2.X)
	y := v.v0.Y + t*(v.v1.Y+t*v.v2.Y)
	return math.Sqrt(x*x + y*y)
}

// size is as large as the speed can be on [0, 1].
func (v *velocity) size() float64 { return v.v0.Norm() + v.v1.Norm() + v.v2.Norm() }

// arc integrates the speed over [a, b].
//
// The speed is √(w·w̄) with the complex quadratic w = x′ + iy′, so it is
// analytic except at the two roots of w and their mirror images. An n-point
// Gauss–Legendre rule on [−1, 1] errs by about ρ⁻²ⁿ, where ρ is the sum of
// half axes of the ellipse with foci ±1 through the nearest of them (L. N.
// Trefethen, "Is Gauss quadrature better than Clenshaw–Curtis?", SIAM Review
// 50, 2008, theorem 4.5). That chooses the order; an interval with a root too
// close is cut abreast of the root, or in the middle. A root on the real line
// is a cusp, where the speed has a kink and no branch: once cut there it is
// harmless. Cutting ends where the rest is below rounding (arcLeast), at the
// depth arcDepth at the latest.
func (v *velocity) arc(a, b float64, depth int) float64 {
	m, h := (a+b)/2, (b-a)/2
	e1 := v.v1.Add(v.v2.Mul(2 * m)).Mul(h)
	e2 := v.v2.Mul(h * h)
	e0 := v.v0.Add(v.v1.Add(v.v2.Mul(m)).Mul(m))

	// No root lies within r of 0 when |e0| > |e1|·r + |e2|·r² (Rouché), which
	// is quicker seen than the roots are found.
	n0, n1, n2 := norm2(e0.X, e0.Y), norm2(e1.X, e1.Y), norm2(e2.X, e2.Y)
	if n0 > (n1+n2*clear8)*clear8 {
		return smoothArc(gauss8[:], e0, e1, e2) * h
	}
	if n0 > (n1+n2*clear16)*clear16 {
		return smoothArc(gauss16[:], e0, e1, e2) * h
	}
	clear, cut, kink := clearance(e0, e1, e2)
	switch {
	case clear >= clear16 && !kink:
		return smoothArc(gauss16[:], e0, e1, e2) * h
	case clear >= clear24:
		return gaussArc(gauss24[:], e0, e1, e2) * h
	case clear >= clear32 || depth >= arcDepth || (n0+n1+n2)*h <= arcLeast*v.size():
		return gaussArc(gauss32[:], e0, e1, e2) * h
	}
	at := m + h*cut
	return v.arc(a, at, depth+1) + v.arc(at, b, depth+1)
}

// gaussArc integrates |e0 + e1·x + e2·x²| over [−1, 1].
func gaussArc(rule []node, e0, e1, e2 Point) float64 {
	sum := 0.0
	for _, g := range rule {
		x2 := g.x * g.x
		ex, ey := e0.X+e2.X*x2, e0.Y+e2.Y*x2
		ox, oy := e1.X*g.x, e1.Y*g.x
		px, py, qx, qy := ex+ox, ey+oy, ex-ox, ey-oy
		sum += g.w * (math.Sqrt(px*px+py*py) + math.Sqrt(qx*qx+qy*qy))
	}
	return sum
}

// smoothArc is gaussArc where the speed keeps well away from zero: its square
// may then be expanded in powers of x without loss.
func smoothArc(rule []node, e0, e1, e2 Point) float64 {
	k0, k1 := e0.Dot(e0), 2*e0.Dot(e1)
	k2, k3, k4 := e1.Dot(e1)+2*e0.Dot(e2), 2*e1.Dot(e2), e2.Dot(e2)
	sum := 0.0
	for _, g := range rule {
		x2 := g.x * g.x
		even, odd := k0+x2*(k2+x2*k4), g.x*(k1+x2*k3)
		sum += g.w * (math.Sqrt(even+odd) + math.Sqrt(even-odd))
	}
	return sum
}

// clearance returns how far the roots of e0 + e1·z + e2·z² keep from the
// interval [−1, 1], as the half long axis of the ellipse with foci ±1 through
// the nearest one, and where to cut when that is too near. Nearly real roots
// at or beyond the ends do not count, kink tells of them.
func clearance(e0, e1, e2 Point) (clear, cut float64, kink bool) {
	disc := cmul(e1, e1).Sub(cmul(e0, e2).Mul(4))
	r := csqrt(disc)
	if e1.Dot(r) < 0 {
		r = r.Mul(-1)
	}
	q := e1.Add(r).Mul(-0.5)
	clear = math.Inf(1)
	for _, f := range [2][2]Point{{q, e2}, {e0, q}} { // the roots are f[0]/f[1]
		n, d := f[0], f[1]
		dd := d.Dot(d)
		if n.Dot(n) >= 4*dd { // too far out to matter, or none
			continue
		}
		z := Pt(n.Dot(d)/dd, d.Cross(n)/dd)
		if math.Abs(z.X) >= 1-cuspSlack && math.Abs(z.Y) <= cuspSlack {
			kink = true
			continue
		}
		if axis := (norm2(z.X-1, z.Y) + norm2(z.X+1, z.Y)) / 2; axis < clear {
			clear, cut = axis, z.X
		}
	}
	if math.Abs(cut) > 0.75 {
		cut = 0
	}
	return clear, cut, kink
}

func cmul(a, b Point) Point { return Point{a.X*b.X - a.Y*b.Y, a.X*b.Y + a.Y*b.X} }

func norm2(x, y float64) float64 { return math.Sqrt(x*x + y*y) }

// csqrt is the complex square root with X ≥ 0.
func csqrt(a Point) Point {
	n := math.Sqrt(a.X*a.X + a.Y*a.Y)
	if n == 0 {
		return Point{}
	}
	if a.X >= 0 {
		x := math.Sqrt((n + a.X) / 2)
		return Point{x, a.Y / (2 * x)}
	}
	y := math.Copysign(math.Sqrt((n-a.X)/2), a.Y)
	return Point{a.Y / (2 * y), y}
}

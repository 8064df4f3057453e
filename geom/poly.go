package geom

import "math"

// poly is a polynomial of degree n ≤ 5; c[i] belongs to the power i.
type poly struct {
	c [6]float64
	n int
}

func (p *poly) at(t float64) float64 {
	v := p.c[p.n]
	for i := p.n - 1; i >= 0; i-- {
		v = v*t + p.c[i]
	}
	return v
}

func (p *poly) deriv() poly {
	d := poly{n: p.n - 1}
	for i := 1; i <= p.n; i++ {
		d.c[i-1] = p.c[i] * float64(i)
	}
	return d
}

// rootSet holds the roots of a poly in rising order.
type rootSet struct {
	t [5]float64
	n int
}

func (r *rootSet) all() []float64 { return r.t[:r.n] }

func (r *rootSet) add(t float64) {
	if r.n < len(r.t) && (r.n == 0 || t > r.t[r.n-1]) {
		r.t[r.n] = t
		r.n++
	}
}

// roots finds where p changes sign in [0, 1], and exact zeros at the ends of
// its monotone stretches. The roots of the derivative part the interval into
// monotone stretches, each holding at most one root, found by Newton's method
// kept inside its bracket (C. Yuksel, "High-performance polynomial root
// finding for graphics", 2022). A double root may come out as none, one or
// two; who cares about it looks at the stationary points as well.
func (p *poly) roots() (r rootSet) {
	for p.n > 2 && p.c[p.n] == 0 {
		q := *p
		q.n--
		p = &q
	}
	if p.n <= 2 {
		return quadratic(p.c[2], p.c[1], p.c[0])
	}
	d := p.deriv()
	turns := d.roots()
	a, fa := 0.0, p.at(0)
	for i := 0; i <= turns.n; i++ {
		b := 1.0
		if i < turns.n {
			b = turns.t[i]
		}
		fb := p.at(b)
		switch {
		case fa == 0:
			r.add(a)
		case fb != 0 && (fa < 0) != (fb < 0):
			r.add(p.bracketed(&d, a, b, fa))
		}
		a, fa = b, fb
	}
	if fa == 0 {
		r.add(1)
	}
	return r
}

// bracketed finds the root in (a, b), where p is monotone and p(a) = fa has
// the other sign than p(b), to the last bits of t.
func (p *poly) bracketed(d *poly, a, b, fa float64) float64 {
	if fa == 0 {
		return a
	}
	t := (a + b) / 2
	for range rootSteps {
		f := p.at(t)
		if f == 0 {
			return t
		}
		if (f < 0) == (fa < 0) {
			a = t
		} else {
			b = t
		}
		next := t - f/d.at(t)
		if !(next > a && next < b) {
			next = (a + b) / 2
		}
		if math.Abs(next-t) <= rootSlack {
			return next
		}
		t = next
	}
	return t
}

// quadratic returns the roots of a·t² + b·t + c in [0, 1].
func quadratic(a, b, c float64) (r rootSet) {
	put := func(t float64) {
		if t >= 0 && t <= 1 {
			r.add(t)
		}
	}
	if a == 0 {
		if b != 0 {
			put(-c / b)
		}
		return r
	}
	disc := b*b - 4*a*c
	if disc < 0 {
		return r
	}
	q := -(b + math.Copysign(math.Sqrt(disc), b)) / 2
	t0, t1 := q/a, 0.0
	if q != 0 {
		t1 = c / q
	}
	put(math.Min(t0, t1))
	put(math.Max(t0, t1))
	return r
}

// power returns the coefficients of the cubic by powers of t, relative to q.
func (c Cubic) power(q Point) [4]Point {
	p0, p1, p2, p3 := c.P[0], c.P[1], c.P[2], c.P[3]
	if c.straight {
		return [4]Point{p0.Sub(q), p3.Sub(p0)}
	}
	d1, d2 := p1.Sub(p0), p2.Sub(p1)
	return [4]Point{
		p0.Sub(q),
		d1.Mul(3),
		d2.Sub(d1).Mul(3),
		p3.Sub(p0).Sub(d2.Mul(3)),
	}
}

package geom

// Length returns the arc length of the cubic.
func (c Cubic) Length() float64 { return c.LengthTo(1) }

// LengthTo returns the arc length from the start to parameter t.
func (c Cubic) LengthTo(t float64) float64 {
	if c.straight {
		return c.P[0].Dist(c.P[3]) * t
	}
	return adaptive(c, 0, t, gauss16(c, 0, t), 0)
}

func adaptive(c Cubic, a, b, whole float64, depth int) float64 {
	m := (a + b) / 2
	l, r := gauss16(c, a, m), gauss16(c, m, b)
	if d := l + r - whole; depth > 12 || (d < 1e-13*(1+whole) && d > -1e-13*(1+whole)) {
		return l + r
	}
	return adaptive(c, a, m, l, depth+1) + adaptive(c, m, b, r, depth+1)
}

var gaussX = [8]float64{0.0950125098376374402, 0.2816035507792589132, 0.4580167776572273863, 0.6178762444026437484, 0.7554044083550030339, 0.8656312023878317439, 0.9445750230732325761, 0.9894009349916499326}
var gaussW = [8]float64{0.1894506104550684963, 0.1826034150449235889, 0.1691565193950025382, 0.1495959888165767321, 0.1246289712555338720, 0.0951585116824927848, 0.0622535239386478929, 0.0271524594117540949}

func gauss16(c Cubic, a, b float64) float64 {
	h, m := (b-a)/2, (a+b)/2
	sum := 0.0
	for i, x := range gaussX {
		sum += gaussW[i] * (c.Deriv(m+h*x).Norm() + c.Deriv(m-h*x).Norm())
	}
	return sum * h
}

// ParamAt returns the parameter at arc length s from the start, s clamped to
// the cubic.
func (c Cubic) ParamAt(s float64) float64 {
	if s <= 0 {
		return 0
	}
	total := c.Length()
	if s >= total {
		return 1
	}
	if c.straight {
		return s / total
	}
	lo, hi, t := 0.0, 1.0, s/total
	for range 60 {
		f := c.LengthTo(t) - s
		if f > 0 {
			hi = t
		} else {
			lo = t
		}
		next := (lo + hi) / 2
		if d := c.Deriv(t).Norm(); d > 0 {
			if n := t - f/d; n > lo && n < hi {
				next = n
			}
		}
		if next == t || hi-lo < 1e-16 {
			break
		}
		t = next
	}
	return t
}

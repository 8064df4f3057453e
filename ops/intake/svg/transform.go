package svg

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"truemat/geom"
)

// matrix is the affine map x' = a·x + c·y + e, y' = b·x + d·y + f.
type matrix struct{ a, b, c, d, e, f float64 }

func identity() matrix { return matrix{a: 1, d: 1} }

func translation(x, y float64) matrix { return matrix{1, 0, 0, 1, x, y} }

func (m matrix) apply(p geom.Point) geom.Point {
	return geom.Pt(m.a*p.X+m.c*p.Y+m.e, m.b*p.X+m.d*p.Y+m.f)
}

// then returns the map that does m first and next after it.
func (m matrix) then(next matrix) matrix {
	return matrix{
		next.a*m.a + next.c*m.b, next.b*m.a + next.d*m.b,
		next.a*m.c + next.c*m.d, next.b*m.c + next.d*m.d,
		next.a*m.e + next.c*m.f + next.e, next.b*m.e + next.d*m.f + next.f,
	}
}

func (m matrix) det() float64 { return m.a*m.d - m.b*m.c }

// stretch returns the greatest factor by which the map lengthens anything:
// its larger singular value.
func (m matrix) stretch() float64 {
	s := m.a*m.a + m.b*m.b + m.c*m.c + m.d*m.d
	return math.Sqrt((s + math.Sqrt(math.Max(s*s-4*m.det()*m.det(), 0))) / 2)
}

// flat reports whether the map squeezes the plane onto a line or a point.
func (m matrix) flat() bool {
	s := m.stretch()
	return !(math.Abs(m.det()) > 1e-12*s*s)
}

// parseTransform reads a transform attribute: the last function acts first.
func parseTransform(s string) (matrix, error) {
	sc := &scanner{s: s}
	m := identity()
	sc.skipSpace()
	if strings.TrimSpace(s) == "none" {
		return m, nil
	}
	for !sc.end() {
		start := sc.i
		for !sc.end() && (sc.s[sc.i] >= 'a' && sc.s[sc.i] <= 'z' || sc.s[sc.i] >= 'A' && sc.s[sc.i] <= 'Z') {
			sc.i++
		}
		name := sc.s[start:sc.i]
		sc.skipSpace()
		if sc.end() || sc.s[sc.i] != '(' {
			return m, sc.fault("a function such as translate(10 20)")
		}
		sc.i++
		stop := strings.IndexByte(sc.s[sc.i:], ')')
		if stop < 0 {
			return m, errors.New("a bracket is not closed")
		}
		args, err := numbers(sc.s[sc.i : sc.i+stop])
		if err != nil {
			return m, fmt.Errorf("%s: %w", name, err)
		}
		f, err := function(name, args)
		if err != nil {
			return m, err
		}
		m = f.then(m)
		sc.i += stop + 1
		sc.skipComma()
	}
	return m, nil
}

func function(name string, v []float64) (matrix, error) {
	n := len(v)
	switch {
	case name == "matrix" && n == 6:
		return matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, nil
	case name == "translate" && n == 1:
		return translation(v[0], 0), nil
	case name == "translate" && n == 2:
		return translation(v[0], v[1]), nil
	case name == "scale" && n == 1:
		return matrix{a: v[0], d: v[0]}, nil
	case name == "scale" && n == 2:
		return matrix{a: v[0], d: v[1]}, nil
	case name == "rotate" && (n == 1 || n == 3):
		sin, cos := sincosDegrees(v[0])
		m := matrix{a: cos, b: sin, c: -sin, d: cos}
		if n == 3 {
			m = translation(-v[1], -v[2]).then(m).then(translation(v[1], v[2]))
		}
		return m, nil
	case name == "skewX" && n == 1:
		return matrix{a: 1, c: math.Tan(v[0] * math.Pi / 180), d: 1}, nil
	case name == "skewY" && n == 1:
		return matrix{a: 1, b: math.Tan(v[0] * math.Pi / 180), d: 1}, nil
	}
	switch name {
	case "matrix", "translate", "scale", "rotate", "skewX", "skewY":
		return matrix{}, fmt.Errorf("%s does not take %d numbers", name, n)
	}
	return matrix{}, fmt.Errorf("there is no transform %q", name)
}

// sincosDegrees is exact at quarter turns, where drawings are turned most often.
func sincosDegrees(deg float64) (sin, cos float64) {
	switch math.Mod(math.Mod(deg, 360)+360, 360) {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(deg * math.Pi / 180)
}

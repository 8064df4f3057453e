package geom

import "math"

// fitSpan is one cubic with given ends and end directions on its way to lie
// along given points: only the lengths of its two handles are free.
//
// Each round moves the parameter of every point towards its foot on the cubic
// (one Newton step, J. Hoschek's intrinsic parametrisation, 1988) and then
// chooses the two lengths by least squares of the distances along the normals
// at the feet, which are linear in the lengths.
type fitSpan struct {
	a, b   Point // ends
	da, db Point // unit directions of travel there
	ha, hb float64

	freeA, freeB bool // the directions may turn as well
}

func (s *fitSpan) cubic() Cubic {
	return Curve(s.a, s.a.Add(s.da.Mul(s.ha)), s.b.Sub(s.db.Mul(s.hb)), s.b)
}

// fitRounds bounds the rounds; two or three are usual, the rest is for slow
// convergence on spans that will be split anyway.
const fitRounds = 8

// near improves the handles until the points pts, with first guesses us of
// their parameters, lie within aim of the cubic or no round helps any more. It
// returns the greatest distance found and the index where. Both handles stay
// positive. An infinite distance says that the points run back along the
// cubic.
func (s *fitSpan) near(pts []Point, us []float64, aim float64) (worst float64, at int) {
	size := max(s.a.Dist(s.b), s.ha+s.hb)
	before := math.Inf(1)
	for round := 0; ; round++ {
		c := s.cubic()
		worst, at = 0, 0
		var aa, ab, bb, ar, br float64
		var m [4][6]float64
		last, ordered := 0.0, true
		for k, p := range pts {
			u := us[k]
			q, d, dd := fitEval(&c, u)
			away := p.Sub(q)
			if slope := d.Dot(d) - away.Dot(dd); slope > 0 {
				step := away.Dot(d) / slope
				step = max(-0.25, min(0.25, step))
				u = max(0, min(1, u+step))
				q, d, _ = fitEval(&c, u)
				away = p.Sub(q)
			}
			us[k] = u
			ordered = ordered && u >= last
			last = u
			if off := away.Dot(away); off > worst {
				worst, at = off, k
			}
			n := math.Sqrt(d.Dot(d))
			if n == 0 {
				continue
			}
			r := away.Dot(d.Perp()) / n
			v := 1 - u
			ja, jb := 3*v*v*u*d.Cross(s.da)/n, -3*v*u*u*d.Cross(s.db)/n
			aa, ab, bb = aa+ja*ja, ab+ja*jb, bb+jb*jb
			ar, br = ar+ja*r, br+jb*r
			if s.freeA || s.freeB {
				// Turning a direction moves its handle sideways.
				row := [4]float64{ja, jb, 3 * v * v * u * s.ha * d.Dot(s.da) / n, -3 * v * u * u * s.hb * d.Dot(s.db) / n}
				for i := range row {
					for j := range row {
						m[i][j] += row[i] * row[j]
					}
					m[i][4] += row[i] * r
				}
			}
		}
		if worst = math.Sqrt(worst); !ordered {
			worst = math.Inf(1)
		}
		if worst <= aim || round == fitRounds || (round > 2 && worst > 0.9*before) {
			return worst, at
		}
		before = worst
		if s.freeA || s.freeB {
			s.turned(&m, size)
			continue
		}
		det := aa*bb - ab*ab
		if !(det > 1e-12*(aa+bb)*(aa+bb)) {
			return worst, at
		}
		s.set(s.ha+(ar*bb-br*ab)/det, s.hb+(br*aa-ar*ab)/det, size)
	}
}

// set changes the handles, kept within bounds that suit a span of the size.
func (s *fitSpan) set(ha, hb, size float64) {
	s.ha, s.hb = max(1e-3*size, min(4*size, ha)), max(1e-3*size, min(4*size, hb))
}

// turned changes handles and free directions by the solution of the normal
// equations m.
func (s *fitSpan) turned(m *[4][6]float64, size float64) {
	for i, free := range [4]bool{true, true, s.freeA, s.freeB} {
		if !free { // an equation that says: by nothing
			m[i] = [6]float64{}
			for j := range m {
				m[j][i] = 0
			}
		}
	}
	x, _ := fitSolve(m, 4)
	s.set(s.ha+x[0], s.hb+x[1], size)
	s.da = Turn(Angle(max(-0.3, min(0.3, x[2]))), Point{}).Vector(s.da)
	s.db = Turn(Angle(max(-0.3, min(0.3, x[3]))), Point{}).Vector(s.db)
}

// fitSolve solves the first n of the normal equations m for two right sides,
// leaving out unknowns that the others explain already. It overwrites m.
func fitSolve(m *[4][6]float64, n int) (x, y [4]float64) {
	var whole [4]float64
	for r := range n {
		whole[r] = m[r][r]
	}
	var used [4]bool
	for r := range n { // positive semidefinite: no exchange of rows needed
		used[r] = m[r][r] > 1e-12*whole[r]
		for below := r + 1; used[r] && below < n; below++ {
			f := m[below][r] / m[r][r]
			for c := r; c < 6; c++ {
				m[below][c] -= f * m[r][c]
			}
		}
	}
	for r := n - 1; r >= 0; r-- {
		if !used[r] {
			continue
		}
		x[r], y[r] = m[r][4], m[r][5]
		for c := r + 1; c < n; c++ {
			x[r], y[r] = x[r]-m[r][c]*x[c], y[r]-m[r][c]*y[c]
		}
		x[r], y[r] = x[r]/m[r][r], y[r]/m[r][r]
	}
	return x, y
}

// fitMiss returns the distance of p from c near the parameter u.
func fitMiss(c *Cubic, p Point, u float64) float64 {
	var away Point
	for range 4 {
		q, d, dd := fitEval(c, u)
		away = p.Sub(q)
		slope := d.Dot(d) - away.Dot(dd)
		if !(slope > 0) {
			break
		}
		step := away.Dot(d) / slope
		if u = max(0, min(1, u+step)); math.Abs(step) < 1e-6 {
			away = away.Sub(d.Mul(step))
			break
		}
	}
	return math.Sqrt(away.Dot(away))
}

// fitEval returns the point and the first two derivatives of c at u.
func fitEval(c *Cubic, u float64) (p, d, dd Point) {
	v := 1 - u
	e0x, e0y := c.P[1].X-c.P[0].X, c.P[1].Y-c.P[0].Y
	e1x, e1y := c.P[2].X-c.P[1].X, c.P[2].Y-c.P[1].Y
	e2x, e2y := c.P[3].X-c.P[2].X, c.P[3].Y-c.P[2].Y
	vv, uv, uu := v*v, v*u, u*u
	d = Point{3 * (vv*e0x + 2*uv*e1x + uu*e2x), 3 * (vv*e0y + 2*uv*e1y + uu*e2y)}
	dd = Point{6 * (v*(e1x-e0x) + u*(e2x-e1x)), 6 * (v*(e1y-e0y) + u*(e2y-e1y))}
	b0, b1, b2, b3 := vv*v, 3*vv*u, 3*v*uu, uu*u
	p = Point{b0*c.P[0].X + b1*c.P[1].X + b2*c.P[2].X + b3*c.P[3].X, b0*c.P[0].Y + b1*c.P[1].Y + b2*c.P[2].Y + b3*c.P[3].Y}
	return p, d, dd
}

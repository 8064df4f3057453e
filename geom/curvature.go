package geom

import "math"

// CurvatureRange returns the least and the greatest signed curvature of the
// path in 1/mm, positive where it bends to the left. Corners have none. Where
// the path comes to rest (a handle without length, a cusp) curvature has no
// bound; there it is taken 0.01 mm aside.
func (p Path) CurvatureRange() (lo, hi float64) {
	if p.Empty() {
		return 0, 0
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	p.eachExtreme(0, p.Length(), func(_ int, _, k float64) {
		lo, hi = math.Min(lo, k), math.Max(hi, k)
	})
	return lo, hi
}

// MaxCurvature returns the signed curvature in 1/mm of greatest size between
// the arc lengths s0 and s1, and the arc length of its place; of equal ones
// the first. Rest and corners are treated as by [Path.CurvatureRange].
func (p Path) MaxCurvature(s0, s1 float64) (k, s float64) {
	if p.Empty() {
		return 0, 0
	}
	seg, t, found := 0, 0.0, false
	p.eachExtreme(s0, s1, func(i int, u, v float64) {
		if !found || math.Abs(v) > math.Abs(k) {
			seg, t, k, found = i, u, v, true
		}
	})
	return k, p.LengthTo(seg, t)
}

// eachExtreme calls f with segment, parameter and curvature of every place
// between two arc lengths where the curvature may be extreme: ends, joints
// from both sides, and the zeros of its derivative.
func (p Path) eachExtreme(s0, s1 float64, f func(seg int, t, k float64)) {
	i0, t0 := p.Locate(s0)
	i1, t1 := p.Locate(s1)
	for i := i0; i <= i1; i++ {
		a, b := 0.0, 1.0
		if i == i0 {
			a = t0
		}
		if i == i1 {
			b = t1
		}
		c := &p.segs[i]
		visit := func(t float64) {
			for _, u := range c.asideOfRest(t, a, b) {
				f(i, u, c.Curvature(u))
			}
		}
		visit(a)
		if !c.straight && b > a {
			extremes := c.curvatureExtremes()
			for _, t := range extremes.all() {
				if t > a && t < b {
					visit(t)
				}
			}
		}
		visit(b)
	}
}

// asideOfRest returns t, or where the curve rests at t the parameters between
// a and b about restAside mm before and after it.
func (c *Cubic) asideOfRest(t, a, b float64) []float64 {
	if c.straight || c.Deriv(t).Norm() > restSpeed*c.extent() {
		return []float64{t}
	}
	accel := c.Second(t).Norm()
	if accel <= restSpeed*c.extent() {
		return []float64{t}
	}
	d := math.Sqrt(2 * restAside / accel) // B ≈ B″·d²/2 near rest
	return []float64{clamp(t-d, a, b), clamp(t+d, a, b)}
}

// curvatureExtremes returns where the derivative of the curvature vanishes.
// The curvature is g/|B′|³ with the quadratic g = B′×B″, so that these are
// the roots of g′·|B′|² − 3·g·(B′·B″), a polynomial of degree 5.
func (c *Cubic) curvatureExtremes() rootSet {
	k := c.power(c.P[0])
	v := [3]Point{k[1], k[2].Mul(2), k[3].Mul(3)} // B′
	w := [2]Point{k[2].Mul(2), k[3].Mul(6)}       // B″
	g := c.bending()
	var speed2 [5]float64
	var slow [4]float64
	for i := range 3 {
		for j := range 3 {
			speed2[i+j] += v[i].Dot(v[j])
		}
		for j := range 2 {
			slow[i+j] += v[i].Dot(w[j])
		}
	}
	f := poly{n: 5}
	for i := 1; i < 3; i++ {
		for j := range 5 {
			f.c[i-1+j] += float64(i) * g[i] * speed2[j]
		}
	}
	for i := range 3 {
		for j := range 4 {
			f.c[i+j] -= 3 * g[i] * slow[j]
		}
	}
	return f.roots()
}

// bending returns B′×B″, whose sign is that of the curvature, by powers of t.
func (c *Cubic) bending() [3]float64 {
	k := c.power(c.P[0])
	return [3]float64{2 * k[1].Cross(k[2]), 6 * k[1].Cross(k[3]), 6 * k[2].Cross(k[3])}
}

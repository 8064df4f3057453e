package geom

import "math"

// parallelSource is a cubic seen from its parallel at the signed distance d.
type parallelSource struct {
	c     Cubic
	d     float64
	scale float64   // the length of the control polygon
	slow  []float64 // the parameters, in order, where the speed is least, and turns may be sharp
}

func newParallelSource(c *Cubic, d float64) *parallelSource {
	s := parallelSource{c: *c, d: d, scale: c.extent()}
	s.findSlow()
	return &s
}

// findSlow looks for the places inside the curve, two at most, where it is much
// slower than its length would have it: between steps over which the speed
// turns from falling to rising, halved until exact.
func (s *parallelSource) findSlow() {
	const steps = 16
	speed2 := func(t float64) (v, slope float64) {
		_, d, dd := fitEval(&s.c, t)
		return d.Dot(d), d.Dot(dd)
	}
	before, falling := speed2(0)
	for k := 1; k <= steps; k++ {
		lo, hi := float64(k-1)/steps, float64(k)/steps
		v, slope := speed2(hi)
		if falling < 0 && slope > 0 && min(before, v) < s.scale*s.scale {
			for range 50 {
				m := (lo + hi) / 2
				if _, f := speed2(m); f < 0 {
					lo = m
				} else {
					hi = m
				}
			}
			if lo > 1e-6 && lo < 1-1e-6 {
				s.slow = append(s.slow, lo)
			}
		}
		before, falling = v, slope
	}
}

// still returns the first place where the curve stands still, and so may turn
// back on itself.
func (s *parallelSource) still() (float64, bool) {
	for _, t := range s.slow {
		if _, d, _ := fitEval(&s.c, t); d.Dot(d) <= 1e-18*s.scale*s.scale {
			return t, true
		}
	}
	return 0, false
}

// see returns the place of the parallel at parameter t of the source, with the
// direction and the speed by t, which is 0 where the centre of curvature lies
// on the parallel.
func (s *parallelSource) see(t, _ float64) fitSpot {
	p, d, dd := fitEval(&s.c, t)
	n := math.Sqrt(d.Dot(d))
	if n <= 1e-8*s.scale {
		dir := s.c.Tangent(t)
		return fitSpot{p: p.Add(dir.Perp().Mul(s.d)), dir: dir}
	}
	u := Point{d.X / n, d.Y / n}
	return fitSpot{p: Point{p.X - s.d*u.Y, p.Y + s.d*u.X}, dir: u, speed: max(0, n-s.d*d.Cross(dd)/(n*n))}
}

// forward is positive where the parallel runs the way of the source and
// negative inside curves tighter than the width: |B′|³·(1 − κd).
func (s *parallelSource) forward(t float64) float64 {
	_, d, dd := fitEval(&s.c, t)
	n2 := d.Dot(d)
	return n2*math.Sqrt(n2) - s.d*d.Cross(dd)
}

// parallelLooks is the number of steps in which changes of direction of the
// parallel are looked for, beside the slow places.
const parallelLooks = 24

// stretches returns the parameters 0 = stops[0] < … = 1 between which the
// parallel runs all forward or all backward, and which. Running backward by
// less than least mm does not count; it happens at ends without a handle,
// where the curvature has no bound.
func (s *parallelSource) stretches(least float64) (stops []float64, forward []bool) {
	const edge = 1e-7 // at an end without handle the sign is that close by
	stops = append(make([]float64, 0, 4), 0)
	stop := func(t float64, ahead bool) {
		from := stops[len(stops)-1]
		if !ahead && s.see(from, 1).p.Dist(s.see(t, -1).p) < least {
			ahead = true
		}
		if n := len(forward); n > 0 && forward[n-1] == ahead {
			stops[n] = t
			return
		}
		stops, forward = append(stops, t), append(forward, ahead)
	}
	last, f := edge, s.forward(edge)
	look := func(t float64) {
		g := s.forward(t)
		if (f < 0) != (g < 0) {
			lo, hi := last, t
			for range 50 {
				m := (lo + hi) / 2
				if (s.forward(m) < 0) == (f < 0) {
					lo = m
				} else {
					hi = m
				}
			}
			stop(hi, f >= 0)
		}
		last, f = t, g
	}
	for k := 1; k <= parallelLooks; k++ {
		t := min(float64(k)/parallelLooks, 1-edge)
		for _, slow := range s.slow {
			if slow > last && slow < t {
				look(slow)
			}
		}
		look(t)
	}
	stop(1, f >= 0)
	return stops, forward
}

// parallelGraph reports whether every leg of the control polygon runs forward
// along the chord. Then c is the graph of a function over its chord, and where
// its parallel runs forward throughout, none of it comes too near (compare
// simple).
func parallelGraph(c *Cubic) bool {
	chord := c.P[3].Sub(c.P[0])
	for k := range 3 {
		if c.P[k+1].Sub(c.P[k]).Dot(chord) < 0 {
			return false
		}
	}
	return true
}

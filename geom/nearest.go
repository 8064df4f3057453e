package geom

import "math"

// Foot is the place on a path nearest to some point.
type Foot struct {
	S     float64 // arc length from the start of the path, mm
	Seg   int     // segment, and
	T     float64 // its parameter
	Point Point   // the place itself
	Dist  float64 // distance to it, mm
}

// Nearest returns the place on the path nearest to q, over the whole path and
// within 1e-9 mm; of equally near places, as far as
// rounding tells them apart, the first. On every curve that comes
// close enough to matter all roots of (B(t)−q)·B′(t), a polynomial of degree
// 5, are compared. For the empty path, or a q that is not finite, Dist is +Inf.
func (p Path) Nearest(q Point) Foot {
	if p.Empty() || !q.Finite() {
		return Foot{Dist: math.Inf(1)}
	}
	best := Foot{Point: p.Start()}
	least := dist2(p.Start(), q)
	for i := range p.segs { // the joints are a cheap bound for what follows
		if d := dist2(p.segs[i].P[3], q); d < least {
			best, least = Foot{Seg: i, T: 1, Point: p.segs[i].P[3]}, d
		}
	}
	for i := range p.segs {
		c := &p.segs[i]
		if c.hull().dist2(q) >= least {
			continue
		}
		feet := c.feet(q)
		for _, t := range feet.all() {
			if at := c.At(t); dist2(at, q) < least {
				best, least = Foot{Seg: i, T: t, Point: at}, dist2(at, q)
			}
		}
	}
	best.S = p.LengthTo(best.Seg, best.T)
	best.Dist = best.Point.Dist(q)
	return best
}

// feet returns the parameters where the distance to q is stationary, among
// them all nearest places that are not ends.
func (c *Cubic) feet(q Point) (r rootSet) {
	if c.straight {
		v := c.P[3].Sub(c.P[0])
		if t := q.Sub(c.P[0]).Dot(v) / v.Dot(v); t > 0 && t < 1 {
			r.add(t)
		}
		return r
	}
	k := c.power(q)
	f := poly{c: [6]float64{
		k[0].Dot(k[1]),
		k[1].Dot(k[1]) + 2*k[0].Dot(k[2]),
		3 * (k[1].Dot(k[2]) + k[0].Dot(k[3])),
		2*k[2].Dot(k[2]) + 4*k[1].Dot(k[3]),
		5 * k[2].Dot(k[3]),
		3 * k[3].Dot(k[3]),
	}, n: 5}
	return f.roots()
}

// nearest returns the parameter of the place nearest to q and its distance.
func (c *Cubic) nearest(q Point) (t, dist float64) {
	t, least := 0.0, dist2(c.P[0], q)
	if d := dist2(c.P[3], q); d < least {
		t, least = 1, d
	}
	feet := c.feet(q)
	for _, u := range feet.all() {
		if d := dist2(c.At(u), q); d < least {
			t, least = u, d
		}
	}
	return t, math.Sqrt(least)
}

func dist2(a, b Point) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return dx*dx + dy*dy
}

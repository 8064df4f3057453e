package geom

// Winding returns how many times the path runs counter-clockwise round q, an
// open path closed by its chord. It counts signed crossings of the ray from q
// towards +x. Every stretch that rises or falls counts by the half-open rule
// on the y of its ends, and neighbours share these ends bit for bit, so that
// joints and tangents on the ray cannot be missed or counted twice. For q on
// the path, within rounding, either side may be given.
func (p Path) Winding(q Point) int {
	if p.Empty() {
		return 0
	}
	n := 0
	for i := range p.segs {
		n += p.segs[i].winding(q)
	}
	if !p.closed {
		chord := Straight(p.End(), p.Start())
		n += chord.winding(q)
	}
	return n
}

// Contains reports whether q lies inside the path: whether the path runs
// round it a number of times that is not zero.
func (p Path) Contains(q Point) bool { return p.Winding(q) != 0 }

func (c *Cubic) winding(q Point) int {
	h := c.hull()
	if q.Y < h.Min.Y || q.Y > h.Max.Y || q.X > h.Max.X {
		return 0
	}
	if q.X < h.Min.X { // only where the ends lie matters
		return crossing(c.P[0].Y, c.P[3].Y, q.Y)
	}
	if c.straight {
		w := crossing(c.P[0].Y, c.P[3].Y, q.Y)
		if w != 0 && c.P[3].Sub(c.P[0]).Cross(q.Sub(c.P[0]))*float64(w) > 0 {
			return w
		}
		return 0
	}
	k := c.power(Point{})
	y := poly{c: [6]float64{c.P[0].Y - q.Y, k[1].Y, k[2].Y, k[3].Y}, n: 3}
	dy := y.deriv()
	turns := dy.roots()
	n := 0
	t0, y0 := 0.0, c.P[0].Y
	for i := 0; i <= turns.n; i++ {
		t1, y1 := 1.0, c.P[3].Y
		if i < turns.n {
			t1 = turns.t[i]
			y1 = c.At(t1).Y
		}
		if w := crossing(y0, y1, q.Y); w != 0 {
			t := y.bracketed(&dy, t0, t1, y0-q.Y)
			if c.At(t).X > q.X {
				n += w
			}
		}
		t0, y0 = t1, y1
	}
	return n
}

// crossing is +1 when a stretch from height y0 to y1 crosses y upwards, −1
// downwards, 0 when it does not; the upper end belongs to the next stretch.
func crossing(y0, y1, y float64) int {
	switch {
	case y0 <= y && y < y1:
		return 1
	case y1 <= y && y < y0:
		return -1
	}
	return 0
}

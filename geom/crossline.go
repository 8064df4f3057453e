package geom

import "math"

// CrossLine returns where the path meets the infinite line through a along
// dir, sorted by S. T is the signed distance from a along dir in mm. A place
// where the path touches the line without changing sides, at a smooth place
// or at a corner, is given once, with Tangent set; so are the two ends of a
// stretch that lies along the line. Roots of the cubic in closed brackets: S
// is right to 1e-9 mm where the path crosses squarely. There are none when a
// or dir is not finite or dir has no length.
func (p Path) CrossLine(a, dir Point) []Crossing {
	dir = dir.Unit()
	if p.Empty() || !a.Finite() || !dir.Finite() || dir == (Point{}) {
		return nil
	}
	var found []Crossing
	for i := range p.segs {
		c := &p.segs[i]
		hits, along := c.meetLine(a, dir)
		if along {
			hits = []hit{{t: 0, tangent: true}, {t: 1, tangent: true}}
		}
		for _, h := range hits {
			at := c.At(h.t)
			found = append(found, Crossing{
				S: p.LengthTo(i, h.t), T: at.Sub(a).Dot(dir), Point: at, Tangent: h.tangent,
			})
		}
	}
	found = mergeCrossings(found, p, Path{}, func(s, _ float64) float64 {
		return math.Abs(dir.Cross(p.At(s).Sub(a)))
	})
	for i := range found {
		c := &found[i]
		if in, out, ok := p.through(c.S); ok {
			c.Tangent = c.Tangent || touches(in, out, dir, dir)
		} else {
			c.Tangent = c.Tangent || parallel(out, dir)
		}
	}
	return found
}

// meetLine returns where c meets the infinite line through a along the unit
// vector dir (u is not set), or that all of c lies along the line.
//
// The distance from the line is a cubic in t. It is cut where it is
// stationary: a stationary place within touchSlack of the line is a touch and
// takes the roots beside it, and every other stretch holds one root at most.
func (c *Cubic) meetLine(a, dir Point) (hits []hit, along bool) {
	k := c.power(a)
	y := poly{c: [6]float64{dir.Cross(k[0]), dir.Cross(k[1]), dir.Cross(k[2]), dir.Cross(k[3])}, n: 3}
	dy := y.deriv()
	near, above, below := true, true, true
	for _, q := range c.P {
		d := dir.Cross(q.Sub(a))
		near = near && math.Abs(d) <= touchSlack
		above = above && d > touchSlack
		below = below && d < -touchSlack
	}
	switch {
	case near:
		return nil, true
	case above || below:
		return nil, false
	}

	var cuts [7]float64
	turns := dy.roots()
	n := 1
	for _, t := range turns.all() {
		if t > 0 && t < 1 {
			cuts[n] = t
			n++
		}
	}
	cuts[n] = 1
	height := func(i int) float64 {
		switch i {
		case 0:
			return dir.Cross(c.P[0].Sub(a))
		case n:
			return dir.Cross(c.P[3].Sub(a))
		}
		return y.at(cuts[i])
	}
	touch := func(i int) bool { return math.Abs(height(i)) <= touchSlack }
	inner := func(i int) bool { return i > 0 && i < n }
	crossed := false // a root was found in the stretch before
	for i := 0; i <= n; i++ {
		root := false
		if i < n && (height(i) < 0) != (height(i+1) < 0) {
			root = !(inner(i) && touch(i)) && !(inner(i+1) && touch(i+1))
		}
		if touch(i) && (inner(i) || !root && !crossed) {
			tangent := inner(i) || parallel(c.Tangent(cuts[i]), dir)
			if k := len(hits); k > 0 && i > 0 && touch(i-1) && hits[k-1].t == cuts[i-1] {
				hits[k-1].tangent = true // the stretch between lies along the line
			} else {
				hits = append(hits, hit{t: cuts[i], tangent: tangent})
			}
		}
		if root {
			t := y.bracketed(&dy, cuts[i], cuts[i+1], height(i))
			hits = append(hits, hit{t: t, tangent: parallel(c.Tangent(t), dir)})
		}
		crossed = root
	}
	return hits, false
}

// parallel reports whether two unit directions run the same way or opposed.
func parallel(u, v Point) bool { return math.Abs(u.Cross(v)) <= parallelSlack }

// touches reports whether two paths that meet touch instead of crossing: p
// arrives along pIn and leaves along pOut, q likewise (unit directions).
// Where they have a direction in common they touch.
func touches(pIn, pOut, qIn, qOut Point) bool {
	pIn, qIn = pIn.Mul(-1), qIn.Mul(-1) // now four rays from the place
	for _, u := range [2]Point{pIn, pOut} {
		for _, v := range [2]Point{qIn, qOut} {
			if parallel(u, v) && u.Dot(v) > 0 {
				return true
			}
		}
	}
	// From qOut counter-clockwise to qIn lies the left side of q.
	left := func(u Point) bool {
		a, b := Between(qOut, u), Between(qOut, qIn)
		if a < 0 {
			a += 2 * math.Pi
		}
		if b < 0 {
			b += 2 * math.Pi
		}
		return a < b
	}
	return left(pIn) == left(pOut)
}

// through returns the directions in which p arrives at and leaves arc length
// s. ok is false at the end of an open path, where both are the direction there.
func (p Path) through(s float64) (in, out Point, ok bool) {
	n := len(p.segs)
	i, t := p.Locate(s)
	length := p.cum[i+1] - p.cum[i]
	atStart, atEnd := t*length <= touchSlack, (1-t)*length <= touchSlack
	switch {
	case atStart && i == 0 && !p.closed:
		d := p.segs[0].Tangent(0)
		return d, d, false
	case atEnd && i == n-1 && !p.closed:
		d := p.segs[n-1].Tangent(1)
		return d, d, false
	case atStart:
		return p.segs[(i+n-1)%n].Tangent(1), p.segs[i].Tangent(0), true
	case atEnd:
		return p.segs[i].Tangent(1), p.segs[(i+1)%n].Tangent(0), true
	}
	d := p.segs[i].Tangent(t)
	return d, d, true
}

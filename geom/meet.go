package geom

import (
	"cmp"
	"math"
	"slices"
)

// hit is a place where two curves meet, by their parameters.
type hit struct {
	t, u    float64
	tangent bool
}

// lap is a stretch two cubics share, by their parameters; t0 < t1.
type lap struct{ t0, t1, u0, u1 float64 }

// meet returns where two cubics meet. Ends that lie on the other one come
// first: a stretch that two cubics share reaches from such a contact to
// another, because polynomials that agree on a stretch agree everywhere. What
// is not shared is then searched: against a straight one by the roots of a
// cubic, else by halving.
//
// A curve that runs to and fro along a line passes the same place more than
// once; it is met piece by piece.
func meet(c, d *Cubic) (hits []hit, laps []lap) {
	cCuts, dCuts := c.reversals(), d.reversals()
	if len(cCuts)+len(dCuts) == 4 {
		return meetSimple(c, d)
	}
	for i := 1; i < len(cCuts); i++ {
		t0, t1 := cCuts[i-1], cCuts[i]
		a := c.Sub(t0, t1)
		for j := 1; j < len(dCuts); j++ {
			u0, u1 := dCuts[j-1], dCuts[j]
			b := d.Sub(u0, u1)
			h, ls := meetSimple(&a, &b)
			for _, x := range h {
				hits = append(hits, hit{t0 + (t1-t0)*x.t, u0 + (u1-u0)*x.u, x.tangent})
			}
			for _, l := range ls {
				laps = append(laps, lap{t0 + (t1-t0)*l.t0, t0 + (t1-t0)*l.t1, u0 + (u1-u0)*l.u0, u0 + (u1-u0)*l.u1})
			}
		}
	}
	return hits, laps
}

// reversals returns 0, the parameters where a cubic that lies along a line,
// within touchSlack, turns back, and 1.
func (c *Cubic) reversals() []float64 {
	ends := []float64{0, 1}
	if c.straight || !c.liesStraight(touchSlack) {
		return ends
	}
	dir := c.lie()
	k := c.power(c.P[0])
	turns := quadratic(3*dir.Dot(k[3]), 2*dir.Dot(k[2]), dir.Dot(k[1]))
	cuts := ends[:1]
	for _, t := range turns.all() {
		if t > 0 && t < 1 {
			cuts = append(cuts, t)
		}
	}
	return append(cuts, 1)
}

// lie is the unit direction from the first control point to the one farthest
// from it.
func (c *Cubic) lie() Point {
	var far Point
	for _, q := range c.P[1:] {
		if v := q.Sub(c.P[0]); v.Dot(v) > far.Dot(far) {
			far = v
		}
	}
	return far.Unit()
}

// liesStraight reports whether all control points are within slack of the
// line along the lie of c.
func (c *Cubic) liesStraight(slack float64) bool {
	dir := c.lie()
	for _, q := range c.P[1:] {
		if math.Abs(dir.Cross(q.Sub(c.P[0]))) > slack {
			return false
		}
	}
	return true
}

// meetSimple is meet for curves that do not run to and fro.
func meetSimple(c, d *Cubic) (hits []hit, laps []lap) {
	hits = endContacts(c, d)
	laps = sharedStretches(c, d, hits)
	from := 0.0
	for _, l := range append(slices.Clip(laps), lap{t0: 1, t1: 1}) {
		if l.t0 > from {
			h, ls := meetBetween(c, d, from, l.t0)
			hits, laps = append(hits, h...), append(laps, ls...)
		}
		from = l.t1
	}
	return hits, laps
}

// meetBetween is meet for the part of c between t0 and t1, without the ends.
func meetBetween(c, d *Cubic, t0, t1 float64) (hits []hit, laps []lap) {
	part := c.Sub(t0, t1)
	switch {
	case d.straight:
		hits = meetStraight(&part, d)
	case c.straight:
		hits = meetStraight(d, &part)
		for i, h := range hits {
			hits[i].t, hits[i].u = h.u, h.t
		}
	default:
		hits, laps = meetCurves(&part, d)
	}
	for i := range hits {
		hits[i].t = t0 + (t1-t0)*hits[i].t
	}
	for i := range laps {
		laps[i].t0, laps[i].t1 = t0+(t1-t0)*laps[i].t0, t0+(t1-t0)*laps[i].t1
	}
	return hits, laps
}

// meetStraight returns where c meets the straight segment d.
func meetStraight(c, d *Cubic) []hit {
	v := d.P[3].Sub(d.P[0])
	length, dir := v.Norm(), v.Unit()
	found, _ := c.meetLine(d.P[0], dir)
	hits := found[:0]
	for _, h := range found {
		along := c.At(h.t).Sub(d.P[0]).Dot(dir)
		if along >= -touchSlack && along <= length+touchSlack {
			h.u = math.Min(math.Max(along/length, 0), 1)
			hits = append(hits, h)
		}
	}
	return hits
}

// endContacts returns the ends of either cubic that lie on the other.
func endContacts(c, d *Cubic) (hits []hit) {
	for end, q := range [2]Point{d.P[0], d.P[3]} {
		if t, ok := c.holds(q); ok {
			hits = append(hits, hit{t: t, u: float64(end)})
		}
	}
	for end, q := range [2]Point{c.P[0], c.P[3]} {
		if u, ok := d.holds(q); ok {
			hits = append(hits, hit{t: float64(end), u: u})
		}
	}
	slices.SortFunc(hits, func(a, b hit) int { return cmp.Or(cmp.Compare(a.t, b.t), cmp.Compare(a.u, b.u)) })
	return hits
}

// holds reports whether q lies on c, within touchSlack, and where.
func (c *Cubic) holds(q Point) (t float64, ok bool) {
	if c.hull().dist2(q) > touchSlack*touchSlack {
		return 0, false
	}
	t, dist := c.nearest(q)
	return t, dist <= touchSlack
}

// sharedStretches returns the stretches between consecutive contacts on which
// c keeps within touchSlack of d.
func sharedStretches(c, d *Cubic, contacts []hit) (laps []lap) {
	const probes = 6
	for i := 1; i < len(contacts); i++ {
		a, b := contacts[i-1], contacts[i]
		if a.u == b.u || c.LengthTo(b.t)-c.LengthTo(a.t) < sharedLeast {
			continue
		}
		shared := true
		for k := 1; k < probes && shared; k++ {
			_, dist := d.nearest(c.At(a.t + (b.t-a.t)*float64(k)/probes))
			shared = dist <= touchSlack
		}
		if shared {
			laps = append(laps, lap{a.t, b.t, a.u, b.u})
		}
	}
	return laps
}

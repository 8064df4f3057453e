package geom

import (
	"math"
	"slices"
)

// SelfCrossings returns where the path meets itself: S < T are the two arc
// lengths of the place, sorted by S. A loop of a single cubic is found in
// closed form, everything else as by [Cross]. The joint that two neighbours
// share, and anything within 0.05 mm of it on both, is not counted; a touch
// is, with Tangent set. Of a stretch that the path runs along twice the two
// ends are given, with Tangent set.
func (p Path) SelfCrossings() []Crossing {
	var m Meeting
	boxes := p.hulls()
	for i := range p.segs {
		if t, u, ok := p.segs[i].loop(); ok {
			m.add(p, p, i, i, []hit{{t: t, u: u}}, nil)
		}
		box := boxes[i].Grow(touchSlack)
		for j := i + 1; j < len(p.segs); j++ {
			if box.Overlaps(boxes[j]) {
				hits, laps := meet(&p.segs[i], &p.segs[j])
				m.add(p, p, i, j, hits, laps)
			}
		}
	}
	m.Crossings = slices.DeleteFunc(m.Crossings, p.isJoint)
	for _, o := range mergeOverlaps(m.Overlaps) {
		m.Crossings = slices.DeleteFunc(m.Crossings, func(c Crossing) bool { return o.holds(c, p, p) })
		for _, e := range [2][2]float64{{o.S0, o.T0}, {o.S1, o.T1}} {
			m.Crossings = append(m.Crossings, Crossing{S: e[0], T: e[1], Point: p.At(e[0]), Tangent: true})
		}
	}
	for k, c := range m.Crossings {
		m.Crossings[k].S, m.Crossings[k].T = math.Min(c.S, c.T), math.Max(c.S, c.T)
	}
	m.Crossings = mergeCrossings(m.Crossings, p, p, func(s, t float64) float64 { return p.At(s).Dist(p.At(t)) })
	for k := range m.Crossings {
		m.Crossings[k].judge(p, p)
	}
	return m.Crossings
}

// isJoint reports whether a joint lies within sharedLeast of both arc lengths
// of c: then c is that joint, not a crossing.
func (p Path) isJoint(c Crossing) bool {
	for i, s := range p.cum {
		if (i == 0 || i == len(p.segs)) && !p.closed {
			continue
		}
		if p.apart(s, c.S) <= sharedLeast && p.apart(s, c.T) <= sharedLeast {
			return true
		}
	}
	return false
}

// loop returns the two parameters at which a cubic passes the same place.
// B(t) = B(u) divided by t−u is linear in t+u and in t²+tu+u², so that both
// follow from cross products of the coefficients.
func (c *Cubic) loop() (t, u float64, ok bool) {
	if c.straight {
		return 0, 0, false
	}
	k := c.power(c.P[0])
	det := k[3].Cross(k[2])
	if det == 0 {
		return 0, 0, false
	}
	sum := k[1].Cross(k[3]) / det
	product := sum*sum + k[1].Cross(k[2])/det
	disc := sum*sum - 4*product
	if !(disc > 0) {
		return 0, 0, false
	}
	r := math.Sqrt(disc)
	t, u = (sum-r)/2, (sum+r)/2
	const slack = 1e-12
	if t < -slack || u > 1+slack {
		return 0, 0, false
	}
	t, u = clamp(t, 0, 1), clamp(u, 0, 1)
	return t, u, c.At(t).Dist(c.At(u)) <= touchSlack && c.LengthTo(u)-c.LengthTo(t) > sharedLeast
}

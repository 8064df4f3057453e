package geom

import (
	"cmp"
	"math"
	"slices"
)

// Crossing is a place where two paths, or a path and a line, meet.
type Crossing struct {
	S       float64 // arc length on the first path, mm
	T       float64 // arc length on the second path, or distance along the line, mm
	Point   Point   // the place, within 1e-8 mm of both
	Tangent bool    // they touch there and do not pass from side to side squarely
}

// Overlap is a stretch that two paths share: S0 < S1 on the first runs along
// T0 to T1 on the second, T1 < T0 when they run in opposite directions.
type Overlap struct{ S0, S1, T0, T1 float64 }

// Meeting is all that two paths have in common.
type Meeting struct {
	Crossings []Crossing // sorted by S, none inside an overlap
	Overlaps  []Overlap  // sorted by S0
}

// Cross returns where p and q meet. Curves closer than 1e-8 mm count as
// touching. A place at a joint is given once. Tangent is set where the paths
// touch with a common direction, or at a corner without changing sides; an
// open end that lies on the other path is a crossing. A stretch shared over
// at least 0.05 mm is an overlap, and its ends are not given as crossings; a
// shorter one is a touch.
func Cross(p, q Path) Meeting {
	var m Meeting
	boxes := q.hulls()
	for i := range p.segs {
		c := &p.segs[i]
		box := c.hull().Grow(touchSlack)
		for j := range q.segs {
			if !box.Overlaps(boxes[j]) {
				continue
			}
			hits, laps := meet(c, &q.segs[j])
			m.add(p, q, i, j, hits, laps)
		}
	}
	m.Overlaps = mergeOverlaps(m.Overlaps)
	m.Crossings = mergeCrossings(m.Crossings, p, q, func(s, t float64) float64 { return p.At(s).Dist(q.At(t)) })
	m.Crossings = slices.DeleteFunc(m.Crossings, func(c Crossing) bool {
		return slices.ContainsFunc(m.Overlaps, func(o Overlap) bool { return o.holds(c, p, q) })
	})
	for k := range m.Crossings {
		m.Crossings[k].judge(p, q)
	}
	return m
}

func (m *Meeting) add(p, q Path, i, j int, hits []hit, laps []lap) {
	for _, h := range hits {
		m.Crossings = append(m.Crossings, Crossing{
			S: p.LengthTo(i, h.t), T: q.LengthTo(j, h.u),
			Point: p.segs[i].At(h.t).Lerp(q.segs[j].At(h.u), 0.5), Tangent: h.tangent,
		})
	}
	for _, l := range laps {
		m.Overlaps = append(m.Overlaps, Overlap{
			p.LengthTo(i, l.t0), p.LengthTo(i, l.t1), q.LengthTo(j, l.u0), q.LengthTo(j, l.u1),
		})
	}
}

// judge sets Tangent from the directions of the paths at the place.
func (c *Crossing) judge(p, q Path) {
	pIn, pOut, pOn := p.through(c.S)
	qIn, qOut, qOn := q.through(c.T)
	if pOn && qOn {
		c.Tangent = c.Tangent || touches(pIn, pOut, qIn, qOut)
		return
	}
	for _, u := range [2]Point{pIn, pOut} {
		for _, v := range [2]Point{qIn, qOut} {
			c.Tangent = c.Tangent || parallel(u, v)
		}
	}
}

func (p Path) hulls() []Box {
	boxes := make([]Box, len(p.segs))
	for i := range p.segs {
		boxes[i] = p.segs[i].hull()
	}
	return boxes
}

// apart is the distance between two arc lengths, the shorter way round on a
// closed path. The empty path stands for a line.
func (p Path) apart(s0, s1 float64) float64 {
	d := math.Abs(s1 - s0)
	if p.closed {
		d = math.Min(d, p.Length()-d)
	}
	return d
}

// mergeCrossings sorts by S and makes one crossing of several that stand at
// the same place: found from both segments of a joint, or joined by a short
// stretch on which p at s and the other at t keep together, by dist(s, t).
func mergeCrossings(cs []Crossing, p, q Path, dist func(s, t float64) float64) []Crossing {
	slices.SortFunc(cs, func(a, b Crossing) int { return cmp.Or(cmp.Compare(a.S, b.S), cmp.Compare(a.T, b.T)) })
	same := func(a, b Crossing) bool {
		ds, dt := p.apart(a.S, b.S), q.apart(a.T, b.T)
		if ds > sharedLeast || dt > sharedLeast {
			return false
		}
		if ds <= touchSlack && dt <= touchSlack {
			return true
		}
		for _, share := range [3]float64{0.25, 0.5, 0.75} {
			if dist(p.between(a.S, b.S, share), q.between(a.T, b.T, share)) > 4*touchSlack {
				return false
			}
		}
		return true
	}
	var out []Crossing
next:
	for _, c := range cs {
		for k := range out {
			if same(out[k], c) {
				c.Tangent = c.Tangent || out[k].Tangent
				if dist(c.S, c.T) < dist(out[k].S, out[k].T) {
					out[k] = c
				}
				out[k].Tangent = c.Tangent
				continue next
			}
		}
		out = append(out, c)
	}
	if p.closed { // the joint of start and end is at 0
		for k := range out {
			if p.Length()-out[k].S <= touchSlack {
				out[k].S = 0
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Crossing) int { return cmp.Compare(a.S, b.S) })
	return out
}

// between returns the arc length a share of the way from s0 to s1, the shorter
// way round on a closed path.
func (p Path) between(s0, s1, share float64) float64 {
	l := p.Length()
	if p.closed && math.Abs(s1-s0) > l/2 { // across the start
		s1 -= math.Copysign(l, s1-s0)
	}
	s := s0 + (s1-s0)*share
	if p.closed {
		s = math.Mod(s+l, l)
	}
	return s
}

// mergeOverlaps joins overlaps that run on through joints, but not through the
// start of a closed path.
func mergeOverlaps(os []Overlap) []Overlap {
	slices.SortFunc(os, func(a, b Overlap) int { return cmp.Or(cmp.Compare(a.S0, b.S0), cmp.Compare(a.T0, b.T0)) })
	var out []Overlap
next:
	for _, o := range os {
		for k := range out {
			if last := &out[k]; math.Abs(last.S1-o.S0) <= touchSlack && math.Abs(last.T1-o.T0) <= touchSlack &&
				last.T1 > last.T0 == (o.T1 > o.T0) {
				last.S1, last.T1 = o.S1, o.T1
				continue next
			}
		}
		out = append(out, o)
	}
	return out
}

// holds reports whether the crossing lies within the overlap or at its ends.
func (o Overlap) holds(c Crossing, p, q Path) bool {
	within := func(v, a, b float64, path Path) bool {
		lo, hi := math.Min(a, b), math.Max(a, b)
		return lo <= v && v <= hi || path.apart(v, lo) <= sharedLeast || path.apart(v, hi) <= sharedLeast
	}
	return within(c.S, o.S0, o.S1, p) && within(c.T, o.T0, o.T1, q)
}

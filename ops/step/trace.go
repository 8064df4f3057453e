package step

import (
	"truemat/geom"
)

// trace says that the stretch from … to of an old edge lies, in proportion,
// between a and b mm on a run. Runs are never reversed: from < to and a < b.
type trace struct {
	edge     string
	from, to float64
	a, b     float64
}

// knot is a point of a piecewise linear map of lengths: s before became t.
type knot struct{ s, t float64 }

// carryTraces returns what becomes of traces of a run that starts offset mm
// into the domain of the map: cut at its knots, dropped beyond its ends.
func carryTraces(traces []trace, offset float64, knots []knot) []trace {
	var out []trace
	for _, t := range traces {
		a, b := t.a+offset, t.b+offset
		for k := 1; k < len(knots); k++ {
			p, q := knots[k-1], knots[k]
			lo, hi := max(a, p.s), min(b, q.s)
			if hi-lo <= geom.Coincident || q.t-p.t <= geom.Coincident {
				continue
			}
			old := func(s float64) float64 {
				switch s {
				case a:
					return t.from
				case b:
					return t.to
				}
				return t.from + (t.to-t.from)*(s-a)/(b-a)
			}
			now := func(s float64) float64 {
				switch s {
				case p.s:
					return p.t
				case q.s:
					return q.t
				}
				return p.t + (q.t-p.t)*(s-p.s)/(q.s-p.s)
			}
			n := trace{t.edge, old(lo), old(hi), now(lo), now(hi)}
			if last := len(out) - 1; last >= 0 && out[last].runsInto(n) {
				out[last].to, out[last].b = n.to, n.b
				continue
			}
			out = append(out, n)
		}
	}
	return out
}

// runsInto reports whether n only continues t in the same proportion.
func (t trace) runsInto(n trace) bool {
	if t.edge != n.edge || t.to != n.from || t.b != n.a {
		return false
	}
	end := t.a + (t.b-t.a)*(n.to-t.from)/(t.to-t.from)
	return end-n.b <= geom.Coincident && n.b-end <= geom.Coincident
}

// proportion maps a length onto another in proportion.
func proportion(from, to float64) []knot { return []knot{{0, 0}, {from, to}} }

// feet maps the stops of an old run to their nearest places on a new one. Where
// these do not follow each other in the same order, or the run is sewn and has
// to keep matching its partner, everything keeps its proportion.
func feet(old, now geom.Path, stops []float64, sewn bool) []knot {
	whole := proportion(old.Length(), now.Length())
	if sewn {
		return whole
	}
	knots := whole[:1:1]
	for _, s := range stops {
		if s <= placeSlack || s >= old.Length()-placeSlack {
			continue
		}
		t := now.Nearest(old.At(s)).S
		if last := knots[len(knots)-1]; s-last.s <= placeSlack {
			continue
		} else if t-last.t <= placeSlack {
			return whole
		}
		knots = append(knots, knot{s, t})
	}
	if now.Length()-knots[len(knots)-1].t <= placeSlack {
		return whole
	}
	return append(knots, whole[1])
}

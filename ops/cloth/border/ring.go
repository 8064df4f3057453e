package border

import (
	"cmp"
	"math"
	"slices"

	"truemat/geom"
)

// ring is an outline as a polygon, its last point its first.
type ring []geom.Point

func ringOf(outline geom.Path, m geom.Motion) ring { return outline.Transform(m).Flatten(flat) }

// span is a range of x in mm.
type span struct{ from, to float64 }

// ends returns the leftmost and the rightmost x.
func (r ring) ends() span {
	s := span{math.Inf(1), math.Inf(-1)}
	for _, q := range r {
		s.from, s.to = min(s.from, q.X), max(s.to, q.X)
	}
	return s
}

// taken returns, from left to right, the open ranges of x by which q may not be
// moved along, since it would then overlap p or lie nearer to it than gap mm.
// Each may lie in a hollow of the other.
func taken(p, q ring, gap float64) []span {
	out := overlaps(p, q)
	if gap > 0 {
		out = append(out, nears(p, q, gap)...)
	}
	slices.SortFunc(out, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	kept := out[:0]
	for _, s := range out {
		if n := len(kept); n > 0 && s.from < kept[n-1].to-joins {
			kept[n-1].to = max(kept[n-1].to, s.to)
		} else {
			kept = append(kept, s)
		}
	}
	return kept
}

const (
	joins = 1e-9 // mm by which two ranges overlap that are one
	level = 1e-7 // mm by which heights differ that count as one
)

// overlaps compares two outlines between all heights at which one of them has a
// corner. Between two of those all sides are straight, so what is taken there is
// what is taken at its lower and its upper end.
func overlaps(p, q ring) []span {
	var heights []float64
	for _, r := range []ring{p, q} {
		for _, v := range r {
			heights = append(heights, v.Y)
		}
	}
	slices.Sort(heights)
	heights = slices.CompactFunc(heights, func(a, b float64) bool { return math.Abs(b-a) <= level })
	var out []span
	for i := 1; i < len(heights); i++ {
		low, high := heights[i-1], heights[i]
		a := p.between(low, high)
		if len(a) == 0 {
			continue
		}
		for _, t := range q.between(low, high) {
			for _, s := range a {
				out = append(out, span{min(s.low.from-t.low.to, s.high.from-t.high.to), max(s.low.to-t.low.from, s.high.to-t.high.from)})
			}
		}
	}
	return out
}

// strip is what an outline covers between two heights: a range at the lower and
// one at the upper.
type strip struct{ low, high span }

// between returns what the outline covers between two heights with no corner of
// it between them, from left to right.
func (r ring) between(low, high float64) []strip {
	type side struct{ low, high float64 }
	var sides []side
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		if a.Y > b.Y {
			a, b = b, a
		}
		if a.Y > low+level || b.Y < high-level {
			continue
		}
		x := func(y float64) float64 {
			return a.X + (b.X-a.X)*min(max((y-a.Y)/(b.Y-a.Y), 0), 1)
		}
		sides = append(sides, side{x(low), x(high)})
	}
	slices.SortFunc(sides, func(a, b side) int { return cmp.Compare(a.low+a.high, b.low+b.high) })
	var out []strip
	for i := 1; i < len(sides); i += 2 {
		out = append(out, strip{span{sides[i-1].low, sides[i].low}, span{sides[i-1].high, sides[i].high}})
	}
	return out
}

// nears returns the moves by which a side of q comes nearer than gap mm to one
// of p.
func nears(p, q ring, gap float64) []span {
	var out []span
	for i := 1; i < len(p); i++ {
		a, b := p[i-1], p[i]
		low, high := min(a.Y, b.Y)-gap, max(a.Y, b.Y)+gap
		for k := 1; k < len(q); k++ {
			c, d := q[k-1], q[k]
			if c.Y <= low && d.Y <= low || c.Y >= high && d.Y >= high {
				continue
			}
			// Moved by x, the sides are as far apart as (x, 0) is from the
			// parallelogram of all differences of their points.
			s := span{math.Inf(1), math.Inf(-1)}
			u := [5]geom.Point{a.Sub(c), a.Sub(d), b.Sub(d), b.Sub(c), a.Sub(c)}
			for n := 1; n < len(u); n++ {
				s = s.around(u[n-1], u[n], gap)
			}
			if s.from < s.to {
				out = append(out, s)
			}
		}
	}
	return out
}

// around returns the span with all of the x axis that is nearer than r to the
// side from a to b.
func (s span) around(a, b geom.Point, r float64) span {
	for _, q := range []geom.Point{a, b} {
		if math.Abs(q.Y) < r {
			h := math.Sqrt(r*r - q.Y*q.Y)
			s.from, s.to = min(s.from, q.X-h), max(s.to, q.X+h)
		}
	}
	d := b.Sub(a)
	l := math.Hypot(d.X, d.Y)
	if l == 0 {
		return s
	}
	for _, w := range []float64{r / l, -r / l} {
		u, v := a.Add(geom.Pt(-d.Y*w, d.X*w)), b.Add(geom.Pt(-d.Y*w, d.X*w))
		if (u.Y < 0) == (v.Y < 0) {
			continue
		}
		x := u.X + (v.X-u.X)*u.Y/(u.Y-v.Y)
		s.from, s.to = min(s.from, x), max(s.to, x)
	}
	return s
}

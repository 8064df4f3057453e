// Package slice compares outlines slice by slice, to tell how far they must
// lie apart.
package slice

import (
	"cmp"
	"math"
	"slices"

	"truemat/geom"
)

// Band is the height in mm of the slices in which outlines are compared.
const Band = 0.25

// touch is the share of a slice up to which an outline only touches it.
const touch = 1e-6

// flat is the distance in mm by which a polyline may miss its curve.
const flat = 0.01

// Span is a range of x in mm.
type Span struct{ From, To float64 }

// over reports whether two spans share more than an end.
func (s Span) over(o Span) bool { return s.From < o.To && o.From < s.To }

// Profile is an outline slice by slice: what it covers of each slice of height
// Band, from slice first on. Slices are counted from y = 0.
type Profile struct {
	first    int
	rows     [][]Span // from left to right, none touching the next
	Min, Max float64  // leftmost and rightmost x of all
}

// Of returns the profile of a closed outline moved by m. A slice counts as
// covered wherever the outline covers any of its height.
func Of(outline geom.Path, m geom.Motion) Profile {
	pts := outline.Transform(m).Flatten(flat)
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range pts {
		low, high = min(low, q.Y), max(high, q.Y)
	}
	t := tracer{first: int(math.Floor(low/Band + touch))}
	n := max(int(math.Ceil(high/Band-touch))-t.first, 1)
	t.lines, t.cuts = make([][]Span, n), make([][]float64, n)
	for i := 1; i < len(pts); i++ {
		t.add(pts[i-1], pts[i])
	}
	rows := make([][]Span, n)
	for i := range rows {
		rows[i] = t.covered(i)
	}
	return of(t.first, rows)
}

func of(first int, rows [][]Span) Profile {
	p := Profile{first: first, rows: rows, Min: math.Inf(1), Max: math.Inf(-1)}
	for _, r := range rows {
		if len(r) == 0 {
			continue
		}
		p.Min, p.Max = min(p.Min, r[0].From), max(p.Max, r[len(r)-1].To)
	}
	return p
}

// tracer follows an outline through the slices.
type tracer struct {
	first int
	lines [][]Span    // what the outline itself covers of each slice
	cuts  [][]float64 // where it crosses the middle of each slice
}

// add takes in a straight piece of outline.
func (t *tracer) add(a, b geom.Point) {
	if a.Y > b.Y {
		a, b = b, a
	}
	x := func(y float64) float64 {
		if b.Y == a.Y {
			return a.X
		}
		return a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
	}
	last := t.first + len(t.lines) - 1
	from, to := int(math.Floor(a.Y/Band+touch)), int(math.Ceil(b.Y/Band-touch))-1
	if to < from && len(t.lines) > 1 {
		return // between two slices
	}
	from = min(max(from, t.first), last)
	to = min(max(to, from), last)
	for k := from; k <= to; k++ {
		i := k - t.first
		u, v := x(max(a.Y, float64(k)*Band)), x(min(b.Y, float64(k+1)*Band))
		if a.Y == b.Y {
			v = b.X
		}
		t.lines[i] = append(t.lines[i], Span{min(u, v), max(u, v)})
		if mid := (float64(k) + 0.5) * Band; a.Y <= mid && mid < b.Y {
			t.cuts[i] = append(t.cuts[i], x(mid))
		}
	}
}

// covered returns what is covered of slice i: the outline itself, and between
// its parts what lies inside, which an odd number of crossings tells.
func (t *tracer) covered(i int) []Span {
	lines := union(t.lines[i])
	if len(lines) == 0 {
		return nil
	}
	out := lines[:1:1]
	for _, s := range lines[1:] {
		last := &out[len(out)-1]
		left := 0
		for _, x := range t.cuts[i] {
			if x <= last.To {
				left++
			}
		}
		if left%2 == 1 {
			last.To = s.To
		} else {
			out = append(out, s)
		}
	}
	return out
}

// union sorts spans and joins those that touch.
func union(all []Span) []Span {
	slices.SortFunc(all, func(a, b Span) int { return cmp.Compare(a.From, b.From) })
	out := all[:0:0]
	for _, s := range all {
		if n := len(out); n > 0 && s.From <= out[n-1].To {
			out[n-1].To = max(out[n-1].To, s.To)
		} else {
			out = append(out, s)
		}
	}
	return out
}

// shared calls do with the slices that both profiles have, until it returns false.
func (p Profile) shared(q Profile, do func(a, b []Span) bool) {
	for k := max(p.first, q.first); k < min(p.first+len(p.rows), q.first+len(q.rows)); k++ {
		if !do(p.rows[k-p.first], q.rows[k-q.first]) {
			return
		}
	}
}

// Taken returns the ranges of x by which q may not be moved along, since it
// would overlap p; at their ends the two touch. It may lie in a hollow of p,
// and p in one of q.
func (p Profile) Taken(q Profile) []Span {
	var out []Span
	p.shared(q, func(a, b []Span) bool {
		for _, s := range a {
			for _, t := range b {
				out = taking(out, Span{s.From - t.To, s.To - t.From})
			}
		}
		return true
	})
	return out
}

// taking adds a span to those that do not overlap each other.
func taking(all []Span, s Span) []Span {
	kept := all[:0]
	for _, o := range all {
		if o.over(s) {
			s = Span{min(o.From, s.From), max(o.To, s.To)}
		} else {
			kept = append(kept, o)
		}
	}
	return append(kept, s)
}

// Over reports whether two profiles overlap by more than rounding makes.
func (p Profile) Over(q Profile) bool {
	found := false
	p.shared(q, func(a, b []Span) bool {
		for _, s := range a {
			for _, t := range b {
				found = found || s.From < t.To-rounding && t.From < s.To-rounding
			}
		}
		return !found
	})
	return found
}

// rounding is the length in mm by which profiles overlap unseen.
const rounding = 1e-6

// Raised returns the profile moved up by that many slices.
func (p Profile) Raised(by int) Profile {
	p.first += by
	return p
}

// Shifted returns the profile moved along by x mm.
func (p Profile) Shifted(x float64) Profile {
	moved := Profile{first: p.first, rows: make([][]Span, len(p.rows)), Min: p.Min + x, Max: p.Max + x}
	for i, r := range p.rows {
		moved.rows[i] = make([]Span, len(r))
		for k, s := range r {
			moved.rows[i][k] = Span{s.From + x, s.To + x}
		}
	}
	return moved
}

// Grown returns the profile of the outline with gap mm around it, measured
// along x and across, whichever is greater.
func (p Profile) Grown(gap float64) Profile {
	if gap <= 0 {
		return p
	}
	by := int(math.Ceil(gap / Band))
	rows := make([][]Span, len(p.rows)+2*by)
	for i := range rows {
		var all []Span
		for k := max(i-2*by, 0); k <= min(i, len(p.rows)-1); k++ {
			for _, s := range p.rows[k] {
				all = append(all, Span{s.From - gap, s.To + gap})
			}
		}
		rows[i] = union(all)
	}
	return of(p.first-by, rows)
}

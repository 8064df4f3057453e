package border

import (
	"cmp"
	"math"
	"slices"
)

// searcher looks for the order and borders that take the least length.
type searcher struct {
	ways   [][]way // of each cut
	flat   []way   // all of them
	index  [][]int // of each cut's ways in flat
	table  table
	repeat float64
	phases []float64 // of the left ends of the ways, in [0, repeat)
	held   row       // pieces laid by hand
	ends   span      // of those

	best laid
}

const (
	// rounds bounds the search by trying changes.
	rounds = 60
	// shorter is the least length in mm by which a plan counts as shorter.
	shorter = 1e-7
)

func newSearcher(t job) *searcher {
	f := &searcher{ways: ways(t.lace, t.cuts, t.by), table: t.table, repeat: t.lace.Lace.Repeat, ends: span{math.Inf(1), math.Inf(-1)}}
	for _, list := range f.ways {
		var at []int
		for _, w := range list {
			at = append(at, len(f.flat))
			f.flat = append(f.flat, w)
			if w.byHand() {
				f.held.order, f.held.x = append(f.held.order, at[0]), append(f.held.x, w.at)
				f.ends = span{min(f.ends.from, w.at+w.reach.from), max(f.ends.to, w.at+w.reach.to)}
				continue
			}
			start := cycle(w.phase+w.reach.from, f.repeat)
			if !slices.Contains(f.phases, start) {
				f.phases = append(f.phases, start)
			}
		}
		f.index = append(f.index, at)
	}
	f.held.right = f.ends.to
	slices.Sort(f.phases)
	return f
}

// starts returns the places at which a plan may begin that is no longer than
// the best so far: any place of the repeat, when nothing was laid by hand.
func (f *searcher) starts() []float64 {
	if len(f.held.order) == 0 {
		return f.phases
	}
	out := []float64{f.ends.from}
	if f.best.ways == nil {
		return out
	}
	for _, at := range f.phases {
		for x := at + f.repeat*math.Floor((f.ends.from-at)/f.repeat); x > f.ends.to-f.best.span; x -= f.repeat {
			out = append(out, x)
		}
	}
	return out
}

// row is ways, by their places in flat, and where they lie.
type row struct {
	order []int
	x     []float64
	right float64 // the rightmost place so far
}

// push lays one more way, as far left as it may lie beside those before it.
func (f *searcher) push(r row, w int, start float64) row {
	way := f.flat[w]
	var all []span
	for i, o := range r.order {
		for _, s := range f.table[f.flat[o].shape][way.shape] {
			all = append(all, span{s.from + r.x[i] + fits, s.to + r.x[i] - fits})
		}
	}
	slices.SortFunc(all, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	x := next(start-way.reach.from, way.phase, f.repeat)
	for _, s := range all {
		if x > s.from && x < s.to {
			x = next(s.to, way.phase, f.repeat)
		}
	}
	return row{append(slices.Clip(r.order), w), append(slices.Clip(r.x), x), max(r.right, x+way.reach.to)}
}

// keep remembers a whole row when it is shorter than the best so far.
func (f *searcher) keep(r row) bool {
	left := math.Inf(1)
	for i, w := range r.order {
		left = min(left, r.x[i]+f.flat[w].reach.from)
	}
	long := r.right - left
	if f.best.ways != nil && long > f.best.span-shorter {
		return false
	}
	f.best = laid{span: long, x: slices.Clone(r.x)}
	for _, w := range r.order {
		f.best.ways = append(f.best.ways, f.flat[w])
	}
	return true
}

// nearest lays a cut on the border where it ends farthest left.
func (f *searcher) nearest(r row, cut int, start float64) row {
	var pick row
	for _, w := range f.index[cut] {
		if t := f.push(r, w, start); pick.order == nil || t.right < pick.right-shorter {
			pick = t
		}
	}
	return pick
}

// greedy lays, again and again, what adds the least length; and the pieces one
// after the other, as they come and the longest first. It returns the best order.
func (f *searcher) greedy() []int {
	var free []int
	for c, list := range f.ways {
		if !list[0].byHand() {
			free = append(free, c)
		}
	}
	longest := slices.Clone(free)
	slices.SortStableFunc(longest, func(a, b int) int {
		u, v := f.ways[a][0].reach, f.ways[b][0].reach
		return cmp.Compare(v.to-v.from, u.to-u.from)
	})
	kept := slices.Clone(f.held.order)
	take := func(r row) {
		if f.keep(r) {
			kept = r.order
		}
	}
	take(f.inOrder(free, f.starts()[0]))
	for _, start := range f.starts() {
		take(f.inOrder(free, start))
		take(f.inOrder(longest, start))
		r, left := f.held, slices.Clone(free)
		for len(left) > 0 {
			var pick row
			at := 0
			for i, c := range left {
				if t := f.nearest(r, c, start); pick.order == nil || t.right < pick.right-shorter {
					pick, at = t, i
				}
			}
			r, left = pick, slices.Delete(left, at, at+1)
		}
		take(r)
	}
	return kept[len(f.held.order):]
}

func (f *searcher) inOrder(cuts []int, start float64) row {
	r := f.held
	for _, c := range cuts {
		r = f.nearest(r, c, start)
	}
	return r
}

// follow lays an order of ways from every start and reports whether that is
// shorter than all before.
func (f *searcher) follow(order []int) bool {
	found := false
	for _, start := range f.starts() {
		r := f.held
		for _, w := range order {
			if r = f.push(r, w, start); r.right-start > f.best.span+f.repeat {
				break
			}
		}
		if len(r.order) == len(f.ways) && f.keep(r) {
			found = true
		}
	}
	return found
}

// improve changes an order as long as that makes it shorter: a piece to the
// other border, or to another place in the order.
func (f *searcher) improve(order []int) {
	for range rounds {
		better := false
		for c := range f.ways {
			if f.ways[c][0].byHand() {
				continue
			}
			for _, w := range f.index[c] {
				for j := range order {
					i := slices.IndexFunc(order, func(o int) bool { return f.flat[o].cut == c })
					if order[i] == w && i == j {
						continue
					}
					t := slices.Insert(slices.Delete(slices.Clone(order), i, i+1), j, w)
					if f.follow(t) {
						order, better = t, true
					}
				}
			}
		}
		if !better {
			return
		}
	}
}

// places is the number of places in the repeat that a free spot is tried at.
const places = 24

// shortest returns the shortest plan that is found, and says whether none is
// shorter. When there are too many to go through, the places in the motif that
// were left free are tried piece by piece, until no other one makes it shorter.
func (t job) shortest() Plan {
	f := newSearcher(t)
	f.improve(f.greedy())
	best, least := prove(t, f.best)
	if !least {
		t = t.settleMotif()
		f = newSearcher(t)
		f.improve(f.greedy())
		if f.best.span < best.span-shorter {
			best, _ = prove(t, f.best)
		}
	}
	t.cuts = slices.Clone(t.cuts)
	for i, w := range best.ways {
		if c := &t.cuts[w.cut]; !c.settled {
			c.Motif = motif(t.lace.Lace, *c, w.second, best.x[i])
		}
	}
	return best.plan(t, least)
}

// settleMotif returns the job with the free places in the motif that gave the
// shortest greedy plan.
func (t job) settleMotif() job {
	var free []string
	for _, c := range t.cuts {
		if !c.settled && !slices.Contains(free, c.Piece) {
			free = append(free, c.Piece)
		}
	}
	long := func(t job) float64 {
		f := newSearcher(t)
		f.greedy()
		return f.best.span
	}
	best := long(t)
	for better := len(free) > 0; better; {
		better = false
		for _, piece := range free {
			for k := range places {
				try := t
				try.cuts = slices.Clone(t.cuts)
				for i := range try.cuts {
					if try.cuts[i].Piece == piece {
						try.cuts[i].Motif = t.lace.Lace.Repeat * float64(k) / places
					}
				}
				if l := long(try); l < best-shorter {
					best, t, better = l, try, true
				}
			}
		}
	}
	return t
}

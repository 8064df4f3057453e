package border

import (
	"math"
	"slices"
)

// searcher looks for the order and borders that take the least length.
type searcher struct {
	ways   [][]way // of each cut
	flat   []way   // all of them
	apart  [][]float64
	index  [][]int // of each cut's ways in flat
	repeat float64
	phases []float64 // of the left ends of the ways, in [0, repeat)
	held   []int     // ways of pieces laid by hand
	bound  float64   // the leftmost place of those, +Inf when there are none
	reach  float64   // the rightmost

	best  laid
	nodes int
}

const (
	// exactNodes bounds the search that proves a plan the shortest; six pieces
	// on two borders take less.
	exactNodes = 2_000_000
	// rounds bounds the search by trying changes.
	rounds = 60
	// shorter is the least length in mm by which a plan counts as shorter.
	shorter = 1e-7
)

func newSearcher(t job) *searcher {
	f := &searcher{ways: ways(t.lace, t.cuts, t.by), repeat: t.lace.Lace.Repeat, bound: math.Inf(1), reach: math.Inf(-1)}
	for _, list := range f.ways {
		var at []int
		for _, w := range list {
			at = append(at, len(f.flat))
			f.flat = append(f.flat, w)
			if w.byHand() {
				f.held = append(f.held, len(f.flat)-1)
				f.bound, f.reach = min(f.bound, w.at+w.profile.Min), max(f.reach, w.at+w.profile.Max)
				continue
			}
			start := cycle(w.phase+w.profile.Min, f.repeat)
			if !slices.Contains(f.phases, start) {
				f.phases = append(f.phases, start)
			}
		}
		f.index = append(f.index, at)
	}
	slices.Sort(f.phases)
	f.apart = make([][]float64, len(f.flat))
	for i := range f.flat {
		f.apart[i] = make([]float64, len(f.flat))
		for j := range f.flat {
			f.apart[i][j] = t.apart[f.flat[i].index()][f.flat[j].index()]
		}
	}
	return f
}

// starts returns the places at which a plan may begin that is no longer than
// the best so far: any place of the repeat, when nothing was laid by hand.
func (f *searcher) starts() []float64 {
	if len(f.held) == 0 {
		return f.phases
	}
	out := []float64{f.bound}
	for _, at := range f.phases {
		for x := at + f.repeat*math.Floor((f.bound-at)/f.repeat); x > f.reach-f.best.span; x -= f.repeat {
			out = append(out, x)
		}
	}
	return out
}

// row is an order of ways, by their places in flat, and where they lie.
type row struct {
	order []int
	x     []float64
	right float64 // the rightmost place so far
}

// push lays one more way; false when it was laid by hand and is in the way of
// those before it.
func (f *searcher) push(r row, w int, start float64) (row, bool) {
	least := start - f.flat[w].profile.Min
	for i, o := range r.order {
		if d := f.apart[o][w]; !math.IsInf(d, -1) {
			least = max(least, r.x[i]+d)
		}
	}
	x := next(least, f.flat[w].phase, f.repeat)
	if f.flat[w].byHand() {
		if x = f.flat[w].at; x < least-fits {
			return row{}, false
		}
	}
	return row{append(slices.Clip(r.order), w), append(slices.Clip(r.x), x), max(r.right, x+f.flat[w].profile.Max)}, true
}

// keep remembers a whole row when it is shorter than the best so far.
func (f *searcher) keep(r row) bool {
	left := math.Inf(1)
	for i, w := range r.order {
		left = min(left, r.x[i]+f.flat[w].profile.Min)
	}
	span := r.right - left
	if f.best.ways != nil && span > f.best.span-shorter {
		return false
	}
	f.best = laid{span: span, x: slices.Clone(r.x)}
	for _, w := range r.order {
		f.best.ways = append(f.best.ways, f.flat[w])
	}
	return true
}

// greedy lays, again and again, what adds the least length.
func (f *searcher) greedy() []int {
	var kept []int
	for _, start := range f.starts() {
		r, used := row{right: math.Inf(-1)}, make([]bool, len(f.ways))
		for range f.ways {
			var pick row
			for c := range f.ways {
				if used[c] {
					continue
				}
				for _, w := range f.index[c] {
					t, _ := f.push(r, w, start)
					if pick.order == nil || t.right < pick.right-shorter {
						pick = t
					}
				}
			}
			r = pick
			used[f.flat[r.order[len(r.order)-1]].cut] = true
		}
		if f.keep(r) {
			kept = r.order
		}
	}
	return kept
}

// follow lays an order from every start and reports whether that is shorter
// than all before.
func (f *searcher) follow(order []int) bool {
	found := false
	for _, start := range f.starts() {
		r, fine := row{right: math.Inf(-1)}, true
		for _, w := range order {
			if r, fine = f.push(r, w, start); !fine || r.right-start > f.best.span+f.repeat {
				break
			}
		}
		if len(r.order) == len(order) && f.keep(r) {
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

// prove goes through all orders that could be shorter than the best so far;
// it reports whether it got through them.
func (f *searcher) prove() bool {
	used := make([]bool, len(f.ways))
	for _, start := range f.starts() {
		if !f.descend(row{right: math.Inf(-1)}, used, start) {
			return false
		}
	}
	return true
}

func (f *searcher) descend(r row, used []bool, start float64) bool {
	if len(r.order) == len(f.ways) {
		f.keep(r)
		return true
	}
	seen := make([]bool, len(f.ways))
	for c := range f.ways {
		kind := f.ways[c][0].kind
		if used[c] || seen[kind] {
			continue
		}
		seen[kind] = true // the first unused of equal pieces stands for them all
		used[c] = true
		for _, w := range f.index[c] {
			if n := len(r.order); n > 0 {
				// Two pieces that may pass each other give the same in either order.
				if last := r.order[n-1]; math.IsInf(f.apart[last][w], -1) && f.flat[last].cut > c {
					continue
				}
			}
			if f.nodes++; f.nodes > exactNodes {
				used[c] = false
				return false
			}
			t, fine := f.push(r, w, start)
			if !fine || t.right-start > f.best.span-shorter {
				continue
			}
			if !f.descend(t, used, start) {
				used[c] = false
				return false
			}
		}
		used[c] = false
	}
	return true
}

// around lays the free pieces about those laid by hand, again and again the one
// that adds the least length at the place where it does, and returns the order.
func (f *searcher) around() []int {
	r, used := row{right: f.reach}, make([]bool, len(f.ways))
	left := f.bound
	for _, w := range f.held {
		r.order, r.x = append(r.order, w), append(r.x, f.flat[w].at)
		used[f.flat[w].cut] = true
	}
	for range len(f.ways) - len(f.held) {
		best, pick, place := math.Inf(1), 0, 0.0
		for w, way := range f.flat {
			if used[way.cut] {
				continue
			}
			for _, x := range f.beside(r, w) {
				span := max(r.right, x+way.profile.Max) - min(left, x+way.profile.Min)
				if span < best-shorter && f.free(r, w, x) {
					best, pick, place = span, w, x
				}
			}
		}
		r.order, r.x = append(r.order, pick), append(r.x, place)
		r.right, left = max(r.right, place+f.flat[pick].profile.Max), min(left, place+f.flat[pick].profile.Min)
		used[f.flat[pick].cut] = true
	}
	f.keep(r)
	return f.sorted(r)
}

// beside lists the places at which a way lies as near as can be to the right or
// to the left of one that is laid, or at the ends of what is used.
func (f *searcher) beside(r row, w int) []float64 {
	way := f.flat[w]
	before := func(x float64) float64 { return -next(-x, cycle(-way.phase, f.repeat), f.repeat) }
	out := []float64{next(f.bound-way.profile.Min, way.phase, f.repeat), before(r.right - way.profile.Max)}
	for i, o := range r.order {
		if d := f.apart[o][w]; !math.IsInf(d, -1) {
			out = append(out, next(r.x[i]+d, way.phase, f.repeat), before(r.x[i]-f.apart[w][o]))
		}
	}
	return out
}

// free reports whether a way may lie at x.
func (f *searcher) free(r row, w int, x float64) bool {
	for i, o := range r.order {
		if d := f.apart[o][w]; !math.IsInf(d, -1) && x < r.x[i]+d-fits && x > r.x[i]-f.apart[w][o]+fits {
			return false
		}
	}
	return true
}

// sorted returns the ways of a row in an order in which none has an earlier one
// on its right.
func (f *searcher) sorted(r row) []int {
	var out []int
	laid := make([]bool, len(r.order))
	for range r.order {
		for i, w := range r.order {
			first := !laid[i]
			for k, o := range r.order {
				if d := f.apart[w][o]; k != i && !laid[k] && !math.IsInf(d, -1) && r.x[k] < r.x[i]+d-fits {
					first = false // o lies left of w
				}
			}
			if first {
				laid[i] = true
				out = append(out, w)
				break
			}
		}
	}
	return out
}

// search returns the best plan of a job whose places in the motif are given.
func search(t job, prove bool) (laid, bool) {
	f := newSearcher(t)
	if len(f.held) > 0 {
		f.improve(f.around())
	} else {
		f.improve(f.greedy())
	}
	return f.best, prove && f.prove()
}

// places is the number of places in the repeat that a free spot is tried at.
const places = 24

// settleMotif finds the places in the motif that were left free, piece by
// piece, until no other place makes the plan shorter, and returns the plan.
func (t job) settleMotif() Plan {
	var free []string
	for _, c := range t.cuts {
		if !c.settled && !slices.Contains(free, c.Piece) {
			free = append(free, c.Piece)
		}
	}
	best, _ := search(t, false)
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
				if l, _ := search(try, false); l.span < best.span-shorter {
					best, t, better = l, try, true
				}
			}
		}
	}
	best, least := search(t, true)
	return best.plan(t, least && len(free) == 0)
}

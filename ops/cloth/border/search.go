package border

import (
	"math"
	"slices"

	"truemat/ops/cloth"
)

// searcher looks for the order and borders that take the least length.
type searcher struct {
	ways   [][]way // of each cut
	flat   []way   // all of them
	apart  [][]float64
	index  [][]int // of each cut's ways in flat
	repeat float64
	starts []float64

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

func newSearcher(lace cloth.Cloth, cuts []Cut, gap float64) *searcher {
	f := &searcher{ways: ways(lace, cuts), repeat: lace.Lace.Repeat}
	for _, list := range f.ways {
		var at []int
		for _, w := range list {
			at = append(at, len(f.flat))
			f.flat = append(f.flat, w)
			start := cycle(w.phase+w.profile.Min, f.repeat)
			if !slices.Contains(f.starts, start) {
				f.starts = append(f.starts, start)
			}
		}
		f.index = append(f.index, at)
	}
	slices.Sort(f.starts)
	f.apart = make([][]float64, len(f.flat))
	for i := range f.flat {
		f.apart[i] = make([]float64, len(f.flat))
		for j := range f.flat {
			f.apart[i][j] = f.flat[i].profile.Grown(gap).Apart(f.flat[j].profile)
		}
	}
	return f
}

// row is an order of ways, by their places in flat, and where they lie.
type row struct {
	order []int
	x     []float64
	right float64 // the rightmost place so far
}

// push lays one more way.
func (f *searcher) push(r row, w int, start float64) row {
	least := start - f.flat[w].profile.Min
	for i, o := range r.order {
		if d := f.apart[o][w]; !math.IsInf(d, -1) {
			least = max(least, r.x[i]+d)
		}
	}
	x := next(least, f.flat[w].phase, f.repeat)
	return row{append(slices.Clip(r.order), w), append(slices.Clip(r.x), x), max(r.right, x+f.flat[w].profile.Max)}
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
	for _, start := range f.starts {
		r, used := row{right: math.Inf(-1)}, make([]bool, len(f.ways))
		for range f.ways {
			var pick row
			for c := range f.ways {
				if used[c] {
					continue
				}
				for _, w := range f.index[c] {
					t := f.push(r, w, start)
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
	for _, start := range f.starts {
		r := row{right: math.Inf(-1)}
		for _, w := range order {
			if r = f.push(r, w, start); r.right-start > f.best.span+f.repeat {
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
	for _, start := range f.starts {
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
			t := f.push(r, w, start)
			if t.right-start > f.best.span-shorter {
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

// search returns the best plan of cuts whose places in the motif are given.
func search(lace cloth.Cloth, cuts []Cut, gap float64, prove bool) (laid, bool) {
	f := newSearcher(lace, cuts, gap)
	f.improve(f.greedy())
	return f.best, prove && f.prove()
}

// places is the number of places in the repeat that a free spot is tried at.
const places = 24

// settleMotif finds the places in the motif that were left free, piece by
// piece, until no other place makes the plan shorter, and returns the plan.
func settleMotif(lace cloth.Cloth, cuts []Cut, gap float64) Plan {
	cuts = slices.Clone(cuts)
	var free []string
	for i := range cuts {
		if !cuts[i].Held && !slices.Contains(free, cuts[i].Piece) {
			free = append(free, cuts[i].Piece)
		}
	}
	best, _ := search(lace, cuts, gap, false)
	for better := len(free) > 0; better; {
		better = false
		for _, piece := range free {
			for k := range places {
				t := slices.Clone(cuts)
				for i := range t {
					if t[i].Piece == piece {
						t[i].Motif = lace.Lace.Repeat * float64(k) / places
					}
				}
				if l, _ := search(lace, t, gap, false); l.span < best.span-shorter {
					best, cuts, better = l, t, true
				}
			}
		}
	}
	best, least := search(lace, cuts, gap, true)
	return best.plan(lace, cuts, least && len(free) == 0)
}

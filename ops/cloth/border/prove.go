package border

import (
	"cmp"
	"math"
	"slices"
)

const (
	// proofNodes bounds the going through of plans.
	proofNodes = 60_000
	// sooner is the least length in mm by which a plan must be shorter there.
	sooner = 1e-6
)

// prover goes through all plans that are shorter than the best so far.
//
// A plan says of every piece on which border it lies, and of every two pieces in
// which of the ranges that are not taken the one lies from the other. Given those,
// the places are bound by their differences alone, and by the motif: pieces of
// which the place in it is chosen lie in whole repeats from there, others of one
// kind in whole repeats from each other, or from the mirrored place. All of
// that bounds sums and differences of two places (see bounds), to whole repeats
// where those are known. So borders, ranges and, where they are not yet one,
// numbers of repeats are gone through as a tree, each branch left as soon as its
// bounds contradict each other or the length to be bettered.
type prover struct {
	job   job
	cuts  []int // by their place in the job, the longest first
	ways  [][]way
	best  laid
	nodes int
}

// state is a part of a plan: the ways of the first pieces, and what binds them.
type state struct {
	ways []way
	bounds
}

// prove returns the shortest plan and whether it is known that none is shorter.
func prove(t job, best laid) (laid, bool) {
	f := &prover{job: t, best: best}
	all := ways(t.lace, t.cuts, t.by)
	for c := range all {
		f.cuts = append(f.cuts, c)
	}
	long := func(c int) float64 {
		if all[c][0].byHand() {
			return math.Inf(1)
		}
		return all[c][0].reach.to - all[c][0].reach.from
	}
	slices.SortStableFunc(f.cuts, func(a, b int) int { return cmp.Compare(long(b), long(a)) })
	for _, c := range f.cuts {
		f.ways = append(f.ways, all[c])
	}
	done := f.next(state{bounds: unbound(len(f.cuts))})
	return f.best, done
}

// next lays one more piece on each border that it may lie on. It returns false
// when there are too many plans to go through.
func (f *prover) next(s state) bool {
	i := len(s.ways)
	for _, w := range f.ways[i] {
		t := state{append(slices.Clip(s.ways), w), s.clone()}
		if f.twin(t, i) && t.ways[f.earlier(t, i)].second && !w.second {
			continue // the same with the two exchanged
		}
		ok := true
		switch {
		case w.byHand():
			ok = f.bind(&t, 2*i, 2*i+1, 2*w.at) && f.bind(&t, 2*i+1, 2*i, -2*w.at)
		case i == 0: // any motif point may be the first
			ok = f.bind(&t, 0, 1, 2*f.job.lace.Lace.Repeat) && f.bind(&t, 1, 0, 0)
		}
		if ok && !f.descend(t) {
			return false
		}
	}
	return true
}

// twin reports whether an equal piece has been laid before piece i.
func (f *prover) twin(s state, i int) bool { return f.earlier(s, i) >= 0 }

// earlier returns the last equal piece that was laid before piece i, or −1.
func (f *prover) earlier(s state, i int) int {
	for k := i - 1; k >= 0; k-- {
		if s.ways[k].kind == s.ways[i].kind && !s.ways[k].byHand() {
			return k
		}
	}
	return -1
}

// descend goes through all plans that a part of one leads to.
func (f *prover) descend(s state) bool {
	if f.nodes++; f.nodes > proofNodes {
		return false
	}
	if !f.within(&s, f.best.span-sooner) {
		return true
	}
	a, b, choice, ok := f.settle(&s)
	switch {
	case !ok:
		return true
	case len(choice) > 0:
		for _, g := range choice {
			t := state{s.ways, s.clone()}
			if f.apart(&t, a, b, g) && !f.descend(t) {
				return false
			}
		}
		return true
	case len(s.ways) < len(f.ways):
		return f.next(s)
	}
	u, v, split := f.repeats(&s)
	if !split {
		f.shortest(s)
		return true
	}
	_, high := s.between(u, v)
	low := -s.at(v, u)
	middle := low + (high-low)/2
	below, above := state{s.ways, s.clone()}, state{s.ways, s.clone()}
	mod, rest, _ := f.whole(&s, u, v)
	cut := rest + mod*math.Floor((middle-rest)/mod)
	if f.bind(&below, u, v, cut) && !f.descend(below) {
		return false
	}
	return !f.bind(&above, v, u, -(cut+mod)) || f.descend(above)
}

// within bounds the length that the pieces take.
func (f *prover) within(s *state, long float64) bool {
	for i, v := range s.ways {
		for k, w := range s.ways {
			if i != k && !f.bind(s, 2*i, 2*k, long-v.reach.to+w.reach.from) {
				return false
			}
		}
	}
	return true
}

// settle puts every two pieces apart that can lie in one range only, again
// and again, and returns those of the others that have the fewest to choose from.
// It returns false when two have none.
func (f *prover) settle(s *state) (a, b int, choice []span, ok bool) {
	for changed := true; changed; {
		changed, choice = false, nil
		for k := range s.ways {
			for i := range k {
				free := f.free(s, i, k)
				low, high := s.between(2*k, 2*i)
				switch {
				case len(free) == 0:
					return 0, 0, nil, false
				case len(free) > 1:
					if choice == nil || len(free) < len(choice) {
						a, b, choice = i, k, free
					}
				case free[0].from > low+2*fits || free[0].to < high-2*fits:
					if !f.apart(s, i, k, free[0]) {
						return 0, 0, nil, false
					}
					changed = true
				}
			}
		}
	}
	return a, b, choice, true
}

// apart keeps piece k by a range right of piece i.
func (f *prover) apart(s *state, i, k int, g span) bool {
	return f.bind(s, 2*k, 2*i, g.to) && f.bind(s, 2*i, 2*k, -g.from)
}

// free returns the ranges not taken in which piece k may still lie right of
// piece i.
func (f *prover) free(s *state, i, k int) []span {
	low, high := s.between(2*k, 2*i)
	if v, w := s.ways[i], s.ways[k]; v.kind == w.kind && v.second == w.second && !v.byHand() && !w.byHand() {
		low = max(low, 0) // equal pieces from left to right
	}
	mod, rest, known := f.whole(s, 2*k, 2*i)
	var out []span
	from := math.Inf(-1)
	add := func(to float64) {
		g := span{max(from, low), min(to, high)}
		if g.from > g.to+fits || known && !holds(g, mod, rest) {
			return
		}
		out = append(out, span{from, to})
	}
	for _, t := range f.job.table[s.ways[i].shape][s.ways[k].shape] {
		if t.from > high {
			break
		}
		add(t.from)
		from = t.to
	}
	add(math.Inf(1))
	return out
}

// holds reports whether a range has a place that is the rest of whole repeats.
func holds(g span, mod, rest float64) bool {
	if math.IsInf(g.from, 0) || math.IsInf(g.to, 0) {
		return true
	}
	return rest+mod*math.Ceil((g.from-rest-fits)/mod) <= g.to+fits
}

// repeats returns two places, as signed variables, of which it is not yet known
// how many repeats they are apart.
func (f *prover) repeats(s *state) (u, v int, found bool) {
	fewest := math.Inf(1)
	for a := range 2 * len(s.ways) {
		for b := range a {
			mod, _, known := f.whole(s, a, b)
			if !known {
				continue
			}
			low, high := s.between(a, b)
			if n := (high - low) / mod; n > 0.5 && n < fewest {
				u, v, found, fewest = a, b, true, n
			}
		}
	}
	return u, v, found
}

// whole returns of what length the difference of two signed places is a whole
// number, but for a rest; false when the motif does not say.
func (f *prover) whole(s *state, a, b int) (mod, rest float64, known bool) {
	v, w := s.ways[a/2], s.ways[b/2]
	p, q := &f.job.cuts[v.cut], &f.job.cuts[w.cut]
	repeat := f.job.lace.Lace.Repeat
	sign := func(a int) float64 { return 1 - 2*float64(a%2) }
	switch {
	case a == b:
		return 0, 0, false
	case p.settled && q.settled:
		mod, rest = repeat, sign(a)*v.phase-sign(b)*w.phase
		if a/2 == b/2 {
			mod *= 2
		}
		return mod, rest, true
	case a/2 == b/2, p.Piece != q.Piece, sign(a)*v.sense(p) != sign(b)*w.sense(q):
		return 0, 0, false
	}
	return repeat, sign(a)*f.job.shift(v) - sign(b)*f.job.shift(w), true
}

// sense is −1 where a cut lies farther left on the lace the farther behind a
// motif point it is held.
func (w way) sense(c *Cut) float64 {
	if w.second {
		return -c.sign()
	}
	return c.sign()
}

// shift is how far the motif points of the border of a way lie behind those of
// the first.
func (t job) shift(w way) float64 {
	if w.second {
		return t.lace.Lace.Shift
	}
	return 0
}

// bind keeps the difference of two signed places at most c.
func (f *prover) bind(s *state, a, b int, c float64) bool {
	return s.limit(a, b, c, func(a, b int, c float64) float64 {
		if a/2 >= len(s.ways) || b/2 >= len(s.ways) {
			return c
		}
		mod, rest, known := f.whole(s, a, b)
		if !known {
			return c
		}
		return rest + mod*math.Floor((c-rest+fits)/mod)
	})
}

// shortest finds the shortest plan that the bounds leave and keeps it.
func (f *prover) shortest(s state) {
	try := func(long float64) (state, bool) {
		t := state{s.ways, s.clone()}
		return t, f.within(&t, long)
	}
	low, high := 0.0, f.best.span-sooner
	for high-low > sooner/100 {
		if middle := (low + high) / 2; middle <= low || middle >= high {
			break
		} else if _, ok := try(middle); ok {
			high = middle
		} else {
			low = middle
		}
	}
	t, ok := try(high)
	if !ok {
		return
	}
	found := laid{ways: s.ways, x: make([]float64, len(s.ways))}
	left, right := math.Inf(1), math.Inf(-1)
	for i, w := range s.ways {
		x := -t.at(2*i+1, 2*i) / 2
		if !f.bind(&t, 2*i, 2*i+1, 2*x) {
			return
		}
		found.x[i] = x
		left, right = min(left, x+w.reach.from), max(right, x+w.reach.to)
	}
	if found.span = right - left; found.span < f.best.span {
		f.best = found
	}
}

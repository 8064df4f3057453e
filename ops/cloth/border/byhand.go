package border

import (
	"fmt"
	"math"
	"slices"

	"truemat/ops/cloth"
)

// hold is where a cut lies because she laid it there.
type hold struct {
	held   bool
	loose  bool // it was not she who laid it
	second bool
	at     float64
}

// offMost is how far in mm a piece laid by hand may be off the place in the
// motif that it belongs on.
const offMost = 0.01

// settle finds which cuts were laid by hand, and with that where in the motif
// all cuts of the same piece lie.
func settle(lace cloth.Cloth, cuts []Cut, places []cloth.Place) ([]Cut, []hold, error) {
	cuts, by := slices.Clone(cuts), make([]hold, len(cuts))
	for _, p := range places {
		i := -1
		for k, c := range cuts {
			if i < 0 && !by[k].held && c.Piece == p.Piece && (c.Hand == Mirrored) == p.Mirrored {
				i = k
			}
		}
		if i < 0 {
			return nil, nil, fmt.Errorf("%s is laid by hand on %q more often than it is cut from it; forget what was laid by hand", hand(p.Piece, p.Mirrored), lace.Name)
		}
		if p.Second && !lace.Lace.Both {
			return nil, nil, fmt.Errorf("%s is laid by hand on the second border of %q, which has one only; forget what was laid by hand", hand(p.Piece, p.Mirrored), lace.Name)
		}
		if !cuts[i].liesOn(lace.Lace, p.Second) {
			return nil, nil, fmt.Errorf("%s is laid by hand on a border of %q whose scallops are not as deep as it is to lie below the valley line; forget what was laid by hand", hand(p.Piece, p.Mirrored), lace.Name)
		}
		by[i] = hold{true, p.Loose, p.Second, p.At}
		m := motif(lace.Lace, cuts[i], p.Second, p.At)
		if off := astray(m-cuts[i].Motif, lace.Lace.Repeat); cuts[i].settled && off > offMost {
			if cuts[i].Held {
				return nil, nil, fmt.Errorf("%s is laid by hand %.1f mm off the place in the motif that is chosen for it; move it there, or forget what was laid by hand", hand(p.Piece, p.Mirrored), off)
			}
			return nil, nil, fmt.Errorf("the pieces of %s are laid by hand %.1f mm off mirrored places of the motif; move one of them, or forget what was laid by hand", p.Piece, off)
		}
		for k := range cuts {
			if cuts[k].Piece == p.Piece && !cuts[k].settled {
				cuts[k].Motif, cuts[k].settled = m, true
			}
		}
	}
	return cuts, by, nil
}

// astray returns how far in mm two places in the repeat are apart.
func astray(d, repeat float64) float64 {
	d = cycle(d, repeat)
	return min(d, repeat-d)
}

func hand(piece string, mirrored bool) string {
	if mirrored {
		return piece + ", turned over,"
	}
	return piece
}

// Name names the piece, and its hand when it is turned over.
func (c Cut) Name() string {
	if c.Hand == Mirrored {
		return c.Piece + ", turned over"
	}
	return c.Piece
}

// held returns what was laid by hand alone.
func (t job) held() Plan {
	p := Plan{Lace: t.lace, Gap: t.gap, table: t.table}
	for i, c := range t.cuts {
		if t.by[i].held {
			p.Placed = append(p.Placed, Placed{Cut: c, Second: t.by[i].second, At: t.by[i].at, ways: waysOf(t.lace, c)})
		}
	}
	return p
}

// Wrong tells of two pieces that lie over each other, or nearer than the gap.
func (p Plan) Wrong() error {
	over := p.Overlaps()
	if len(over) == 0 {
		return nil
	}
	a, b := p.Placed[over[0][0]], p.Placed[over[0][1]]
	if p.Gap > 0 {
		return fmt.Errorf("%s and %s lie nearer to each other on %q than the %g mm that are to be between them; move one of them, or forget what was laid by hand", a.Name(), b.Name(), p.Lace.Name, p.Gap)
	}
	return fmt.Errorf("%s and %s lie over each other on %q; move one of them, or forget what was laid by hand", a.Name(), b.Name(), p.Lace.Name)
}

// Overlaps returns the pairs of pieces that lie over each other, or nearer
// than the gap, as indices into Placed.
func (p Plan) Overlaps() [][2]int {
	var out [][2]int
	for i := range p.Placed {
		for k := range i {
			if p.over(p.Placed[k], p.Placed[i]) {
				out = append(out, [2]int{k, i})
			}
		}
	}
	return out
}

// over reports whether two pieces lie over each other, or nearer than the gap.
func (p Plan) over(a, b Placed) bool {
	return inside(p.table[a.way().shape][b.way().shape], b.At-a.At)
}

// inside reports whether a move is one of those that are taken.
func inside(taken []span, x float64) bool {
	return slices.ContainsFunc(taken, func(s span) bool { return x > s.from+fits && x < s.to-fits })
}

// Near returns the place nearest to at, in mm along the lace, on which piece i
// may be laid by hand: where it lies in the motif in whole repeats, or when its
// place in the motif is free in steps of the repeat.
func (p Plan) Near(i int, second bool, at float64) float64 {
	o, by := p.Placed[i], p.Step()
	if o.Held {
		by = p.Lace.Lace.Repeat
	}
	from := phase(p.Lace.Lace, o.Cut, second)
	return from + by*math.Round((at-from)/by)
}

// Step is the distance in mm between the places that a piece which is free in
// the motif is laid on.
func (p Plan) Step() float64 { return p.Lace.Lace.Repeat / places }

// LiesOn reports whether piece i may lie on the second border, or the first.
func (p Plan) LiesOn(i int, second bool) bool { return p.Placed[i].liesOn(p.Lace.Lace, second) }

// Moved returns the plan with piece i laid by hand at a place of a border that it
// may lie on. The
// other pieces of its kind, its mirror partner among them, follow onto the
// like or mirrored places of the motif that are nearest to where they lay and
// free; their indices are returned too. The rest stays. Pieces may overlap
// after that.
func (p Plan) Moved(i int, second bool, at float64) (Plan, []int) {
	l := p.Lace.Lace
	p.Placed, p.Least = slices.Clone(p.Placed), false
	o := &p.Placed[i]
	o.Second, o.At, o.ByHand = second, at, true
	m := motif(l, o.Cut, o.Second, at)
	var follow []int
	for k := range p.Placed {
		f := &p.Placed[k]
		if f.Piece != o.Piece || astray(m-f.Motif, l.Repeat) <= phaseSlack {
			continue
		}
		f.Motif = m
		f.ways = waysOf(p.Lace, f.Cut)
		if k != i {
			f.ByHand = true
			p.follow(k)
			follow = append(follow, k)
		}
	}
	p.measure()
	return p, follow
}

// followMost is how many repeats a piece goes aside to lie free.
const followMost = 3

// follow lays piece k on the nearest place of its motif that is free, or else
// on the nearest.
func (p Plan) follow(k int) {
	f, l := &p.Placed[k], p.Lace.Lace
	was := f.At
	nearest := phase(l, f.Cut, f.Second)
	nearest += l.Repeat * math.Round((was-nearest)/l.Repeat)
	side := 1.0
	if nearest > was {
		side = -1
	}
	for n := range 2*followMost + 1 {
		// Nearest first: 0, 1, −1, 2, −2 … repeats towards the side it comes from.
		f.At = nearest + l.Repeat*side*float64((n+1)/2)*float64(1-2*((n+1)%2))
		free := true
		for j := range p.Placed {
			free = free && (j == k || !p.over(*f, p.Placed[j]))
		}
		if free {
			return
		}
	}
	f.At = nearest
}

// Places returns the places that keep every piece where it lies, those loose
// that she did not lay; none when she laid none of them. It leaves out those
// that are let go.
func (p Plan) Places(letGo func(i int) bool) []cloth.Place {
	var out []cloth.Place
	for i, o := range p.Placed {
		if letGo == nil || !letGo(i) {
			out = append(out, cloth.Place{Piece: o.Piece, Mirrored: o.Hand == Mirrored, Second: o.Second, At: o.At, Loose: !o.ByHand})
		}
	}
	if len(cloth.Firm(out)) == 0 {
		return nil
	}
	return out
}

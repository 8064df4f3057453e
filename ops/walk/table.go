package walk

import (
	"math"

	"truemat/ops/pattern"
)

// Pair is a notch of each side that belong together, at A and B mm.
type Pair struct {
	A, B           float64
	NotchA, NotchB pattern.SeamNotch
}

// Pairs returns the notches of both sides of a seam that belong together, in
// their order, at their lengths from its start; none when it states more ease
// than can be sewn in.
func Pairs(p pattern.Pattern, s pattern.Seam) []Pair {
	ease := p.Spread(s)
	if !ease.Sewable() {
		return nil
	}
	return pairs(p.SideNotches(s.A), p.SideNotches(s.B), ease)
}

// Row compares both sides from one pair of notches to the next.
type Row struct {
	From string `json:"from"` // as the notch of side A is called, or "start" or "end"
	To   string `json:"to"`
	// FromB and ToB are what the notches of side B are called where they are
	// called otherwise.
	FromB string  `json:"from_b,omitempty"`
	ToB   string  `json:"to_b,omitempty"`
	A     float64 `json:"a_mm"`
	B     float64 `json:"b_mm"`
	// Difference is A − B − Ease.
	Difference float64 `json:"difference_mm"`
	Ease       float64 `json:"ease_mm"` // stated for it
}

// Lone is a notch that has no partner on the other side.
type Lone struct {
	Side  Hand    `json:"side"`
	Piece string  `json:"piece"`
	Notch string  `json:"notch"`
	At    float64 `json:"at_mm"`      // on its own side
	Other float64 `json:"partner_mm"` // where it falls on the other side
	// Double says how it is cut.
	Double bool `json:"double,omitempty"`
}

// Table is a walk from notch to notch.
type Table struct {
	Seam string `json:"seam"`
	// SideA and SideB name the pieces of the sides.
	SideA string `json:"side_a"`
	SideB string `json:"side_b"`
	From  string `json:"walked_from"`
	Rows  []Row  `json:"rows"`
	// The whole of both sides.
	A          float64 `json:"a_mm"`
	B          float64 `json:"b_mm"`
	Difference float64 `json:"difference_mm"`
	Ease       float64 `json:"ease_mm"`
	Unmatched  []Lone  `json:"unmatched,omitempty"`
}

// Table returns the walk from notch to notch. Notches are matched in their
// order; those without a partner are named.
func (w *Walk) Table() Table {
	t := Table{
		Seam: w.name, SideA: PieceWords(w.A.Parts), SideB: PieceWords(w.B.Parts), From: w.first,
		A: w.A.Length, B: w.B.Length, Ease: w.Ease.EaseTo(w.A.Length),
		Unmatched: w.Unmatched(),
	}
	t.Difference = t.A - t.B - t.Ease
	last := Pair{}
	nameA, nameB := w.first, w.first
	row := func(to Pair, a, b string) {
		if to.A-last.A <= lengthSlack && to.B-last.B <= lengthSlack {
			nameA, nameB = a, b // a notch at the very end of the seam
			return
		}
		r := Row{From: nameA, To: a, FromB: nameB, ToB: b, A: to.A - last.A, B: to.B - last.B}
		if r.From == r.FromB {
			r.FromB = ""
		}
		if r.To == r.ToB {
			r.ToB = ""
		}
		r.Ease = w.Ease.EaseTo(to.A) - w.Ease.EaseTo(last.A)
		r.Difference = r.A - r.B - r.Ease
		t.Rows = append(t.Rows, r)
		last, nameA, nameB = to, a, b
	}
	for _, p := range w.Pairs {
		row(p, p.NotchA.Notch.Name, p.NotchB.Notch.Name)
	}
	row(Pair{A: w.A.Length, B: w.B.Length}, w.last, w.last)
	return t
}

// Unmatched returns the notches of both sides without a partner, those of side
// A first.
func (w *Walk) Unmatched() []Lone {
	var out []Lone
	for _, h := range []Hand{A, B} {
		for _, n := range w.Run(h).Notches {
			if !w.paired(h, n) {
				out = append(out, Lone{h, n.Piece, n.Notch.Name, n.At, w.On(h.Other(), n.At), n.Notch.Double})
			}
		}
	}
	return out
}

func (w *Walk) paired(h Hand, n pattern.SeamNotch) bool {
	for _, p := range w.Pairs {
		if h == A && p.NotchA == n || h == B && p.NotchB == n {
			return true
		}
	}
	return false
}

// unlike is how far in mm two notches, one single and the other double, may be
// taken to lie further apart than they do when partners are sought.
const unlike = 5

// pairs matches the notches of two sides in their order: all of the side that
// has fewer, so that the sum of their distances is least.
func pairs(a, b []pattern.SeamNotch, ease pattern.Spread) []Pair {
	cost := func(i, j int) float64 {
		// Measured on both sides, so that it is one whichever is called A.
		c := (math.Abs(ease.B(a[i].At)-b[j].At) + math.Abs(ease.A(b[j].At)-a[i].At)) / 2
		if a[i].Notch.Double != b[j].Notch.Double {
			c += unlike
		}
		return c
	}
	short, long := len(a), len(b)
	swap := short > long
	if swap {
		short, long = long, short
	}
	at := func(i, j int) float64 { // i of the side with fewer
		if swap {
			return cost(j, i)
		}
		return cost(i, j)
	}
	// best[i][j] is the least sum for the first i of the shorter and the first
	// j of the longer side.
	best := make([][]float64, short+1)
	for i := range best {
		best[i] = make([]float64, long+1)
		for j := range best[i] {
			switch {
			case i == 0:
			case j < i:
				best[i][j] = math.Inf(1)
			default:
				best[i][j] = min(best[i][j-1], best[i-1][j-1]+at(i-1, j-1))
			}
		}
	}
	out := make([]Pair, short)
	for i, j := short, long; i > 0; j-- {
		if j > i && best[i][j] == best[i][j-1] {
			continue
		}
		x, y := i-1, j-1
		if swap {
			x, y = y, x
		}
		out[i-1] = Pair{a[x].At, b[y].At, a[x], b[y]}
		i--
	}
	return out
}

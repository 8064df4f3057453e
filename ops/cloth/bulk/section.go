package bulk

import (
	"slices"

	"truemat/ops/pattern"
)

// Section is a thick place cut across its seam or folded edge, in mm. X runs
// from the seam to the side it is pressed to, or from the fold into the piece,
// depth from the outside of the garment in.
type Section struct {
	// Strips are the layers, the outermost first, as they are cut, their edges
	// folded under where nothing hides them.
	Strips []Strip `json:"strips"`
	// Bends are where layers turn back to their allowances.
	Bends []Bend `json:"bends"`
	// After are the layers as they are proposed, with their bends.
	After      []Strip `json:"trimmed_strips"`
	AfterBends []Bend  `json:"trimmed_bends"`
	// AsCut and Trimmed tell how thick it is from the seam on, before and after
	// the allowances are trimmed.
	AsCut   []Rise `json:"as_cut"`
	Trimmed []Rise `json:"trimmed"`
	// Reach is how far pieces are followed to either side of the seam, mm.
	Reach float64 `json:"reach_mm"`
	// Edge says that it is a folded edge, on which nothing is sewn; Folded that
	// edges of allowances are folded under; Open that it is a seam pressed open.
	Edge   bool `json:"edge,omitempty"`
	Folded bool `json:"folded,omitempty"`
	Open   bool `json:"open,omitempty"`
}

// Strip is one layer.
type Strip struct {
	Piece string  `json:"piece"`
	Cloth string  `json:"cloth,omitempty"`
	From  float64 `json:"from_mm"`
	To    float64 `json:"to_mm"`
	// Cut is how wide an allowance is cut, and Trimmed to what width it is
	// proposed to be trimmed; 0 to leave it.
	Cut     float64 `json:"cut_mm,omitempty"`
	Trimmed float64 `json:"trimmed_mm,omitempty"`
	Out     float64 `json:"out_mm"` // depth of its outer face
	In      float64 `json:"in_mm"`  // depth of its inner face
	// Allowance says that it is an allowance; of a piece from beyond the seam
	// also the piece itself, which runs on into it.
	Allowance bool `json:"allowance"`
	Beyond    bool `json:"beyond,omitempty"`
	// Folded says that it is the edge of an allowance, folded under.
	Folded bool `json:"folded,omitempty"`
	// Whole says that it lies in the fold of a dart.
	Whole bool `json:"whole,omitempty"`
	// Again says that it is a layer before it, folded back.
	Again bool `json:"again,omitempty"`
}

// Bend is where a layer turns back: a piece to its own allowance at the seam,
// or an allowance to its edge that is folded under.
type Bend struct {
	At     float64 `json:"at_mm"`     // 0 at the seam
	Middle float64 `json:"middle_mm"` // depth of its middle
	Inner  float64 `json:"inner_mm"`  // radius of its inner face
	Outer  float64 `json:"outer_mm"`  // radius of its outer face
	// Left says that it belongs to the side of a seam pressed open that lies at
	// negative x.
	Left bool `json:"left,omitempty"`
}

// Rise is how thick it is up to a distance from the seam.
type Rise struct {
	To        float64 `json:"to_mm"`
	Thickness float64 `json:"thickness_mm"`
	Layers    int     `json:"layers"`
}

// pieceBeyond is how far in mm a piece is followed beyond its allowance.
const pieceBeyond = 6

// section cuts the place across its seam.
func (pl *Place) section() Section {
	c := Section{Edge: pl.Edge != "", Open: pl.Press == pattern.PressedOpen}
	for _, sh := range slices.Concat(pl.Stack, pl.other) {
		c.Reach = max(c.Reach, sh.Width)
		c.Folded = c.Folded || sh.Folded
	}
	c.Reach += pieceBeyond
	lay := func(as func([]Sheet) []Sheet) layers {
		l := layers{reach: c.Reach}
		l.side(as(pl.Stack), pl.Doubled, false)
		if c.Open {
			l.side(as(pl.other), pl.Doubled, true)
		}
		return l
	}
	cut, after := lay(func(s []Sheet) []Sheet { return s }), lay(proposed)
	c.Strips, c.Bends, c.AsCut = cut.strips, cut.bends, rises(cut.strips)
	c.After, c.AfterBends, c.Trimmed = after.strips, after.bends, rises(after.strips)
	return c
}

// proposed returns a stack as it lies when it is trimmed: no edge is folded.
func proposed(stack []Sheet) []Sheet {
	var out []Sheet
	for _, s := range stack {
		if s.Folded {
			continue
		}
		s.Lies = s.Width
		if s.Trimmed > 0 {
			s.Lies = s.Trimmed
		}
		out = append(out, s)
	}
	return out
}

// layers are the layers of a section as they are laid.
type layers struct {
	reach  float64
	strips []Strip
	bends  []Bend
}

// side lays the sheets of one side of the seam under each other, when doubled
// once more the other way round.
func (l *layers) side(stack []Sheet, doubled, left bool) {
	depth := 0.0
	for again := range 2 {
		if again == 1 {
			if !doubled {
				return
			}
			stack = reversed(stack)
		}
		first := len(l.strips)
		for _, sh := range stack {
			s := Strip{Piece: sh.Piece, Cloth: sh.Cloth, To: l.reach, Cut: sh.Width, Trimmed: sh.Trimmed, Out: depth, In: depth + sh.Thickness, Allowance: sh.Width > 0, Beyond: sh.Beyond, Folded: sh.Folded, Whole: sh.Whole, Again: again == 1}
			if sh.Width > 0 {
				s.To = sh.Lies
			}
			if sh.Beyond && !sh.Folded {
				s.From = -l.reach
			}
			if left {
				s.From, s.To = -s.From, -s.To
			}
			depth = s.In
			l.strips = append(l.strips, s)
		}
		l.bend(l.strips[first:], left)
	}
}

// bend joins layers that turn back to each other, the innermost pair about
// each other and the others about it.
func (l *layers) bend(strips []Strip, left bool) {
	pair := func(at float64, of func(Strip) bool, turns func(a, b Strip) bool) {
		var open []Strip
		for _, s := range strips {
			if !of(s) {
				continue
			}
			if n := len(open); n > 0 && open[n-1].Piece == s.Piece && open[n-1].Cloth == s.Cloth && turns(open[n-1], s) {
				a := open[n-1]
				open = open[:n-1]
				l.bends = append(l.bends, Bend{At: at, Middle: (a.Out + s.In) / 2, Inner: (s.Out - a.In) / 2, Outer: (s.In - a.Out) / 2, Left: left})
				continue
			}
			open = append(open, s)
		}
	}
	pair(0, func(s Strip) bool { return !s.Beyond && !s.Folded }, func(a, b Strip) bool { return a.Allowance != b.Allowance })
	if i := slices.IndexFunc(strips, func(s Strip) bool { return s.Whole }); i >= 0 {
		pair(strips[i].To, func(s Strip) bool { return s.Whole }, func(a, b Strip) bool { return a.Beyond != b.Beyond })
	}
	for _, beyond := range []bool{false, true} {
		at := 0.0
		for _, s := range strips {
			if s.Folded && s.Beyond == beyond {
				at = s.To
			}
		}
		if at != 0 {
			pair(at, func(s Strip) bool { return s.Allowance && s.Beyond == beyond }, func(a, b Strip) bool { return a.Folded != b.Folded })
		}
	}
}

// rises tells the thickness from the seam on.
func rises(strips []Strip) []Rise {
	var ends []float64
	for _, s := range strips {
		if s.To > 0 {
			ends = append(ends, s.To)
		}
	}
	slices.Sort(ends)
	var out []Rise
	for _, to := range slices.Compact(ends) {
		r := Rise{To: to}
		for _, s := range strips {
			if s.To >= to {
				r.Thickness += s.In - s.Out
				r.Layers++
			}
		}
		out = append(out, r)
	}
	return out
}

package bulk

import (
	"slices"

	"truemat/ops/pattern"
)

// Section is a thick place cut across its seam, in mm. X runs from the seam to
// the side it is pressed to, depth from the outside of the garment in.
type Section struct {
	// Strips are the layers, the outermost first, as they are cut.
	Strips []Strip `json:"strips"`
	// Bends join a piece with its own allowance where it folds back at the seam.
	Bends []Bend `json:"bends"`
	// AsCut and Trimmed tell how thick it is from the seam on, before and after
	// the allowances are trimmed.
	AsCut   []Rise `json:"as_cut"`
	Trimmed []Rise `json:"trimmed"`
	// Reach is how far pieces are followed to either side of the seam, mm.
	Reach float64 `json:"reach_mm"`
}

// Strip is one layer.
type Strip struct {
	Piece string  `json:"piece"`
	Cloth string  `json:"cloth,omitempty"`
	From  float64 `json:"from_mm"`
	To    float64 `json:"to_mm"`
	// Trimmed is where it ends when it is trimmed as proposed.
	Trimmed float64 `json:"trimmed_mm"`
	Out     float64 `json:"out_mm"` // depth of its outer face
	In      float64 `json:"in_mm"`  // depth of its inner face
	// Allowance says that it is an allowance; of a piece from beyond the seam
	// also the piece itself, which runs on into it.
	Allowance bool `json:"allowance"`
	Beyond    bool `json:"beyond,omitempty"`
	// Again says that it is a layer before it, folded back.
	Again bool `json:"again,omitempty"`
}

// Bend is the fold at which a layer turns back to its allowance, at x = 0.
type Bend struct {
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
	c := Section{}
	for _, sh := range slices.Concat(pl.Stack, pl.other) {
		c.Reach = max(c.Reach, sh.Width)
	}
	c.Reach += pieceBeyond
	times := 1
	if pl.Doubled {
		times = 2
	}
	c.side(pl.Stack, times, false)
	if pl.Press == pattern.PressedOpen {
		c.side(pl.other, times, true)
	}
	c.AsCut = c.rises(func(s Strip) float64 { return s.To })
	c.Trimmed = c.rises(func(s Strip) float64 { return s.Trimmed })
	return c
}

// side lays the sheets of one side of the seam under each other, when twice
// the second time the other way round.
func (c *Section) side(stack []Sheet, times int, left bool) {
	depth := 0.0
	for k := range times {
		if k == 1 {
			stack = reversed(stack)
		}
		first := len(c.Strips)
		for _, sh := range stack {
			s := Strip{Piece: sh.Piece, Cloth: sh.Cloth, To: c.Reach, Out: depth, In: depth + sh.Thickness, Allowance: sh.Width > 0, Beyond: sh.Beyond, Again: k == 1}
			if sh.Width > 0 {
				s.To = sh.Width
			}
			s.Trimmed = s.To
			if sh.Trimmed > 0 {
				s.Trimmed = sh.Trimmed
			}
			if sh.Beyond {
				s.From = -c.Reach
			}
			if left {
				s.From, s.To, s.Trimmed = -s.From, -s.To, -s.Trimmed
			}
			depth = s.In
			c.Strips = append(c.Strips, s)
		}
		c.bends(c.Strips[first:], left)
	}
}

// bends folds the layers of the piece back to their allowances, the innermost
// pair about each other and the others about it.
func (c *Section) bends(strips []Strip, left bool) {
	var own []Strip
	for _, s := range strips {
		if !s.Beyond {
			own = append(own, s)
		}
	}
	if len(own)%2 != 0 {
		return // without an allowance nothing folds back
	}
	for i := range len(own) / 2 {
		a, b := own[i], own[len(own)-1-i]
		if a.Allowance == b.Allowance {
			return
		}
		c.Bends = append(c.Bends, Bend{Middle: (a.Out + b.In) / 2, Inner: (b.Out - a.In) / 2, Outer: (b.In - a.Out) / 2, Left: left})
	}
}

// rises tells the thickness from the seam on, strips ending where end says.
func (c *Section) rises(end func(Strip) float64) []Rise {
	var ends []float64
	for _, s := range c.Strips {
		if e := end(s); e > 0 {
			ends = append(ends, e)
		}
	}
	slices.Sort(ends)
	var out []Rise
	for _, to := range slices.Compact(ends) {
		r := Rise{To: to}
		for _, s := range c.Strips {
			if end(s) >= to {
				r.Thickness += s.In - s.Out
				r.Layers++
			}
		}
		out = append(out, r)
	}
	return out
}

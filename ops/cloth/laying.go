package cloth

import (
	"fmt"

	"truemat/ops/pattern"
)

// OnLace says which pieces are laid on the borders of a lace, and how.
type OnLace struct {
	Cloth string `json:"cloth"`
	// Wishes says how pieces are to lie. Empty, it is every piece that has a
	// lace edge and is made of the lace.
	Wishes []Wish  `json:"pieces,omitempty"`
	Gap    float64 `json:"gap,omitempty"` // mm between cut lines
	Places []Place `json:"places,omitempty"`
}

// Wish is how a piece is to lie on the lace.
type Wish struct {
	Piece string `json:"piece"`
	// Edge is the lace edge that lies on the border; the longest when empty.
	Edge string `json:"edge,omitempty"`
	// Spot is held at the motif; the middle of the lace edge when nil, and of
	// a fold piece always the fold.
	Spot *pattern.Spot `json:"spot,omitempty"`
	// Motif is how far in mm behind a motif point the spot lies; nil leaves it
	// to the plan.
	Motif *float64 `json:"motif,omitempty"`
	// Depth is how far in mm the edge lies below the valley line, 0 on it.
	Depth float64 `json:"depth,omitempty"`
}

// Laid says how the pieces cut from a plain cloth are laid in its width.
type Laid struct {
	Cloth string  `json:"cloth"`
	Gap   float64 `json:"gap,omitempty"` // mm between cut lines
	Pins  []Pin   `json:"pins,omitempty"`
}

// OnLaceOf returns what is laid on the lace of that name: as was said, or every
// piece that has a lace edge and is made of it, with free places in the motif.
func (g Goods) OnLaceOf(name string, p pattern.Pattern) OnLace {
	o := OnLace{Cloth: name}
	for _, said := range g.Laces {
		if said.Cloth == name {
			o = said
		}
	}
	if len(o.Wishes) > 0 {
		return o
	}
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		if LaceEdge(pc) != nil && g.Cuts(pc.Name, name) {
			o.Wishes = append(o.Wishes, Wish{Piece: pc.Name})
		}
	}
	return o
}

// LaidOn returns how pieces are laid on the plain cloth of that name.
func (g Goods) LaidOn(name string) Laid {
	for _, l := range g.Laid {
		if l.Cloth == name {
			return l
		}
	}
	return Laid{Cloth: name}
}

// validateLaying refuses laces and cloths that are laid on twice or unknown.
func (g Goods) validateLaying() error {
	seen := map[string]bool{}
	for _, o := range g.Laces {
		c, ok := g.Cloth(o.Cloth)
		switch {
		case !ok:
			return fmt.Errorf("pieces are laid on a lace: %w", g.unknown(o.Cloth))
		case c.Lace == nil:
			return fmt.Errorf("pieces are laid on the border of %q, which has none; describe its repeat and scallops", o.Cloth)
		case seen[o.Cloth]:
			return fmt.Errorf("it is said twice what is laid on %q; say it once", o.Cloth)
		case !(o.Gap >= 0 && o.Gap < c.Width):
			return fmt.Errorf("pieces on %q are to keep a gap of %g mm; give 0 or more, below its width", o.Cloth, o.Gap)
		}
		seen[o.Cloth] = true
		if err := o.validatePlaces(c); err != nil {
			return err
		}
	}
	seen = map[string]bool{}
	for _, l := range g.Laid {
		c, ok := g.Cloth(l.Cloth)
		switch {
		case !ok:
			return fmt.Errorf("pieces are laid on a cloth: %w", g.unknown(l.Cloth))
		case seen[l.Cloth]:
			return fmt.Errorf("it is said twice how pieces lie on %q; say it once", l.Cloth)
		case !(l.Gap >= 0 && l.Gap < c.Width):
			return fmt.Errorf("pieces on %q are to keep a gap of %g mm; give 0 or more, below its width", l.Cloth, l.Gap)
		}
		seen[l.Cloth] = true
		if err := l.validatePins(); err != nil {
			return err
		}
	}
	return nil
}

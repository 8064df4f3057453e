package step

import (
	"cmp"
	"fmt"

	"truemat/ops/pattern"
)

func init() { register("piece", func() Step { return &Plain{} }) }

// Plain adds a plain rectangular piece by its measures in mm: a strap, a strip,
// a band, or the first shape of a piece that other steps draft on. It lies to
// the right of the others; its edges are left, bottom, right and top, sewn to
// nothing yet. With Fold its left edge, called fold, lies on the fold of the
// cloth and the width is that of the half.
type Plain struct {
	Name      string `json:"name"`
	Width     Number `json:"width"`
	Height    Number `json:"height"`
	Allowance Number `json:"allowance,omitzero"`
	Fold      bool   `json:"fold,omitempty"`
	// Count, Pair, Layers and Cloth say how it is cut; once when left out.
	Count  int    `json:"count,omitempty"`
	Pair   bool   `json:"pair,omitempty"`
	Layers int    `json:"layers,omitempty"`
	Cloth  string `json:"cloth,omitempty"`
	// Arrow is what its arrow shows, the grain when empty; it points up, or with
	// Across to the right.
	Arrow  pattern.ArrowKind `json:"arrow,omitempty"`
	Across bool              `json:"across,omitempty"`
}

// Kind returns "piece".
func (s *Plain) Kind() string { return "piece" }

// Sentence tells what the step does.
func (s *Plain) Sentence() string {
	on := ""
	if s.Fold {
		on = " on the fold"
	}
	return sentence(fmt.Sprintf("add a plain piece %q, %s wide and %s high%s", s.Name, s.Width, s.Height, on))
}

// Apply adds the piece after all others.
func (s *Plain) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	if p.Piece(s.Name) != nil {
		return Output{}, fmt.Errorf("there already is a piece %q; give the new one another name", s.Name)
	}
	r := pattern.Plain{Name: s.Name, Fold: s.Fold, Arrow: s.Arrow, Across: s.Across,
		Cut: pattern.Cut{Count: cmp.Or(s.Count, 1), Pair: s.Pair, Layers: s.Layers, Cloth: s.Cloth}}
	for _, n := range []struct {
		of *float64
		is Number
	}{{&r.Width, s.Width}, {&r.Height, s.Height}, {&r.Allowance, s.Allowance}} {
		v, err := n.is.In(in)
		if err != nil {
			return Output{}, err
		}
		*n.of = v
	}
	pc, err := r.Piece()
	if err != nil {
		return Output{}, err
	}
	if err := layBeside(p, &p.Pieces[len(p.Pieces)-1], &pc); err != nil {
		return Output{}, err
	}
	p.Pieces = append(p.Pieces, pc)
	return Output{Pattern: p}, nil
}

// origin has the piece among those that came in: it is no altered one.
func (s *Plain) origin(before, after pattern.Pattern) (pattern.Pattern, error) {
	return asCameIn(before, after, s.Name), nil
}

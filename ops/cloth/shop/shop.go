// Package shop lists all that is bought for a garment: what its pieces take of
// every cloth and lace, and what goes with them.
package shop

import (
	"fmt"
	"slices"

	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/pattern"
)

// Taken is the length in mm that the pieces take of a cloth, or why it cannot
// be told.
type Taken struct {
	Cloth  cloth.Cloth
	Length float64
	Err    error
	// Lacks says what is cut from it but not in the length; empty when all is.
	Lacks string
}

// Cloths lays the pieces of a size on every cloth and lace they are cut from,
// in the order of the goods.
func Cloths(g cloth.Goods, p pattern.Pattern, size string) []Taken {
	var out []Taken
	for _, c := range g.Cloths {
		if len(c.Of) > 0 || !slices.ContainsFunc(g.Made, func(m cloth.Made) bool { return g.Cuts(m.Piece, c.Name) }) {
			continue
		}
		t := Taken{Cloth: c}
		if c.Lace != nil {
			plan, err := border.Of(g, c, p, size)
			t.Length, t.Err, t.Lacks = plan.Length, err, plan.Lacks()
		} else {
			l, err := cutting.Of(g, c, p, size)
			t.Length, t.Err = l.Length, err
		}
		out = append(out, t)
	}
	return out
}

// List returns all that is bought for one garment of a size, the cloths first,
// then what [cloth.Goods.ShoppingList] lists. The error says what cannot be
// laid, or what the pattern lacks.
func List(g cloth.Goods, p pattern.Pattern, size string) ([]cloth.Wanted, error) {
	var out []cloth.Wanted
	for _, t := range Cloths(g, p, size) {
		if t.Err != nil {
			return nil, fmt.Errorf("%s: %w", t.Cloth.Name, t.Err)
		}
		what := fmt.Sprintf("%s, %g mm wide", t.Cloth.Name, t.Cloth.Width)
		if t.Lacks != "" {
			what += ", and more: " + t.Lacks
		}
		out = append(out, cloth.OfCloth(what, t.Length))
	}
	rest, err := g.ShoppingList(p)
	return append(out, rest...), err
}

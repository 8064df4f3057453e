// Package cutting lists what is cut from which cloth, and lays pieces of plain
// cloth out in its width.
package cutting

import (
	"fmt"

	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// Entry is a piece to be cut from one layer of cloth.
type Entry struct {
	Cloth string `json:"cloth"`
	Layer int    `json:"layer"` // 1 is the outermost
	Piece string `json:"piece"`
	Count int    `json:"count"` // single pieces, of a pair both
	Pair  bool   `json:"pair,omitempty"`
	Fold  bool   `json:"fold,omitempty"` // cut on the fold of the cloth, or whole
	Lace  bool   `json:"lace,omitempty"` // laid on a border
	Way   string `json:"way"`            // which way up, in a sentence
}

// List returns what is cut, cloth by cloth in the order of the goods and then
// piece by piece. Of cloths that are handled as one each is cut. A piece whose
// layers are not named comes last, under the cloth that the piece itself
// names, if any.
func List(p pattern.Pattern, g cloth.Goods) []Entry {
	var out []Entry
	for _, c := range g.Cloths {
		for i := range p.Pieces {
			pc := &p.Pieces[i]
			for n, sheet := range g.Sheets(pc.Name) {
				if sheet.Name == c.Name {
					out = append(out, entry(pc, c, n+1))
				}
			}
		}
	}
	for i := range p.Pieces {
		if pc := &p.Pieces[i]; len(g.Layers(pc.Name)) == 0 {
			out = append(out, entry(pc, cloth.Cloth{Name: pc.Cut.Cloth}, 1))
		}
	}
	return out
}

func entry(pc *pattern.Piece, c cloth.Cloth, layer int) Entry {
	e := Entry{Cloth: c.Name, Layer: layer, Piece: pc.Name, Count: max(pc.Cut.Count, 1) * max(pc.Cut.Layers, 1), Pair: pc.Cut.Pair, Fold: pc.Fold() != nil}
	e.Lace = c.Lace != nil && cloth.LaceEdge(pc) != nil
	single := "right side up, as drawn"
	switch {
	case e.Lace && e.Pair:
		single = "right side up on the border, one as drawn and one turned over, on mirrored places of the motif"
	case e.Lace:
		single = "right side up on the border"
	case e.Pair:
		single = "one as drawn and one turned over, or both at once through cloth folded right sides together"
	case e.Fold:
		single = "on the fold of the cloth, or whole"
	}
	if e.Pair {
		e.Count *= 2
	}
	e.Way = single
	if pc.Arrow.Kind != "" {
		e.Way = fmt.Sprintf("%s; %s", single, arrowWay(pc.Arrow.Kind))
	}
	return e
}

func arrowWay(k pattern.ArrowKind) string {
	switch k {
	case pattern.MostStretch:
		return "arrow along the greatest stretch"
	case pattern.LeastStretch:
		return "arrow along the least stretch"
	}
	return "arrow along the selvedge"
}

package cloth

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/pattern"
)

// Fits refuses goods that speak of pieces, lines or seams the pattern does not have.
func (g Goods) Fits(p pattern.Pattern) error {
	for _, m := range g.Made {
		if p.Piece(m.Piece) == nil {
			return fmt.Errorf("the layers of a piece %q are named, which the pattern does not have; it has %s", m.Piece, pieceNames(p))
		}
	}
	for _, e := range g.Elastics {
		if p.Line(e.Line) == nil {
			return fmt.Errorf("elastic %q runs along the line %q, which the pattern does not have; it has %s", e.Name, e.Line, lineNames(p))
		}
		for _, piece := range e.On {
			if !slices.ContainsFunc(p.Line(e.Line).Parts, func(pt pattern.Part) bool { return pt.Piece == piece }) {
				return fmt.Errorf("elastic %q is to run on %q, which the line %q does not run along; it runs along %s", e.Name, piece, e.Line, alongPieces(p.Line(e.Line)))
			}
		}
		for _, r := range e.Stretches {
			for _, piece := range r.Pieces {
				if p.Piece(piece) == nil {
					return fmt.Errorf("elastic %q is shorter on a piece %q, which the pattern does not have; it has %s", e.Name, piece, pieceNames(p))
				}
			}
		}
	}
	for _, t := range g.Topstitch {
		if p.Seam(t.Seam) == nil {
			return fmt.Errorf("a seam %q is topstitched, which the pattern does not have; it has %s", t.Seam, seamNames(p))
		}
	}
	if err := g.Notions.Eyes.fits(p); err != nil {
		return err
	}
	return g.fitsLaying(p)
}

func alongPieces(l *pattern.Line) string {
	var names []string
	for _, pt := range l.Parts {
		if name := fmt.Sprintf("%q", pt.Piece); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

func pieceNames(p pattern.Pattern) string {
	list := make([]string, len(p.Pieces))
	for i := range p.Pieces {
		list[i] = fmt.Sprintf("%q", p.Pieces[i].Name)
	}
	return strings.Join(list, ", ")
}

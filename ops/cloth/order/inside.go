package order

import (
	"cmp"
	"fmt"
	"slices"

	"truemat/ops/cloth"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Inside tells how a seam looks from inside the garment.
type Inside struct {
	// Hidden is what hides the allowances: "lining", "channelling", or nothing.
	Hidden string `json:"hidden,omitempty"`
	// Turns are the edges of allowances that turn back where nothing hides them.
	Turns []Turn `json:"turns,omitempty"`
	Text  string `json:"text"`
}

// What hides allowances.
const (
	ByLining      = "lining"
	ByChannelling = "channelling"
)

// Turn is an edge of an allowance that turns back, in mm.
type Turn struct {
	Piece string  `json:"piece"`
	Edge  string  `json:"edge"`
	Turn  float64 `json:"turn_mm"`
	// Around is the piece whose allowance it is folded around, and Trimmed the
	// width that one is trimmed to.
	Around  string  `json:"around,omitempty"`
	Trimmed float64 `json:"trimmed_mm,omitempty"`
}

// narrowest is the width in mm below which an edge cannot be turned and
// stitched (common practice).
const narrowest = 3.0

// InsideOf tells what hides the allowances of a seam, or which edges turn back
// instead. An allowance is turned by half its width: of a seam pressed to one
// side the one that lies innermost around the other, trimmed to what is left
// (a felled seam); of one pressed open each under itself. A dart whose cloth
// stays folded has no edges. ok is false when it is
// not known what the pieces are made of, or how the seam is pressed.
func InsideOf(p pattern.Pattern, g cloth.Goods, s pattern.Seam, press pattern.Press) (in Inside, ok bool) {
	if _, dart := p.FoldedDart(s); dart {
		if BothLined(g, s) {
			return Inside{Hidden: ByLining, Text: "Sew it in the outer layer and in the lining each by itself; the folds lie between."}, true
		}
		return Inside{Text: "Its cloth stays folded and is not cut, so there is nothing to overcast."}, true
	}
	if _, known := thickness(g, s.A); !known {
		return Inside{}, false
	}
	if _, known := thickness(g, s.B); !known {
		return Inside{}, false
	}
	switch {
	case BothLined(g, s):
		return Inside{Hidden: ByLining, Text: "Sew it in the outer layers and in the linings each by itself; the allowances lie between."}, true
	case carriesWire(p, s.A) || carriesWire(p, s.B):
		return Inside{Hidden: ByChannelling, Text: "The channelling will cover its allowances."}, true
	}
	own, cover := s.A, s.B
	switch press {
	case pattern.PressedToA:
	case pattern.PressedToB:
		own, cover = s.B, s.A
	case pattern.PressedOpen:
		for _, side := range []pattern.Side{s.A, s.B} {
			in.Turns = append(in.Turns, turns(p, side, "")...)
		}
		in.say(func(t Turn) string {
			return fmt.Sprintf("fold the edge of each allowance under by %s and stitch it", unit.Format(t.Turn, unit.Millimetres))
		})
		return in, true
	default:
		return Inside{}, false
	}
	in.Turns = turns(p, cover, edges(own))
	in.say(func(t Turn) string {
		return fmt.Sprintf("trim the allowance of %s to %s, fold that of %s around it by %s and stitch it down", edges(own), unit.Format(t.Trimmed, unit.Millimetres), edges(cover), unit.Format(t.Turn, unit.Millimetres))
	})
	return in, true
}

// turns returns by how much the allowances of a side are turned.
func turns(p pattern.Pattern, side pattern.Side, around string) []Turn {
	var out []Turn
	for _, pt := range side {
		_, e := p.Edge(pt.Piece, pt.Edge)
		if e == nil {
			continue
		}
		t := Turn{Piece: pt.Piece, Edge: pt.Edge, Turn: e.Allowance / 2, Around: around}
		if around != "" {
			t.Trimmed = e.Allowance - t.Turn
		}
		out = append(out, t)
	}
	return out
}

// say tells how edges are turned, by the narrowest of them, or what to do with
// one that is too narrow for it; then none is turned.
func (in *Inside) say(how func(Turn) string) {
	if len(in.Turns) == 0 {
		return
	}
	least := slices.MinFunc(in.Turns, func(a, b Turn) int { return cmp.Compare(a.Turn, b.Turn) })
	if least.Turn < narrowest {
		in.Turns = nil
		in.Text = fmt.Sprintf("No lining hides it, and an allowance of %s is too narrow to be folded: overcast the edges, or cut %.0f mm.", unit.Format(2*least.Turn, unit.Millimetres), 2*narrowest)
		return
	}
	in.Text = "No lining hides it: " + how(least) + "; a knit that does not fray may stay as cut."
}

// BothLined reports whether all pieces of a seam are lined.
func BothLined(g cloth.Goods, s pattern.Seam) bool {
	for _, side := range []pattern.Side{s.A, s.B} {
		for _, pt := range side {
			if !lined(g, pt.Piece) {
				return false
			}
		}
	}
	return true
}

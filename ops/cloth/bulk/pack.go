package bulk

import (
	"slices"

	"truemat/ops/cloth"
	"truemat/ops/cloth/order"
	"truemat/ops/pattern"
)

// side is one side of a seam at a place: what comes to the seam there, and how
// wide its allowance is.
type side struct {
	width float64 // mm
	// outer comes from the outside in, lining from the inside out; both are
	// sewn in one seam, or each by itself.
	outer, lining []Sheet
}

// part returns what comes to a seam where nothing else crosses it: the layers of
// the piece.
func (f finder) part(pt pattern.Part) side {
	sd := side{}
	if _, e := f.p.Edge(pt.Piece, pt.Edge); e != nil {
		sd.width = e.Allowance
	}
	for _, d := range f.p.FoldedDarts(pt.Piece) {
		if pt.Edge == d.First || pt.Edge == d.Second {
			sd.width = d.Deep()
		}
	}
	for i, layer := range f.g.Layers(pt.Piece) {
		for _, c := range f.sheets(layer) {
			sheet := Sheet{Piece: pt.Piece, Cloth: c.Name, Thickness: c.Thickness}
			if i == 0 {
				sd.outer = append(sd.outer, sheet)
			} else {
				sd.lining = append(sd.lining, sheet)
			}
		}
	}
	slices.Reverse(sd.lining)
	if len(sd.outer) == 0 {
		sd.outer = []Sheet{{Piece: pt.Piece}}
	}
	return sd
}

// sheets takes a layer that is handled as one apart.
func (f finder) sheets(c cloth.Cloth) []cloth.Cloth {
	if len(c.Of) == 0 {
		return []cloth.Cloth{c}
	}
	var out []cloth.Cloth
	for _, name := range c.Of {
		if part, ok := f.g.Cloth(name); ok {
			out = append(out, part)
		}
	}
	return out
}

// all returns what comes to the seam from the outside in.
func (sd side) all() []Sheet { return slices.Concat(sd.outer, reversed(sd.lining)) }

// crossed returns what comes to a seam where another one runs into it: all that
// lies at that other seam, on the thicker side of one pressed open.
func (f finder) crossed(pt pattern.Part, over pattern.Seam) side {
	thickest := side{width: f.part(pt).width}
	for _, pair := range f.facing(over) {
		a, b := f.part(pair[0]), f.part(pair[1])
		for _, m := range f.manners(over) {
			own, other := a, b
			if m.toB {
				own, other = b, a
			}
			var sd side
			if order.BothLined(f.g, over) {
				sd.outer, sd.lining = m.fold(own.outer, own.width, other.outer, other.width), m.fold(own.lining, own.width, other.lining, other.width)
			} else {
				sd.outer = m.fold(own.all(), own.width, other.all(), other.width)
			}
			if thickness(sd.all()) > thickness(thickest.all()) || len(thickest.outer) == 0 {
				thickest.outer, thickest.lining = plain(sd.outer), plain(sd.lining)
			}
		}
	}
	return thickest
}

// plain returns sheets as layers of what runs on, without allowances.
func plain(stack []Sheet) []Sheet {
	var out []Sheet
	for _, s := range stack {
		out = append(out, Sheet{Piece: s.Piece, Cloth: s.Cloth, Thickness: s.Thickness})
	}
	return out
}

// manner is a way in which the allowances of a seam lie on one of its sides.
type manner struct {
	press pattern.Press
	toB   bool // that side is side B
	open  bool // the allowance of the other side lies on the other side
	// turned says that the edges of allowances are folded under: of a seam
	// pressed open each under itself, else that from beyond around the other.
	turned bool
}

// manners returns the ways that a seam may lie in: as it is pressed, and where
// that is neither said nor proposed to either side. One pressed open has both
// sides, the first of which counts.
func (f finder) manners(s pattern.Seam) []manner {
	press, _ := order.Pressed(f.p, f.g, s)
	in, _ := order.InsideOf(f.p, f.g, s, press)
	turned := len(in.Turns) > 0
	switch press {
	case pattern.PressedOpen:
		return []manner{{press, false, true, turned}, {press, true, true, turned}}
	case pattern.PressedToA:
		return []manner{{press, false, false, turned}}
	case pattern.PressedToB:
		return []manner{{press, true, false, turned}}
	}
	return []manner{{press: pattern.PressedToA}, {press: pattern.PressedToB, toB: true}}
}

// fold lays a side of a seam from the outside in: its piece, its own allowance,
// folded back beneath and so the other way round, and that of the other side,
// which runs on from beyond the seam. A folded edge lies in half of its
// allowance, between it and the piece; of a seam pressed to one side it takes
// the trimmed allowance of that side in.
func (m manner) fold(own []Sheet, width float64, beyond []Sheet, beyondWidth float64) []Sheet {
	out := slices.Clone(own)
	lay := func(sheets []Sheet, width, lies float64, from, folded bool) {
		for _, s := range sheets {
			s.Width, s.Lies, s.Beyond, s.Folded = width, lies, from, folded
			out = append(out, s)
		}
	}
	if m.open {
		beyondWidth = 0
	}
	ownLies, beyondLies := width, beyondWidth
	if m.turned {
		if m.open {
			ownLies = width / 2
		} else {
			beyondLies = beyondWidth / 2
			ownLies = min(width, beyondLies)
		}
	}
	switch {
	case m.turned && m.open && width > 0:
		lay(own, width, ownLies, false, true)
	case m.turned && beyondWidth > 0:
		lay(reversed(beyond), beyondWidth, beyondLies, true, true)
	}
	if width > 0 {
		lay(reversed(own), width, ownLies, false, false)
	}
	if beyondWidth > 0 {
		lay(beyond, beyondWidth, beyondLies, true, false)
	}
	return out
}

func reversed(stack []Sheet) []Sheet {
	out := slices.Clone(stack)
	slices.Reverse(out)
	return out
}

func thickness(stack []Sheet) float64 {
	sum := 0.0
	for _, s := range stack {
		sum += s.Thickness
	}
	return sum
}

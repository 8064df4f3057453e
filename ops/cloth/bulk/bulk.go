// Package bulk works out how thick a garment grows at its seams, and how the
// allowances are trimmed so that they step down.
package bulk

import (
	"slices"
	"strconv"
	"strings"

	"truemat/ops/cloth"
	"truemat/ops/cloth/order"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Place is a place where layers lie on each other: along a seam, where a seam
// crosses another or ends at a folded edge, or along such an edge.
type Place struct {
	Seam string `json:"seam,omitempty"`
	// Across is what the seam crosses or ends at: another seam, or a folded
	// edge; empty for the run of the seam itself.
	Across string `json:"across,omitempty"`
	// Edge is the folded edge along which no seam runs, and How it is folded.
	Edge      string        `json:"edge,omitempty"`
	How       string        `json:"how,omitempty"`
	Layers    int           `json:"layers"`
	Thickness float64       `json:"thickness_mm"`
	Press     pattern.Press `json:"press,omitempty"` // as said or proposed, else the thicker side
	Over      bool          `json:"over"`            // beyond the limit
	// Stack is what lies there from the outside in.
	Stack []Sheet `json:"stack"`
	// Doubled says that all of it is folded back onto itself once more: the
	// second half of the stack is the first, the other way round.
	Doubled bool `json:"doubled,omitempty"`
	// Remedy is a sentence, when it is over.
	Remedy string `json:"remedy,omitempty"`
	// Section is the place cut across its seam or edge, when it is over.
	Section *Section `json:"section,omitempty"`
	// other is what lies on the other side of a seam pressed open.
	other []Sheet
}

// Sheet is one layer of cloth at a place.
type Sheet struct {
	Piece     string  `json:"piece"`
	Cloth     string  `json:"cloth,omitempty"`
	Thickness float64 `json:"thickness_mm"`
	// Width is how wide the allowance is cut in mm; 0 for the piece itself.
	Width float64 `json:"width_mm,omitempty"`
	// Lies is how far in mm the allowance reaches from the seam: less than its
	// width where its edge is folded under, or where it is trimmed to be taken
	// in by one that is.
	Lies float64 `json:"lies_mm,omitempty"`
	// Folded says that it is the edge of an allowance, folded under.
	Folded bool `json:"folded,omitempty"`
	// Beyond says that the allowance is of a piece that lies beyond the seam,
	// not of the one it is pressed to.
	Beyond bool `json:"beyond,omitempty"`
	// Whole says that it lies in the fold of a dart, which is not trimmed.
	Whole bool `json:"whole,omitempty"`
	// Trimmed is the width it is proposed to be trimmed to; 0 to leave it.
	Trimmed float64 `json:"trimmed_mm,omitempty"`
}

// Limits say when a place is too thick and how allowances step down.
type Limits struct {
	Thickness float64 // mm
	Step      float64 // mm by which each allowance is narrower than the one outside it
	Least     float64 // mm of allowance that must stay for the seam to hold
}

// Defaults returns limits that are usual (common practice): allowances step
// down by 2 mm and keep 3 mm.
func Defaults() Limits { return Limits{Thickness: 2, Step: 2, Least: 3} }

// DefaultsIn returns limits that can be measured in a system of units: in inches
// allowances step down by 1/16 and keep 1/8.
func DefaultsIn(s unit.System) Limits {
	l := Defaults()
	if s == unit.InchFractions {
		l.Step, l.Least = 25.4/16, 25.4/8
	}
	return l
}

// Places returns every seam, every crossing of a seam with another, every end
// of a seam at an edge that is folded to the inside, and every such edge, with
// what lies on each other there; where no lining hides a seam, with the edges
// that turn back. A piece whose layers are not named counts as one layer of no
// thickness; so do elastics, channelling and thread.
func Places(p pattern.Pattern, g cloth.Goods, l Limits) []Place {
	f := finder{p, g, l}
	var out []Place
	for _, s := range p.Seams {
		if len(s.A) == 0 || len(s.B) == 0 {
			continue
		}
		out = append(out, f.along(s))
		out = append(out, f.crossings(s)...)
		out = append(out, f.ends(s)...)
	}
	return append(out, f.folds()...)
}

// Unmeasured names the cloths that count for nothing, since no thickness is
// known of them, each with the pieces it is on.
func Unmeasured(p pattern.Pattern, g cloth.Goods) []string {
	var names []string
	on := map[string][]string{}
	add := func(cloth, piece string) {
		if !slices.Contains(names, cloth) {
			names = append(names, cloth)
		}
		if !slices.Contains(on[cloth], piece) {
			on[cloth] = append(on[cloth], piece)
		}
	}
	for _, pc := range p.Pieces {
		sheets := g.Sheets(pc.Name)
		for _, c := range sheets {
			if c.Thickness <= 0 {
				add(c.Name, pc.Name)
			}
		}
		switch {
		case len(sheets) > 0:
		case pc.Cut.Cloth != "":
			add(pc.Cut.Cloth, pc.Name)
		default:
			add("the cloth", pc.Name)
		}
	}
	for i, n := range names {
		names[i] = n + " of " + strings.Join(on[n], ", ")
	}
	return names
}

type finder struct {
	p pattern.Pattern
	g cloth.Goods
	l Limits
}

// along returns the thickest place on the run of a seam.
func (f finder) along(s pattern.Seam) Place {
	var thickest Place
	for _, pair := range f.facing(s) {
		if pl := f.place(s, "", f.part(pair[0]), f.part(pair[1]), false); thickest.Stack == nil || pl.Thickness > thickest.Thickness {
			thickest = pl
		}
	}
	return thickest
}

// facing returns the parts of both sides that lie on each other.
func (f finder) facing(s pattern.Seam) [][2]pattern.Part {
	var out [][2]pattern.Part
	totalA, totalB := f.p.Length(s.A), f.p.Length(s.B)
	walkedA := 0.0
	for _, a := range s.A {
		fromA := walkedA
		walkedA += f.p.PartLength(a) / totalA
		walkedB := 0.0
		for _, b := range s.B {
			fromB := walkedB
			walkedB += f.p.PartLength(b) / totalB
			if min(walkedA, walkedB)-max(fromA, fromB) > shareLeast {
				out = append(out, [2]pattern.Part{a, b})
			}
		}
	}
	return out
}

// shareLeast is the share of a seam below which two parts do not face each
// other but meet at a corner.
const shareLeast = 0.01

// place stacks a seam at a place; doubled says that all of it is folded back
// once more. Where it is not known how the seam is pressed, and between the
// sides of one pressed open, the thicker side counts.
func (f finder) place(s pattern.Seam, across string, a, b side, doubled bool) Place {
	pl := Place{Seam: s.Name, Across: across, Doubled: doubled}
	for _, m := range f.manners(s) {
		own, other := a, b
		if m.toB {
			own, other = b, a
		}
		stack := m.fold(own.all(), own.width, other.all(), other.width)
		if order.BothLined(f.g, s) {
			stack = slices.Concat(m.fold(own.outer, own.width, other.outer, other.width), reversed(m.fold(own.lining, own.width, other.lining, other.width)))
		}
		switch {
		case pl.Stack == nil:
			pl.Press, pl.Stack = m.press, stack
		case thickness(stack) > thickness(pl.Stack):
			pl.Press, pl.Stack, pl.other = m.press, stack, pl.Stack
		default:
			pl.other = stack
		}
		if !m.open {
			pl.other = nil
		}
	}
	if _, ok := f.p.FoldedDart(s); ok {
		for i := range pl.Stack {
			pl.Stack[i].Whole = pl.Stack[i].Width > 0
		}
	}
	f.judge(&pl, f.trimSeam)
	return pl
}

// judge says whether a place is too thick, and then how it is trimmed.
func (f finder) judge(pl *Place, trim func(*Place)) {
	pl.Thickness = thickness(pl.Stack)
	if pl.Doubled {
		pl.Thickness *= 2
	}
	if pl.Thickness > f.l.Thickness+1e-9 {
		pl.Over = true
		trim(pl)
		section := pl.section()
		pl.Section = &section
	}
	if pl.Doubled {
		pl.Stack = append(pl.Stack, reversed(pl.Stack)...)
	}
	pl.Layers = len(pl.Stack)
}

// crossings returns the places where a seam runs over another one.
func (f finder) crossings(s pattern.Seam) []Place {
	at := map[string][2]side{}
	var names []string
	for k, chain := range []pattern.Side{s.A, s.B} {
		whole, walked := f.p.Length(chain), 0.0
		for i := 1; i < len(chain); i++ {
			walked += f.p.PartLength(chain[i-1])
			over := f.between(chain[i-1], chain[i])
			if over == nil || over.Name == s.Name {
				continue
			}
			name := over.Name
			if !slices.Contains(names, name) {
				names = append(names, name)
				at[name] = [2]side{f.part(f.partAt(s.A, walked/whole)), f.part(f.partAt(s.B, walked/whole))}
			}
			sides := at[name]
			sides[k] = f.crossed(chain[i], *over)
			at[name] = sides
		}
	}
	var out []Place
	for _, name := range names {
		out = append(out, f.place(s, strconv.Quote(name), at[name][0], at[name][1], false))
	}
	return out
}

// between returns the seam that joins a part of a side to the next one, or the
// dart that lies between them; nil when there is none.
func (f finder) between(before, after pattern.Part) *pattern.Seam {
	if before.Piece == after.Piece && before.Mirrored == after.Mirrored {
		for _, d := range f.p.FoldedDarts(before.Piece) {
			if a, b := before.Edge, after.Edge; a == d.Before && b == d.After || a == d.After && b == d.Before {
				return f.p.Seam(d.Seam)
			}
		}
		return nil
	}
	_, name, err := f.p.LaySewn(before, after)
	if err != nil {
		return nil
	}
	return f.p.Seam(name)
}

// partAt returns the part of a side at a share of its length.
func (f finder) partAt(chain pattern.Side, share float64) pattern.Part {
	left := share * f.p.Length(chain)
	for _, pt := range chain[:len(chain)-1] {
		if left -= f.p.PartLength(pt); left < 0 {
			return pt
		}
	}
	return chain[len(chain)-1]
}

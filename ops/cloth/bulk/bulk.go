// Package bulk works out how thick a garment grows at its seams, and how the
// allowances are trimmed so that they step down.
package bulk

import (
	"fmt"
	"slices"
	"strconv"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// Place is a place where layers lie on each other.
type Place struct {
	Seam string `json:"seam"`
	// Across is what the seam crosses or ends at: another seam, or a
	// turned-back edge; empty for the run of the seam itself.
	Across    string        `json:"across,omitempty"`
	Layers    int           `json:"layers"`
	Thickness float64       `json:"thickness_mm"`
	Press     pattern.Press `json:"press"` // as taken: the thicker side when it was not said
	Over      bool          `json:"over"`  // beyond the limit
	// Stack is what lies there from the outside in.
	Stack []Sheet `json:"stack"`
	// Doubled says that all of it is folded back onto itself once more: the
	// second half of the stack is the first, the other way round.
	Doubled bool `json:"doubled,omitempty"`
	// Remedy is a sentence, when it is over.
	Remedy string `json:"remedy,omitempty"`
	// Section is the place cut across its seam, when it is over.
	Section *Section `json:"section,omitempty"`
	// other is what lies on the other side of a seam pressed open.
	other []Sheet
}

// Sheet is one layer of cloth at a place.
type Sheet struct {
	Piece     string  `json:"piece"`
	Cloth     string  `json:"cloth,omitempty"`
	Thickness float64 `json:"thickness_mm"`
	// Width is how wide the allowance is in mm; 0 for the piece itself.
	Width float64 `json:"width_mm,omitempty"`
	// Beyond says that the allowance is of a piece that lies beyond the seam,
	// not of the one it is pressed to.
	Beyond bool `json:"beyond,omitempty"`
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

// Places returns every seam, every crossing of a seam with another and every
// end of a seam at a turned-back edge, with what lies on each other there. A
// piece whose layers are not named counts as one layer of no thickness.
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
	return out
}

type finder struct {
	p pattern.Pattern
	g cloth.Goods
	l Limits
}

// sheets returns the layers of a piece from the outside in, with a width of
// allowance, as often as they lie there.
func (f finder) sheets(pt pattern.Part, width float64, times int) []Sheet {
	var one []Sheet
	for _, c := range f.g.Sheets(pt.Piece) {
		one = append(one, Sheet{Piece: pt.Piece, Cloth: c.Name, Thickness: c.Thickness, Width: width})
	}
	if len(one) == 0 {
		one = []Sheet{{Piece: pt.Piece, Width: width}}
	}
	var out []Sheet
	for k := range times {
		if k%2 == 1 {
			out = append(out, reversed(one)...) // folded back
		} else {
			out = append(out, one...)
		}
	}
	return out
}

func (f finder) allowance(pt pattern.Part) float64 {
	if _, e := f.p.Edge(pt.Piece, pt.Edge); e != nil {
		return e.Allowance
	}
	return 0
}

// along returns the thickest place on the run of a seam.
func (f finder) along(s pattern.Seam) Place {
	var thickest Place
	for _, pair := range f.facing(s) {
		if pl := f.place(s, "", pair[0], pair[1], false); thickest.Stack == nil || pl.Thickness > thickest.Thickness {
			thickest = pl
		}
	}
	return thickest
}

// facing returns the parts of both sides that lie on each other.
func (f finder) facing(s pattern.Seam) [][2]side {
	var out [][2]side
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
				out = append(out, [2]side{{a, 1}, {b, 1}})
			}
		}
	}
	return out
}

// shareLeast is the share of a seam below which two parts do not face each
// other but meet at a corner.
const shareLeast = 0.01

// side is one side of a seam at a place, lying as often on itself as a
// crossing makes it.
type side struct {
	part  pattern.Part
	times int
}

// place stacks a seam at a place; doubled says that all of it is folded back
// once more. Where it was not said how the seam is pressed, and between the
// sides of one pressed open, the thicker side counts.
func (f finder) place(s pattern.Seam, across string, a, b side, doubled bool) Place {
	pl := Place{Seam: s.Name, Across: across, Press: s.Press, Doubled: doubled}
	consider := func(press pattern.Press, own side, others ...side) {
		stack := f.stack(own, others)
		if pl.Stack == nil || thickness(stack) > thickness(pl.Stack) {
			pl.Press, pl.Stack = press, stack
		}
	}
	switch s.Press {
	case pattern.PressedOpen:
		pl.Stack, pl.other = f.stack(a, nil), f.stack(b, nil)
		if thickness(pl.other) > thickness(pl.Stack) {
			pl.Stack, pl.other = pl.other, pl.Stack
		}
	case pattern.PressedToB:
		consider(s.Press, b, a)
	case pattern.PressedToA:
		consider(s.Press, a, b)
	default:
		consider(pattern.PressedToA, a, b)
		consider(pattern.PressedToB, b, a)
	}
	pl.Thickness = thickness(pl.Stack)
	if doubled {
		pl.Thickness *= 2
	}
	if pl.Thickness > f.l.Thickness+1e-9 {
		pl.Over = true
		pl.trim(f.l)
		section := pl.section()
		pl.Section = &section
	}
	if doubled {
		pl.Stack = append(pl.Stack, reversed(pl.Stack)...)
	}
	pl.Layers = len(pl.Stack)
	return pl
}

// stack returns what lies on a side from the outside in: its piece, its own
// allowance, folded back beneath and so the other way round, and those of the
// others, which run on from beyond the seam.
func (f finder) stack(own side, others []side) []Sheet {
	out := f.sheets(own.part, 0, own.times)
	if w := f.allowance(own.part); w > 0 {
		out = append(out, reversed(f.sheets(own.part, w, own.times))...)
	}
	for _, sd := range others {
		if w := f.allowance(sd.part); w > 0 {
			for _, sh := range f.sheets(sd.part, w, sd.times) {
				sh.Beyond = true
				out = append(out, sh)
			}
		}
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

// trim proposes widths that step down from the outside in.
func (pl *Place) trim(l Limits) {
	width, n := 0.0, 0
	for i := range pl.Stack {
		s := &pl.Stack[i]
		if s.Width == 0 {
			continue
		}
		n++
		if width == 0 {
			width = s.Width // the outermost allowance keeps its width
			continue
		}
		if width = max(width-l.Step, l.Least); width < s.Width {
			s.Trimmed = width
		}
		width = min(width, s.Width)
	}
	where := fmt.Sprintf("along %q", pl.Seam)
	if pl.Across != "" {
		where = fmt.Sprintf("where %q meets %s", pl.Seam, pl.Across)
	}
	if n < 2 {
		pl.Remedy = fmt.Sprintf("%.1f mm of cloth lie on each other %s: take thinner cloth there, or let the edges lie side by side", pl.Thickness, where)
		return
	}
	pl.Remedy = fmt.Sprintf("%.1f mm of cloth lie on each other %s: trim the allowances from the outside in so that they step down, and never nearer than %g mm to the sewing", pl.Thickness, where, l.Least)
}

// pressed says how often a side lies on itself where another seam crosses it:
// the piece with its own allowance when pressed open, with both otherwise.
func pressed(p pattern.Press) int {
	if p == pattern.PressedOpen {
		return 2
	}
	return 3
}

// crossings returns the places where a seam runs over another one.
func (f finder) crossings(s pattern.Seam) []Place {
	at := map[string][2]side{}
	var names []string
	for k, chain := range []pattern.Side{s.A, s.B} {
		for i := 1; i < len(chain); i++ {
			_, name, err := f.p.LaySewn(chain[i-1], chain[i])
			over := f.p.Seam(name)
			if err != nil || over == nil || name == s.Name {
				continue
			}
			if !slices.Contains(names, name) {
				names = append(names, name)
				at[name] = [2]side{{s.A[0], 1}, {s.B[0], 1}}
			}
			sides := at[name]
			sides[k] = side{chain[i], pressed(over.Press)}
			at[name] = sides
		}
	}
	var out []Place
	for _, name := range names {
		out = append(out, f.place(s, strconv.Quote(name), at[name][0], at[name][1], false))
	}
	return out
}

// ends returns the ends of a seam at edges that are turned back over it.
func (f finder) ends(s pattern.Seam) []Place {
	var out []Place
	for _, end := range []bool{false, true} {
		a, b := s.A[0].Backwards(), s.B[0].Backwards()
		if end {
			a, b = s.A[len(s.A)-1], s.B[len(s.B)-1]
		}
		for _, pt := range []pattern.Part{a, b} {
			if e := f.across(pt); e != nil && e.Role == pattern.TurnedBack && e.Allowance > 0 {
				out = append(out, f.place(s, e.Name+" of "+pt.Piece+", turned back", side{a, 1}, side{b, 1}, true))
				break
			}
		}
	}
	return out
}

// across returns the edge at which a part, walked, ends; nil when it ends
// inside its own edge.
func (f finder) across(pt pattern.Part) *pattern.Edge {
	pc, e := f.p.Edge(pt.Piece, pt.Edge)
	if e == nil {
		return nil
	}
	i := pc.EdgeIndex(pt.Edge)
	switch {
	case pt.To >= 1-geom.Coincident:
		return &pc.Edges[pc.Next(i)]
	case pt.To <= geom.Coincident:
		return &pc.Edges[pc.Prev(i)]
	}
	return nil
}

package order

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/ops/cloth"
	"truemat/ops/cloth/worn"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// sentence tells an act in plain words: what is sewn, how long, with how much
// ease, with which allowance, where it is pressed and how it is topstitched.
func (t *Told) sentence(p pattern.Pattern, g cloth.Goods) string {
	a := t.Act
	switch a.Kind {
	case Join:
		if s := p.Seam(a.Seam); s != nil {
			return t.joining(p, *s)
		}
	case Channel:
		if l := p.Line(a.Line); l != nil {
			return fmt.Sprintf("Sew the channelling along the %s, %s.", l.Name, t.inOneGo(p, ""))
		}
	case TurnBack:
		if l := p.Line(a.Line); l != nil {
			return fmt.Sprintf("Fold the %s (%s) back by %s and stitch it, %s%s.", l.Name, edges(l.Parts), widths(p, l.Parts), t.inOneGo(p, " long"), orElastic(p, g, l.Parts))
		}
		if _, e := p.Edge(a.Piece, a.Edge); e != nil {
			return fmt.Sprintf("Fold %s of %s back by %s and stitch it, %s%s.", a.Edge, a.Piece, unit.Format(e.Allowance, unit.Millimetres), t.inOneGo(p, " long"), orElastic(p, g, []pattern.Part{{Piece: a.Piece, Edge: a.Edge}}))
		}
	case Enclose:
		if l := p.Line(a.Line); l != nil {
			return fmt.Sprintf("Sew outer layer and lining of %s together along the %s, right sides facing, %s, and turn them: the edge lies between.", edges(l.Parts), l.Name, t.inOneGo(p, ""))
		}
		if _, e := p.Edge(a.Piece, a.Edge); e != nil {
			return fmt.Sprintf("Sew outer layer and lining of %s together along %s, right sides facing, %s, and turn them: the edge lies between.", a.Piece, a.Edge, t.inOneGo(p, ""))
		}
	case Elastic:
		for _, e := range g.Elastics {
			if cut, err := e.Cut(p); err == nil && e.Name == a.Of {
				where := a.Line
				if len(e.On) > 0 {
					where += " of " + edges(e.Along(p))
				}
				run, length := cut.Each()
				half := ""
				if cut.Pieces == 2 {
					half = " on each half"
				}
				return fmt.Sprintf("Put %s on along the %s, %s: %.0f mm of elastic on %.0f mm%s.", e.Name, where, putOn(e.PutOn), length, run, half)
			}
		}
	case Strap:
		if _, e := p.Edge(a.Piece, a.Edge); e != nil {
			return fmt.Sprintf("Sew a strap on at %s of %s, %s wide, its other end to the back when it was tried on.", a.Edge, a.Piece, unit.MM(e.Length()))
		}
	case Close:
		if _, e := p.Edge(a.Piece, a.Edge); e != nil {
			return fmt.Sprintf("Sew the closure on at %s of %s, %s high.", a.Edge, a.Piece, unit.MM(e.Length()))
		}
	case Wires:
		return fmt.Sprintf("Put the wires into the channelling of the %s and close its ends firmly, as the maker of the wires says.", a.Line)
	}
	return a.ID + "."
}

// inOneGo tells how long an act is as it is sewn in one go: over the fold where
// its halves meet there, else on each half of the garment; word follows the
// length.
func (t *Told) inOneGo(p pattern.Pattern, word string) string {
	told := unit.MM(t.Length) + word
	chain, count := t.chain(p)
	times := cloth.OneGo(p, chain, count)
	if times == 2 {
		return told + " on each half"
	}
	return cloth.Times(times) + told
}

// orElastic says of edges along which no elastic was described that they may be
// meant for one.
func orElastic(p pattern.Pattern, g cloth.Goods, parts []pattern.Part) string {
	if slices.ContainsFunc(parts, func(pt pattern.Part) bool { return hasElastic(p, g, pt.Piece, pt.Edge) }) {
		return ""
	}
	return " (or put an elastic on; none is described)"
}

func putOn(w cloth.PutOn) string {
	switch w {
	case cloth.Turned:
		return "turned to the inside"
	case cloth.BehindLace:
		return "behind the lace, its lower edge above the valley line"
	}
	return "folded over the edge"
}

// joining tells how a seam is sewn, and keeps the parts of it.
func (t *Told) joining(p pattern.Pattern, s pattern.Seam) string {
	t.Title = fmt.Sprintf("Sew %q: %s to %s", s.Name, edges(s.A), edges(s.B))
	size := unit.MM(t.SideB)
	if d, ok := p.FoldedDart(s); ok {
		t.Title = fmt.Sprintf("Sew dart %q of %s: fold the cloth on the middle of the dart, right sides facing", s.Name, d.Piece)
		size = fmt.Sprintf("sew its legs together from %s to the point, %s, and knot the threads there", d.Before, size)
	}
	if math.Abs(s.Ease) > 0.05 {
		longer := s.A
		if s.Ease < 0 {
			longer = s.B
		}
		size += fmt.Sprintf(", easing in %s of %s", unit.MM(math.Abs(s.Ease)), edges(longer))
	}
	if t.AllowanceA > 0 {
		size += ", allowance " + unit.Format(t.AllowanceA, unit.Millimetres)
		if math.Abs(t.AllowanceA-t.AllowanceB) > 0.005 {
			size += fmt.Sprintf(" of %s and %s of %s", edges(s.A), unit.Format(t.AllowanceB, unit.Millimetres), edges(s.B))
		}
	}
	if d := t.SideA - t.SideB - s.Ease; math.Abs(d) > 0.5 {
		size += fmt.Sprintf(" (the sides differ by %s: see the checks)", unit.MM(math.Abs(d)))
	}
	t.Details = []string{size}
	to := PressedTo(p, s, t.Press)
	if to != "" {
		press := "press it " + to
		if t.Proposed {
			press += " (proposed)"
		}
		t.Details = append(t.Details, press)
	}
	if t.Topstitch != nil {
		t.Details = append(t.Details, topstitching(*t.Topstitch, to))
	}
	return t.Title + ", " + strings.Join(t.Details, "; ") + "."
}

// PressedTo says where a seam is pressed, in words: open, or to the pieces of a
// side, a dart as it lies in the garment; empty when that is not known.
func PressedTo(p pattern.Pattern, s pattern.Seam, press pattern.Press) string {
	if d, ok := p.FoldedDart(s); ok {
		return dartTo(p, d, press)
	}
	switch press {
	case pattern.PressedOpen:
		return "open"
	case pattern.PressedToA:
		return "to " + edges(s.A)
	case pattern.PressedToB:
		return "to " + edges(s.B)
	}
	return ""
}

// dartTo says where a dart is pressed.
func dartTo(p pattern.Pattern, d pattern.FoldedDart, press pattern.Press) string {
	way := worn.Dart(p, d)
	switch {
	case press == pattern.PressedToA && way.ToA != "":
		return way.ToA
	case press == pattern.PressedToB && way.ToB != "":
		return way.ToB
	case press == pattern.PressedToA:
		return "onto " + d.A
	case press == pattern.PressedToB:
		return "onto " + d.B
	}
	return ""
}

func edges(side pattern.Side) string {
	var list []string
	for _, pt := range side {
		if len(list) == 0 || list[len(list)-1] != pt.Piece {
			list = append(list, pt.Piece)
		}
	}
	return strings.Join(list, " and ")
}

// widths tells the allowances along a chain of edges, each width once.
func widths(p pattern.Pattern, chain []pattern.Part) string {
	var list []string
	for _, pt := range chain {
		if _, e := p.Edge(pt.Piece, pt.Edge); e != nil {
			if w := unit.Format(e.Allowance, unit.Millimetres); !slices.Contains(list, w) {
				list = append(list, w)
			}
		}
	}
	return strings.Join(list, " and ")
}

func topstitching(t cloth.Topstitch, to string) string {
	text := "topstitch it"
	if t.Rows > 1 {
		text += fmt.Sprintf(" in %d rows %g mm apart", t.Rows, t.Between)
	}
	switch {
	case t.Away == 0:
		text += " along the seam"
	case to == "open":
		text += fmt.Sprintf(" %g mm from the seam on both sides", t.Away)
	case to != "":
		text += fmt.Sprintf(" %g mm from the seam on the side it is pressed to", t.Away)
	default:
		text += fmt.Sprintf(" %g mm from the seam", t.Away)
	}
	return text + ", stitch " + t.Class
}

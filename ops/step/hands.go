package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/ops/pattern"
)

// otherWord is put behind the names of what stands on the other half.
const otherWord = "other"

// OtherWord returns the word that a step puts behind the names of what it makes
// on the other half or hand; "" when it makes nothing there.
func OtherWord(s Step) string {
	switch s := s.(type) {
	case *Unfold:
		return s.word()
	case *Mirror:
		if s.Apart {
			return s.word()
		}
	}
	return ""
}

// otherName returns the name of the counterpart on the other half.
func otherName(name, word string) string { return name + " " + word }

// otherHand returns the parts as they are on the other hand of the garment, in
// the same order and directions. It reports false when a piece is cut single
// and not on the fold, and so has no other hand.
func otherHand(p pattern.Pattern, parts []pattern.Part) ([]pattern.Part, bool) {
	parts = slices.Clone(parts)
	for i := range parts {
		pc := p.Piece(parts[i].Piece)
		if pc == nil || !pc.Cut.Pair && pc.Fold() == nil {
			return nil, false
		}
		parts[i].Mirrored = !parts[i].Mirrored
	}
	return parts, true
}

// onPiece reports whether a chain runs over a piece.
func onPiece(parts []pattern.Part, piece string) bool {
	return slices.ContainsFunc(parts, func(pt pattern.Part) bool { return pt.Piece == piece })
}

// overlapOn reports whether two chains run over the same stretch of a piece.
func overlapOn(a, b []pattern.Part, piece string) bool {
	for _, x := range a {
		for _, y := range b {
			if x.Piece != piece || y.Piece != piece || x.Edge != y.Edge || x.Mirrored != y.Mirrored {
				continue
			}
			if min(max(x.From, x.To), max(y.From, y.To))-max(min(x.From, x.To), min(y.From, y.To)) > shareSlack {
				return true
			}
		}
	}
	return false
}

// shareSlack is the difference under which shares of an edge are the same:
// placeSlack on the longest edges.
const shareSlack = 1e-7

// sameParts reports whether two chains are the same.
func sameParts(a, b []pattern.Part) bool {
	return slices.EqualFunc(a, b, func(x, y pattern.Part) bool {
		return x.Piece == y.Piece && x.Edge == y.Edge && x.Mirrored == y.Mirrored &&
			math.Abs(x.From-y.From) <= shareSlack && math.Abs(x.To-y.To) <= shareSlack
	})
}

// withOtherHand returns the pattern in which every seam and line of a piece
// that so far stood for both hands of the garment is declared for each hand:
// "<name> <word>" is that of the other one. Those that are declared for both
// hands already stay. A line there twice in the garment is then two lines
// there once.
//
// It tells of seams and lines whose other side has no other hand.
func withOtherHand(p pattern.Pattern, piece, word string) (pattern.Pattern, []string, error) {
	old := p
	p = p.Clone()
	var notes []string
	p.Seams = nil
	for _, s := range old.Seams {
		p.Seams = append(p.Seams, s)
		all := slices.Concat(s.A, s.B)
		if !onPiece(all, piece) {
			continue
		}
		a, okA := otherHand(old, s.A)
		b, okB := otherHand(old, s.B)
		if own, _ := otherHand(old, onlyOn(all, piece)); slices.ContainsFunc(old.Seams, func(o pattern.Seam) bool {
			return overlapOn(own, slices.Concat(o.A, o.B), piece)
		}) {
			continue
		}
		if !okA || !okB {
			notes = append(notes, fmt.Sprintf("Seam %q runs over a piece that is cut single; sew the other half of %s to its partner.", s.Name, piece))
			continue
		}
		name := otherName(s.Name, word)
		if old.Seam(name) != nil {
			return p, nil, fmt.Errorf("there is a seam %q already, by which the seam of the other half would be called; give another word by \"other\"", name)
		}
		p.Seams = append(p.Seams, pattern.Seam{Name: name, A: a, B: b, Ease: s.Ease})
	}
	p.Lines = nil
	for _, l := range old.Lines {
		p.Lines = append(p.Lines, l)
		if !onPiece(l.Parts, piece) {
			continue
		}
		parts, ok := otherHand(old, l.Parts)
		if own, _ := otherHand(old, onlyOn(l.Parts, piece)); slices.ContainsFunc(old.Lines, func(o pattern.Line) bool {
			return o.Kind == l.Kind && overlapOn(own, o.Parts, piece)
		}) {
			continue
		}
		if !ok {
			notes = append(notes, fmt.Sprintf("Line %q runs over a piece that is cut single; name the line of the other half of %s.", l.Name, piece))
			continue
		}
		name := otherName(l.Name, word)
		if old.Line(name) != nil {
			return p, nil, fmt.Errorf("there is a line %q already, by which the line of the other half would be called; give another word by \"other\"", name)
		}
		p.Lines[len(p.Lines)-1].Count = l.Count - l.Count/2
		p.Lines = append(p.Lines, pattern.Line{Name: name, Kind: l.Kind, Parts: parts, Count: l.Count / 2})
	}
	return p, notes, nil
}

func onlyOn(parts []pattern.Part, piece string) []pattern.Part {
	return slices.DeleteFunc(slices.Clone(parts), func(pt pattern.Part) bool { return pt.Piece != piece })
}

// withoutOtherHand takes from p the seams and lines of a piece that only say
// for the other hand of the garment what another one says for this hand; it is
// the reverse of withOtherHand.
func withoutOtherHand(p *pattern.Pattern, piece string) {
	hand := func(parts []pattern.Part) bool { // whether it is the mirrored one
		return slices.ContainsFunc(parts, func(pt pattern.Part) bool { return pt.Piece == piece && pt.Mirrored })
	}
	p.Seams = slices.DeleteFunc(p.Seams, func(s pattern.Seam) bool {
		a, okA := otherHand(*p, s.A)
		b, okB := otherHand(*p, s.B)
		return okA && okB && hand(slices.Concat(s.A, s.B)) && slices.ContainsFunc(p.Seams, func(o pattern.Seam) bool {
			return o.Name != s.Name && o.Ease == s.Ease && !hand(slices.Concat(o.A, o.B)) && sameParts(o.A, a) && sameParts(o.B, b)
		})
	})
	var lines []pattern.Line
	twice := map[string]int{}
	for _, l := range p.Lines {
		parts, ok := otherHand(*p, l.Parts)
		i := slices.IndexFunc(p.Lines, func(o pattern.Line) bool {
			return o.Name != l.Name && o.Kind == l.Kind && !hand(o.Parts) && sameParts(o.Parts, parts)
		})
		if ok && hand(l.Parts) && i >= 0 {
			twice[p.Lines[i].Name] += l.Count
			continue
		}
		lines = append(lines, l)
	}
	for i := range lines {
		lines[i].Count += twice[lines[i].Name]
	}
	p.Lines = lines
}

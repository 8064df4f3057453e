package step

import (
	"fmt"
	"slices"

	"truemat/ops/pattern"
)

// sew declares every seam of the piece once more for its lining, over the
// stretch of the partner that the lining reaches. Ease is taken in proportion.
func (l *LineIt) sew(p *pattern.Pattern) (notes []string, err error) {
	for _, s := range slices.Clone(p.Seams) {
		name := l.Name + " " + s.Name
		made := pattern.Seam{Name: name}
		onA, onB := onPiece(s.A, l.Piece), onPiece(s.B, l.Piece)
		switch {
		case onA && onB:
			if !onlyPiece(s.A, l.Piece) || !onlyPiece(s.B, l.Piece) {
				notes = append(notes, fmt.Sprintf("Seam %q has %s on both sides beside other pieces; sew %s there yourself.", s.Name, l.Piece, l.Name))
				continue
			}
			made.A, _, _ = l.along(*p, s.A)
			made.B, _, _ = l.along(*p, s.B)
			made.Ease = s.Ease
		case onA:
			made.A, made.B, made.Ease = l.against(*p, s.A, s.B, s.Ease)
		case onB:
			made.B, made.A, made.Ease = l.against(*p, s.B, s.A, s.Ease)
		default:
			continue
		}
		if len(made.A) == 0 || len(made.B) == 0 {
			notes = append(notes, fmt.Sprintf("Nothing of seam %q is left on %s.", s.Name, l.Name))
			continue
		}
		if p.Seam(name) != nil {
			return nil, fmt.Errorf("there is a seam %q already, by which a seam of the lining would be called; give the lining another name", name)
		}
		p.Seams = append(p.Seams, made)
	}
	// What no seam takes in is free.
	pc := p.Piece(l.Name)
	for i := range pc.Edges {
		e := &pc.Edges[i]
		if e.Role.Sewn() && !slices.ContainsFunc(p.Seams, func(s pattern.Seam) bool {
			return slices.ContainsFunc(slices.Concat(s.A, s.B), func(pt pattern.Part) bool { return pt.Piece == l.Name && pt.Edge == e.Name })
		}) {
			e.Free = true
		}
	}
	return notes, nil
}

func onlyPiece(parts []pattern.Part, piece string) bool {
	return !slices.ContainsFunc(parts, func(pt pattern.Part) bool { return pt.Piece != piece })
}

// along returns the parts of the lining for those of the piece on a side, and
// which stretch of the side they take, in walked mm.
func (l *LineIt) along(p pattern.Pattern, side pattern.Side) (parts pattern.Side, from, to float64) {
	walked, first := 0.0, true
	for _, pt := range side {
		length := p.PartLength(pt)
		walked += length
		if pt.Piece != l.Piece {
			continue
		}
		_, was := p.Edge(l.Piece, pt.Edge)
		_, is := p.Edge(l.Name, pt.Edge)
		a, b := reached(was, is)
		whole := was.Length()
		lo, hi := max(min(pt.From, pt.To)*whole, a), min(max(pt.From, pt.To)*whole, b)
		if hi-lo <= placeSlack {
			continue
		}
		share := func(s float64) float64 {
			switch s {
			case a:
				return 0
			case b:
				return 1
			}
			return (s - a) / (b - a)
		}
		made := pattern.Part{Piece: l.Name, Edge: pt.Edge, Mirrored: pt.Mirrored, From: share(lo), To: share(hi)}
		start, end := walked-length+(lo-pt.From*whole), walked-length+(hi-pt.From*whole)
		if pt.From > pt.To {
			made = made.Backwards()
			start, end = walked-length+(pt.From*whole-hi), walked-length+(pt.From*whole-lo)
		}
		parts = append(parts, made)
		if first {
			from, first = start, false
		}
		to = end
	}
	return parts, from, to
}

// against returns the lining's side of a seam, the stretch of the partner that
// it reaches and the ease on it.
func (l *LineIt) against(p pattern.Pattern, own, partner pattern.Side, ease float64) (mine, theirs pattern.Side, part float64) {
	mine, from, to := l.along(p, own)
	ownLength, length := p.Length(own), p.Length(partner)
	if len(mine) == 0 || ownLength <= placeSlack {
		return nil, nil, 0
	}
	k := length / ownLength
	return mine, sideStretch(p, partner, from*k, to*k), ease * (to - from) / ownLength
}

// sideStretch returns the parts of a side from a walked length in mm to another.
func sideStretch(p pattern.Pattern, side pattern.Side, from, to float64) pattern.Side {
	var out pattern.Side
	walked := 0.0
	for _, pt := range side {
		length := p.PartLength(pt)
		lo, hi := max(from-walked, 0), min(to-walked, length)
		walked += length
		if hi-lo <= placeSlack {
			continue
		}
		at := func(s float64) float64 {
			switch {
			case s <= placeSlack:
				return pt.From
			case s >= length-placeSlack:
				return pt.To
			}
			return pt.From + (pt.To-pt.From)*s/length
		}
		out = append(out, pattern.Part{Piece: pt.Piece, Edge: pt.Edge, Mirrored: pt.Mirrored, From: at(lo), To: at(hi)})
	}
	return out
}

package tool

import (
	"slices"

	"truemat/geom"
)

// keyed moves the finger by a key. It begins where the tool says, else where
// the table marks a place for it, else at what is selected.
func (b *base) keyed(k Key, ask Ask) (chosen Pointing, took, used bool) {
	if ask.Begin.Kind == 0 {
		ask.Begin = b.marked(ask)
	}
	if ask.Begin.Kind == 0 {
		ask.Begin = b.selected(ask)
	}
	ask.Prefer = ask.Begin.Piece
	if ask.Prefer == "" {
		ask.Prefer = b.table.Selection().Piece
	}
	return b.walk.Key(b.pattern(), k, ask)
}

// markReach is how far in mm from a marked place the thing lies that is meant.
const markReach = 1

// marks are the places in mm on the mat that the table marks for the tool in the
// hand, as the act of a lesson does.
func (b *base) marks() []geom.Point {
	if m, ok := b.table.(interface{ Marked() []geom.Point }); ok {
		return m.Marked()
	}
	return nil
}

// marked returns the thing that is asked for at the first of the marks that has
// one.
func (b *base) marked(ask Ask) Pointing {
	for _, at := range b.marks() {
		if pt, ok := Point(b.pattern(), at, markReach, ask); ok {
			return pt
		}
	}
	return Pointing{}
}

// selected returns what is selected as far as it is asked for: the corner,
// notch or line, or the edge it is on.
func (b *base) selected(ask Ask) Pointing {
	s := b.table.Selection()
	p := b.pattern()
	pc := p.Piece(s.Piece)
	if pc == nil || !ask.takes(s.Piece) {
		return Pointing{}
	}
	list := reached(p, pc, ask.Kind)
	for _, is := range []func(Pointing) bool{
		func(c Pointing) bool { return s.Notch != "" && c.Notch == s.Notch },
		func(c Pointing) bool { return s.Inner != "" && c.Inner == s.Inner },
		func(c Pointing) bool { return s.Joint && c.Kind == OnJoint && c.Edge == s.Edge },
		func(c Pointing) bool { return s.Edge != "" && c.Kind == OnEdge && c.Edge == s.Edge },
	} {
		if i := slices.IndexFunc(list, is); i >= 0 {
			return list[i]
		}
	}
	return Pointing{Kind: OnPiece, Piece: s.Piece}
}

// atOnce is the corner or notch that is selected, which the space bar takes
// while the finger is at nothing.
func (b *base) atOnce() (Pointing, bool) {
	if _, walking := b.walk.At(b.pattern()); walking {
		return Pointing{}, false
	}
	pt := b.selected(Ask{Kind: OnJoint | OnNotch})
	return pt, pt.Kind == OnJoint || pt.Kind == OnNotch
}

// orAtOnce adds to a hint what the space bar takes at once.
func (b *base) orAtOnce(hint string) string {
	if pt, ok := b.atOnce(); ok {
		return hint + " The space bar takes the " + pt.label(b.pattern()) + "."
	}
	return hint
}

package tool

import (
	"reflect"
	"slices"

	"truemat/ops/pattern"
)

// Finger chooses a thing on the mat by keys alone. Next and Previous go through
// the pieces; Choose goes into one, where they go through its joints, edges
// and notches, inner lines and crossings; Choose takes what the finger is at. It
// begins at the piece that is preferred, and in it at what is to be begun with;
// after a wrong piece was left it goes on from that one.
// The zero value is at nothing.
type Finger struct {
	at     Pointing
	inside bool
	taken  Pointing // what was taken last in the piece it is inside of
	prefer string   // the piece that was preferred last
	left   string   // the piece that was left last, while that is preferred still
}

// goingOn is inside the piece in which something was taken, and goes on from there.
func goingOn(taken Pointing) Finger {
	return Finger{at: Pointing{Kind: OnPiece, Piece: taken.Piece}, inside: true, taken: taken}
}

// At returns what the finger is at, found anew in the pattern.
func (f *Finger) At(p pattern.Pattern) (Pointing, bool) {
	pc := p.Piece(f.at.Piece)
	if pc == nil || f.at.Kind == 0 {
		f.Reset()
		return Pointing{}, false
	}
	if f.at.Kind == OnPiece {
		return whole(pc), true
	}
	for _, c := range reached(p, pc, f.at.Kind) {
		if c.same(f.at) {
			return c, true
		}
	}
	f.Reset()
	return Pointing{}, false
}

// whole returns the piece itself, pointed at in the middle of its extent.
func whole(pc *pattern.Piece) Pointing {
	c := Pointing{Kind: OnPiece, Piece: pc.Name}
	if o, err := pc.Outline(); err == nil {
		c.At = pc.Pose.Apply(o.Bounds().Center())
	}
	return c
}

func (pt Pointing) same(o Pointing) bool {
	return pt.Kind == o.Kind && pt.Piece == o.Piece && pt.Edge == o.Edge && pt.Notch == o.Notch && pt.Inner == o.Inner &&
		(pt.Kind != OnCrossing || reflect.DeepEqual(pt.Spot.Crosses, o.Spot.Crosses))
}

// reached returns what keys go through in a piece: what lies along its
// outline, then inner lines, then crossings.
func reached(p pattern.Pattern, pc *pattern.Piece, kinds Kind) []Pointing {
	var out []Pointing
	for _, c := range things(pc) {
		if c.Kind&kinds != 0 {
			out = append(out, c)
		}
	}
	if kinds&OnInner != 0 {
		for i := range pc.Inner {
			out = append(out, onInner(pc, &pc.Inner[i], pc.Inner[i].Path.Length()/2))
		}
	}
	if kinds&OnCrossing != 0 {
		for i := range pc.Edges {
			out = append(out, crossings(p, pc, &pc.Edges[i])...)
		}
	}
	return out
}

// Key takes a key. It returns what was chosen, if anything was, and reports
// whether the key was used.
func (f *Finger) Key(p pattern.Pattern, k Key, ask Ask) (chosen Pointing, took, used bool) {
	if f.prefer != ask.Prefer {
		f.prefer, f.left = ask.Prefer, ""
	}
	switch k.Name {
	case Next, Previous:
		list := f.list(p, ask)
		if len(list) == 0 && f.inside {
			f.Reset()
			list = f.list(p, ask)
		}
		if len(list) == 0 {
			return Pointing{}, false, false
		}
		i := slices.IndexFunc(list, f.at.same)
		if i < 0 && f.inside {
			i = slices.IndexFunc(list, f.taken.same)
		}
		if i < 0 && !f.inside && f.left != ask.Prefer {
			i = slices.IndexFunc(list, func(c Pointing) bool { return c.Piece == f.left })
		}
		if i < 0 && !f.inside && k.Name == Next {
			i = slices.IndexFunc(list, func(c Pointing) bool { return c.Piece == ask.Prefer }) - 1
			i = max(i, -1)
		}
		switch {
		case k.Name == Next:
			i = (i + 1) % len(list)
		case i <= 0:
			i = len(list) - 1
		default:
			i--
		}
		f.at = list[i]
		return Pointing{}, false, true
	case Choose:
		at, ok := f.At(p)
		if !ok {
			return Pointing{}, false, false
		}
		if at.Kind == OnPiece && ask.Kind&^OnPiece != 0 {
			f.inside = true
			if inner := f.list(p, ask); ask.Kind&OnPiece == 0 && len(inner) > 0 {
				f.at = inner[max(slices.IndexFunc(inner, ask.Begin.same), 0)]
			}
		}
		return at, at.Kind&ask.Kind != 0, true
	}
	return Pointing{}, false, false
}

// Reset leaves what it is at, after which the keys go on from the piece it was
// in; it reports whether it was at anything.
func (f *Finger) Reset() bool {
	was := f.at.Kind != 0
	if was && f.inside {
		f.left = f.at.Piece
	}
	*f = Finger{prefer: f.prefer, left: f.left}
	return was
}

// list returns what the finger goes through: the pieces, or what lies along the
// outline of the one it is inside of.
func (f *Finger) list(p pattern.Pattern, ask Ask) []Pointing {
	var out []Pointing
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		switch {
		case !ask.takes(pc.Name):
		case !f.inside:
			out = append(out, whole(pc))
		case pc.Name == f.at.Piece:
			out = append(out, reached(p, pc, ask.Kind&^OnPiece)...)
		}
	}
	return out
}

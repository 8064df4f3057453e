package pattern

import (
	"math"

	"truemat/geom"
)

// Guided returns the pattern in which every corner that follows the piece its
// edge is sewn to knows where that piece's cut line lies; without it such a
// corner runs on. It is to be called after each alteration; p itself stays as
// it is, and is returned when no corner follows another piece.
func (p Pattern) Guided() Pattern {
	if !p.anyFollows() {
		return p
	}
	next := p.Clone()
	for i := range next.Pieces {
		pc := &next.Pieces[i]
		for j := range pc.Edges {
			e := &pc.Edges[j]
			e.follows = geom.Path{}
			if e.Corner.End != Follows {
				continue
			}
			end, at := PieceEnd{pc.Name, e.Name}, Start
			if e.Corner.Of == Before {
				end, at = PieceEnd{pc.Name, pc.Edges[pc.Prev(j)].Name}, End
			}
			if se, ok := p.seamEnd(end, at); ok {
				e.follows, _ = p.cutBeyond(se) // without one the corner runs on
			}
		}
	}
	return next
}

// anyFollows reports whether a corner follows another piece, or did.
func (p Pattern) anyFollows() bool {
	for i := range p.Pieces {
		for j := range p.Pieces[i].Edges {
			if e := &p.Pieces[i].Edges[j]; e.Corner.End == Follows || !e.follows.Empty() {
				return true
			}
		}
	}
	return false
}

// PieceEnd names an edge of a piece.
type PieceEnd struct{ Piece, Edge string }

// SeamEnd is an end of a seam as seen from one of its sides.
type SeamEnd struct {
	Seam *Seam
	At   EndName // of the seam
	Side string  // "a" or "b", the side from which it is seen
	// Own and Other are the last parts of this side and of the other one,
	// walked away from the end.
	Own, Other Part
}

// Ends returns the ends of a seam as seen from both sides; those left out
// where a side ends inside an edge.
func (s *Seam) Ends() []SeamEnd {
	var out []SeamEnd
	for _, at := range []EndName{Start, End} {
		a, b := s.A.from(at == End), s.B.from(at == End)
		if a.atJoint() && b.atJoint() {
			out = append(out, SeamEnd{s, at, "a", a, b}, SeamEnd{s, at, "b", b, a})
		}
	}
	return out
}

// atJoint reports whether the part starts at an end of its edge.
func (pt Part) atJoint() bool { return pt.Piece != "" && (pt.From == 0 || pt.From == 1) }

// across returns the edge that runs across where a part starts, walked towards
// it, and the index of the joint's later edge.
func (p Pattern) across(pt Part) (Part, int, bool) {
	pc := p.Piece(pt.Piece)
	if pc == nil {
		return Part{}, 0, false
	}
	i := pc.EdgeIndex(pt.Edge)
	if i < 0 {
		return Part{}, 0, false
	}
	c := Whole(pt.Piece, pc.Edges[pc.Prev(i)].Name)
	joint := i
	if pt.From == 1 {
		joint = pc.Next(i)
		c = Whole(pt.Piece, pc.Edges[joint].Name).Backwards()
	}
	c.Mirrored = pt.Mirrored
	return c, joint, true
}

// seamEnd returns the seam's end at an end of an edge.
func (p Pattern) seamEnd(e PieceEnd, at EndName) (SeamEnd, bool) {
	share := 0.0
	if at == End {
		share = 1
	}
	for i := range p.Seams {
		for _, se := range p.Seams[i].Ends() {
			if se.Own.Piece == e.Piece && se.Own.Edge == e.Edge && se.Own.From == share {
				return se, true
			}
		}
	}
	return SeamEnd{}, false
}

// cutBeyond returns the cut line of the edge that runs across a seam's end on
// the other side, away from the seam, as it lies beside this side's piece. It
// fails where a piece is sewn to itself in one hand.
func (p Pattern) cutBeyond(se SeamEnd) (geom.Path, bool) {
	own, _, ok1 := p.across(se.Own)
	other, _, ok2 := p.across(se.Other)
	if !ok1 || !ok2 || own.Piece == other.Piece && own.Mirrored == other.Mirrored {
		return geom.Path{}, false
	}
	lay, _, err := p.LaySewn(own, other.Backwards())
	if err != nil {
		return geom.Path{}, false
	}
	_, e := p.Edge(other.Piece, other.Edge)
	r := rim{run: e.Path, width: e.Allowance}
	path, err := r.beside()
	if err != nil {
		return geom.Path{}, false
	}
	if other.From < other.To { // walked towards the seam
		path = path.Reverse()
	}
	return path.Transform(lay), true
}

// Corner returns the joint (the index of its later edge) where this side's
// allowance ends at the seam's end, and how it must end there to lie on the
// piece to which the seam is pressed: folded back along the seam where it is
// pressed onto its own piece, following the other piece where it is pressed
// onto that.
func (se SeamEnd) Corner(p Pattern, press Press) (joint int, c Corner, ok bool) {
	_, joint, ok = p.across(se.Own)
	c = Corner{FoldsBack, After}
	if onto := string(press); press != PressedOpen && onto != se.Side {
		c.End = Follows
	}
	if se.Own.From == 1 {
		c.Of = Before
	}
	return joint, c, ok
}

// TurnsUp reports whether the edge that runs across the seam's end is turned
// up there as one with the seam, as a hem is: then the seam's allowances end
// with the hem's.
func (se SeamEnd) TurnsUp(p Pattern) bool {
	_, joint, ok := p.across(se.Own)
	if !ok {
		return false
	}
	of := Before // the edge across
	if se.Own.From == 1 {
		of = After
	}
	return p.Piece(se.Own.Piece).Edges[joint].Corner == Corner{FoldsBack, of}
}

// endLooks is the number of places across an allowance at which its end is
// compared with what it lies on.
const endLooks = 8

// EndOff returns how this side's allowance ends beside the cut line on which it
// lies when the seam is sewn and pressed: how far in mm along the seam it sticks
// out beyond that at most, and how far it falls short. It fails where nothing
// can be said: a fold or a piece sewn to itself there, no allowance, or a hem
// turned up as one.
func (p Pattern) EndOff(se SeamEnd, press Press) (out, short float64, ok bool) {
	across, _, ok := p.across(se.Own)
	if !ok || se.TurnsUp(p) {
		return 0, 0, false
	}
	pc := p.Piece(se.Own.Piece)
	seam, edge := pc.Edge(se.Own.Edge), pc.Edge(across.Edge)
	if seam.Allowance <= geom.Coincident || edge.Role == Fold {
		return 0, 0, false
	}
	at, into := seam.Path.Start(), seam.Path.TangentAt(0)
	width := into.Perp().Mul(-seam.Allowance)
	if se.Own.From == 1 {
		at, into = seam.Path.End(), seam.Path.TangentBefore(seam.Length()).Mul(-1)
		width = into.Perp().Mul(seam.Allowance)
	}
	var lies geom.Path
	if _, c, _ := se.Corner(p, press); c.End == Follows {
		if lies, ok = p.cutBeyond(se); !ok {
			return 0, 0, false
		}
	} else {
		r := rim{run: edge.Path, width: edge.Allowance}
		beside, err := r.beside()
		mirror, err2 := geom.Mirror(at, at.Add(into))
		if err != nil || err2 != nil {
			return 0, 0, false
		}
		lies = beside.Transform(mirror)
	}
	cut, err := pc.CutLine()
	if err != nil {
		return 0, 0, false
	}
	reach := 2 * mitreLimit * max(seam.Allowance, edge.Allowance)
	// Where a line along the seam first meets a path, coming from outside.
	first := func(path geom.Path, from geom.Point) (t float64, ok bool) {
		for _, c := range path.CrossLine(from, into) {
			if math.Abs(c.T) <= reach && (!ok || c.T < t) {
				t, ok = c.T, true
			}
		}
		return t, ok
	}
	found := false
	for k := 1; k < endLooks; k++ {
		from := at.Add(width.Mul(float64(k) / endLooks))
		want, ok1 := first(lies, from)
		is, ok2 := first(cut, from)
		if ok1 && ok2 {
			found = true
			out, short = max(out, want-is), max(short, is-want)
		}
	}
	return out, short, found
}

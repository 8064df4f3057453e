package pattern

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"truemat/geom"
)

// Carried tells what an alteration did to what lies on the outline.
type Carried struct {
	LostNotches []LostNotch
	LostSeams   []LostSeam
	LostLines   []string
	Renamed     []Renamed
	// Notes says the same in plain sentences.
	Notes []string
}

// LostNotch is a notch whose place is gone.
type LostNotch struct {
	Piece string     // as it was called before
	Notch Notch      // as it was
	Point geom.Point // where it was, in the old piece's coordinates
}

// LostSeam is a seam of which a whole side is gone.
type LostSeam struct {
	Name string
	// Left is what remains of its other side in the new pattern; empty when
	// both sides are gone.
	Left []Part
}

// Renamed is a notch or inner line that had to take another name because its
// piece now holds two of that name.
type Renamed struct {
	OldPiece, OldName string
	Piece, Name       string
}

// Carry carries everything that lies on the pieces through an alteration.
//
// next has the new pieces with their edges, arrows, cuts and poses. Carry
// returns next with the notches, inner lines, marks, seams and lines of old
// put where m says that their places went, and tells what was lost. What a
// step adds of its own it adds to the result.
//
// Notches keep being held in the same manner, in mm or as a share, from the
// same end. Where two pieces become one, a name that both held is kept for
// the piece whose name stays (else the first) and carries the old piece's
// name in front for the other, in every size alike. Parts of seams and lines
// that ran over one edge may run over several and the other way round; whole
// edges stay exactly whole. A seam that lost a whole side is removed, also a
// line that lost all its parts. Inner lines and marks of a piece that was
// split go to the part on which their middle lies.
//
// An error means that m does not fit old and next.
func Carry(old Pattern, next Pattern, m Map) (Pattern, Carried, error) {
	c, err := newCarrier(old, next, m)
	if err != nil {
		return Pattern{}, Carried{}, err
	}
	out := next.Clone()
	for i := range out.Pieces {
		out.Pieces[i].Notches, out.Pieces[i].Inner, out.Pieces[i].Marks = nil, nil, nil
	}
	out.Seams, out.Lines = nil, nil
	var done Carried
	for i := range old.Pieces {
		c.carryPiece(&old.Pieces[i], out, &done)
	}
	for _, s := range old.Seams {
		a, b := c.parts(s.A), c.parts(s.B)
		switch {
		case len(a) > 0 && len(b) > 0:
			s.A, s.B = a, b
			s.Stretches = c.stretches(s.Stretches)
			out.Seams = append(out.Seams, s)
			continue
		case len(a) == 0 && len(b) == 0:
			done.Notes = append(done.Notes, fmt.Sprintf("Seam %q is gone with both its sides.", s.Name))
		default:
			left := slices.Concat(a, b)
			done.Notes = append(done.Notes, fmt.Sprintf("Seam %q lost one side; %s has no partner now.", s.Name, partNames(left)))
		}
		done.LostSeams = append(done.LostSeams, LostSeam{Name: s.Name, Left: slices.Concat(a, b)})
	}
	for _, l := range old.Lines {
		if l.Parts = c.parts(l.Parts); len(l.Parts) > 0 {
			out.Lines = append(out.Lines, l)
			continue
		}
		done.LostLines = append(done.LostLines, l.Name)
		done.Notes = append(done.Notes, fmt.Sprintf("Line %q is gone with its edges.", l.Name))
	}
	done.Notes = append(done.Notes, out.Unstretch()...)
	return out, done, nil
}

// carryPiece carries the notches, inner lines and marks of one old piece.
func (c *carrier) carryPiece(pc *Piece, out Pattern, done *Carried) {
	for _, n := range pc.Notches {
		e := pc.Edge(n.Edge)
		if e == nil {
			continue
		}
		s := min(max(n.At(e.Length()), 0), e.Length())
		st, at, ok := c.place(pc.Name, n.Edge, s)
		if !ok {
			done.LostNotches = append(done.LostNotches, LostNotch{Piece: pc.Name, Notch: n, Point: e.Path.At(s)})
			done.Notes = append(done.Notes, fmt.Sprintf("Notch %q of %s went with the stretch of %s it was on.", n.Name, pc.Name, n.Edge))
			continue
		}
		was := n.Name
		n.Edge, n.Along = st.edge, n.Along.carried(st, s, at)
		n.Name = c.name(pc.Name, st.piece, n.Name, (*Piece).notchNames)
		to := out.Piece(st.piece)
		n.Name = unused(n.Name, to.notchNames())
		to.Notches = append(to.Notches, n)
		c.notches[NotchName{pc.Name, was}] = NotchName{st.piece, n.Name}
		done.rename(pc.Name, was, st.piece, n.Name)
	}
	for _, in := range pc.Inner {
		to, motion, ok := c.home(pc.Name, in.Path.At(in.Path.Length()/2))
		if !ok {
			continue
		}
		was := in.Name
		in.Path = in.Path.Transform(motion)
		in.Name = c.name(pc.Name, to, in.Name, (*Piece).innerNames)
		dst := out.Piece(to)
		in.Name = unused(in.Name, dst.innerNames())
		dst.Inner = append(dst.Inner, in)
		done.rename(pc.Name, was, to, in.Name)
	}
	for _, mk := range pc.Marks {
		to, motion, ok := c.home(pc.Name, mk.At)
		if !ok {
			continue
		}
		mk.At = motion.Apply(mk.At)
		dst := out.Piece(to)
		dst.Marks = append(dst.Marks, mk)
	}
}

func (done *Carried) rename(oldPiece, oldName, piece, name string) {
	if oldName == name {
		return
	}
	done.Renamed = append(done.Renamed, Renamed{oldPiece, oldName, piece, name})
	done.Notes = append(done.Notes, fmt.Sprintf("%q of %s is now called %q.", oldName, oldPiece, name))
}

// carried returns the place a, which was at s mm, put at a place of a new
// edge and held in the same manner.
func (a Along) carried(st stretch, s, at float64) Along {
	same := math.Abs(at-s) <= geom.Coincident && math.Abs(st.oldLength-st.length) <= geom.Coincident
	if same && !st.backwards() {
		return a // untouched, so that no rounding creeps in
	}
	return a.turned(st.backwards()).Moved(at, st.length)
}

// turned returns the place held from the other end when the edge is now
// walked the other way, so that it keeps to the same end of the cloth.
func (a Along) turned(backwards bool) Along {
	switch {
	case !backwards:
	case a.From == End:
		a.From = Start
	default:
		a.From = End
	}
	return a
}

// name returns what a thing of an old piece is called on the piece to. It
// looks only at names before the alteration, so that all sizes agree.
func (c *carrier) name(oldPiece, to, name string, names func(*Piece) []string) string {
	for _, other := range c.sources(to) {
		if other == oldPiece {
			break
		}
		if slices.Contains(names(c.old.Piece(other)), name) {
			return oldPiece + " " + name
		}
	}
	return name
}

// sources returns the old pieces that went into a new one, the one whose name
// stays first.
func (c *carrier) sources(to string) []string {
	if c.from == nil {
		c.from = map[string][]string{}
		for i := range c.old.Pieces {
			name := c.old.Pieces[i].Name
			into, _ := c.becomes(name)
			for _, to := range into {
				if to == name {
					c.from[to] = slices.Insert(c.from[to], 0, name)
				} else {
					c.from[to] = append(c.from[to], name)
				}
			}
		}
	}
	return c.from[to]
}

// unused returns the name with a number behind it when it is taken.
func unused(name string, taken []string) string {
	free := name
	for i := 2; slices.Contains(taken, free); i++ {
		free = name + " " + strconv.Itoa(i)
	}
	return free
}

// home returns the piece on which a point of an old piece lies now.
func (c *carrier) home(piece string, at geom.Point) (to string, motion geom.Motion, ok bool) {
	for _, mv := range c.m.Pieces {
		if mv.From != piece || mv.To == "" {
			continue
		}
		if !ok {
			to, motion, ok = mv.To, mv.Motion, true
			continue
		}
		// A second part: prefer it when the point lies on it and not on the first.
		if !c.next.Piece(to).holds(motion.Apply(at)) && c.next.Piece(mv.To).holds(mv.Motion.Apply(at)) {
			to, motion = mv.To, mv.Motion
		}
	}
	if ok {
		return to, motion, true
	}
	if _, removed := c.becomes(piece); removed {
		return "", geom.Motion{}, false
	}
	return piece, geom.Identity(), true
}

// holds reports whether a point lies inside the piece's outline.
func (pc *Piece) holds(at geom.Point) bool {
	o, err := pc.Outline()
	return err == nil && o.Contains(at)
}

// parts carries a chain of parts. A chain none of whose edges changed is
// returned as it is.
func (c *carrier) parts(chain []Part) []Part {
	if !slices.ContainsFunc(chain, func(pt Part) bool { return !c.kept[handEdge{pt.Piece, pt.Edge, pt.Mirrored}] }) {
		return slices.Clone(chain)
	}
	var out []Part
	for _, pt := range chain {
		for _, n := range c.part(pt) {
			if last := len(out) - 1; last >= 0 && c.joins(out[last], n) {
				out[last].To = n.To
				continue
			}
			out = append(out, n)
		}
	}
	return out
}

// part carries one part; its pieces come in the order in which it is walked.
func (c *carrier) part(pt Part) []Part {
	key := handEdge{pt.Piece, pt.Edge, pt.Mirrored}
	if c.kept[key] {
		return []Part{pt}
	}
	_, e := c.old.Edge(pt.Piece, pt.Edge)
	if e == nil {
		return nil
	}
	length := e.Length()
	lo, hi := min(pt.From, pt.To)*length, max(pt.From, pt.To)*length
	var out []Part
	for _, st := range c.edges[key] {
		from, to := max(lo, st.from), min(hi, st.to)
		if to-from <= mapSlack {
			continue
		}
		a, b := st.at(from)/st.length, st.at(to)/st.length
		if a == b {
			continue
		}
		out = append(out, Part{Piece: st.piece, Edge: st.edge, Mirrored: st.mirrored, From: a, To: b})
	}
	if pt.From > pt.To {
		slices.Reverse(out)
		for i := range out {
			out[i] = out[i].Backwards()
		}
	}
	return out
}

// joins reports whether b runs on where a ends, on the same edge.
func (c *carrier) joins(a, b Part) bool {
	if a.Piece != b.Piece || a.Edge != b.Edge || a.Mirrored != b.Mirrored || (a.To > a.From) != (b.To > b.From) {
		return false
	}
	_, e := c.next.Edge(a.Piece, a.Edge)
	gap := (a.To - b.From) * e.Length()
	return gap <= mapSlack && gap >= -mapSlack
}

func partNames(parts []Part) string {
	names := make([]string, len(parts))
	for i, pt := range parts {
		names[i] = pt.Edge + " of " + pt.Piece
	}
	return joinWords(names)
}

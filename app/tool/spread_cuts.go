package tool

import (
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// needs says what is still to be chosen.
type needs int

const (
	needsNothing needs = iota
	needsHinge
	needsClosing
)

// cuts are the slashes as they lie now, on the mat.
type cuts struct {
	pc      *pattern.Piece
	edge    *pattern.Edge // on which the first slash starts
	lines   []struct{ from, to geom.Point }
	pivot   geom.Point // of the first slash
	closing *geom.Point
	back    bool // what turns lies before the slash
	needs   needs
}

// cuts finds everything anew; it begins anew when something is no more.
func (s *Spread) cuts() (c cuts, ok bool) {
	p := s.pattern()
	for i := range s.slashes {
		l := &s.slashes[i]
		from := anew(p, &l.from)
		if from == nil || l.to != nil && anew(p, l.to) == nil {
			s.forget()
			return c, false
		}
		l.from, l.to = *from, anew(p, l.to)
	}
	if s.closing != nil {
		s.closing = anew(p, s.closing)
	}
	if len(s.slashes) == 0 {
		return c, false
	}
	first := s.slashes[0].from
	c.pc, c.edge = p.Edge(first.Piece, first.Edge)
	if s.dart != "" && s.ownDart() == nil {
		s.dart = ""
	}
	for _, l := range s.slashes {
		to, found := s.hingeOf(p, c, l)
		if !found {
			c.needs = needsHinge
			to = l.from.At
		}
		c.lines = append(c.lines, struct{ from, to geom.Point }{l.from.At, to})
	}
	c.pivot = c.lines[0].to
	if s.closing != nil {
		c.closing = &s.closing.At
	}
	if c.needs == needsNothing && s.inside != nil && s.closing == nil && s.dart == "" {
		c.needs = needsClosing
	}
	c.back = s.turnsBack(p, c)
	return c, true
}

// hingeOf returns the hinge of a slash on the mat.
func (s *Spread) hingeOf(p pattern.Pattern, c cuts, l slashed) (geom.Point, bool) {
	switch {
	case s.inside != nil:
		a, way := c.edge.Path.Start(), c.edge.Path.End().Sub(c.edge.Path.Start())
		return c.pc.Pose.Apply(a.Add(way.Mul(s.inside.along)).Add(way.Perp().Mul(s.inside.off))), true
	case l.to != nil:
		return l.to.At, true
	}
	if d := s.ownDart(); d != nil {
		if at, err := p.Find(d.Point); err == nil {
			return at.Mat, true
		}
	}
	return geom.Point{}, false
}

// darts returns the darts of the piece that is slashed.
func (s *Spread) darts() []step.DartOf {
	if len(s.slashes) == 0 {
		return nil
	}
	return step.Darts(s.pattern(), s.slashes[0].from.Piece)
}

// ownDart returns the dart that closes, or nil.
func (s *Spread) ownDart() *step.DartOf {
	for _, d := range s.darts() {
		if d.Seam == s.dart {
			return &d
		}
	}
	return nil
}

// turnsBack reports whether the part before the first slash is the one that
// turns: when the other is to stay, or holds the fold.
func (s *Spread) turnsBack(p pattern.Pattern, c cuts) bool {
	if s.after {
		return true
	}
	fold := c.pc.Fold()
	first := s.slashes[0]
	end := first.to
	if s.inside != nil {
		end = s.closing
	}
	if d := s.ownDart(); d != nil {
		if at, err := p.Find(d.Point); err == nil {
			pt := Pointing{Piece: at.Piece, Edge: at.Edge, S: at.S}
			end = &pt
		}
	}
	if fold == nil || end == nil {
		return false
	}
	st, ok := between(p, first.from, *end)
	return ok && slices.Contains(st.whole, fold.Name)
}

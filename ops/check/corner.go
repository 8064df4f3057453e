package check

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// corners checks that no line turns sharply within an edge, as it does where
// two pieces were taped together and nothing was smoothed. A wire line has no
// corner at all; others may keep the sharpest they came in with.
func corners(s Subject) []Check {
	var out []Check
	for _, l := range s.After.Lines {
		turn, at, part := sharpestOn(s.After, l)
		remedy, kept := "smooth it there", false
		if l.Kind == pattern.LineWire {
			remedy = "no wire lies in a corner; smooth it there"
		} else if was := s.Before.Line(l.Name); was != nil {
			if before, _, _ := sharpestOn(s.Before, *was); turn <= before+sameTurn {
				kept = before > 0
				turn = 0
			}
		}
		c := Check{ID: LineCorner, Line: l.Name, Piece: part.Piece, Edge: part.Edge, Measured: turn, Unit: "deg"}
		c.Text = fmt.Sprintf("The %s has no corner within a piece", l.Name)
		if kept {
			c.Text += " that was not there"
		}
		if turn > 0 {
			c.Text = fmt.Sprintf("The %s turns by %.1f° within %s of %s, %s along it", l.Name, turn, part.Edge, part.Piece, mm(at)) + from(s.After.Piece(part.Piece), part.Edge)
		}
		out = append(out, settle(c, s.Bounds.Corner, remedy))
	}
	return append(out, seamCorners(s)...)
}

// seamCorners tells of the corners that came within sewn edges which belong to
// no line, as a slash leaves one where it is hinged. They can be sewn, and may
// be meant.
func seamCorners(s Subject) (out []Check) {
	for i := range s.After.Pieces {
		pc := &s.After.Pieces[i]
		for j := range pc.Edges {
			e := &pc.Edges[j]
			_, was := s.Before.Edge(pc.Name, e.Name)
			if was == nil || !e.Role.Sewn() || onLine(s.After, pc.Name, e.Name) {
				continue
			}
			turn, at := sharpest(e, 0, 1)
			if before, _ := sharpest(was, 0, 1); turn <= before+sameTurn {
				continue
			}
			c := Check{ID: LineCorner, Piece: pc.Name, Edge: e.Name, Measured: turn, Unit: "deg"}
			c.Text = fmt.Sprintf("A corner of %.1f° has come into %s of %s, %s along it%s", turn, e.Name, pc.Name, mm(at), from(pc, e.Name))
			c = settle(c, s.Bounds.Corner, "smooth it there, unless the corner is meant")
			if c.Verdict == Broken {
				c.Verdict = Look
			}
			c.Allowed = fmt.Sprintf("± %g deg, else look", s.Bounds.Corner.Holds)
			out = append(out, c)
		}
	}
	return out
}

func onLine(p pattern.Pattern, piece, edge string) bool {
	for _, l := range p.Lines {
		if slices.ContainsFunc(l.Parts, func(in pattern.Part) bool { return in.Piece == piece && in.Edge == edge }) {
			return true
		}
	}
	return false
}

// from says, with a blank before it, what lies at the start of an edge.
func from(pc *pattern.Piece, edge string) string {
	if meets := pc.Meets(edge, pattern.Start); meets != "" {
		return " from " + meets
	}
	return ""
}

// sameTurn is the angle in degrees that makes no corner another one.
const sameTurn = 0.5

// sharpestOn returns the greatest turn in degrees at a joint within an edge of a
// line, its place in mm from the start of that edge, and the edge: the line's
// first where nothing turns.
func sharpestOn(p pattern.Pattern, l pattern.Line) (turn, at float64, part pattern.Part) {
	part = l.Parts[0]
	for _, in := range l.Parts {
		e := p.Piece(in.Piece).Edge(in.Edge)
		if k, s := sharpest(e, min(in.From, in.To), max(in.From, in.To)); k > turn {
			turn, at, part = k, s, in
		}
	}
	return turn, at, part
}

// sharpest returns the greatest turn in degrees at a joint within a part of an
// edge in shares of it, and its place in mm from the start of the edge.
func sharpest(e *pattern.Edge, lo, hi float64) (turn, at float64) {
	for _, s := range e.Path.Corners(shownTurn) {
		if share := s / e.Length(); share < lo || share > hi {
			continue
		}
		if k := math.Abs(geom.Between(e.Path.TangentBefore(s), e.Path.TangentAt(s)).Degrees()); k > turn {
			turn, at = k, s
		}
	}
	return turn, at
}

// CornerAt returns where on the piece the corner lies that a check tells of
// within an edge or a line.
func CornerAt(p pattern.Pattern, c Check) (pattern.Part, float64, bool) {
	if l := p.Line(c.Line); l != nil {
		turn, at, part := sharpestOn(p, *l)
		return part, at, turn > 0
	}
	_, e := p.Edge(c.Piece, c.Edge)
	if e == nil {
		return pattern.Part{}, 0, false
	}
	turn, at := sharpest(e, 0, 1)
	return pattern.Whole(c.Piece, c.Edge), at, turn > 0
}

// shownTurn is the turn from which a joint counts as one.
const shownTurn = 0.05 * geom.Degree

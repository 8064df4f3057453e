package check

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// corners checks that no line turns sharply within an edge, as it does where
// two pieces were taped together and nothing was smoothed. A wire line has no
// corner at all; others may keep the sharpest they came in with.
func corners(s Subject) []Check {
	var out []Check
	for _, l := range s.After.Lines {
		turn, at, part := Sharpest(s.After, l)
		remedy := "smooth it there"
		if l.Kind == pattern.LineWire {
			remedy = "no wire lies in a corner; smooth it there"
		} else if was := s.Before.Line(l.Name); was != nil {
			if before, _, _ := Sharpest(s.Before, *was); turn <= before+sameTurn {
				turn = 0
			}
		}
		c := Check{ID: LineCorner, Line: l.Name, Piece: part.Piece, Edge: part.Edge, Measured: turn, Unit: "deg"}
		c.Text = fmt.Sprintf("The %s has no corner within a piece", l.Name)
		if turn > 0 {
			c.Text = fmt.Sprintf("The %s turns by %.1f° within %s of %s, %s along it", l.Name, turn, part.Edge, part.Piece, mm(at))
			if meets := s.After.Piece(part.Piece).Meets(part.Edge, pattern.Start); meets != "" {
				c.Text += " from " + meets
			}
		}
		out = append(out, settle(c, s.Bounds.Corner, remedy))
	}
	return out
}

// sameTurn is the angle in degrees that makes no corner another one.
const sameTurn = 0.5

// Sharpest returns the greatest turn in degrees at a joint within an edge of a
// line, its place in mm from the start of that edge, and the edge: the line's
// first where nothing turns.
func Sharpest(p pattern.Pattern, l pattern.Line) (turn, at float64, part pattern.Part) {
	part = l.Parts[0]
	for _, in := range l.Parts {
		e := p.Piece(in.Piece).Edge(in.Edge)
		for _, s := range e.Path.Corners(shownTurn) {
			if share := s / e.Length(); share < min(in.From, in.To) || share > max(in.From, in.To) {
				continue
			}
			if k := math.Abs(geom.Between(e.Path.TangentBefore(s), e.Path.TangentAt(s)).Degrees()); k > turn {
				turn, at, part = k, s, in
			}
		}
	}
	return turn, at, part
}

// shownTurn is the turn from which a joint counts as one.
const shownTurn = 0.05 * geom.Degree

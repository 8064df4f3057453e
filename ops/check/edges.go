package check

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// edges checks what single edges must be for their role.
func edges(s Subject) []Check {
	var out []Check
	for i := range s.After.Pieces {
		pc := &s.After.Pieces[i]
		for j := range pc.Edges {
			e := &pc.Edges[j]
			switch e.Role {
			case pattern.LaceEdge:
				out = append(out, laceStraight(s, pc, e), laceAllowance(pc, e))
			case pattern.TurnedBack:
				out = append(out, turning(s, pc, e)...)
			case pattern.Closure:
				if height, ok := s.After.Figures[pattern.FigureClosure]; ok {
					out = append(out, closure(s, pc, e, height))
				}
			}
		}
	}
	return out
}

func laceStraight(s Subject, pc *pattern.Piece, e *pattern.Edge) Check {
	c := Check{ID: LaceStraight, Piece: pc.Name, Edge: e.Name, Unit: "mm"}
	_, c.Measured = span([]geom.Path{e.Path})
	c.Text = fmt.Sprintf("Lace edge %s of %s is straight within %s", e.Name, pc.Name, mm(c.Measured))
	if s.Bounds.Lace.Verdict(c.Measured) != Holds {
		c.Text = fmt.Sprintf("Lace edge %s of %s is off straight by %s", e.Name, pc.Name, mm(c.Measured))
	}
	return settle(c, s.Bounds.Lace, "a lace border cannot follow a curve; straighten the edge")
}

func laceAllowance(pc *pattern.Piece, e *pattern.Edge) Check {
	c := Check{ID: LaceAllowance, Piece: pc.Name, Edge: e.Name, Unit: "mm", Measured: e.Allowance}
	c.Text = fmt.Sprintf("Lace edge %s of %s has %s of allowance", e.Name, pc.Name, mm(e.Allowance))
	return yes(c, e.Allowance <= allowanceSlack, "none", "the border of the lace is the finished edge; take the allowance off")
}

func closure(s Subject, pc *pattern.Piece, e *pattern.Edge, height float64) Check {
	c := Check{ID: ClosureHeight, Piece: pc.Name, Edge: e.Name, Unit: "mm", Measured: e.Length() - height}
	c.Text = fmt.Sprintf("Closure edge %s of %s is %s high, the bought closure %s", e.Name, pc.Name, mm(e.Length()), mm(height))
	return settle(c, s.Bounds.Closure, "bring the edge to the closure's height")
}

// outlines checks that every piece can be cut out.
func outlines(s Subject) []Check {
	var out []Check
	for i := range s.After.Pieces {
		pc := &s.After.Pieces[i]
		simple, c := outline(pc)
		out = append(out, c, shortEdge(s, pc))
		if simple {
			out = append(out, cutLine(pc))
		}
	}
	return out
}

func outline(pc *pattern.Piece) (bool, Check) {
	c := Check{ID: Outline, Piece: pc.Name}
	o, err := pc.Outline()
	if err != nil {
		c.Measured, c.Text = 1, fmt.Sprintf("The outline of %s is not closed", pc.Name)
		return false, yes(c, false, "closed, crossing nothing", "join its edges end to end")
	}
	c.Measured = float64(len(o.SelfCrossings()))
	c.Text = fmt.Sprintf("The outline of %s is closed and simple", pc.Name)
	if c.Measured > 0 {
		c.Text = fmt.Sprintf("The outline of %s crosses itself %s", pc.Name, times(c.Measured))
	}
	return c.Measured == 0, yes(c, c.Measured == 0, "closed, crossing nothing", "move the edges apart where they cross")
}

func shortEdge(s Subject, pc *pattern.Piece) Check {
	c := Check{ID: ShortEdge, Piece: pc.Name, Unit: "mm", Measured: math.Inf(1)}
	for i := range pc.Edges {
		if l := pc.Edges[i].Length(); l < c.Measured {
			c.Measured, c.Edge = l, pc.Edges[i].Name
		}
	}
	c.Text = fmt.Sprintf("The shortest edge of %s is %s, %s", pc.Name, c.Edge, mm(c.Measured))
	return yes(c, c.Measured >= s.Bounds.Shortest-slack, fmt.Sprintf("at least %g mm", s.Bounds.Shortest), "so short an edge is a slip; let its neighbours meet")
}

func cutLine(pc *pattern.Piece) Check {
	c := Check{ID: CutLine, Piece: pc.Name}
	cut, err := pc.CutLine()
	if err != nil {
		c.Measured, c.Text = 1, fmt.Sprintf("%s has no cut line: %v", pc.Name, err)
		return yes(c, false, "crosses nothing", "make the allowance narrower where the edges are tight")
	}
	c.Measured = float64(len(cut.SelfCrossings()))
	c.Text = fmt.Sprintf("The cut line of %s crosses nothing", pc.Name)
	if c.Measured > 0 {
		c.Text = fmt.Sprintf("The cut line of %s crosses itself %s", pc.Name, times(c.Measured))
	}
	return yes(c, c.Measured == 0, "crosses nothing", "make the allowance narrower where the edges are tight")
}

package check

import (
	"fmt"
	"math"

	"truemat/ops/pattern"
)

// neighbours checks where lines run on across a seam that the allowances of the
// two edges are alike: else the cut edges step at the seam, and cannot be turned,
// bound or faced in one go. A lace edge has none by nature and is left out. One
// check for each line with such a place, of the greatest step; common practice,
// without a published source.
func neighbours(s Subject) []Check {
	var out []Check
	for _, l := range s.After.Lines {
		lay, err := s.After.LayChain(l.Parts)
		if err != nil {
			continue
		}
		c := Check{ID: LineAllowance, Line: l.Name, Unit: "mm"}
		for _, j := range lay.Junctions {
			_, a := s.After.Edge(j.Before.Piece, j.Before.Edge)
			_, b := s.After.Edge(j.After.Piece, j.After.Edge)
			if j.Seam == "" || a == nil || b == nil || a.Role == pattern.LaceEdge || b.Role == pattern.LaceEdge {
				continue
			}
			if d := math.Abs(a.Allowance - b.Allowance); c.Piece == "" || d > c.Measured {
				c.Measured, c.Piece, c.Edge = d, j.Before.Piece, j.Before.Edge
				c.Text = fmt.Sprintf("The allowance of the %s is alike on both sides of every seam it crosses", l.Name)
				if d > allowanceStep+slack {
					c.Text = fmt.Sprintf("The %s runs on over the %s with unlike allowances, %s on %s of %s and %s on %s of %s: the cut edges step by %s",
						l.Name, seamAmong(j.Seam), mm(a.Allowance), j.Before.Edge, j.Before.Piece, mm(b.Allowance), j.After.Edge, j.After.Piece, mm(d))
				}
			}
		}
		if c.Piece == "" {
			continue
		}
		c.Verdict, c.Allowed = Holds, fmt.Sprintf("± %g mm", allowanceStep)
		if c.Measured > allowanceStep+slack {
			c.Verdict = Look
		}
		out = append(out, c.Remedied("take the allowance tool and give both edges the same"))
	}
	return out
}

// seamAmong names a seam within a sentence.
func seamAmong(name string) string {
	if !hasSeam(name) {
		return "seam " + name
	}
	return name
}

// allowanceStep is the step of cut edges in mm that is lost in cutting.
const allowanceStep = 0.5

package suit

import (
	"fmt"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// topstitched checks that every row of a topstitching catches the allowances
// that it is to hold.
func topstitched(g cloth.Goods, p pattern.Pattern, b Bounds) []check.Check {
	var out []check.Check
	for _, t := range g.Topstitch {
		s := p.Seam(t.Seam)
		if s == nil || t.Farthest() == 0 {
			continue
		}
		for _, side := range []pattern.Side{s.A, s.B} {
			for _, pt := range side {
				_, e := p.Edge(pt.Piece, pt.Edge)
				if e == nil {
					continue
				}
				c := check.Check{ID: TopstitchHold, Piece: pt.Piece, Edge: pt.Edge, Unit: "mm", Measured: e.Allowance - t.Farthest(), Verdict: b.Caught.Least(e.Allowance - t.Farthest())}
				c.Allowed = fmt.Sprintf("at least %g mm, look from %g mm", b.Caught.Holds, b.Caught.Look)
				c.Text = fmt.Sprintf("Topstitched %s from %q, %s of %s has %s of allowance to catch", unit.Format(t.Farthest(), unit.Millimetres), s.Name, pt.Edge, pt.Piece, unit.Format(e.Allowance, unit.Millimetres))
				out = append(out, c.Remedied("the row would miss it; stitch nearer to the seam or cut a wider allowance"))
			}
		}
	}
	return out
}

package check

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
)

// halves checks that a whole piece that was on the fold still is alike on both
// sides of it.
func halves(s Subject) []Check {
	var out []Check
	for i := range s.After.Pieces {
		pc := &s.After.Pieces[i]
		for _, in := range pc.Inner {
			if in.Kind == pattern.OldFold {
				out = append(out, halvesAlike(s, pc, in))
			}
		}
	}
	return out
}

func halvesAlike(s Subject, pc *pattern.Piece, in pattern.Inner) Check {
	c := Check{ID: HalvesAlike, Piece: pc.Name, Unit: "mm"}
	gone := func(err error) Check {
		c.Text = fmt.Sprintf("%s can no longer be compared along %q: %v", pc.Name, in.Name, err)
		return yes(c, false, "alike", "take that line away if the halves are meant to differ")
	}
	l, err := geom.NewLine(in.Path.Start(), in.Path.End())
	if err != nil {
		return gone(err)
	}
	a, b, err := pc.Axis(l, pattern.SymmetrySlack)
	if err != nil {
		return gone(err)
	}
	if c.Measured, c.Edge, err = pc.Asymmetry(a, b); err != nil {
		return gone(err)
	}
	c.Text = fmt.Sprintf("The halves of %s, folded along %q, lie on each other within %s", pc.Name, in.Name, mm(c.Measured))
	if s.Bounds.Halves.Verdict(c.Measured) != Holds {
		c.Text = fmt.Sprintf("The halves of %s, folded along %q, are %s apart at %s", pc.Name, in.Name, mm(c.Measured), c.Edge)
	}
	return settle(c, s.Bounds.Halves, "alter the other half too, or take that line away if they are meant to differ")
}

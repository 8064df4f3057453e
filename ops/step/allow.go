package step

import (
	"fmt"
	"slices"

	"truemat/ops/pattern"
)

func init() { register("allow", func() Step { return &Allow{} }) }

// Allow sets the allowance of edges: its width, how it ends at the corners
// and, if asked, the role of the edges. What is not given stays. A width of 0
// takes the allowance off, as for a hem that will carry lace or for an edge to
// be taped. The sew line stays; the cut line follows.
//
// An edge that comes to lie on the fold makes its piece the half of one. One on
// the fold that gets another role makes it a pair, with the usual allowance of
// the piece there when no width is given.
//
// With Seam it speaks of both sides of a seam instead: their allowances get the
// width, if one is given, and end at the seam's ends so that they lie on the
// piece to which the seam is pressed (see [pattern.SeamEnd.Corner]); where a hem
// is turned up as one with the seam they stay as they are.
type Allow struct {
	Piece string   `json:"piece,omitempty"`
	Edge  string   `json:"edge,omitempty"`  // one edge
	Edges []string `json:"edges,omitempty"` // or several
	// Width is the allowance in mm.
	Width *Number `json:"width,omitempty"`
	// Start and End say how the allowances end at the joints where each edge
	// starts and ends.
	Start *pattern.Corner `json:"start,omitempty"`
	End   *pattern.Corner `json:"end,omitempty"`
	Role  pattern.Role    `json:"role,omitempty"`
	// Free declares whether a sewn edge is meant to have no partner.
	Free *bool `json:"free,omitempty"`

	Seam string `json:"seam,omitempty"`
	// Press says where the seam is pressed from now on; where it was when not
	// given, or open when nothing was said yet.
	Press pattern.Press `json:"press,omitempty"`
}

// Kind returns "allow".
func (a *Allow) Kind() string { return "allow" }

// Sentence tells what the step does.
func (a *Allow) Sentence() string {
	if a.Seam != "" {
		return a.seamSentence()
	}
	names, _ := oneOrMore("edge", a.Edge, a.Edges)
	var does []string
	switch {
	case a.Width == nil:
	case isNought(*a.Width):
		does = append(does, "take the allowance off")
	default:
		does = append(does, "make the allowance "+a.Width.String())
	}
	if a.Start != nil || a.End != nil {
		does = append(does, "set how it ends at the corners")
	}
	switch a.Role {
	case "":
	case pattern.Fold:
		does = append(does, "cut the piece on the fold")
	default:
		does = append(does, "make the role "+a.Role.Word())
	}
	if a.Free != nil {
		if *a.Free {
			does = append(does, "declare it free of a partner")
		} else {
			does = append(does, "ask for a partner")
		}
	}
	if len(does) == 0 {
		does = []string{"change nothing"}
	}
	return sentence(fmt.Sprintf("on %s of %s %s", words(names), a.Piece, words(does)))
}

// Apply sets what is given on each of the edges. It reports the allowance
// before, by which a later step may put it back.
func (a *Allow) Apply(in Input) (Output, error) {
	if a.Seam != "" || a.Press != "" {
		return a.applySeam(in)
	}
	names, err := oneOrMore("edge", a.Edge, a.Edges)
	if err != nil {
		return Output{}, err
	}
	if a.Width == nil && a.Start == nil && a.End == nil && a.Role == "" && a.Free == nil {
		return Output{}, fmt.Errorf("nothing is to be set on %s of %s; give a width, a corner end, a role or whether it is free", words(names), a.Piece)
	}
	if a.Role == pattern.Fold {
		return a.applyFold(in, names)
	}
	p := in.Pattern.Clone()
	out := Output{Pattern: p}
	for _, name := range names {
		off, err := a.offFold(p, name)
		if err == nil {
			err = a.set(p, name, in)
		}
		if err != nil {
			return Output{}, err
		}
		if off {
			out.Notes = append(out.Notes, a.isOff(p, name)...)
		}
	}
	if len(names) == 1 {
		_, was, _ := edgeIn(in.Pattern, a.Piece, names[0])
		out.Figures = map[string]float64{"before": was.Allowance}
	}
	return out, nil
}

func (a *Allow) set(p pattern.Pattern, name string, in Input) error {
	pc, e, err := edgeIn(p, a.Piece, name)
	if err != nil {
		return err
	}
	if e.Role == pattern.Fold {
		return fmt.Errorf("%s of %s lies on the fold, where there is no allowance; say what else it is as well, or unfold the piece first", name, a.Piece)
	}
	switch {
	case a.Role == "":
	case a.Role == pattern.DartEdge:
		return fmt.Errorf("%s of %s cannot be made a dart by its role alone; spread the piece and leave a dart", name, a.Piece)
	case !slices.Contains(pattern.Roles, a.Role):
		return fmt.Errorf("there is no role %q; there are %q", a.Role, pattern.Roles)
	default:
		e.Role = a.Role
	}
	if a.Width != nil {
		if e.Allowance, err = a.width(in, name, a.Piece); err != nil {
			return err
		}
	}
	if a.Free != nil {
		e.Free = *a.Free
	}
	for _, c := range []struct {
		give *pattern.Corner
		to   *pattern.Edge
		end  pattern.EndName
	}{{a.Start, e, pattern.Start}, {a.End, &pc.Edges[pc.Next(pc.EdgeIndex(name))], pattern.End}} {
		if c.give == nil {
			continue
		}
		if err := checkCorner(*c.give); err != nil {
			return fmt.Errorf("the %s of %s of %s: %w", c.end, name, a.Piece, err)
		}
		c.to.Corner = *c.give
	}
	return nil
}

// width returns the width that an edge is to get.
func (a *Allow) width(in Input, edge, piece string) (float64, error) {
	w, err := a.Width.In(in)
	if err == nil && !(w >= 0 && w <= pattern.MaxAllowance) {
		return 0, fmt.Errorf("an allowance of %.4g mm on %s of %s is not between 0 and %d mm", w, edge, piece, pattern.MaxAllowance)
	}
	return w, err
}

func checkCorner(c pattern.Corner) error {
	needs := c.NeedsOf()
	switch {
	case c.End != "" && !slices.Contains(pattern.CornerEnds, c.End):
		return fmt.Errorf("there is no corner end %q; there are %q", c.End, pattern.CornerEnds)
	case needs && c.Of != pattern.Before && c.Of != pattern.After:
		return fmt.Errorf("the corner end %q must say of which edge: %q or %q the joint", c.End, pattern.Before, pattern.After)
	case !needs && c.Of != "":
		return fmt.Errorf("the corner end %q is of both edges; leave out %q", c.End, "of")
	}
	return nil
}

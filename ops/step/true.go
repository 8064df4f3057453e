package step

import (
	"fmt"
	"math"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func init() { register("true", func() Step { return &True{} }) }

// True makes the edge that runs across the end of a seam (hem, neckline …)
// run on without a kink: the two pieces are laid seam to seam at that end,
// the edges across it are blended over the reach to each side, and each piece
// gets its part back. Both sides of the seam become longer or shorter by the
// same amount there.
//
// A lace edge must stay straight. Where both edges are lace edges, the seam's
// end moves along the seam onto the straight line between their far ends.
// Where one is, or one is held, or a lace edge ends at a fold and so cannot
// turn, that one stays as it is and the other is made to run on from it: a
// lace edge by moving its far end along the edge it meets there, any other by
// blending its own side alone.
//
// Figures, in mm: moved, how far any place of the sew line moved at most, of
// which a sentence tells from 0.05 mm on;
// seam_change, by which both sides of the seam became longer; far_change, by
// which the edge became longer along which the far end of a lace edge moved
// (a closure can be given its height back with it); in degrees: kink_before
// and kink_after.
type True struct {
	Seam string          `json:"seam"`
	End  pattern.EndName `json:"end"` // of the seam as it is walked
	// Reach is how far the blend goes into each piece, in mm; ReachA and
	// ReachB give it for one side alone.
	Reach  *Number `json:"reach,omitempty"`
	ReachA *Number `json:"reach_a,omitempty"`
	ReachB *Number `json:"reach_b,omitempty"`
	// Hold is "a" or "b" when that side's edge must stay as it is, "corner" when
	// the end of the seam must stay where it is: both edges then run into it in
	// the direction half way between theirs, and no side becomes longer.
	Hold string `json:"hold,omitempty"`
}

// holdCorner keeps the end of the seam where it is.
const holdCorner = "corner"

// mostKink is the greatest kink in degrees that is taken for an edge running
// on; at a sharper one the edges are not one line.
const mostKink = 60

// Kind returns "true".
func (s *True) Kind() string { return "true" }

// Sentence tells in plain words what the step does.
func (s *True) Sentence() string {
	text := fmt.Sprintf("True the edges across the %s of seam %s", s.End, s.Seam)
	if s.Reach != nil {
		text += fmt.Sprintf(" over %s to each side", s.Reach)
	}
	if s.Hold == holdCorner {
		text += ", its corner kept where it is"
	} else if s.Hold != "" {
		text += ", side " + s.Hold + " held"
	}
	return text + "."
}

// Apply trues the edges.
func (s *True) Apply(in Input) (Output, error) {
	lay, err := layAt(in.Pattern, s.Seam, s.End)
	if err != nil {
		return Output{}, err
	}
	before := lay.kink()
	if math.Abs(before) > mostKink {
		return Output{}, fmt.Errorf("at the %s %s and %s meet at %.0f degrees when the pieces are laid seam to seam; edges that run on into each other meet at less than %d: check how the seam is walked", s.place(in.Pattern), lay.a, lay.b, math.Abs(before), mostKink)
	}
	hold, err := s.held(in.Pattern, lay)
	if err != nil {
		return Output{}, err
	}
	r := newRedraw(in.Pattern)
	t := truing{r: r, laid: lay}
	remedy := ""
	switch {
	case s.Hold == holdCorner:
		err = t.through(func(c *across) (float64, error) { return s.reach(in, lay, c) })
		remedy = "use a shorter reach, or let the corner move"
	case hold != nil && t.other(hold).lace():
		err = t.followStraight(hold)
		remedy = fmt.Sprintf("%s is a lace edge and stays straight: let it stay as it is, so that %s runs on from it", t.other(hold), hold)
	case hold != nil:
		err = t.follow(hold, func(c *across) (float64, error) { return s.reach(in, lay, c) })
		remedy = fmt.Sprintf("use a shorter reach into %s", t.other(hold))
		if !hold.lace() {
			remedy += ", or let it stay as it is"
		}
	case lay.a.lace() && lay.b.lace():
		err = t.level()
		remedy = fmt.Sprintf("let %s or %s stay as it is", lay.a, lay.b)
	default:
		err = t.blend(func(c *across) (float64, error) { return s.reach(in, lay, c) })
		remedy = "use a shorter reach"
		if !lay.own {
			remedy += fmt.Sprintf(", or let %s or %s stay as it is", lay.a, lay.b)
		}
	}
	if err != nil {
		return Output{}, fmt.Errorf("at the %s: %w", s.place(in.Pattern), advised(err, remedy))
	}
	out, err := r.addOutput(map[string]float64{"moved": t.moved, "seam_change": t.longer, "far_change": t.far, "kink_before": before}, remedy)
	if err != nil {
		return Output{}, advised(err, remedy)
	}
	after, err := layAt(out.Pattern, s.Seam, s.End)
	if err != nil {
		return Output{}, err
	}
	out.Figures["kink_after"] = after.kink()
	for _, c := range []*across{lay.a, lay.b} {
		if v, err := s.reach(in, lay, c); err == nil && c != hold && !lay.own && !c.lace() && v > c.path.Length()+placeSlack {
			out.Notes = append(out.Notes, beyond(v, c.String(), false, t.moved))
		}
	}
	if t.moved > toldMove {
		text := fmt.Sprintf("At the %s the sew line moved by %s at most", s.place(in.Pattern), unit.MM(t.moved))
		if math.Abs(t.longer) > toldMove {
			text += fmt.Sprintf("; both sides of the seam are %s %s", unit.MM(math.Abs(t.longer)), longerWord(t.longer))
		}
		if math.Abs(t.far) > toldMove {
			text += fmt.Sprintf("; at the far end of %s the edge that meets it is %s %s", t.other(hold), unit.MM(math.Abs(t.far)), longerWord(t.far))
		}
		out.Notes = append(out.Notes, text+".")
	}
	return out, nil
}

// toldMove is the movement in mm from which the maker is told of it: less
// than a sharp pencil's line.
const toldMove = 0.05

// held returns the side that stays as it is, or nil.
func (s *True) held(p pattern.Pattern, lay laid) (*across, error) {
	var hold *across
	switch s.Hold {
	case "":
	case holdCorner:
		for _, c := range []*across{lay.a, lay.b} {
			if c.lace() {
				return nil, fmt.Errorf("%s is a lace edge and stays straight, so it cannot bend into a corner that stays; let %s or %s stay as it is", c, lay.a, lay.b)
			}
		}
		return nil, nil
	case "a":
		return lay.a, nil
	case "b":
		return lay.b, nil
	default:
		return nil, fmt.Errorf(`what is held is "a", "b" or "corner", not %q`, s.Hold)
	}
	switch {
	case lay.a.lace() && lay.b.lace():
		a, b := lay.a.atFold(p), lay.b.atFold(p)
		switch {
		case lay.own:
		case a && b:
			return nil, fmt.Errorf("%s and %s are straight lace edges that both end at a fold, so neither can turn", lay.a, lay.b)
		case a:
			hold = lay.a
		case b:
			hold = lay.b
		}
	case lay.a.lace():
		hold = lay.a
	case lay.b.lace():
		hold = lay.b
	}
	return hold, nil
}

// Trued is what becomes of the edge across the end of a seam on one side.
type Trued struct {
	Edge    string // its name
	Lace    bool   // a lace edge, which keeps straight
	Stays   bool   // as it is
	Blended bool   // over the reach; else it stays straight, or as it is
}

// Sides tells what becomes of the edge on side A and on side B.
func (s *True) Sides(p pattern.Pattern) ([2]Trued, error) {
	lay, err := layAt(p, s.Seam, s.End)
	if err != nil {
		return [2]Trued{}, err
	}
	hold, err := s.held(p, lay)
	if err != nil {
		return [2]Trued{}, err
	}
	var out [2]Trued
	for k, c := range []*across{lay.a, lay.b} {
		out[k] = Trued{Edge: c.edge, Lace: c.lace(), Stays: c == hold, Blended: c != hold && !c.lace()}
	}
	return out, nil
}

// reach returns how far the blend goes into a side.
func (s *True) reach(in Input, lay laid, c *across) (float64, error) {
	n := s.reachOf(lay, c)
	if n == nil {
		return 0, fmt.Errorf("say by \"reach\" how far %s is blended", c)
	}
	return reachIn(in, *n, c.String())
}

// reachOf is what the step says of how far a side is blended, nil when nothing.
func (s *True) reachOf(lay laid, c *across) *Number {
	switch {
	case c == lay.a && s.ReachA != nil:
		return s.ReachA
	case c == lay.b && s.ReachB != nil:
		return s.ReachB
	}
	return s.Reach
}

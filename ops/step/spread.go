package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func init() { register("spread", func() Step { return &Spread{} }) }

// Spread slashes a piece from its edge to a hinge and turns the parts about
// their hinges, rigidly, so that the slashes open; with a negative amount they
// close. The part that holds Hold stays put, with the arrow; without Hold it
// is the part with the fold, or else the one before the first slash in the
// direction of the outline.
//
// A hinge on the sew line leaves the piece joined there. About a hinge inside
// the piece the angle is kept: what opens has to close elsewhere by the same
// angle, along another slash or in a dart (Close). A dart is a seam both of
// whose sides are edges of the piece that meet at its point.
//
// Where a slash opens, paper is filled in straight, and on request the edge is
// made fair there (Fair, FairLength), or a new dart is left (Dart). Where one
// closes, the paper between the slash and the line turned by the angle, behind
// the slash in the direction of the outline, is folded away. Opening by x
// turns a part by 2·asin(x/2r) about a hinge at the distance r, since the
// chord of an arc is 2r·sin(θ/2) (any handbook of trigonometry).
//
// A slash begins at least 1 mm inside an edge, since what is left beside it
// could not be sewn, and turns a part by at most 90°, beyond which the piece is
// no longer the same one (our own bounds).
//
// Figures: degrees, by which all slashes opened together; opened, the sum of
// the chords at the edge in mm; length of the first slash's edge in mm;
// area_change in mm²; step, by how much at most the two lines of a closed
// slash or dart differ, in mm; arrow_turned_deg, by how many degrees the part
// under the arrow turned, to either side; hinge_turn_deg, by how many degrees
// an edge turns most at a hinge within it, where it is not smooth.
type Spread struct {
	Piece   string  `json:"piece"`
	Slashes []Slash `json:"slashes"`
	// Hinge is that of the slashes which have none of their own; with a dart to
	// close it is the dart's point when not given.
	Hinge *Hinge   `json:"hinge,omitempty"`
	Close *Closing `json:"close,omitempty"`
	// One of: Amount in mm at the edge or Degrees, both of all slashes together
	// and shared evenly; Until; an amount at each slash; or a dart to close
	// entirely.
	Amount  *Number   `json:"amount,omitempty"`
	Degrees *Number   `json:"degrees,omitempty"`
	Until   *ToLength `json:"until,omitempty"`
	// Hold is a spot on the part that stays put.
	Hold *pattern.Spot `json:"hold,omitempty"`
	// Fair is the reach in mm to both sides of an opened or closed place within
	// which the edge is made fair; FairLength the length the edge then has.
	Fair       *Number `json:"fair,omitempty"`
	FairLength *Number `json:"fair_length,omitempty"`
	// HingeReach smooths the corner at a hinge on the sew line within that reach
	// in mm, keeping the length of its edge.
	HingeReach *Number  `json:"hinge_reach,omitempty"`
	Dart       *NewDart `json:"dart,omitempty"`
}

// Slash is a straight cut from a spot on the outline to a hinge.
type Slash struct {
	From   pattern.Spot `json:"from"`
	Hinge  *Hinge       `json:"hinge,omitempty"`
	Amount *Number      `json:"amount,omitempty"` // mm at the edge, below 0 closes
}

// Hinge is the place about which a part turns: a spot on the sew line; an end
// of an inner line; or a place off the straight way between two spots, in
// shares of the distance between them: Along on the way, Off to its left.
type Hinge struct {
	Spot  *pattern.Spot   `json:"spot,omitempty"`
	Inner string          `json:"inner,omitempty"`
	End   pattern.EndName `json:"end,omitempty"`
	From  *pattern.Spot   `json:"from,omitempty"`
	To    *pattern.Spot   `json:"to,omitempty"`
	Along float64         `json:"along,omitempty"`
	Off   float64         `json:"off,omitempty"`
}

// Closing is what closes by the angle that the slashes open: a slash from the
// spot At to their hinge, or the dart sewn by the seam Dart.
type Closing struct {
	At   *pattern.Spot `json:"at,omitempty"`
	Dart string        `json:"dart,omitempty"`
}

// ToLength is the length that an edge of the piece is to have: one in mm, or
// that with which its side of a seam fits the other, ease included.
type ToLength struct {
	Edge   string  `json:"edge"`
	Length *Number `json:"length,omitempty"`
	Seam   string  `json:"seam,omitempty"`
}

// NewDart leaves an opened slash as a dart. Its edges are called "<name>" and
// then "before" and "after", or what "first" and "second" say, the seam that sews them "<name>", and the rest
// of the slashed edge "<edge> after <name>". Further slashes count on.
type NewDart struct {
	Name string `json:"name"`
	// First and Second follow the name in those of its edges, in the direction of
	// the outline.
	First  string `json:"first,omitempty"`
	Second string `json:"second,omitempty"`
	// Short is how far in mm the dart's point stays before the hinge.
	Short *Number `json:"short,omitempty"`
	// Allowance of the dart's edges when it is to be cut out; else its cloth is
	// folded, has none, and is cut straight over its mouth.
	Allowance *Number `json:"allowance,omitempty"`
}

// legs returns the names of the edges of the dart that is called so.
func (d *NewDart) legs(name string) (first, second string) {
	word := func(said, usual string) string {
		if said == "" {
			said = usual
		}
		return name + " " + said
	}
	return word(d.First, "before"), word(d.Second, "after")
}

// Kind returns "spread".
func (s *Spread) Kind() string { return "spread" }

// Sentence tells in plain words what the step does.
func (s *Spread) Sentence() string {
	how := ""
	switch {
	case s.Amount != nil:
		how = " by " + s.Amount.unsigned().String()
	case s.Degrees != nil:
		how = " by " + s.Degrees.unsigned().Text("degrees")
	case s.Until != nil:
		how = fmt.Sprintf(" until %s %s", s.Until.Edge, s.Until.words())
	}
	does := "spread"
	if s.closes() {
		does = "close"
	}
	text := fmt.Sprintf("Slash %s from %s%s and %s it%s", s.Piece, s.places(), s.hinged(), does, how)
	switch {
	case s.Close == nil:
	case s.Close.Dart != "":
		text += fmt.Sprintf(", closing %s by the same angle", s.Close.Dart)
	case s.Close.At != nil:
		text += fmt.Sprintf(", closing from %s by the same angle", placeOn(*s.Close.At, s.Piece))
	}
	switch {
	case s.Dart != nil:
		text += fmt.Sprintf(", leaving %s as a dart", s.Dart.Name)
	case s.FairLength != nil:
		text += ", made fair to a length of " + s.FairLength.String()
	case s.Fair != nil:
		text += ", the edge made fair (smooth) within " + s.Fair.String() + " of the slash"
	}
	if s.Hold != nil {
		return text + fmt.Sprintf("; the part with %s stays put.", spotOn(*s.Hold, s.Piece))
	}
	return text + "."
}

// places names where the slashes begin.
func (s *Spread) places() string {
	at := make([]string, len(s.Slashes))
	for i, sl := range s.Slashes {
		at[i] = placeOn(sl.From, s.Piece)
	}
	return words(at)
}

// hinged tells to where the slashes run, as far as it can be told without the
// piece.
func (s *Spread) hinged() string {
	var at []string
	for _, sl := range s.Slashes {
		h := sl.Hinge
		if h == nil {
			h = s.Hinge
		}
		switch {
		case h == nil:
			return ""
		case h.Spot != nil:
			at = append(at, "the hinge at "+placeOn(*h.Spot, s.Piece))
		case h.Inner != "":
			at = append(at, fmt.Sprintf("the hinge at the %s of %s", h.End, h.Inner))
		default:
			at = append(at, "a hinge inside it")
		}
	}
	if at = slices.Compact(at); len(at) == 0 {
		return ""
	}
	return " to " + words(at)
}

// closes reports whether the slashes close: the amount is below 0, in a table
// for every size, or the amounts of all slashes are.
func (s *Spread) closes() bool {
	if s.Amount != nil || s.Degrees != nil {
		return s.Amount.below() || s.Degrees.below()
	}
	return len(s.Slashes) > 0 && !slices.ContainsFunc(s.Slashes, func(sl Slash) bool { return !sl.Amount.below() })
}

// Apply spreads or closes.
func (s *Spread) Apply(in Input) (Output, error) {
	p, err := s.plan(in)
	if err != nil {
		return Output{}, err
	}
	turns, err := s.turns(in, p)
	if err != nil {
		return Output{}, err
	}
	b, err := p.build(turns)
	if err != nil {
		return Output{}, err
	}
	first := b.edgeOf(p.slashes[0].edge)
	figures := map[string]float64{"length": first.Length(), "step": b.step}
	for i, t := range turns {
		figures["degrees"] += t.Degrees()
		figures["opened"] += 2 * p.slashes[i].radius() * math.Sin(float64(t)/2)
	}
	out, err := b.r.output(figures)
	if err != nil {
		return Output{}, err
	}
	pc := out.Pattern.Piece(s.Piece)
	out.Figures["area_change"] = area(pc) - area(p.old)
	b.carryDrawn(pc, &out)
	b.sewDarts(&out)
	b.remark(&out)
	b.bent(pc, &out)
	if s.Until != nil {
		does, sign := "opens", 1.0
		if figures["opened"] < 0 {
			does, sign = "closes", -1
		}
		out.Notes = append(out.Notes, fmt.Sprintf("It %s by %s, %.1f degrees, until %s fits.", does, unit.MM(sign*figures["opened"]), sign*figures["degrees"], s.Until.Edge))
	}
	out.Notes = append(out.Notes, placeArrow(pc, p.old, b.legNames()...)...)
	return out, nil
}

// turns returns the angle by which each slash opens.
func (s *Spread) turns(in Input, p *slashPlan) ([]geom.Angle, error) {
	given, own := 0, 0
	for _, n := range []bool{s.Amount != nil, s.Degrees != nil, s.Until != nil} {
		if n {
			given++
		}
	}
	for _, sl := range s.Slashes {
		if sl.Amount != nil {
			own++
		}
	}
	if own > 0 {
		given++
	}
	n := len(s.Slashes)
	evenly := func(total geom.Angle) []geom.Angle {
		turns := make([]geom.Angle, n)
		for i := range turns {
			turns[i] = total / geom.Angle(n)
		}
		return turns
	}
	switch {
	case given > 1 || own > 0 && own < n:
		return nil, fmt.Errorf("give how far the slashes of %s open in one way: by %q, by %q, by %q, or by an amount at each slash", s.Piece, "amount", "degrees", "until")
	case given == 0 && p.dart != nil:
		return evenly(p.dart.angle), nil
	case given == 0:
		return nil, fmt.Errorf("say how far the slashes of %s open: by %q in mm at the edge, by %q, or by %q with the length of an edge", s.Piece, "amount", "degrees", "until")
	case s.Degrees != nil:
		d, err := s.Degrees.In(in)
		if err != nil {
			return nil, err
		}
		return evenly(geom.Angle(d) * geom.Degree), nil
	case s.Until != nil:
		total, err := s.until(in, p, evenly)
		return evenly(total), err
	}
	turns := make([]geom.Angle, n)
	for i, sl := range s.Slashes {
		share, amount := 1.0, sl.Amount
		if amount == nil {
			share, amount = 1/float64(n), s.Amount
		}
		v, err := amount.In(in)
		if err != nil {
			return nil, err
		}
		v *= share
		r := p.slashes[i].radius()
		if !(math.Abs(v) < 2*r) {
			return nil, fmt.Errorf("the slash from %s is %.4g mm long and cannot open by %.4g mm at the edge; use a smaller amount", p.slashes[i].name, r, v)
		}
		turns[i] = geom.Angle(2 * math.Asin(v/(2*r)))
	}
	return turns, nil
}

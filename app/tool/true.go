package tool

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// True makes the edge across the end of a seam run on without a kink.
type True struct {
	base
	seam  string
	end   pattern.EndName
	reach [2]float64 // mm into the piece of side A and of side B
	hold  string     // "", "a" or "b"
	at    int        // what the walk is at among the seam ends, from 1; 0 is nothing
	try   trial
}

// usualReach is how far in mm an edge is blended at first.
const usualReach = 25

func usualReaches(t Table) [2]float64 { return [2]float64{handy(t, usualReach), handy(t, usualReach)} }

// NewTrue returns the tool for a table.
func NewTrue(t Table) Tool {
	return &True{base: base{table: t}, reach: usualReaches(t)}
}

// Name returns "true".
func (t *True) Name() string { return "true" }

// seamEnd is an end of a seam with where its two sides lie.
type seamEnd struct {
	seam  string
	end   pattern.EndName
	sides [2]Pointing // joints
	meets string      // the edge it meets there, in words; "" when that tells nothing
}

// label names the end by what it meets there: "end of side seam at the hem".
func (s seamEnd) label() string {
	if s.meets == "" {
		return fmt.Sprintf("%s of %s", s.end, s.seam)
	}
	return fmt.Sprintf("end of %s %s", s.seam, s.meets)
}

// named returns the end with what it meets, unless another is called so.
func (s seamEnd) named(p pattern.Pattern, others []seamEnd) seamEnd {
	at := s.sides[0]
	if at.Kind != OnJoint {
		return s
	}
	from := at.Spot.From
	if from == "" {
		from = pattern.Start
	}
	words := endWords(p, step.EdgeEnd{Piece: at.Piece, Edge: at.Edge, End: from})
	if !strings.HasPrefix(words, "at the ") || slices.ContainsFunc(others, func(o seamEnd) bool { return o.seam == s.seam && o.meets == words }) {
		return s
	}
	s.meets = words
	return s
}

// all returns the ends of all seams.
func (t *True) all() []seamEnd {
	p := t.pattern()
	var out []seamEnd
	for _, s := range p.Seams {
		if len(s.A) == 0 || len(s.B) == 0 {
			continue
		}
		for _, end := range []pattern.EndName{pattern.Start, pattern.End} {
			se := seamEnd{seam: s.Name, end: end}
			there := true
			for k, side := range []pattern.Side{s.A, s.B} {
				pt, at := side[0], side[0].From
				if end == pattern.End {
					pt = side[len(side)-1]
					at = pt.To
				}
				pc, e := p.Edge(pt.Piece, pt.Edge)
				if e == nil {
					there = false
					break
				}
				se.sides[k] = spotOn(pc, e, at*e.Length())
			}
			if there {
				out = append(out, se.named(p, out))
			}
		}
	}
	return out
}

// chosen returns the end that is chosen, while it is there.
func (t *True) chosen() (seamEnd, bool) {
	for _, s := range t.all() {
		if s.seam == t.seam && s.end == t.end {
			return s, true
		}
	}
	t.seam, t.hold = "", ""
	return seamEnd{}, false
}

// Hint says what to do next.
func (t *True) Hint() string {
	s, ok := t.chosen()
	if !ok {
		return "Press near the end of a seam, where an edge is to run on over it; N goes from one to the next. Or choose it by its name."
	}
	res, err := t.try.of(t.table, t.Proposal()...)
	if err != nil {
		return sentence(err)
	}
	if runsOn(res) {
		return fmt.Sprintf("At the %s, %s and %s run on already, as they lie here. Press another end of a seam; Enter only keeps that it is so, in all sizes.", s.label(), s.sides[0].Piece, s.sides[1].Piece)
	}
	if moved := figure(res, "moved"); math.Abs(figure(res, "kink_before")) < toldKink {
		return fmt.Sprintf("At the %s, %s and %s run on already. Press another end of a seam, or Escape; Enter only lays one fairer curve over both, which moves them by up to %s.",
			s.label(), s.sides[0].Piece, s.sides[1].Piece, unit.MM(moved))
	}
	does := "makes them run on"
	for k, side := range t.sides() {
		if side.Stays {
			names := s.names()
			does = fmt.Sprintf("makes %s run on from %s, which stays as it is", names[1-k], names[k])
		}
	}
	return fmt.Sprintf("At the %s, %s and %s turn by %s. Enter %s, with %s left; Escape abandons.",
		s.label(), s.sides[0].Piece, s.sides[1].Piece, writtenAngle(math.Abs(figure(res, "kink_before"))), does, writtenAngle(math.Abs(figure(res, "kink_after"))))
}

// toldKink is the angle in degrees below which a kink is told as none.
const toldKink = 0.05

// runsOn tells that there is nothing to true in the size shown: no kink, and
// nothing that would move.
func runsOn(res step.Result) bool {
	return math.Abs(figure(res, "kink_before")) < 0.01 && figure(res, "moved") < 0.05 // degrees, mm
}

// Pointer chooses the nearest end of a seam.
func (t *True) Pointer(e Event) {
	switch e.Act {
	case Hover:
		t.over = Pointing{}
		if _, pt, ok := t.near(e); ok {
			t.over = pt
		}
	case Press:
		t.drop()
		t.at = 0
		if s, _, ok := t.near(e); ok {
			t.take(s)
		}
	}
}

// near returns the seam end within reach of the pointer; of several at one
// place the one after that which is chosen, so that pressing again goes on.
func (t *True) near(e Event) (seamEnd, Pointing, bool) {
	if !e.At.Finite() {
		return seamEnd{}, Pointing{}, false
	}
	var best []seamEnd
	var at []Pointing
	least := math.Inf(1)
	for _, s := range t.all() {
		pt := s.sides[0]
		if s.sides[1].At.Dist(e.At) < pt.At.Dist(e.At) {
			pt = s.sides[1]
		}
		d := pt.At.Dist(e.At)
		switch {
		case !(d <= e.Reach) || d > least+samePlace:
			continue
		case d < least-samePlace:
			best, at = nil, nil
		}
		least = min(least, d)
		best, at = append(best, s), append(at, pt)
	}
	for i, s := range best {
		if s.seam == t.seam && s.end == t.end {
			k := (i + 1) % len(best)
			return best[k], at[k], true
		}
	}
	if len(best) == 0 {
		return seamEnd{}, Pointing{}, false
	}
	return best[0], at[0], true
}

func (t *True) take(s seamEnd) {
	if s.seam != t.seam || s.end != t.end {
		t.hold = ""
	}
	t.seam, t.end = s.seam, s.end
	t.table.Select(Selection{Piece: s.sides[0].Piece})
}

// Key walks through the ends of seams; the arrows up and down blend further
// and less far.
func (t *True) Key(k Key) bool {
	all := t.all()
	if t.at > len(all) {
		t.at = 0
	}
	switch k.Name {
	case Next, Previous:
		if len(all) == 0 {
			return false
		}
		i := t.at - 1
		if t.at == 0 {
			i = t.begin(all)
			if k.Name == Next {
				i--
			}
		}
		if k.Name == Next {
			i++
		} else {
			i--
		}
		t.at = (i+len(all))%len(all) + 1
		return true
	case Choose:
		if t.at == 0 {
			return false
		}
		t.take(all[t.at-1])
		t.at = 0
		return true
	}
	if d, ok := arrow(k); ok && d.Y != 0 && t.seam != "" {
		blended := t.blended()
		if len(blended) == 0 {
			return false
		}
		for _, i := range blended {
			t.reach[i] = min(max(t.reach[i]+d.Y, leastReach), mostReach)
		}
		return true
	}
	return false
}

// The shortest and longest reach of a blend in mm that can be asked for.
const (
	leastReach = 0.1
	mostReach  = 1000
)

// typedReach reads how far an edge is blended.
func typedReach(t Table, text string) (float64, error) {
	v, err := typedLength(t, text)
	if err == nil && !(v >= leastReach && v <= mostReach) {
		err = fmt.Errorf("a reach of %s is not between %s and %s", unit.MM(v), unit.MM(leastReach), unit.MM(mostReach))
	}
	return v, err
}

// Proposal is the truing.
func (t *True) Proposal() []step.Step {
	s, ok := t.chosen()
	if !ok {
		return nil
	}
	out := &step.True{Seam: s.seam, End: s.end, Hold: t.hold}
	a, b := step.Lit(t.reach[0]), step.Lit(t.reach[1])
	switch blended := t.blended(); {
	case len(blended) == 1:
		one := step.Lit(t.reach[blended[0]])
		out.Reach = &one
	case t.reach[0] == t.reach[1]:
		out.Reach = &a
	default:
		out.ReachA, out.ReachB = &a, &b
	}
	return []step.Step{out}
}

// Overlay shows the end on both pieces, how the edges will run, and the kink
// before and after.
func (t *True) Overlay() Overlay {
	var o Overlay
	t.pointed(&o)
	if all := t.all(); t.at > 0 && t.at <= len(all) {
		at := all[t.at-1]
		for _, pt := range at.sides {
			o.Dots = append(o.Dots, Dot{pt.At, Pointed})
		}
		o.Notes = append(o.Notes, Note{at.sides[0].At, at.label()})
	}
	s, ok := t.chosen()
	if !ok {
		return o
	}
	for _, pt := range s.sides {
		o.Dots = append(o.Dots, Dot{pt.At, Chosen})
	}
	if a, b := s.sides[0].At, s.sides[1].At; a.Dist(b) > pinMeets {
		if line, err := geom.Polyline(a, b); err == nil {
			o.Strokes = append(o.Strokes, Stroke{line, Guide})
		}
	}
	res, err := t.try.of(t.table, t.Proposal()...)
	if err != nil {
		return o
	}
	o.altered(t.pattern(), res.Size.Pattern, Good, anyPiece)
	o.Notes = append(o.Notes, Note{s.sides[0].At, fmt.Sprintf("kink %s → %s",
		writtenAngle(math.Abs(figure(res, "kink_before"))), writtenAngle(math.Abs(figure(res, "kink_after"))))})
	if c := figure(res, "seam_change"); math.Abs(c) > pinMeets {
		o.Notes = append(o.Notes, Note{s.sides[1].At, fmt.Sprintf("%s %s longer", s.seam, unit.MM(c))})
		if c < 0 {
			o.Notes[len(o.Notes)-1].Text = fmt.Sprintf("%s %s shorter", s.seam, unit.MM(-c))
		}
	}
	return o
}

// Reset forgets the end.
func (t *True) Reset() bool {
	walked := t.drop() || t.at > 0
	_, was := t.chosen()
	*t = True{base: t.base, reach: usualReaches(t.table)}
	return was || walked
}

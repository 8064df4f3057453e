package tool

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// PinTool turns a piece about a spot, by an angle or until something is met.
type PinTool struct {
	base
	pin     *pattern.Spot
	track   *pattern.Spot // of the piece; its gap to the datum is shown
	datum   *pattern.Datum
	line    string // the datum in words
	angle   geom.Angle
	settled *settling // what the turn meets, when it does

	turning bool
	from    geom.Point     // where the piece was taken hold of
	was     geom.Angle     // by which it was turned then
	choices []settling     // of the turn under way
	grid    *pattern.Datum // the grid line that a press at gridAt would take
	gridAt  geom.Point
	seen    *pattern.Piece // tells by its place one pattern from another
}

// NewPin returns pin and turn for a table.
func NewPin(t Table) Tool { return &PinTool{base: base{table: t}} }

// Name returns "pin".
func (t *PinTool) Name() string { return "pin" }

// Hint says what to do next.
func (t *PinTool) Hint() string {
	switch at, ok := t.pinned(); {
	case !ok:
		return t.orAtOnce("Press the spot that stays put: a corner, a notch or a place on an edge.")
	case t.turning:
		return fmt.Sprintf("Turn %s; it settles where it meets the line, with Ctrl it does not.", at.Piece)
	case t.settled != nil:
		return "The " + t.settled.label + ". Enter accepts the turn, Escape abandons it."
	case t.angle != 0:
		return "Enter accepts the turn, Escape abandons it; the arrows turn further."
	case t.datum == nil:
		return fmt.Sprintf("Press an edge of another piece, or a grid line, that %s is to meet; or drag the piece to turn it.", at.Piece)
	default:
		return fmt.Sprintf("Drag %s to turn it about the pin; press a corner of it first to bring that corner to the line.", at.Piece)
	}
}

// pinned returns where the pin is.
func (t *PinTool) pinned() (pattern.Place, bool) {
	if t.pin == nil {
		return pattern.Place{}, false
	}
	p := t.pattern()
	at, err := p.Find(*t.pin)
	if err == nil && t.seen != &p.Pieces[0] {
		t.seen = &p.Pieces[0]
		t.keepUp()
	}
	return at, err == nil
}

// keepUp finds what the turn meets anew, in another size or after an undo.
func (t *PinTool) keepUp() {
	t.choices = t.settlings()
	was := t.settled
	if was == nil {
		return
	}
	t.settled = nil
	for i := range t.choices {
		if c := &t.choices[i]; c.label == was.label && (c.angle > 0) == (was.angle > 0) {
			t.settled, t.angle = c, c.angle
			return
		}
	}
}

// Pointer drops the pin, chooses the line and turns the piece.
func (t *PinTool) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	p := t.pattern()
	at, ok := t.pinned()
	if !ok {
		t.lift()
		ask := Ask{Kind: OnSpot, Prefer: t.table.Selection().Piece}
		switch e.Act {
		case Hover:
			t.hover(e, ask)
		case Press:
			if pt, ok := Point(p, e.At, e.Reach, ask); ok {
				t.put(pt)
			}
		}
		return
	}
	switch e.Act {
	case Hover:
		t.pointAt(p, at, e)
	case Press:
		t.press(p, at, e)
	case Drag:
		t.grid = nil
		if t.turning {
			t.turn(at, e)
		}
	case Release:
		t.turning = false
	}
}

func (t *PinTool) put(pt Pointing) {
	t.drop()
	t.pin = &pt.Spot
	t.table.Select(Selection{Piece: pt.Piece})
	t.walk.Reset()
	t.guess()
}

// guess takes for a datum the edge of the neighbour at the pin that is in one
// hem line with an edge of the piece, and tracks the far end of that edge.
func (t *PinTool) guess() {
	p := t.pattern()
	at, ok := t.pinned()
	if !ok {
		return
	}
	for _, l := range p.Lines {
		if l.Kind != pattern.LineHem {
			continue
		}
		for _, own := range l.Parts {
			for _, part := range l.Parts {
				pc, other := p.Piece(own.Piece), p.Piece(part.Piece)
				if own.Piece != at.Piece || part.Piece == at.Piece || pc == nil || other == nil || !meetsAt(other, at.Mat) {
					continue
				}
				t.aim(other.Name, part.Edge)
				if e := pc.Edge(own.Edge); e != nil {
					far := pattern.AtEnd(pc.Name, e.Name, pattern.End)
					if a, err := p.Find(pattern.AtEnd(pc.Name, e.Name, pattern.Start)); err == nil {
						if b, err := p.Find(far); err == nil && t.off(a.Mat) > t.off(b.Mat) {
							far.From = pattern.Start
						}
					}
					t.track = &far
				}
				return
			}
		}
	}
}

// meetsAt reports whether a piece has a corner or a notch at a place.
func meetsAt(pc *pattern.Piece, at geom.Point) bool {
	return slices.ContainsFunc(things(pc), func(c Pointing) bool { return c.Kind != OnEdge && c.At.Dist(at) <= pinMeets })
}

// pinMeets is the distance in mm within which places count as pinned together.
const pinMeets = 0.01

// off is how far a place lies off the datum, 0 when there is none.
func (t *PinTool) off(q geom.Point) float64 {
	if t.datum == nil {
		return 0
	}
	l, err := t.pattern().FindDatum(*t.datum)
	if err != nil {
		return 0
	}
	return math.Abs(l.Distance(q))
}

// aim takes the line through the ends of an edge for a datum.
func (t *PinTool) aim(piece, edge string) {
	d := pattern.LineThrough(pattern.AtEnd(piece, edge, pattern.Start), pattern.AtEnd(piece, edge, pattern.End))
	t.datum, t.line, t.settled = &d, edge+" of "+piece, nil
}

// turn follows the pointer on from where the piece lay, and settles where something is met.
func (t *PinTool) turn(at pattern.Place, e Event) {
	a, b := t.from.Sub(at.Mat), e.At.Sub(at.Mat)
	if a.Norm() <= geom.Coincident || b.Norm() <= geom.Coincident {
		return
	}
	t.angle, t.settled = (t.was + geom.Between(a, b)).Normalized(), nil
	if e.Ctrl {
		return
	}
	least := e.Reach / b.Norm()
	for i := range t.choices {
		c := &t.choices[i]
		// A spot that was taken hold of stands first and is not outdone by others.
		if d := math.Abs(float64((c.angle - t.angle).Normalized())); d < least-samePlace && math.Abs(float64(c.angle)) <= math.Pi {
			least, t.settled = d, c
		}
	}
	if t.settled != nil {
		t.angle = t.settled.angle
	}
}

// Key walks to the pin and then to the line, and turns by the arrows: Step
// degrees, left counter-clockwise.
func (t *PinTool) Key(k Key) bool {
	if t.turning {
		return false
	}
	at, ok := t.pinned()
	if !ok {
		t.lift()
		if pt, ok := t.atOnce(); ok && k.Name == Choose {
			t.put(pt)
			return true
		}
		chosen, took, used := t.keyed(k, Ask{Kind: OnSpot})
		if took {
			t.put(chosen)
		}
		return used
	}
	if d, ok := counted(k); ok {
		deg := d.Y - d.X // left and up are counter-clockwise
		t.angle, t.settled = (t.angle + geom.Angle(deg)*geom.Degree).Normalized(), nil
		return true
	}
	chosen, took, used := t.keyed(k, Ask{Kind: OnEdge, Not: at.Piece})
	if took {
		t.aim(chosen.Piece, chosen.Edge)
		t.walk.Reset()
	}
	return used
}

// byAngle is the choice of a turn that meets nothing.
const byAngle = "as far as I say"

// noLine is the choice of no datum.
const noLine = "no line"

// Proposal is the turn.
func (t *PinTool) Proposal() []step.Step {
	at, ok := t.pinned()
	if !ok || t.angle == 0 {
		return nil
	}
	s := &step.Turn{Piece: at.Piece, Pin: *t.pin, Direction: step.CounterClockwise}
	if t.angle < 0 {
		s.Direction = step.Clockwise
	}
	if t.settled != nil {
		if _, err := t.pattern().FindDatum(*t.settled.until.Datum); err == nil {
			until := t.settled.until
			s.Until = &until
			return []step.Step{s}
		}
	}
	by := step.Lit(math.Abs(t.angle.Degrees()))
	s.By = &by
	return []step.Step{s}
}

// Overlay shows the pin, the line, the angle turned and the gap that is left.
func (t *PinTool) Overlay() Overlay {
	var o Overlay
	t.pointed(&o)
	at, ok := t.pinned()
	if !ok {
		return o
	}
	p := t.pattern()
	o.Dots = append(o.Dots, Dot{at.Mat, Pin})
	t.showGrid(&o, p)
	style := Poor
	if t.settled != nil {
		style = Good
	}
	text := ""
	if t.angle != 0 {
		text = writtenAngle(t.angle.Degrees())
	}
	note := at.Mat
	if t.datum != nil {
		if line, err := p.FindDatum(*t.datum); err == nil {
			if path, err := across(p, line); err == nil {
				o.Strokes = append(o.Strokes, Stroke{path, Guide})
			}
			if t.track != nil && t.track.Piece == at.Piece {
				if q, err := p.Find(*t.track); err == nil {
					end := geom.Turn(t.angle, at.Mat).Apply(q.Mat)
					foot := line.Foot(end)
					if gap, err := geom.Polyline(end, foot); err == nil && end.Dist(foot) > pinMeets {
						o.Strokes = append(o.Strokes, Stroke{gap, style})
					}
					o.Dots = append(o.Dots, Dot{end, style})
					note = end
					if text != "" {
						text += ", "
					}
					text += unit.MM(end.Dist(foot)) + " to the line"
				}
			}
		}
	}
	if t.angle != 0 {
		if r := t.from.Dist(at.Mat); t.turning && r > geom.Coincident {
			if arc, err := geom.Arc(at.Mat, r, t.from.Sub(at.Mat).Direction(), (t.angle - t.was).Normalized()); err == nil {
				o.Strokes = append(o.Strokes, Stroke{arc, style})
			}
		}
	}
	if text != "" {
		o.Notes = append(o.Notes, Note{note, text})
	}
	return o
}

// lift takes the pin out; it reports whether there was one.
func (t *PinTool) lift() bool {
	was := t.pin != nil
	*t = PinTool{base: t.base}
	return was
}

// Reset lifts the pin, or leaves the walk to it.
func (t *PinTool) Reset() bool {
	walked := t.drop()
	return t.lift() || walked
}

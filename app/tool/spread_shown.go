package tool

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Overlay shows the slashes, the hinge, the handle, and the piece as it would
// be with its live measures.
func (s *Spread) Overlay() Overlay {
	var o Overlay
	s.pointed(&o)
	c, ok := s.cuts()
	if !ok {
		return o
	}
	stroke := func(a, b geom.Point, style Style) {
		if line, err := geom.Polyline(a, b); err == nil {
			o.Strokes = append(o.Strokes, Stroke{line, style})
		}
	}
	for _, l := range c.lines {
		stroke(l.from, l.to, Guide)
		o.Dots = append(o.Dots, Dot{l.from, Chosen})
		if l.from.Dist(l.to) > samePlace {
			o.Dots = append(o.Dots, Dot{l.to, Pin})
		}
	}
	if c.closing != nil && s.inside != nil {
		stroke(*c.closing, c.pivot, Poor)
		o.Dots = append(o.Dots, Dot{*c.closing, Poor})
	}
	if c.needs == needsHinge {
		s.showPull(&o, c)
		return o
	}
	if d := s.ownDart(); d != nil {
		for _, name := range d.Edges {
			if e := c.pc.Edge(name); e != nil {
				o.Strokes = append(o.Strokes, Stroke{e.Path.Transform(c.pc.Pose), Poor})
			}
		}
	}
	if c.needs == needsNothing {
		for i := range c.lines {
			o.Dots = append(o.Dots, Dot{s.handle(c, i), Handle})
		}
	}
	if len(s.Proposal()) == 0 {
		return o
	}
	res, err := s.trial()
	if err != nil {
		return o
	}
	o.altered(s.pattern(), res.Size.Pattern, Good, func(piece string) bool { return piece == c.pc.Name })
	mouths := s.mouths(c)
	for i, m := range mouths {
		stroke(m.Turns, m.Hinge, Good)
		if len(mouths) > 1 {
			o.Notes = append(o.Notes, Note{m.Stays.Lerp(m.Hinge, 0.5), fmt.Sprint(i+1, ": ", unit.MM(m.Opened))})
		}
	}
	for _, b := range s.bends(c, res) {
		o.Dots = append(o.Dots, Dot{b.at, Poor})
		o.Notes = append(o.Notes, Note{b.at, fmt.Sprintf("turns %.1f°", b.degrees)})
	}
	o.Notes = append(o.Notes, Note{s.handle(c, min(s.at.slash, len(c.lines)-1)), s.measures(c, res)})
	return o
}

// showPull shows the line from the start of the last slash to the pointer.
func (s *Spread) showPull(o *Overlay, c cuts) {
	from := c.lines[len(c.lines)-1].from
	at := from
	if s.loose != nil {
		at = *s.loose
	} else if s.over.Kind != 0 {
		at = s.over.At
	} else if w, ok := s.walk.At(s.pattern()); ok && w.Kind != OnPiece {
		at = w.At
	}
	if line, err := geom.Polyline(from, at); err == nil && from.Dist(at) > samePlace {
		o.Strokes = append(o.Strokes, Stroke{line, Guide})
		o.Notes = append(o.Notes, Note{from.Lerp(at, 0.5), unit.MM(from.Dist(at))})
	}
}

// measures tells how far the slashes open and what the edge becomes.
func (s *Spread) measures(c cuts, res step.Result) string {
	opened, degrees := figure(res, "opened"), figure(res, "degrees")
	text := fmt.Sprintf("opens %s, %s", unit.MM(opened), writtenAngle(degrees))
	if opened < 0 {
		text = fmt.Sprintf("closes %s, %s", unit.MM(-opened), writtenAngle(-degrees))
	}
	if _, e := res.Size.Pattern.Edge(c.pc.Name, c.edge.Name); e != nil && !s.leave {
		text += fmt.Sprintf("; %s %s (%s)", c.edge.Name, unit.MM(e.Length()), signed(e.Length()-c.edge.Length()))
	}
	return text
}

// advice is what the maker should know of the spreading while she sets what it
// concerns; the step tells all of it once it is kept.
func (s *Spread) advice(c cuts, res step.Result) string {
	fits := ""
	if s.untilWords(c, res) != "" {
		fits = s.fits
	}
	text := differing(s.table, res, fits)
	text += s.fairing(c, res)
	if s.page == pageSlash {
		text += noted(res)
	}
	return text
}

// askew tells, as a sentence with a blank behind it, by how much the part that
// turns under the arrow is then cut askew to it, which itself stays as it is.
// Beside the settings of
// the slash the step's own words follow, which tell it, too.
func (s *Spread) askew(res step.Result) string {
	turned := figure(res, "arrow_turned_deg")
	if turned < toldTurn || s.page == pageSlash {
		return ""
	}
	return fmt.Sprintf("The arrow stays, and the part that turns under it is cut %.1f° askew. ", turned)
}

// toldTurn is the least turn in degrees that is told.
const toldTurn = 0.05

// toldLoss is the length in mm from which it is told that making an edge fair
// takes it.
const toldLoss = 0.05

// fairing tells what of the opening goes in making the edge fair.
func (s *Spread) fairing(c cuts, res step.Result) string {
	_, e := res.Size.Pattern.Edge(c.pc.Name, c.edge.Name)
	if e == nil || s.leave || s.fair == 0 || s.length != 0 || s.dart != "" {
		return ""
	}
	opened := figure(res, "opened")
	switch lost := opened - (e.Length() - c.edge.Length()); {
	case opened <= 0 || lost <= toldLoss:
	case s.page != pageEdge:
		return fmt.Sprintf(" %s is made fair, which takes %s.", titled(c.edge.Name), unit.MM(lost))
	default:
		return fmt.Sprintf(" Making %s fair takes %s of what opens; \"To length\" makes up for it.", c.edge.Name, unit.MM(lost))
	}
	return ""
}

package check

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// wire checks every wire line: its length, opening and depth against before,
// that it has no inflection, and the wire's play in it.
func wire(s Subject) []Check {
	out := lost(s, pattern.LineWire, WireLength, "a wire has nowhere to lie; take back the step that cut it away, or name the line anew")
	for _, l := range s.After.Lines {
		if l.Kind != pattern.LineWire {
			continue
		}
		at := Check{Line: l.Name, Unit: "mm", Piece: l.Parts[0].Piece, Edge: l.Parts[0].Edge}
		length := s.After.Length(l.Parts)
		if was := s.Before.Line(l.Name); was != nil {
			c := at
			c.ID, c.Measured = WireLength, length-s.Before.Length(was.Parts)
			c.Text = fmt.Sprintf("The %s is %s, %s", l.Name, mm(length), sinceBefore(c.Measured))
			out = append(out, settle(c, s.Bounds.WireLength, "the wire no longer fits; smooth it keeping its length, or level it with the cup"))
			out = append(out, shapeOfWire(s, at, *was, l)...)
		}
		if c, ok := inflections(s, at, l); ok {
			out = append(out, c)
		}
		if wireLength, ok := s.After.Figures[pattern.FigureWire]; ok {
			out = append(out, play(s, at, l, length, wireLength))
		}
	}
	return out
}

// shapeOfWire compares opening (distance between the ends) and depth
// (greatest distance from the chord) of the line laid out as sewn.
func shapeOfWire(s Subject, at Check, was, is pattern.Line) []Check {
	before, err := s.Before.LayChain(was.Parts)
	if err != nil {
		return nil
	}
	after, err := s.After.LayChain(is.Parts)
	if err != nil {
		return nil
	}
	o1, d1 := span(before.Paths)
	o2, d2 := span(after.Paths)
	var out []Check
	for _, m := range []struct {
		id, name string
		was, is  float64
	}{{WireOpening, "opening", o1, o2}, {WireDepth, "depth", d1, d2}} {
		c := at
		c.ID, c.Measured = m.id, m.is-m.was
		c.Text = fmt.Sprintf("The %s of the %s is %s, %s", m.name, is.Name, mm(m.is), against(m.is, m.was))
		c = settle(c, s.Bounds.WireOpening, "the wire will press or gape where it is bent open; try the wire in the sewn line, and ask a professional fitter where the body is sensitive")
		if c.Verdict == Broken && s.Bounds.WireSprings {
			c.Verdict = Look
		}
		out = append(out, c)
	}
	return out
}

// against tells by how much a length is another one than before.
func against(is, was float64) string {
	switch d := is - was; {
	case math.Abs(d) < 0.005:
		return "as before"
	case d < 0:
		return mm(-d) + " less than the " + mm(was) + " before"
	default:
		return mm(d) + " more than the " + mm(was) + " before"
	}
}

// span returns the distance between the ends of a chain of paths and the
// greatest distance of the chain from that chord, in mm.
func span(paths []geom.Path) (opening, depth float64) {
	a, b := paths[0].Start(), paths[len(paths)-1].End()
	chord, err := geom.NewLine(a, b)
	if err != nil {
		return 0, 0
	}
	for _, p := range paths {
		for _, q := range p.Flatten(depthFlat) {
			depth = max(depth, math.Abs(chord.Distance(q)))
		}
	}
	return a.Dist(b), depth
}

// depthFlat is the chord error in mm allowed in measuring a depth.
const depthFlat = 0.005

// inflections counts how often the line laid out as sewn changes from a clear
// bend to the one side to a clear bend to the other.
func inflections(s Subject, at Check, l pattern.Line) (Check, bool) {
	c := at
	c.ID, c.Unit = WireInflection, ""
	lay, err := s.After.LayChain(l.Parts)
	if err != nil {
		return c, false
	}
	last := 0.0
	for _, p := range lay.Paths {
		n := int(p.Length()/sampleStep) + 1
		for i := range n + 1 {
			k := p.CurvatureAt(p.Length() * float64(i) / float64(n))
			if math.Abs(k) < inflectionLeast {
				continue
			}
			if last*k < 0 {
				c.Measured++
			}
			last = k
		}
	}
	c.Text = fmt.Sprintf("The %s bends one way all along", l.Name)
	if c.Measured > 0 {
		c.Text = fmt.Sprintf("The %s changes its bend %s", l.Name, times(c.Measured))
	}
	return yes(c, c.Measured == 0, "none", "a wire lies in one sweep; smooth the line with a longer reach"), true
}

// inflectionLeast is the curvature in 1/mm that counts as a bend; a radius of
// 10 m is straight to a needle.
const inflectionLeast = 1e-4

// play checks the room that the wire has at each end of its line. What the
// line is longer than the wire and the play wanted goes evenly to both ends.
func play(s Subject, at Check, l pattern.Line, length, wireLength float64) Check {
	b := s.Bounds
	wanted := [2]float64{s.After.Figures[pattern.FigurePlayStart], s.After.Figures[pattern.FigurePlayEnd]}
	spare := length - wireLength
	if wanted == [2]float64{} {
		c := at
		c.ID, c.Measured = WirePlay, spare/2
		c.Allowed = fmt.Sprintf("%g to %g mm at each end, never under %g", b.PlayHolds, b.PlayMost, b.PlayLeast)
		c.Text = fmt.Sprintf("The wire of %s has %s of play at each end of the %s", mm(wireLength), mm(c.Measured), l.Name)
		return c.judgePlay(b.PlayLeast, b.PlayHolds, b.PlayMost)
	}
	over := (spare - wanted[0] - wanted[1]) / 2
	var ends [2]Check
	for i, want := range wanted {
		c := at
		c.ID, c.Measured = WirePlay, want+over
		most, holds := want+b.PlayOff.Holds, max(want-b.PlayOff.Holds, 0)
		least := max(want-b.PlayOff.Look, min(b.PlayLeast, holds))
		c.Allowed = fmt.Sprintf("%g to %g mm at this end, never under %g", holds, most, least)
		c.Text = fmt.Sprintf("The wire of %s has %s of play where the %s %s, %s is wanted", mm(wireLength), mm(c.Measured), l.Name, [2]string{"starts", "ends"}[i], mm(want))
		if wanted[0] == wanted[1] {
			c.Text = fmt.Sprintf("The wire of %s has %s of play at each end of the %s, %s is wanted", mm(wireLength), mm(c.Measured), l.Name, mm(want))
		}
		ends[i] = c.judgePlay(least, holds, most)
	}
	if worse(ends[0].Verdict, ends[1].Verdict) != ends[0].Verdict {
		return ends[1]
	}
	return ends[0]
}

// judgePlay settles a check of the wire's play by its limits in mm.
func (c Check) judgePlay(least, holds, most float64) Check {
	switch {
	case c.Measured < least-slack:
		c.Verdict = Broken
		return c.Remedied("it would press or break through; take a shorter wire or lengthen the line")
	case c.Measured < holds-slack:
		c.Verdict = Look
		return c.Remedied("that is tight; follow the wire maker's instructions")
	case c.Measured > most+slack:
		c.Verdict = Look
		return c.Remedied("it can wander; a longer wire may fit better")
	}
	c.Verdict = Holds
	return c.Remedied("")
}

package tool

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// settling is a turn that ends when something is met.
type settling struct {
	label string
	until step.Until
	angle geom.Angle
}

// settlings returns the turns at which something of the piece meets the datum,
// the tracked spot first.
func (t *PinTool) settlings() []settling {
	p := t.pattern()
	at, ok := t.pinned()
	if !ok || t.datum == nil {
		return nil
	}
	line, err := p.FindDatum(*t.datum)
	pc := p.Piece(at.Piece)
	if err != nil || pc == nil {
		return nil
	}
	var out []settling
	add := func(label string, until step.Until, angle geom.Angle) {
		if math.Abs(float64(angle)) > samePlace {
			until.Datum = t.datum
			out = append(out, settling{label, until, angle})
		}
	}
	spot := func(s pattern.Spot, name string) {
		q, err := p.Find(s)
		if err != nil || q.Mat.Dist(at.Mat) <= pinMeets {
			return
		}
		answers, err := geom.TurnToLine(at.Mat, q.Mat, line)
		if err != nil {
			return
		}
		for _, dir := range []int{-1, 1} {
			if a, ok := geom.FirstTurn(answers, dir); ok {
				add(name+" lies on the line", step.Until{Spot: &s}, a)
			}
		}
	}
	if t.track != nil && t.track.Piece == pc.Name {
		spot(*t.track, t.spotName(*t.track))
	}
	for i := range pc.Edges {
		e := &pc.Edges[i]
		for _, dir := range []int{-1, 1} {
			if a, err := geom.TurnToTouch(e.Path.Transform(pc.Pose), at.Mat, line, dir); err == nil {
				add(e.Name+" just touches the line", step.Until{Touch: e.Name}, a)
			}
		}
	}
	for _, c := range things(pc) {
		if c.Kind == OnJoint {
			spot(c.Spot, t.spotName(c.Spot))
		}
	}
	return out
}

func (t *PinTool) spotName(s pattern.Spot) string {
	pc := t.pattern().Piece(s.Piece)
	switch {
	case s.Notch != "":
		return pattern.NotchWords(s.Notch)
	case pc != nil && s.MM == 0 && s.Share == 0:
		return cornerLabel(pc, Pointing{Edge: s.Edge, Spot: s})
	}
	return "the place on " + s.Edge
}

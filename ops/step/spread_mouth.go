package step

import (
	"math"

	"truemat/geom"
)

// Mouth is where a slash comes to lie on the mat: its two lines meet at Hinge
// and end at Stays and Turns, of which the latter is on the part that the
// slash turns. Opened is the chord between them in mm, below 0 when it closes.
type Mouth struct {
	Stays, Turns, Hinge geom.Point
	Opened              float64
	Clockwise           bool // it opens by turning clockwise
}

// Mouths returns the mouths of the slashes in their order, as they lie once
// all of them have been spread. It refuses what cannot be cut, but does not
// join the parts.
func (s *Spread) Mouths(in Input) ([]Mouth, error) {
	p, err := s.plan(in)
	if err != nil {
		return nil, err
	}
	turns, err := s.turns(in, p)
	if err != nil {
		return nil, err
	}
	b := &spreading{p: p, turns: turns}
	out := make([]Mouth, len(p.slashes))
	for i := range p.slashes {
		l := &p.slashes[i]
		side := func(own bool) geom.Motion {
			return b.motion(func(k *slashLine) bool {
				if k == l {
					return own
				}
				return p.turnsAt(k, l.at)
			}).Then(p.old.Pose)
		}
		stays, turned := side(false), side(true)
		out[i] = Mouth{stays.Apply(l.from), turned.Apply(l.from), stays.Apply(l.pivot),
			2 * l.radius() * math.Sin(float64(turns[i])/2), l.forward == p.old.Pose.Mirrors()}
	}
	return out, nil
}

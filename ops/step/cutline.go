package step

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Curve shapes a line between two places freely, in proportion to the straight
// line between them, so that it is alike in every size. Both ends leaning the
// same way give a bow, opposite ways an S.
type Curve struct {
	From Lean `json:"from,omitzero"`
	To   Lean `json:"to,omitzero"`
}

// Lean is how a curve sets out from one of its ends.
type Lean struct {
	// Degrees between the curve and the straight line, above 0 outward from
	// what is kept, under 0 into it.
	Degrees Number `json:"degrees,omitzero"`
	// Square lets the curve meet the edge that stays beside it at a right
	// angle instead.
	Square bool `json:"square,omitempty"`
	// Reach is how far the end holds the curve in its direction, as a share of
	// the straight line; a third when 0.
	Reach float64 `json:"reach,omitempty"`
}

// Limits of a lean: beyond them a curve turns back on itself.
const (
	maxLean  = 150 // degrees
	maxReach = 2   // shares of the straight line
)

// cutLine is the line along which a piece is cut.
type cutLine struct {
	piece    string
	from, to pattern.Spot
	bulge    *Number
	curve    *Curve
}

func (c cutLine) String() string {
	return fmt.Sprintf("the line from %s to %s", spotOn(c.from, c.piece), spotOn(c.to, c.piece))
}

// how tells the shape of the line in words.
func (c cutLine) how() string {
	switch {
	case c.curve != nil:
		return fmt.Sprintf("in a curve that sets out %s and arrives %s", c.curve.From, c.curve.To)
	case c.bulge != nil:
		return fmt.Sprintf("in a curve of %s", *c.bulge)
	}
	return "straight"
}

func (l Lean) String() string {
	if l.Square {
		return "square"
	}
	return "at " + l.Degrees.Text("degrees")
}

// lead returns the line across the piece in the place of n runs from run i on,
// in their direction; back says that this is from c.to to c.from. It is
// refused unless it lies within the outline.
func (c cutLine) lead(in Input, o *outline, i, n int, back bool) (geom.Path, error) {
	start, end := o.runs[i].edge.Path.Start(), o.runs[(i+n)%len(o.runs)].edge.Path.Start()
	if start.Dist(end) <= placeSlack {
		return geom.Path{}, fmt.Errorf("%s and %s lie at the same place on %s; choose two different places", spotOn(c.from, c.piece), spotOn(c.to, c.piece), c.piece)
	}
	path, err := c.path(in, o, i, n, back)
	if err != nil {
		return geom.Path{}, err
	}
	if len(path.SelfCrossings()) > 0 {
		return geom.Path{}, fmt.Errorf("%s would cross itself; let it lean less, or reach less far", c)
	}
	return path, c.within(o, path, back)
}

func (c cutLine) path(in Input, o *outline, i, n int, back bool) (geom.Path, error) {
	from, to := o.runs[i].edge.Path.Start(), o.runs[(i+n)%len(o.runs)].edge.Path.Start()
	switch {
	case c.curve != nil && c.bulge != nil:
		return geom.Path{}, fmt.Errorf("%s is given a bulge and a curve; give one of them", c)
	case c.curve != nil:
		before, after := o.runs[o.prev(i)].edge.Path, o.runs[(i+n)%len(o.runs)].edge.Path
		return c.freely(in, from, to, before.TangentBefore(before.Length()), after.TangentAt(0), back)
	case c.bulge == nil:
		return geom.Polyline(from, to)
	}
	bulge, err := c.bulge.In(in)
	if err != nil {
		return geom.Path{}, err
	}
	if bulge == 0 {
		return geom.Polyline(from, to)
	}
	// A parabola of rise h has its control point at twice h; outside is right.
	control := from.Lerp(to, 0.5).Sub(to.Sub(from).Unit().Perp().Mul(2 * bulge))
	return geom.NewPath(geom.Curve(from, from.Lerp(control, 2.0/3), to.Lerp(control, 2.0/3), to))
}

// freely returns the curve from a to b, what is kept on its left; in and out
// are the directions of the edges kept before and after it.
func (c cutLine) freely(in Input, a, b, before, after geom.Point, back bool) (geom.Path, error) {
	first, last := c.curve.From, c.curve.To
	if back {
		first, last = last, first
	}
	chord := b.Sub(a)
	// Square into the piece is a quarter turn to the left of the edges kept.
	s, err := first.handle(in, c, chord, before.Perp(), -1)
	if err != nil {
		return geom.Path{}, err
	}
	e, err := last.handle(in, c, chord.Mul(-1), after.Perp(), 1)
	if err != nil {
		return geom.Path{}, err
	}
	if s.Cross(chord) == 0 && e.Cross(chord) == 0 && s.Dot(chord) > 0 && e.Dot(chord) < 0 {
		return geom.Polyline(a, b)
	}
	return geom.NewPath(geom.Curve(a, a.Add(s), b.Add(e), b))
}

// handle returns the handle at an end from which the straight line leads off
// by chord; hand is −1 where outside is right of it and 1 where it is left.
func (l Lean) handle(in Input, c cutLine, chord, square geom.Point, hand float64) (geom.Point, error) {
	reach := l.Reach
	if reach == 0 {
		reach = 1.0 / 3
	}
	if !(reach > 0 && reach <= maxReach) {
		return geom.Point{}, fmt.Errorf("a reach of %g on %s is not between 0 and %d of its length", reach, c, maxReach)
	}
	lean, err := l.Degrees.In(in)
	if err != nil {
		return geom.Point{}, err
	}
	if l.Square {
		if lean != 0 {
			return geom.Point{}, fmt.Errorf("%s cannot be square and lean by %g degrees at one end; give one of them", c, lean)
		}
		lean = hand * geom.Between(chord, square).Degrees()
	}
	switch {
	case math.Abs(lean) > maxLean:
		return geom.Point{}, fmt.Errorf("%s would lean by %.4g degrees at an end; at most %d either way can be cut", c, lean, maxLean)
	case lean == 0:
		return chord.Mul(reach), nil
	}
	turn := geom.Turn(geom.Angle(hand*lean)*geom.Degree, geom.Point{})
	return turn.Vector(chord).Mul(reach), nil
}

// nearEnd is how far in mm from its ends a line may touch the outline it
// starts and ends on: two curves that set out in nearly one direction are not
// told apart before.
const nearEnd = 0.02

// within refuses a line that leaves the outline, touches it or runs along it.
func (c cutLine) within(o *outline, path geom.Path, back bool) error {
	paths := make([]geom.Path, len(o.runs))
	for i := range o.runs {
		paths[i] = o.runs[i].edge.Path
	}
	ring, err := geom.JoinClosed(paths...)
	if err != nil {
		return fmt.Errorf("piece %q: %w", c.piece, err)
	}
	length := path.Length()
	from := func(s float64) string {
		if back {
			s = length - s
		}
		return fmt.Sprintf("%s from its start", unit.MM(s))
	}
	met := geom.Cross(path, ring)
	if len(met.Overlaps) > 0 {
		l := met.Overlaps[0]
		if l.S1-l.S0 >= length-2*nearEnd {
			return fmt.Errorf("%s runs along the edge of %s; there is nothing to cut off", c, c.piece)
		}
		return fmt.Errorf("%s runs along %s of %s %s; choose another spot, or let the line lean away from it", c, o.edgeAt((l.T0+l.T1)/2), c.piece, from((l.S0+l.S1)/2))
	}
	var at []float64
	var touch error
	var across []string
	for _, x := range met.Crossings {
		switch {
		case x.S <= nearEnd || x.S >= length-nearEnd:
		case x.Tangent:
			touch = fmt.Errorf("%s touches %s of %s %s, so the piece would fall apart there; choose other spots, or curve it away", c, o.edgeAt(x.T), c.piece, from(x.S))
		default:
			at = append(at, x.S)
			across = append(across, fmt.Sprintf("across %s %s", o.edgeAt(x.T), from(x.S)))
		}
	}
	if back {
		slices.Reverse(across)
	}
	const mend = "there paper would have to be added; straighten that run instead, choose other spots, or curve the line so that it stays within"
	switch {
	case len(at) == 0 && !ring.Contains(path.At(length/2)):
		return fmt.Errorf("%s lies outside %s, and %s", c, c.piece, mend)
	case len(at) > 0:
		return fmt.Errorf("%s does not stay within %s: it passes %s; %s", c, c.piece, strings.Join(across, ", then "), mend)
	}
	return touch
}

// cornerBefore returns what remains of a corner end when the edge after its
// joint is another one now: not what referred to that edge.
func cornerBefore(c pattern.Corner) pattern.Corner {
	if c.Of == pattern.After {
		return pattern.Corner{}
	}
	return c
}

// cornerAfter is cornerBefore for the edge before the joint.
func cornerAfter(c pattern.Corner) pattern.Corner {
	if c.Of == pattern.Before {
		return pattern.Corner{}
	}
	return c
}

// edgeAt names the edge at s mm along the runs.
func (o *outline) edgeAt(s float64) string {
	for _, r := range o.runs {
		if s -= r.edge.Length(); s <= 0 {
			return r.edge.Name
		}
	}
	return o.runs[len(o.runs)-1].edge.Name
}

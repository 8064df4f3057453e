package tool

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// cutting is a line laid across a piece by its two spots and its shape. Its
// middle is a handle that bends it in a plain bow; a handle near each end lets
// it lean there and makes it a free curve.
//
// Right of the way from the first spot to the second counts as outward.
type cutting struct {
	way
	bulge float64   // mm, of a plain bow
	free  bool      // the ends lean as they are held
	leans [2]leaned // at the first spot and the second
	held  bent
}

// leaned is how a free curve sets out from an end.
type leaned struct {
	degrees float64 // outward, off the straight line
	reach   float64 // of the handle, as a share of the straight line
	square  bool    // to the edge beside it, instead
}

// bent is a handle that is dragged.
type bent int

const (
	bentNone bent = iota
	bentMiddle
	bentFrom
	bentTo
)

// Limits of what handles can do: those of the step, kept off its edges.
const (
	mostLean   = 150.0
	mostShare  = 2.0
	leastShare = 0.02
	// leanSnap is how near in degrees to straight on a dragged end goes there.
	leanSnap = 1.5
	// bulgeSnap is the rise in mm under which a middle that is dragged goes
	// back to the straight line.
	bulgeSnap = 0.3
	// farthest is how far in mm a handle can be dragged.
	farthest = 1e4
)

// plain makes the line straight again.
func (c *cutting) plain() { c.bulge, c.free, c.leans, c.held = 0, false, [2]leaned{}, bentNone }

// bentBy takes the keys that bend a line that is laid: the arrows up and down, of
// which the one up bends it that way, and Delete, which makes it straight again.
func (c *cutting) bentBy(p pattern.Pattern, k Key, up float64) bool {
	if c.pulled != pullNone {
		return false
	}
	if d, ok := arrow(k); ok && d.Y != 0 {
		c.lift(p, up*d.Y)
		return true
	}
	if k.Name == Delete {
		c.plain()
		return true
	}
	return false
}

// beyond says on which part of the piece a place on the mat lies, keepLeft or
// keepRight; ok is false while no line parts it.
func (c *cutting) beyond(p pattern.Pattern, at geom.Point) (part string, ok bool) {
	from, to := c.ends(p)
	if to == nil {
		return "", false
	}
	there, ok := between(p, *from, *to)
	if !ok {
		return "", false
	}
	l, err := loop(there.path)
	if err != nil {
		return "", false
	}
	if l.Contains(at) {
		return keepRight, true
	}
	return keepLeft, true
}

// frame returns both spots in the piece's coordinates and the pose of the piece.
func (c *cutting) frame(p pattern.Pattern) (a, b geom.Point, pose geom.Motion, ok bool) {
	from, to := c.ends(p)
	if to == nil {
		return a, b, pose, false
	}
	pc := p.Piece(from.Piece)
	inv := pc.Pose.Inverse()
	return inv.Apply(from.At), inv.Apply(to.At), pc.Pose, true
}

// controls returns the handles of the line from a to b.
func (c *cutting) controls(a, b geom.Point) (s, e geom.Point) {
	chord := b.Sub(a)
	if !c.free {
		rise := chord.Unit().Perp().Mul(-4.0 / 3 * c.bulge)
		return a.Lerp(b, 1.0/3).Add(rise), a.Lerp(b, 2.0/3).Add(rise)
	}
	turned := func(v geom.Point, l leaned, hand float64) geom.Point {
		return geom.Turn(geom.Angle(hand*l.degrees)*geom.Degree, geom.Point{}).Vector(v).Mul(l.reach)
	}
	return a.Add(turned(chord, c.leans[0], -1)), b.Add(turned(chord.Mul(-1), c.leans[1], 1))
}

// hold lets the line from a to b be led by two handles.
func (c *cutting) hold(a, b, s, e geom.Point) {
	chord := b.Sub(a)
	read := func(chord, v geom.Point, hand float64) leaned {
		l := leaned{degrees: hand * geom.Between(chord, v).Degrees(), reach: v.Norm() / chord.Norm()}
		l.degrees = min(max(math.Round(l.degrees*1e6)/1e6, -mostLean), mostLean) + 0 // no −0
		l.reach = min(max(math.Round(l.reach*1e6)/1e6, leastShare), mostShare)
		return l
	}
	c.free, c.bulge = true, 0
	c.leans = [2]leaned{read(chord, s.Sub(a), -1), read(chord.Mul(-1), e.Sub(b), 1)}
}

// rise is how far the middle of the line lies outward of the straight line.
func (c *cutting) rise(p pattern.Pattern) float64 {
	a, b, _, ok := c.frame(p)
	if !c.free || !ok {
		return c.bulge
	}
	s, e := c.controls(a, b)
	out := b.Sub(a).Unit().Perp().Mul(-1)
	return 3.0 / 8 * (out.Dot(s.Sub(a)) + out.Dot(e.Sub(a)))
}

// lift moves the middle of the line outward by d.
func (c *cutting) lift(p pattern.Pattern, d float64) {
	a, b, _, ok := c.frame(p)
	if !ok || !(math.Abs(c.rise(p)+d) <= mostReach) {
		return
	}
	if !c.free {
		c.bulge = math.Round((c.bulge+d)*1e6)/1e6 + 0
		return
	}
	s, e := c.controls(a, b)
	v := b.Sub(a).Unit().Perp().Mul(-4.0 / 3 * d)
	c.hold(a, b, s.Add(v), e.Add(v))
}

// handles returns where the handles lie on the mat: the middle, and those at
// the first and the second spot.
func (c *cutting) handles(p pattern.Pattern) (h [3]geom.Point, ok bool) {
	a, b, pose, ok := c.frame(p)
	if !ok {
		return h, false
	}
	s, e := c.controls(a, b)
	middle := geom.Curve(a, s, e, b).At(0.5)
	return [3]geom.Point{pose.Apply(middle), pose.Apply(s), pose.Apply(e)}, true
}

// line returns the line on the mat.
func (c *cutting) line(p pattern.Pattern) (geom.Path, error) {
	a, b, pose, ok := c.frame(p)
	if !ok {
		return geom.Path{}, fmt.Errorf("no line is laid yet")
	}
	s, e := c.controls(a, b)
	path, err := geom.NewPath(geom.Curve(a, s, e, b))
	return path.Transform(pose), err
}

// bend takes what the pointer does at the handles; it reports whether it was
// meant for one.
func (c *cutting) bend(p pattern.Pattern, e Event) bool {
	if !e.At.Finite() {
		return c.held != bentNone
	}
	switch e.Act {
	case Press:
		c.held = bentNone
		h, ok := c.handles(p)
		if !ok {
			return false
		}
		nearest := min(e.Reach, c.from.At.Dist(e.At), c.to.At.Dist(e.At))
		for i, g := range []bent{bentMiddle, bentFrom, bentTo} {
			if d := h[i].Dist(e.At); d <= nearest {
				c.held, nearest = g, math.Nextafter(d, 0)
			}
		}
		return c.held != bentNone
	case Drag:
		if c.held == bentNone {
			return false
		}
		c.drag(p, e.At)
		return true
	case Release:
		was := c.held != bentNone
		c.held = bentNone
		return was
	}
	return false
}

func (c *cutting) drag(p pattern.Pattern, at geom.Point) {
	a, b, pose, ok := c.frame(p)
	if !ok {
		return
	}
	q := pose.Inverse().Apply(at)
	if !(q.Dist(a) <= farthest) {
		return
	}
	if c.held == bentMiddle {
		out := b.Sub(a).Unit().Perp().Mul(-1)
		to := math.Round(out.Dot(q.Sub(a))*10) / 10
		if math.Abs(to) < bulgeSnap {
			to = 0
		}
		c.lift(p, to-c.rise(p))
		return
	}
	s, e := c.controls(a, b)
	i, foot := 0, a
	if c.held == bentFrom {
		s = q
	} else {
		i, foot, e = 1, b, q
	}
	if q.Dist(foot) <= samePlace {
		return
	}
	other := c.leans[1-i]
	c.hold(a, b, s, e)
	l := &c.leans[i]
	l.degrees, l.reach = math.Round(l.degrees*10)/10+0, max(math.Round(l.reach*100)/100, leastShare)
	if math.Abs(l.degrees) < leanSnap {
		l.degrees = 0
	}
	if other.square {
		c.leans[1-i] = other
	}
}

// shape puts the line's shape into a step; out is 1 where right of the way is
// outward for it and −1 where left is.
func (c *cutting) shape(out float64) (bulge *step.Number, curve *step.Curve) {
	if c.free {
		end := func(l leaned) step.Lean {
			s := step.Lean{Reach: l.reach, Square: l.square}
			if !l.square {
				s.Degrees = step.Lit(out*l.degrees + 0)
			}
			return s
		}
		return nil, &step.Curve{From: end(c.leans[0]), To: end(c.leans[1])}
	}
	if c.bulge != 0 {
		b := step.Lit(out * c.bulge)
		bulge = &b
	}
	return bulge, nil
}

// showShape marks the handles.
func (c *cutting) showShape(p pattern.Pattern, o *Overlay) {
	h, ok := c.handles(p)
	if !ok {
		return
	}
	from, to := c.ends(p)
	if c.free || c.held == bentFrom || c.held == bentTo {
		for i, at := range []geom.Point{from.At, to.At} {
			if line, err := geom.Polyline(at, h[i+1]); err == nil && at.Dist(h[i+1]) > samePlace {
				o.Strokes = append(o.Strokes, Stroke{line, Handle})
			}
		}
	}
	for i, at := range h {
		style := Handle
		if c.held == bent(i+1) {
			style = Chosen
		}
		o.Dots = append(o.Dots, Dot{at, style})
	}
}

// bending tells what a handle that is dragged makes of the line.
func (c *cutting) bending(b *base, out, length float64) string {
	text := fmt.Sprintf("It is %s long and bulges by %s", unit.MM(length), unit.MM(out*c.rise(b.pattern())+0))
	switch c.held {
	case bentFrom:
		text += ", starting at " + writtenAngle(out*c.leans[0].degrees)
	case bentTo:
		text += ", ending at " + writtenAngle(out*c.leans[1].degrees)
	}
	return text + "."
}

package step

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// truing alters the two edges across the end of a seam.
type truing struct {
	laid
	r      *redraw
	moved  float64 // mm, at most
	longer float64 // mm, of both sides of the seam
	far    float64 // mm, of the edge that the other end of a straight edge moved along
}

func (t *truing) other(c *across) *across {
	if c == t.a {
		return t.b
	}
	return t.a
}

// blend blends the two edges as one line and gives each piece its part back.
func (t *truing) blend(reach func(*across) (float64, error)) error {
	ra, err := reach(t.a)
	if err != nil {
		return err
	}
	rb, err := reach(t.b)
	if err != nil {
		return err
	}
	la := t.a.path.Length()
	both, err := geom.Join(t.a.path, t.laidB())
	if err != nil {
		return err
	}
	from, to := max(la-ra, 0), min(la+rb, both.Length())
	now, err := both.Blend(from, to)
	if err != nil {
		return err
	}
	// The seam now ends where its direction meets the blended line.
	best, far := 0.0, math.Inf(1)
	for _, x := range now.CrossLine(t.a.joint, t.a.into) {
		if d := now.At(x.S).Dist(t.a.joint); d < far && x.S > from && x.S < now.Length()-(both.Length()-to) {
			best, far = x.S, d
		}
	}
	if math.IsInf(far, 1) {
		return fmt.Errorf("the blended edge does not meet the seam; use a longer reach")
	}
	partA, partB, err := now.Split(best)
	if err != nil {
		return err
	}
	out := t.a.joint.Sub(now.At(best)).Dot(t.a.into)
	return t.give(out, partA, from, partB.Reverse().Transform(t.over.Inverse()), both.Length()-to)
}

// through blends both edges so that they run on through the end of the seam,
// which stays where it is, in the direction half way between theirs.
func (t *truing) through(reach func(*across) (float64, error)) error {
	b := t.laidB()
	along := t.a.path.TangentBefore(t.a.path.Length()).Add(b.TangentAt(0)).Unit()
	for _, side := range []struct {
		c   *across
		dir geom.Point // in which it arrives at the seam
	}{{t.a, along}, {t.b, t.over.Inverse().Vector(along.Mul(-1))}} {
		v, err := reach(side.c)
		if err != nil {
			return err
		}
		from := max(side.c.path.Length()-v, 0)
		now, err := side.c.path.BlendEnd(from, side.dir)
		if err != nil {
			return err
		}
		if err := t.put(side.c, now, from); err != nil || t.own {
			return err
		}
	}
	return nil
}

// level moves the end of the seam onto the straight line between the far ends
// of two edges, which become straight.
func (t *truing) level() error {
	start, end := t.a.path.Start(), t.laidB().End()
	dir := end.Sub(start)
	slant := dir.Cross(t.a.into)
	if math.Abs(slant) <= geom.Coincident*dir.Norm() {
		return fmt.Errorf("the line between the far ends of %s and %s runs along the seam", t.a, t.b)
	}
	in := dir.Cross(start.Sub(t.a.joint)) / slant
	q := t.a.joint.Add(t.a.into.Mul(in))
	partA, err := geom.Polyline(start, q)
	if err != nil {
		return err
	}
	partB, err := geom.Polyline(end, q)
	if err != nil {
		return err
	}
	return t.give(-in, partA, 0, partB.Transform(t.over.Inverse()), 0)
}

// follow blends the edge that is not held, so that it leaves the seam in the
// direction in which the held one arrives.
func (t *truing) follow(hold *across, reach func(*across) (float64, error)) error {
	c := t.other(hold)
	v, err := reach(c)
	if err != nil {
		return err
	}
	from := max(c.path.Length()-v, 0)
	now, err := c.path.BlendEnd(from, t.arriving(hold))
	if err != nil {
		return err
	}
	return t.put(c, now, from)
}

// followStraight lays the straight edge that is not held on the line in which
// the held one arrives, its far end moving along the edge it meets there.
func (t *truing) followStraight(hold *across) error {
	c := t.other(hold)
	dir := t.arriving(hold)
	o, err := t.r.piece(c.piece)
	if err != nil {
		return err
	}
	i, err := o.index(c.edge)
	if err != nil {
		return err
	}
	far, farAt := o.next(i), pattern.Start
	if c.at == pattern.End {
		far, farAt = o.prev(i), pattern.End
	}
	e := &o.runs[far].edge
	end, out := e.Path.End(), e.Path.TangentBefore(e.Length())
	if farAt == pattern.Start {
		end, out = e.Path.Start(), e.Path.TangentAt(0).Mul(-1)
	}
	amount := 0.0
	if d := dir.Cross(out); math.Abs(d) > geom.Coincident {
		amount = dir.Cross(c.joint.Sub(end)) / d
	}
	if amount < 0 {
		// Back along the edge itself, which may be curved.
		least := math.Inf(1)
		for _, x := range e.Path.CrossLine(c.joint, dir) {
			s := x.S
			if farAt == pattern.End {
				s = e.Length() - s
			}
			least = min(least, s)
		}
		amount = -least
	}
	if math.IsInf(amount, 0) {
		return fmt.Errorf("%s does not meet the line on which %s must lie", e.Name, c)
	}
	if end, err = o.lengthen(far, farAt, amount, curvedLimit); err != nil {
		return err
	}
	t.far = amount
	t.moved = max(t.moved, math.Abs(amount))
	now, err := geom.Polyline(end, c.joint)
	if err != nil {
		return err
	}
	return t.put(c, now, 0)
}

// arriving returns the direction, in the coordinates of the other piece, in
// which the path of that other piece must arrive at the seam to run on from hold.
func (t *truing) arriving(hold *across) geom.Point {
	d := hold.path.TangentBefore(hold.path.Length()).Mul(-1)
	if hold == t.a {
		return t.over.Inverse().Vector(d)
	}
	return t.over.Vector(d)
}

// give lengthens both sides of the seam by longer mm and puts the new edges
// across it, each altered from fromA or fromB mm on towards the seam.
func (t *truing) give(longer float64, a geom.Path, fromA float64, b geom.Path, fromB float64) error {
	t.longer = longer
	t.moved = math.Abs(longer)
	if err := t.giveSide(t.a, longer, a, fromA); err != nil {
		return err
	}
	if t.own {
		return nil
	}
	return t.giveSide(t.b, longer, b, fromB)
}

func (t *truing) giveSide(c *across, longer float64, now geom.Path, from float64) error {
	o, err := t.r.piece(c.piece)
	if err != nil {
		return err
	}
	end := c.joint
	if math.Abs(longer) > geom.Coincident {
		i, err := o.index(c.seamEdge)
		if err != nil {
			return err
		}
		if end, err = o.lengthen(i, c.seamAt, longer, curvedLimit); err != nil {
			return err
		}
	}
	// A curved seam that was cut back ends a trifle beside its direction.
	if now.End().Dist(end) > geom.Coincident {
		kept, altered := geom.Path{}, now
		if from > placeSlack {
			if kept, altered, err = now.Split(from); err != nil {
				return err
			}
		}
		if altered, err = altered.Bend(altered.Start(), end); err != nil {
			return err
		}
		if now = altered; !kept.Empty() {
			if now, err = geom.Join(kept, altered); err != nil {
				return err
			}
		}
	}
	return t.put(c, now, from)
}

// put gives an edge across the seam its new path, walked towards the seam and
// altered from that length on.
func (t *truing) put(c *across, now geom.Path, from float64) error {
	o, err := t.r.piece(c.piece)
	if err != nil {
		return err
	}
	i, err := o.index(c.edge)
	if err != nil {
		return err
	}
	t.moved = max(t.moved, farthest(c.path, now))
	was := o.runs[i].edge.Path
	old, to := [2]float64{from, was.Length()}, [2]float64{from, now.Length()}
	if c.at == pattern.Start {
		now = now.Reverse()
		old, to = [2]float64{0, was.Length() - from}, [2]float64{0, now.Length() - from}
	}
	knots, err := o.blendKnots(i, was, now, old, to, 0)
	if err != nil {
		return err
	}
	knots = append(append([]knot{{0, 0}}, knots...), knot{was.Length(), now.Length()})
	o.reshape(i, now, knots)
	return nil
}

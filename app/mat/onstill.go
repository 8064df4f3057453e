package mat

import "truemat/geom"

// sheet is the paper of a piece.
type sheet struct {
	ring []geom.Point
	box  geom.Box
}

// onStill says how ill it is that s lies on pieces at rest, and that its thread to
// c runs over them.
func (o *obstacles) onStill(s strip, c geom.Point) float64 {
	v := 0.0
	a, b := s.ends()
	box := geom.BoxOf(a, b).Grow(s.r)
	for _, t := range o.still {
		if t.box.Overlaps(box) && s.onto(t.ring) {
			v += onPaper
			break
		}
	}
	from := nearestOn(a, b, c)
	if d := from.Dist(c); d > s.r && stripOf(from, c, 0).meets(o.floats) {
		v += under
	}
	way := geom.BoxOf(from, c)
	over := [threadDots]bool{}
	look := func(ring []geom.Point, box geom.Box) {
		if !box.Overlaps(way) {
			return
		}
		for i := range over {
			q := from.Lerp(c, (float64(i)+0.5)/threadDots)
			over[i] = over[i] || box.Contains(q) && inside(ring, q)
		}
	}
	for _, t := range o.still {
		look(t.ring, t.box)
	}
	for i, ring := range o.moving {
		look(ring, o.movings[i])
	}
	for _, on := range over {
		if on {
			v += across / float64(threadDots)
		}
	}
	return v
}

// threadDots is how many points along a thread are looked at.
const threadDots = 4

// nearestOn is the point of a stretch nearest to c.
func nearestOn(a, b, c geom.Point) geom.Point {
	d := b.Sub(a)
	if n := d.Dot(d); n > 0 {
		return a.Add(d.Mul(min(max(c.Sub(a).Dot(d)/n, 0), 1)))
	}
	return a
}

package geom

import "math"

// Box is an upright rectangle, in millimetres. It is empty when a Min
// coordinate exceeds its Max.
type Box struct{ Min, Max Point }

// NoBox is the empty box; its union with any box is that box.
func NoBox() Box {
	inf := math.Inf(1)
	return Box{Pt(inf, inf), Pt(-inf, -inf)}
}

// BoxOf returns the smallest box around the points.
func BoxOf(pts ...Point) Box {
	b := NoBox()
	for _, p := range pts {
		b = b.with(p)
	}
	return b
}

// Empty reports whether the box holds no point at all.
func (b Box) Empty() bool { return !(b.Min.X <= b.Max.X && b.Min.Y <= b.Max.Y) }

// Width returns the extent along x, 0 for an empty box.
func (b Box) Width() float64 { return math.Max(b.Max.X-b.Min.X, 0) }

// Height returns the extent along y, 0 for an empty box.
func (b Box) Height() float64 { return math.Max(b.Max.Y-b.Min.Y, 0) }

// Center returns the middle of the box, the origin for an empty one.
func (b Box) Center() Point {
	if b.Empty() {
		return Point{}
	}
	return b.Min.Lerp(b.Max, 0.5)
}

// Contains reports whether p lies in the box or on its rim.
func (b Box) Contains(p Point) bool {
	return b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}

// Union returns the smallest box around both.
func (b Box) Union(o Box) Box {
	switch {
	case b.Empty():
		return o
	case o.Empty():
		return b
	}
	return b.with(o.Min).with(o.Max)
}

// Grow returns the box with its sides moved out by margin (in, when it is
// negative); an empty box stays empty.
func (b Box) Grow(margin float64) Box {
	if b.Empty() {
		return b
	}
	m := Pt(margin, margin)
	return Box{b.Min.Sub(m), b.Max.Add(m)}
}

// Overlaps reports whether the boxes have a point in common.
func (b Box) Overlaps(o Box) bool {
	return b.Min.X <= o.Max.X && o.Min.X <= b.Max.X && b.Min.Y <= o.Max.Y && o.Min.Y <= b.Max.Y
}

func (b Box) with(p Point) Box {
	return Box{
		Pt(min(b.Min.X, p.X), min(b.Min.Y, p.Y)),
		Pt(max(b.Max.X, p.X), max(b.Max.Y, p.Y)),
	}
}

// dist2 is the square of the distance from p to the box.
func (b Box) dist2(p Point) float64 {
	dx := max(b.Min.X-p.X, 0, p.X-b.Max.X)
	dy := max(b.Min.Y-p.Y, 0, p.Y-b.Max.Y)
	return dx*dx + dy*dy
}

// hull is the box around the control points, which holds the curve.
func (c *Cubic) hull() Box {
	p := &c.P
	return Box{
		Pt(min(p[0].X, p[1].X, p[2].X, p[3].X), min(p[0].Y, p[1].Y, p[2].Y, p[3].Y)),
		Pt(max(p[0].X, p[1].X, p[2].X, p[3].X), max(p[0].Y, p[1].Y, p[2].Y, p[3].Y)),
	}
}

// Bounds returns the smallest upright box around the cubic, from the roots of
// its derivative; exact but for rounding.
func (c Cubic) Bounds() Box {
	b := BoxOf(c.P[0], c.P[3])
	if c.straight || b.Contains(c.P[1]) && b.Contains(c.P[2]) {
		return b
	}
	k := c.power(c.P[0])
	for _, r := range [2]rootSet{
		quadratic(3*k[3].X, 2*k[2].X, k[1].X),
		quadratic(3*k[3].Y, 2*k[2].Y, k[1].Y),
	} {
		for _, t := range r.all() {
			b = b.with(c.At(t))
		}
	}
	return b
}

// Bounds returns the smallest upright box around the path, exact but for
// rounding; the empty box for the empty path.
func (p Path) Bounds() Box {
	b := NoBox()
	for _, c := range p.segs {
		b = b.Union(c.Bounds())
	}
	return b
}

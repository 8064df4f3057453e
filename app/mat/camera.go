package mat

import (
	"math"

	"fyne.io/fyne/v2"

	"truemat/geom"
)

// Camera is the view onto the mat: how the toolkit's units on the widget and
// millimetres on the mat belong together. Units grow downwards, the mat's y
// upwards.
type Camera struct {
	Scale  float64    // units per millimetre
	Corner geom.Point // what lies at the upper left corner of the widget, mm
}

// The range of zoom, in units per mm: from a room of 80 m to a notch that
// fills the screen.
const (
	minScale = 0.02
	maxScale = 80
)

// ToMat returns what lies at a position of the widget.
func (c Camera) ToMat(p fyne.Position) geom.Point {
	return geom.Pt(c.Corner.X+float64(p.X)/c.Scale, c.Corner.Y-float64(p.Y)/c.Scale)
}

// ToScreen returns where on the widget a point of the mat lies.
func (c Camera) ToScreen(p geom.Point) fyne.Position {
	return fyne.NewPos(float32((p.X-c.Corner.X)*c.Scale), float32((c.Corner.Y-p.Y)*c.Scale))
}

// Zoomed returns the camera at another scale, what lies at the position kept
// there. The scale is held within what can be shown.
func (c Camera) Zoomed(scale float64, at fyne.Position) Camera {
	keep := c.ToMat(at)
	c.Scale = min(max(scale, minScale), maxScale)
	c.Corner = geom.Pt(keep.X-float64(at.X)/c.Scale, keep.Y+float64(at.Y)/c.Scale)
	return c
}

// Panned returns the camera with the mat pushed by dx, dy units.
func (c Camera) Panned(dx, dy float64) Camera {
	c.Corner = held(geom.Pt(c.Corner.X-dx/c.Scale, c.Corner.Y+dy/c.Scale))
	return c
}

// held keeps a corner within 100 m, beyond which there is nothing to see.
func held(p geom.Point) geom.Point {
	const far = 1e5
	return geom.Pt(min(max(p.X, -far), far), min(max(p.Y, -far), far))
}

// Fitted returns the camera that shows a box in the middle of the area whose
// upper left corner is at origin.
func Fitted(b geom.Box, origin fyne.Position, area fyne.Size) Camera {
	w, h := max(b.Width(), 1), max(b.Height(), 1)
	c := Camera{Scale: min(max(min(float64(area.Width)/w, float64(area.Height)/h), minScale), maxScale)}
	mid := b.Center()
	c.Corner = held(geom.Pt(
		mid.X-(float64(origin.X)+float64(area.Width)/2)/c.Scale,
		mid.Y+(float64(origin.Y)+float64(area.Height)/2)/c.Scale))
	return c
}

// affine maps the plane: x' = a·x + b·y + e, y' = c·x + d·y + f.
type affine struct{ a, b, c, d, e, f float64 }

// onto returns the map from a piece's coordinates to pixels, of which there
// are px to a unit, measured from the pixel (x0, y0).
func (c Camera) onto(pose geom.Motion, px, x0, y0 float64) affine {
	o := pose.Apply(geom.Pt(0, 0))
	u, v := pose.Vector(geom.Pt(1, 0)), pose.Vector(geom.Pt(0, 1))
	k := c.Scale * px
	return affine{
		a: k * u.X, b: k * v.X, e: k*(o.X-c.Corner.X) - x0,
		c: -k * u.Y, d: -k * v.Y, f: k*(c.Corner.Y-o.Y) - y0,
	}
}

func (m affine) apply(p geom.Point) geom.Point {
	return geom.Pt(m.a*p.X+m.b*p.Y+m.e, m.c*p.X+m.d*p.Y+m.f)
}

func (m affine) vector(p geom.Point) geom.Point {
	return geom.Pt(m.a*p.X+m.b*p.Y, m.c*p.X+m.d*p.Y)
}

// scale is how many pixels a millimetre has.
func (m affine) scale() float64 { return math.Hypot(m.a, m.c) }

func (m affine) all(dst, pts []geom.Point) []geom.Point {
	dst = dst[:0]
	for _, p := range pts {
		dst = append(dst, m.apply(p))
	}
	return dst
}

// inward returns the direction of the inside of a piece, beside a direction u
// of its outline, both in pixels; mirrored pieces have it on the other side.
func (m affine) inward(u geom.Point) geom.Point {
	if m.a*m.d-m.b*m.c < 0 {
		return u.Perp().Mul(-1)
	}
	return u.Perp()
}

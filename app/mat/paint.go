package mat

import (
	"image"
	"image/color"

	"truemat/geom"
)

// Painter paints small drawings with the brush of the mat. Points are in
// pixels, y down.
type Painter struct{ b brush }

// NewPainter returns a painter on a see-through picture of w × h pixels.
func NewPainter(w, h int) *Painter {
	p := &Painter{}
	p.b.begin(w, h)
	p.b.clear()
	return p
}

// Fill paints the inside of a closed outline.
func (p *Painter) Fill(outline []geom.Point, c color.NRGBA) { p.b.fill(outline, c) }

// Line draws a polyline.
func (p *Painter) Line(pts []geom.Point, width float64, c color.NRGBA) {
	p.b.line(pts, pen{width: width, color: c})
}

// Picture returns what was painted.
func (p *Painter) Picture() image.Image { return p.b.img }

package window

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/app/look"
	"truemat/app/mat"
	"truemat/geom"
)

// sketch is a small drawing that explains something, in units from its upper
// left corner. What a field is about is drawn lit.
type sketch struct {
	palette    look.Palette
	wide, tall float32
	marks      []mark
	labels     []fyne.CanvasObject
}

// mark is a polyline, filled where the fill is opaque and drawn where the
// width is above 0.
type mark struct {
	pts          []geom.Point
	fill, stroke color.NRGBA
	width        float32
}

func newSketch(p look.Palette, wide, tall float32) *sketch {
	return &sketch{palette: p, wide: wide, tall: tall}
}

// ground lays it on paper.
func (s *sketch) ground() {
	s.box(0.5, 0.5, s.wide-1, s.tall-1, s.palette.Raised, s.palette.Line, 1)
}

func at(x, y float32) geom.Point { return geom.Pt(float64(x), float64(y)) }

func (s *sketch) draw(pts []geom.Point, stroke color.NRGBA, width float32) {
	s.marks = append(s.marks, mark{pts: pts, stroke: stroke, width: width})
}

func (s *sketch) line(x1, y1, x2, y2 float32, c color.NRGBA, width float32) {
	s.draw([]geom.Point{at(x1, y1), at(x2, y2)}, c, width)
}

// area fills an outline and draws round it.
func (s *sketch) area(pts []geom.Point, fill, stroke color.NRGBA, width float32) {
	s.marks = append(s.marks, mark{append(pts[:len(pts):len(pts)], pts[0]), fill, stroke, width})
}

func (s *sketch) box(x, y, w, h float32, fill, stroke color.NRGBA, width float32) {
	s.area([]geom.Point{at(x, y), at(x+w, y), at(x+w, y+h), at(x, y+h)}, fill, stroke, width)
}

// bend goes on from the last point to an end, drawn by a handle between.
func bend(pts []geom.Point, handle, end geom.Point) []geom.Point {
	from := pts[len(pts)-1]
	for i := 1; i <= 8; i++ {
		t := float64(i) / 8
		pts = append(pts, from.Lerp(handle, t).Lerp(handle.Lerp(end, t), t))
	}
	return pts
}

// dashes draws a level line in dashes.
func (s *sketch) dashes(x1, x2, y float32, c color.NRGBA) {
	for x := x1; x < x2; x += 8 {
		s.line(x, y, min(x+4, x2), y, c, 1)
	}
}

// Where a label lies by its point.
const (
	fromLeft = iota
	atMiddle
	fromRight
)

// label writes a word whose middle in height is y.
func (s *sketch) label(word string, x, y float32, where int, lit bool) {
	c := s.palette.Faint
	if lit {
		c = s.palette.Accent
	}
	t := text(word, small, lit, c)
	m := t.MinSize()
	switch where {
	case atMiddle:
		x -= m.Width / 2
	case fromRight:
		x -= m.Width
	}
	x = min(max(x, 0), max(s.wide-m.Width, 0))
	lay(t, fyne.NewPos(down(x), down(y-m.Height/2)), m)
	s.labels = append(s.labels, t)
}

// pen is the ink and width of what belongs to a field.
func (s *sketch) pen(lit bool) (color.NRGBA, float32) {
	if lit {
		return s.palette.Accent, 2
	}
	return s.palette.Faint, 1
}

// across draws a level measure with its ends.
func (s *sketch) across(x1, x2, y float32, lit bool) {
	c, w := s.pen(lit)
	s.line(x1, y, x2, y, c, w)
	s.line(x1, y-4, x1, y+4, c, w)
	s.line(x2, y-4, x2, y+4, c, w)
}

// upward draws an upright measure with its ends.
func (s *sketch) upward(x, y1, y2 float32, lit bool) {
	c, w := s.pen(lit)
	s.line(x, y1, x, y2, c, w)
	s.line(x-4, y1, x+4, y1, c, w)
	s.line(x-4, y2, x+4, y2, c, w)
}

// arrow draws an arrow.
func (s *sketch) arrow(x1, y1, x2, y2 float32, c color.NRGBA, width float32) {
	s.line(x1, y1, x2, y2, c, width)
	dx, dy := x2-x1, y2-y1
	l := max(abs(dx)+abs(dy), 1) // they run level or upright
	ux, uy := dx/l*5, dy/l*5
	s.draw([]geom.Point{at(x2-ux-uy*0.7, y2-uy+ux*0.7), at(x2, y2), at(x2-ux+uy*0.7, y2-uy-ux*0.7)}, c, width)
}

func abs(v float32) float32 { return max(v, -v) }

// object returns the drawing.
func (s *sketch) object() fyne.CanvasObject {
	picture := canvas.NewRaster(func(w, h int) image.Image {
		p := mat.NewPainter(w, h)
		k := float64(w) / float64(s.wide)
		for _, m := range s.marks {
			pts := make([]geom.Point, len(m.pts))
			for i, q := range m.pts {
				pts[i] = q.Mul(k)
			}
			if m.fill.A > 0 {
				p.Fill(pts, m.fill)
			}
			if m.width > 0 {
				p.Line(pts, float64(m.width)*k, m.stroke)
			}
		}
		return p.Picture()
	})
	picture.ScaleMode = canvas.ImageScalePixels
	lay(picture, fyne.Position{}, fyne.NewSize(s.wide, s.tall))
	return container.New(fixed(fyne.NewSize(s.wide, s.tall)), append([]fyne.CanvasObject{picture}, s.labels...)...)
}

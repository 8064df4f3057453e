package window

import (
	"fmt"
	"hash/fnv"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/app/look"
)

// sketch is a small drawing that explains something, in units from its upper
// left corner. What a field is about is drawn lit.
type sketch struct {
	palette    look.Palette
	wide, tall float32
	svg        strings.Builder
	labels     []fyne.CanvasObject
}

func newSketch(p look.Palette, wide, tall float32) *sketch {
	return &sketch{palette: p, wide: wide, tall: tall}
}

// ground lays it on paper.
func (s *sketch) ground() {
	s.box(0.5, 0.5, s.wide-1, s.tall-1, s.palette.Raised, s.palette.Line, 1)
}

func ink(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// path draws a path of SVG, filled where fill is opaque and stroked where
// width is above 0.
func (s *sketch) path(d string, fill, stroke color.NRGBA, width float32) {
	filled, drawn := "none", ""
	if fill.A > 0 {
		filled = ink(fill)
	}
	if width > 0 {
		drawn = fmt.Sprintf(` stroke="%s" stroke-width="%.2f" stroke-linecap="round" stroke-linejoin="round"`, ink(stroke), width)
	}
	fmt.Fprintf(&s.svg, `<path d="%s" fill="%s"%s/>`, d, filled, drawn)
}

func (s *sketch) line(x1, y1, x2, y2 float32, c color.NRGBA, width float32) {
	s.path(fmt.Sprintf("M%.2f %.2fL%.2f %.2f", x1, y1, x2, y2), color.NRGBA{}, c, width)
}

// dashes draws a level line in dashes.
func (s *sketch) dashes(x1, x2, y float32, c color.NRGBA) {
	for x := x1; x < x2; x += 8 {
		s.line(x, y, min(x+4, x2), y, c, 1)
	}
}

func (s *sketch) box(x, y, w, h float32, fill, stroke color.NRGBA, width float32) {
	s.path(fmt.Sprintf("M%.2f %.2fh%.2fv%.2fh%.2fz", x, y, w, h, -w), fill, stroke, width)
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
	s.path(fmt.Sprintf("M%.2f %.2fL%.2f %.2fL%.2f %.2f", x2-ux-uy*0.7, y2-uy+ux*0.7, x2, y2, x2-ux+uy*0.7, y2-uy-ux*0.7), color.NRGBA{}, c, width)
}

func abs(v float32) float32 { return max(v, -v) }

// object returns the drawing.
func (s *sketch) object() fyne.CanvasObject {
	whole := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%.0f" height="%.0f" viewBox="0 0 %.0f %.0f">%s</svg>`, s.wide, s.tall, s.wide, s.tall, s.svg.String())
	sum := fnv.New64a()
	_, _ = sum.Write([]byte(whole))
	img := canvas.NewImageFromResource(fyne.NewStaticResource(fmt.Sprintf("sketch-%x.svg", sum.Sum64()), []byte(whole)))
	img.FillMode = canvas.ImageFillStretch
	lay(img, fyne.Position{}, fyne.NewSize(s.wide, s.tall))
	return container.New(fixed(fyne.NewSize(s.wide, s.tall)), append([]fyne.CanvasObject{img}, s.labels...)...)
}

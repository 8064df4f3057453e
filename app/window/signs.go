package window

import (
	"image/color"

	"fyne.io/fyne/v2/container"
	"truemat/app/lesson"
	"truemat/app/mat"
	"truemat/geom"
	"truemat/ops/pattern"
)

// A sample of a line on the mat, in units.
const (
	sampleWide = 92
	sampleTall = 30
)

// signsPage explains the lines and signs that stand on pieces.
func (w *Window) signsPage() {
	wide := w.pageWide(640)
	list := container.New(stack{gap: 10})
	row := func(name, about string, draw func(s *sketch, ink color.NRGBA)) {
		s := newSketch(w.palette, sampleWide, sampleTall)
		draw(s, w.palette.Text)
		list.Add(container.New(columns{sampleWide + 18}, s.object(),
			container.New(stack{gap: 2}, text(name, normal, true, w.palette.Text), para(about, wide-160, normal, false, w.palette.Text))))
	}
	row("Cut line", "The shears follow it: the outermost line, solid.", func(s *sketch, ink color.NRGBA) {
		s.line(2, 15, sampleWide-2, 15, ink, 1.5)
	})
	for _, r := range pattern.Roles {
		row(titled(r.Word()), lesson.AboutRole(r), func(s *sketch, ink color.NRGBA) { s.role(r, ink) })
	}
	row("Notch", "What is sewn together meets here. A double one meets a double one.", func(s *sketch, ink color.NRGBA) {
		s.line(2, 22, sampleWide-2, 22, ink, 1.5)
		for _, x := range []float32{26, 62, 67} {
			s.line(x, 14, x, 28, ink, 1.8)
		}
	})
	arrow := func(s *sketch, ink color.NRGBA, shaft []geom.Point) {
		s.arrow(20, 15, 4, 15, ink, 1.2)
		s.arrow(sampleWide-20, 15, sampleWide-4, 15, ink, 1.2)
		s.draw(shaft, ink, 1.2)
	}
	plain := []geom.Point{at(20, 15), at(sampleWide-20, 15)}
	row("Arrow", "It lies along the grain of the cloth.", func(s *sketch, ink color.NRGBA) { arrow(s, ink, plain) })
	row("Arrow that swings", "It lies along the greatest stretch.", func(s *sketch, ink color.NRGBA) {
		shaft := []geom.Point{at(20, 15), at(31, 15)}
		for i := range 6 {
			shaft = append(shaft, at(33.5+5*float32(i), float32(11+8*(i%2))))
		}
		arrow(s, ink, append(shaft, at(61, 15), at(sampleWide-20, 15)))
	})
	row("Arrow with two bars", "It lies along the least stretch.", func(s *sketch, ink color.NRGBA) {
		arrow(s, ink, plain)
		s.line(44, 10, 44, 20, ink, 1.2)
		s.line(48, 10, 48, 20, ink, 1.2)
	})
	row("Thin arrow, open at its ends", "That of a piece that was taped on; it counts no more, and shows from near only.", func(s *sketch, ink color.NRGBA) {
		s.line(8, 15, sampleWide-8, 15, w.palette.Faint, 1)
		for _, x := range []float32{8, sampleWide - 8} {
			in := float32(6)
			if x > 20 {
				in = -6
			}
			s.line(x, 15, x+in, 12.5, w.palette.Faint, 1)
			s.line(x, 15, x+in, 17.5, w.palette.Faint, 1)
		}
	})
	w.openSheet("Signs on the mat", wide, w.scrolled(list, wide))
}

// role draws a sew line of a role with its sign, as the mat does.
func (s *sketch) role(r pattern.Role, ink color.NRGBA) {
	const y, middle = 8, sampleWide / 2
	if r == pattern.Fold {
		s.draw([]geom.Point{at(14, y+3), at(14, y+14), at(sampleWide-14, y+14), at(sampleWide-14, y+3)}, ink, 1.2)
	}
	dash, strokes := mat.RoleLine(r)
	if r == pattern.Fold {
		dash = []float64{14, 4, 3, 4}
	}
	x := 2.0
	for i := 0; x < sampleWide-2; i++ {
		long := dash[i%len(dash)]
		if i%2 == 0 {
			s.line(float32(x), y, float32(min(x+long, sampleWide-2)), y, ink, 1.2)
		}
		x += long
	}
	for _, stroke := range strokes {
		var pts []geom.Point
		for _, q := range stroke {
			pts = append(pts, at(middle+float32(q.X), y+7+float32(q.Y)))
		}
		s.draw(pts, ink, 1.1)
	}
}

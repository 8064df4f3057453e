package window

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/unit"
)

const (
	clothTall = 264 // height of the picture of a cloth
	pullTall  = 176 // of that of a pull test
)

// draw shows what the numbers mean, in the proportions that were typed.
func (f *clothForm) draw() {
	if f.w.cloths == nil {
		return
	}
	wide := f.w.besideForm()
	f.picture.RemoveAll()
	if f.sort == layersAsOne {
		f.picture.Add(f.layersPicture(wide))
	} else {
		f.picture.Add(f.clothPicture(wide))
		f.picture.Add(f.pullPicture(wide))
	}
	f.picture.Refresh()
}

// ground starts a sketch on paper.
func (f *clothForm) ground(wide, tall float32) *sketch {
	s := newSketch(f.w.palette, wide, tall)
	s.ground()
	return s
}

// Around the cloth in its picture, in units.
const (
	leftOfCloth  = 84
	rightOfCloth = 94
	aboveCloth   = 26
	belowCloth   = 64
)

// clothPicture shows the cloth flat: a lace in true proportion of repeat,
// depth and width, another cloth between its selvedges.
func (f *clothForm) clothPicture(wide float32) fyne.CanvasObject {
	s, c := f.ground(wide, clothTall), f.now
	x1, x2, y1, y2 := float32(leftOfCloth), wide-rightOfCloth, float32(aboveCloth), float32(clothTall-belowCloth)
	if f.sort == laceCloth {
		f.lacePicture(s, x1, x2, y1, y2)
	} else {
		s.box(x1, y1, x2-x1, y2-y1, s.palette.Soft, s.palette.Soft, 0)
		s.line(x1, y1, x2, y1, s.palette.Text, 2)
		s.line(x1, y2, x2, y2, s.palette.Text, 2)
		s.label("selvedge", (x1+x2)/2, y1-10, atMiddle, false)
		s.label("selvedge", (x1+x2)/2, y2+11, atMiddle, false)
		f.naps(s, x1, x2, y1, y2)
		f.widthMark(s, x1-16, y1, y2, c.Width)
	}
	f.thicknessMark(s, wide)
	return s.object()
}

func (f *clothForm) widthMark(s *sketch, x, y1, y2 float32, mm float64) {
	lit := f.lit == "width"
	s.upward(x, y1, y2, lit)
	word := "width"
	if mm > 0 {
		word = f.size(mm)
	}
	s.label(word, x-6, (y1+y2)/2, fromRight, lit)
}

// naps shows by arrows whether the cloth has one way up.
func (f *clothForm) naps(s *sketch, x1, x2, y1, y2 float32) {
	c, w := s.pen(f.lit == "one_way")
	for i := range 3 {
		x := x1 + (x2-x1)*(float32(i)+0.5)/3
		mid := (y1 + y2) / 2
		s.arrow(x, mid+16, x, mid-16, c, w)
		if !f.oneWay {
			s.arrow(x, mid-16, x, mid+16, c, w)
		}
	}
	word := "either way up"
	if f.oneWay {
		word = "one way up"
	}
	s.label(word, (x1+x2)/2, (y1+y2)/2+32, atMiddle, f.lit == "one_way")
}

// thicknessMark shows the cloth between the jaws of a gauge, twenty times as
// thick as it is, within bounds.
func (f *clothForm) thicknessMark(s *sketch, wide float32) {
	lit := f.lit == "thickness"
	c, _ := s.pen(lit)
	x, y := wide-44, float32(clothTall-24)
	t := min(max(float32(f.now.Thickness)*20, 2), 26)
	s.box(x-12, y-t/2-7, 24, 7, s.palette.Line, c, 1)
	s.box(x-12, y+t/2, 24, 7, s.palette.Line, c, 1)
	s.box(x-22, y-t/2, 44, t, s.palette.Soft, c, 0)
	s.line(x-22, y-t/2, x+22, y-t/2, c, 1)
	s.line(x-22, y+t/2, x+22, y+t/2, c, 1)
	word := "thickness"
	if f.now.Thickness > 0 {
		word += " " + unit.Format(f.now.Thickness, unit.Millimetres) // as the field has it
	}
	s.label(word, x-30, y, fromRight, lit)
}

// lacePicture draws a lace and what is measured of it.
func (f *clothForm) lacePicture(s *sketch, x1, x2, y1, y2 float32) {
	c, l := f.now, *f.now.Lace
	repeat, depth, second, width := l.Repeat, l.Depth, l.DepthOn(true), c.Width
	if !(repeat > 0) || !(width > 0) || !(depth >= 0) || !(second >= 0) || depth+second >= width {
		repeat, depth, second, width = 96, 11, 11, 190 // as an example, until it is measured
	}
	k := min(float64(y2-y1)/width, float64(x2-x1)/(1.6*repeat))
	k = max(k, float64(x2-x1)/(14*repeat)) // no more repeats than can be told apart
	tall := float32(min(width*k, float64(y2-y1)))
	mid := (y1 + y2) / 2
	top, low := mid-tall/2, mid+tall/2
	deep, high, step := float32(depth*k), float32(second*k), float32(repeat*k)
	if float32(width*k) > tall { // a lace much wider than its repeat is shown cut short
		s.label("shortened", (x1+x2)/2, y1-10, atMiddle, false)
	}
	first := x1 - step*0.3
	outline := bows(first, x2, step, low-deep, deep).between(x1, x2)
	shift := float32(0)
	if f.borders == oneBorder {
		outline = append(outline, at(x2, top), at(x1, top))
	} else {
		if f.borders == bothShifted {
			shift = float32(math.Mod(l.Shift, repeat) * k)
		}
		upper := bows(first+shift-step, x2, step, top+high, -high).between(x1, x2)
		slices.Reverse(upper)
		outline = append(outline, upper...)
	}
	s.area(outline, s.palette.Soft, s.palette.Text, 1.5)
	s.dashes(x1, x2, low-deep, s.palette.Faint)
	if f.borders != oneBorder {
		s.dashes(x1, x2, top+high, s.palette.Faint)
	}
	f.sprigs(s, first, x1, x2, step, low-deep, min(tall*0.26, 30), -1)
	if f.borders != oneBorder {
		f.sprigs(s, first+shift-step, x1, x2, step, top+high, min(tall*0.26, 30), 1)
	}
	f.widthMark(s, x1-16, top, low, c.Width)
	f.laceMarks(s, first+step, step, shift, x2, top, low, deep, high)
}

// laceMarks draws repeat, depth, shift and usable width.
func (f *clothForm) laceMarks(s *sketch, from, step, shift, x2, top, low, deep, high float32) {
	c, l := f.now, *f.now.Lace
	said := func(mm float64, word string) string {
		if mm > 0 {
			return word + " " + f.size(mm)
		}
		return word
	}
	for from < leftOfCloth {
		from += step
	}
	lit := f.lit == "lace.repeat"
	end := min(from+step, x2)
	s.across(from, end, low+8, lit)
	s.label(said(l.Repeat, "repeat"), (from+end)/2, low+20, atMiddle, lit)
	x := x2 + 12
	lit = f.lit == "lace.depth"
	s.upward(x, low-max(deep, 1), low, lit)
	s.label(said(l.Depth, ""), x+8, low-deep/2-2, fromLeft, lit)
	bottom, head := low-deep, top
	if f.borders != oneBorder {
		head = top + high
		lit = f.lit == "lace.second_depth"
		s.upward(x, top, top+max(high, 1), lit)
		s.label(said(l.DepthOn(true), ""), x+8, top+high/2+2, fromLeft, lit)
	}
	s.upward(x, head, bottom-5, false)
	s.label("usable", x+8, (head+bottom)/2-14, fromLeft, false)
	if u := c.Usable(); u > 0 && c.Width > 0 {
		s.label(f.size(u), x+8, (head+bottom)/2, fromLeft, false)
	}
	if f.borders == bothShifted && shift > 0 {
		lit = f.lit == "lace.shift"
		s.across(from, from+shift, top-8, lit)
		s.label(said(l.Shift, "shift"), from+shift/2, top-19, atMiddle, lit)
	}
}

// rim is the scalloped edge of a lace as points from left to right.
type rim []geom.Point

// bows returns the bows of a rim, one a repeat, from a valley at x; they
// hang by deep below y.
func bows(x, until, step, y, deep float32) rim {
	var b rim
	for ; x < until+step; x += step {
		for i := range 16 {
			// The cubic of render's scallops: handles at a fifth and four fifths.
			t := float32(i) / 16
			u := 1 - t
			along := 3*u*u*t*0.2 + 3*u*t*t*0.8 + t*t*t
			b = append(b, at(x+along*step, y+4*u*t*deep))
		}
	}
	return b
}

// between returns the part of the rim between two places from left to right.
func (b rim) between(x1, x2 float32) []geom.Point {
	var out []geom.Point
	from, to := float64(x1), float64(x2)
	for i := 1; i < len(b); i++ {
		p, q := b[i-1], b[i]
		if q.X < from || p.X > to || q.X == p.X {
			continue
		}
		if p.X <= from {
			out = append(out, p.Lerp(q, (from-p.X)/(q.X-p.X)))
		}
		if q.X >= to {
			return append(out, p.Lerp(q, (to-p.X)/(q.X-p.X)))
		}
		out = append(out, q)
	}
	return out
}

// sprigs draws a sprig over every scallop, so that one sees how the borders
// lie to each other. The way is −1 upward, 1 downward.
func (f *clothForm) sprigs(s *sketch, x, x1, x2, step, y, tall float32, way float32) {
	c, w := s.pen(f.lit == "lace.second" || f.lit == "one_way")
	for x += step / 2; x < x2-6; x += step {
		if x < x1+6 {
			continue
		}
		y, r := y+way*3, min(tall, step*0.7)
		s.draw(bend([]geom.Point{at(x, y)}, at(x+r*0.05, y+way*r*0.5), at(x, y+way*r)), c, w)
		s.draw(bend([]geom.Point{at(x, y+way*r*0.38)}, at(x+r*0.22, y+way*r*0.44), at(x+r*0.3, y+way*r*0.72)), c, w)
		s.draw(bend([]geom.Point{at(x, y+way*r*0.3)}, at(x-r*0.22, y+way*r*0.36), at(x-r*0.3, y+way*r*0.64)), c, w)
	}
}

// pullPicture shows the marks of a pull test before, under load and after
// rest, as far apart as they were measured.
func (f *clothForm) pullPicture(wide float32) fyne.CanvasObject {
	s := f.ground(wide, pullTall)
	name, p := "along", f.now.Along
	if strings.HasPrefix(f.lit, "across") || !f.now.Along.Measured() && f.now.Across.Measured() && !strings.HasPrefix(f.lit, "along") {
		name, p = "across", f.now.Across
	}
	s.label("pulled "+name+" the selvedge", 12, 15, fromLeft, false)
	before, under, after := p.Before, p.Under, p.After
	known := p.Measured() && p.Validate() == nil
	if !known {
		before, under, after = 100, 130, 103 // as an example, until it is measured
	}
	const left = 108
	k := float64(wide-left-72) / max(before, under)
	from := float32(left)
	row := func(i int, field, word string, mm float64, typed float64, tall float32) {
		lit := f.lit == name+"."+field
		y := float32(46 + i*44)
		end := from + float32(mm*k)
		c, w := s.pen(lit)
		s.box(from-12, y-tall/2, end-from+24, tall, s.palette.Soft, c, 0)
		s.line(from, y-tall/2-4, from, y+tall/2+4, c, w+0.5)
		s.line(end, y-tall/2-4, end, y+tall/2+4, c, w+0.5)
		s.across(from, end, y, lit)
		s.label(word, 12, y-7, fromLeft, lit)
		if typed > 0 {
			s.label(f.size(typed), 12, y+7, fromLeft, lit)
		}
		if field == "under" {
			s.arrow(from-14, y, from-26, y, c, w)
			s.arrow(end+14, y, end+26, y, c, w)
		}
		if known && field != "before" && mm > before {
			edge := from + float32(before*k)
			s.line(edge, y+tall/2+2, edge, y+tall/2+8, c, w)
			s.line(edge, y+tall/2+5, end, y+tall/2+5, c, w)
			s.line(end, y+tall/2+2, end, y+tall/2+8, c, w)
			s.label(fmt.Sprintf("+%s %%", shortly(100*(mm-before)/before)), end+6, y+tall/2+7, fromLeft, lit)
		}
	}
	row(0, "before", "before", before, p.Before, 18)
	row(1, "under", "under load", under, p.Under, 14)
	if after > 0 {
		row(2, "after", "after rest", after, p.After, 18)
	} else {
		s.label("after rest: not measured", 12, 46+2*44, fromLeft, f.lit == name+".after")
	}
	return s.object()
}

// layersPicture shows the layers edge on, and what they come to together.
func (f *clothForm) layersPicture(wide float32) fyne.CanvasObject {
	const row, label = 44, 156
	g := f.w.desk.Goods()
	var parts []cloth.Cloth
	for _, name := range f.of {
		if c, ok := g.Cloth(name); ok {
			parts = append(parts, c)
		}
	}
	s := f.ground(wide, 96+row*float32(len(parts)))
	s.label("right side", 18, 16, fromLeft, false)
	y := float32(48)
	for _, c := range parts {
		t := min(max(float32(c.Thickness)*24, 4), row-8)
		s.box(18, y-t/2, wide-36-label, t, s.palette.Soft, s.palette.Text, 1)
		s.label(shortened(c.Name, label-8, small), wide-label, y-7, fromLeft, false)
		s.label(g.Gives(c), wide-label, y+7, fromLeft, false)
		y += row
	}
	s.label("wrong side, towards the body", 18, y-8, fromLeft, false)
	if len(parts) > 1 {
		together := cloth.Cloth{Of: f.now.Of}
		s.label(fmt.Sprintf("together %s, %s thick", g.Gives(together), unit.Format(g.Thickness(together), unit.Millimetres)), 18, y+22, fromLeft, true)
	}
	return s.object()
}

package window

import (
	"fyne.io/fyne/v2"
	"truemat/geom"
	"truemat/ops/cloth"
)

const putOnTall = 190 // height of the picture of an edge, cut through

// draw shows how the elastic lies at the edge, and how long it is beside the
// line it runs along.
func (f *elasticForm) draw() {
	wide := f.w.besideForm()
	f.picture.RemoveAll()
	s := newSketch(f.w.palette, wide, putOnTall)
	s.ground()
	f.edgePicture(s)
	f.picture.Add(s.object())
	f.lengthPicture(wide)
	f.picture.Refresh()
}

// hang returns how far the border of the outermost lace on the line hangs
// below the valley line, in mm.
func (f *elasticForm) hang() float64 {
	g := f.w.desk.Goods()
	for _, piece := range f.pieces {
		for _, c := range g.Sheets(piece) {
			if c.Lace != nil {
				return c.Lace.Depth
			}
		}
	}
	return 0
}

// edgePicture shows the edge cut through, the right side at the left: cloth,
// elastic, loops and what the way it is put on takes.
func (f *elasticForm) edgePicture(s *sketch) {
	e := f.now
	width, loops := e.Width, max(e.Loops, 0)
	word, allowance := "its width", "allowance as wide"
	if width > 0 {
		word, allowance = f.onTape(width), "allowance "+f.onTape(width)
	} else {
		width = 10 // drawn so, until it is measured
	}
	depth := 0.0
	if f.putOn == cloth.BehindLace {
		depth = f.hang()
	}
	k := float32(min(6, 104/(width+loops+depth)))
	tall, loop, hang := float32(width)*k, float32(loops)*k, float32(depth)*k
	x, low := s.wide/2-8, float32(156)-hang // the sew line
	elastic, thin := s.pen(f.lit == "width" || f.lit == "put_on")
	band := func(x, y, w, h float32) { s.box(x, y, w, h, s.palette.Line, elastic, thin) }
	sheet := func(pts ...geom.Point) { s.draw(pts, s.palette.Text, 3) }
	s.label("right side", 14, 16, fromLeft, false)
	s.label("body", s.wide-14, 16, fromRight, false)
	foot, side := low, float32(0)
	switch f.putOn {
	case cloth.BehindLace:
		sheet(at(x, 10), at(x, low+hang))
		s.dashes(x-60, x+60, low, s.palette.Faint)
		s.label("valley line", x-66, low, fromRight, false)
		if hang > 0 {
			s.upward(x-14, low, low+hang, false)
			s.label("hangs "+f.onTape(depth), x-22, low+hang/2+8, fromRight, false)
		}
		foot = low - loop
		band(x+4, foot-tall, 8, tall)
		side = x + 16
	case cloth.FoldedOver:
		sheet(at(x, 10), at(x, low-3))
		half := tall / 2
		wrap := bend([]geom.Point{at(x-6, low-half), at(x-6, low-2)}, at(x-6, low+4), at(x, low+4))
		s.draw(append(bend(wrap, at(x+6, low+4), at(x+6, low-2)), at(x+6, low-half)), elastic, thin+3)
		s.label("half on each side, no allowance", x-20, low+18, atMiddle, f.lit == "put_on")
		side, tall = x+12, half
	default:
		sheet(append(bend([]geom.Point{at(x, 10), at(x, low-5)}, at(x, low), at(x+6, low)), at(x+6, low-tall))...)
		s.dashes(x-60, x-6, low, s.palette.Faint)
		s.label("sew line", x-66, low, fromRight, false)
		s.label(allowance, x-14, low-tall/2-7, fromRight, f.lit == "put_on")
		s.label("turned to the inside", x-14, low-tall/2+7, fromRight, f.lit == "put_on")
		band(x+10, low-tall, 8, tall)
		side = x + 22
	}
	if loop > 0 && f.putOn != cloth.FoldedOver {
		lit, w := s.pen(f.lit == "loops")
		cx := side - 8
		s.draw(bend(bend([]geom.Point{at(cx, foot)}, at(cx-4, foot+loop*0.6), at(cx, foot+loop)), at(cx+4, foot+loop*0.6), at(cx, foot)), lit, w)
		s.upward(side+6, foot, foot+loop, f.lit == "loops")
		s.label("loops "+f.onTape(loops), side+14, foot+loop/2+6, fromLeft, f.lit == "loops")
	}
	s.upward(side+6, foot-tall, foot, f.lit == "width")
	if f.putOn == cloth.FoldedOver {
		word = "half of " + word
	}
	s.label(word, side+14, foot-tall/2, fromLeft, f.lit == "width")
}

// lengthPicture shows on each piece the line and the elastic that lies on it
// unstretched, in one proportion.
func (f *elasticForm) lengthPicture(wide float32) {
	cut, err := f.now.Cut(f.w.desk.Pattern())
	if err != nil || f.now.Validate() != nil {
		return
	}
	parts := byPiece(cut.Parts)
	for i, n := range parts { // as it lies on each
		parts[i].Run, parts[i].Length = n.Run/float64(n.Times), n.Length/float64(n.Times)
	}
	const row = 46
	s := newSketch(f.w.palette, wide, 34+row*float32(len(parts)))
	s.ground()
	s.label("the line, and the elastic cut for it", 12, 15, fromLeft, false)
	longest, words := 1.0, float32(72)
	for _, p := range parts {
		longest = max(longest, p.Run, p.Length)
		for _, mm := range []float64{p.Run, p.Length} {
			words = max(words, fyne.MeasureText(f.onTape(mm), small, fyne.TextStyle{Bold: true}).Width)
		}
	}
	const left = 96
	k := float64(wide-left-words-12) / longest
	for i, p := range parts {
		y := float32(40 + i*row)
		lit := f.lit == "cut."+p.Piece
		c, w := s.pen(lit)
		run, long := float32(p.Run*k), float32(p.Length*k)
		s.label(shortened(p.Piece, left-16, small), 12, y+6, fromLeft, lit)
		s.line(left, y, left+run, y, s.palette.Text, 2)
		s.box(left, y+8, long, 8, s.palette.Line, c, w)
		s.label(f.onTape(p.Run), left+run+6, y-1, fromLeft, false)
		s.label(f.onTape(p.Length), left+long+6, y+14, fromLeft, lit)
	}
	f.picture.Add(s.object())
}

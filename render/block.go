package render

import (
	"image/color"
	"math"
	"slices"

	"truemat/geom"
)

// block is a few lines of writing set as one, each with a height relative to
// the block's.
type block []blockLine

type blockLine struct {
	text   string
	scale  float64
	bold   bool
	sample *Pen // a piece of line drawn before the text
}

const (
	leading     = 0.75 // between lines, in heights of their capitals
	sampleWidth = 5.0  // of a sample of a line, in heights of capitals
	blockMargin = 1.4  // around a block, in mm
)

func (b blockLine) width(height float64) float64 {
	w := TextWidth(b.text, height*b.scale, b.bold)
	if b.sample != nil {
		w += (sampleWidth + 0.8) * height * b.scale
	}
	return w
}

// size returns the width and height of the block whose capitals are height
// mm tall, its margin included.
func (b block) size(height float64) (w, h float64) {
	for i, l := range b {
		w = max(w, l.width(height))
		h += height * l.scale
		if i > 0 {
			h += height * l.scale * leading
		}
	}
	return w + 2*blockMargin, h + height*descent + 2*blockMargin
}

// set writes the block into the box whose lower left corner is at, upright or
// turned a quarter turn to read from below.
func (b block) set(at geom.Point, height float64, turned bool, ink color.NRGBA) (figs []Figure, labels []Label) {
	w, h := b.size(height)
	u, v, corner := geom.Pt(1, 0), geom.Pt(0, 1), at
	if turned {
		u, v, corner = geom.Pt(0, 1), geom.Pt(-1, 0), at.Add(geom.Pt(h, 0))
	}
	put := func(x, y float64) geom.Point { return corner.Add(u.Mul(x)).Add(v.Mul(y)) }
	y := h - blockMargin
	for i, l := range b {
		tall := height * l.scale
		if i > 0 {
			y -= tall * leading
		}
		y -= tall
		x := (w - l.width(height)) / 2
		if l.sample != nil {
			x = blockMargin
			figs = append(figs, Figure{Kind: Sample, Pen: *l.sample, Path: polyline(put(x, y+tall/2), put(x+sampleWidth*tall, y+tall/2))})
			x += (sampleWidth + 0.8) * tall
		}
		labels = append(labels, Label{Text: l.text, At: put(x, y), Height: tall, Angle: u.Direction(), Color: ink, Bold: l.bold})
	}
	return figs, labels
}

// blockSearch says how a block may be fitted into a room.
type blockSearch struct {
	layouts  []block // the same words, set in different ways
	heights  []float64
	near     geom.Point
	inkColor color.NRGBA
}

// uprightShare is how much smaller than turned writing upright writing may be
// and still be preferred.
const uprightShare = 0.65

// glueShare is how much smaller than asked writing may become to stay off
// glue lines.
const glueShare = 0.6

// fit finds the place for a block: the strictest way, then the tallest
// letters, upright rather than turned, then the first layout. What has to go
// over lines is written as small as may be; where nothing fits, the last
// layout stands at near.
func (s blockSearch) fit(r *room, bare []bool) (figs []Figure, labels []Label) {
	return s.put(r, s.found(r, bare))
}

// found is the place that fit finds.
func (s blockSearch) found(r *room, bare []bool) fitting {
	if f, ok := s.within(r, bare, withinIt); ok {
		return f
	}
	f := fitting{block: s.layouts[len(s.layouts)-1], height: s.heights[len(s.heights)-1]}
	w, h := f.block.size(f.height)
	f.at = s.near.Sub(geom.Pt(w/2, h/2))
	return f
}

// within is the place that fit finds no less strictly than that.
func (s blockSearch) within(r *room, bare []bool, most strictness) (fitting, bool) {
	smallest := s.heights[len(s.heights)-1:]
	for strict := offGlue; strict <= most; strict++ {
		heights := s.heights
		switch {
		case strict == offGlue && r.glued == nil:
			continue
		case strict == offGlue:
			heights = slices.DeleteFunc(slices.Clone(heights), func(h float64) bool { return h < glueShare*heights[0] })
		case strict >= inSeam:
			heights = smallest
		}
		p := r.plan(strict, bare)
		up, okUp := s.search(p, heights, false)
		if okUp && up.height == heights[0] {
			return up, true
		}
		turned, okTurned := s.search(p, heights, true)
		switch {
		case okUp && (!okTurned || up.height >= uprightShare*turned.height):
			return up, true
		case okTurned:
			return turned, true
		}
	}
	return fitting{}, false
}

// fitting is a block in its place.
type fitting struct {
	block  block
	at     geom.Point // lower left corner
	height float64
	turned bool
}

// size returns width and height of the block as it stands.
func (f fitting) size() (w, h float64) {
	if w, h = f.block.size(f.height); f.turned {
		return h, w
	}
	return w, h
}

func (f fitting) middle() geom.Point {
	w, h := f.size()
	return f.at.Add(geom.Pt(w/2, h/2))
}

func (s blockSearch) search(p plan, heights []float64, turned bool) (fitting, bool) {
	for _, height := range heights {
		for _, b := range s.layouts {
			w, h := b.size(height)
			if turned {
				w, h = h, w
			}
			if at, ok := p.place(w, h, s.near); ok {
				return fitting{b, at, height, turned}, true
			}
		}
	}
	return fitting{}, false
}

func (s blockSearch) put(r *room, f fitting) ([]Figure, []Label) {
	w, h := f.size()
	r.takeQuad(upright(f.at, w, h))
	return f.block.set(f.at, f.height, f.turned, s.inkColor)
}

// steps returns heights from the tallest down to the smallest, each a tenth
// smaller than the one before.
func steps(tallest, smallest float64) []float64 {
	var hs []float64
	for h := tallest; h > smallest; h *= 0.9 {
		hs = append(hs, h)
	}
	return append(hs, smallest)
}

// readable brings a direction of writing into (−90°, 90°], so that nobody has
// to read upside down.
func readable(a geom.Angle) geom.Angle {
	a = a.Normalized()
	switch {
	case a > math.Pi/2+1e-9:
		return a - math.Pi
	case a <= -math.Pi/2+1e-9:
		return a + math.Pi
	}
	return a
}

package mat

import "truemat/geom"

// Other sizes lie on the mat beneath the pieces of the one shown, which keep
// the places that they were given. Of a piece its own other sizes are seen
// through its paper, those of its neighbours only where the mat is bare; so
// the sizes of pieces that lie close together are told apart.

// nestPen is the line of the size at a place among those shown.
func (p *painter) nestPen(i int) pen {
	return p.pen(1, p.palette.Faint, float64(2+3*(i%3)), 3)
}

// beneath draws the other sizes of all pieces.
func (p *painter) beneath(sizes [][]laid) {
	for i, size := range sizes {
		for _, l := range size {
			p.outline(l, p.nestPen(i))
		}
	}
}

// within draws the other sizes of a piece where its own paper lies, which
// rim encloses.
func (p *painter) within(sizes [][]laid, name string, rim []geom.Point) {
	if len(sizes) == 0 {
		return
	}
	p.stencil(rim)
	for i, size := range sizes {
		for _, l := range size {
			if l.piece.Name != name {
				continue
			}
			m := p.onto(l.pose)
			l.flatten(m.scale())
			if p.visible(l, m) {
				p.traceRing(m.all(p.pts, l.rim()), p.nestPen(i))
				p.inkWithin(p.nestPen(i))
			}
		}
	}
}

// stencil says that inkWithin draws only within a closed outline.
func (b *brush) stencil(pts []geom.Point) {
	if n := b.w * b.h; len(b.open) < n {
		b.open, b.opened = make([]uint8, n), 0
	}
	if b.opened == 255 {
		clear(b.open)
		b.opened = 0
	}
	b.opened++
	b.outline(pts)
	b.spans(func(y, x0, x1 int, cover uint32) {
		if cover < 128 {
			return
		}
		row := b.open[y*b.w+x0 : y*b.w+x1]
		for i := range row {
			row[i] = b.opened
		}
	})
}

// inkWithin is ink where the stencil is open.
func (b *brush) inkWithin(p pen) {
	kept := b.touched[:0]
	for _, i := range b.touched {
		if b.open[i] == b.opened {
			kept = append(kept, i)
		} else {
			b.mask[i] = 0
		}
	}
	b.touched = kept
	b.ink(p)
}

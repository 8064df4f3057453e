package mat

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
)

// naming is a piece's name as it is written, and under it how often it is cut.
type naming struct {
	lines, under []string
	mid          geom.Point
	size, small  float64 // em, pixels
}

// Spaces between lines of writing, in em.
const (
	nameLead  = 1.15
	underLead = 1.25
	underGap  = 0.2 // between name and what stands under it
)

// tall is the height of both together, in pixels.
func (n naming) tall() float64 {
	h := nameLead * n.size * float64(len(n.lines))
	if len(n.under) > 0 {
		h += (underGap + underLead*float64(len(n.under))) * n.small
	}
	return h
}

// each gives every line with the height of its middle below that of all.
func (n naming) each(f func(text string, below, size float64, bold bool)) {
	y := -n.tall() / 2
	for _, t := range n.lines {
		f(t, y+nameLead*n.size/2, n.size, true)
		y += nameLead * n.size
	}
	y += underGap * n.small
	for _, t := range n.under {
		f(t, y+underLead*n.small/2, n.small, false)
		y += underLead * n.small
	}
}

// strips is what a naming takes.
func (n naming) strips() []strip {
	var all []strip
	n.each(func(text string, below, size float64, bold bool) {
		all = append(all, lineStrip(text, n.mid.Add(geom.Pt(0, below)), geom.Pt(1, 0), size, bold))
	})
	return all
}

// within reports whether all of it lies in a free place of half the height
// given, which is an ellipse.
func (n naming) within(half float64) bool {
	ok := true
	n.each(func(text string, below, size float64, bold bool) {
		x, y := textWidth(text, size, bold)/2*squeeze/half, (max(below, -below)+0.4*size)/half
		ok = ok && x*x+y*y <= roundness
	})
	return ok
}

// roundness leaves a little air around what is written.
const roundness = 0.92

// Sizes of names and what stands under them, in units; names without anything
// under them may be smaller still.
const (
	leastName  = 8.5
	leastUnder = 8
	leastAlone = 7.5
)

// fits reports whether all of it lies in a free rectangle.
func (n naming) fits(w, h float64) bool {
	ok := n.tall() <= h
	n.each(func(text string, _, size float64, bold bool) { ok = ok && textWidth(text, size, bold) <= w })
	return ok
}

// whole sets name and cut as large as is well; false when neither way of
// breaking them is.
func (n *naming) whole(name, cut string, px float64, well func() bool) bool {
	for size := nameSize; size >= leastName; size -= 0.5 {
		n.size, n.small = size*px, min(max(smallSize/nameSize*size, leastUnder), smallSize)*px
		for _, lines := range [][]string{{name}, halves(name, " ")} {
			for _, under := range [][]string{{cut}, halves(cut, " ")} {
				if n.lines, n.under = lines, under; well() {
					return true
				}
			}
		}
	}
	return false
}

// naming returns how the name is written; false where there is no room clear
// of arrow and fold.
func (p *painter) naming(l laid, m affine) (naming, bool) {
	l.findRoom()
	half := l.room * m.scale() // of the height; of the width, over squeeze
	if half <= 0 {
		return naming{}, false
	}
	taken := append(p.signed(l, m), p.marked(l, m)...)
	free := func(n naming) bool {
		for _, s := range n.strips() {
			if !s.free(taken) {
				return false
			}
		}
		return true
	}
	n := naming{mid: m.apply(l.label)}
	cut := cutText(&l.piece)
	if n.whole(l.piece.Name, cut, p.px, func() bool { return n.within(half) && free(n) }) {
		return n, true
	}
	if !l.named.Empty() {
		beside := naming{mid: m.apply(l.named.Center())}
		w, h := l.named.Width()*m.scale(), l.named.Height()*m.scale()
		if beside.whole(l.piece.Name, cut, p.px, func() bool { return beside.fits(w, h) && free(beside) }) {
			return beside, true
		}
	}
	n.under = nil
	n.lines, n.size = fitted(l.piece.Name, " ", half, nameSize*p.px)
	return n, n.size >= leastAlone*p.px && free(n)
}

// name writes the piece's name and how often it is cut; false where there is
// no room.
func (p *painter) name(l laid, m affine) bool {
	n, ok := p.naming(l, m)
	if !ok {
		return false
	}
	n.each(func(text string, below, size float64, bold bool) {
		ink := p.palette.Sew
		if bold {
			ink = p.palette.Ink
		}
		p.write(text, n.mid.Add(geom.Pt(0, below)), size, bold, ink)
	})
	return true
}

// cutText says how often a piece is cut.
func cutText(pc *pattern.Piece) string {
	n := max(pc.Cut.Count, 1)
	switch {
	case pc.Fold() != nil:
		return fmt.Sprintf("cut %d on the fold", n)
	case pc.Cut.Pair && n == 1:
		return "cut 1 pair"
	case pc.Cut.Pair:
		return fmt.Sprintf("cut %d pairs", n)
	}
	return fmt.Sprintf("cut %d", n)
}

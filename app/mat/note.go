package mat

import "truemat/geom"

// longestThread is how long a thread from a note to its place may be, in units;
// a longer one would be taken for a line on what it crosses.
const longestThread = 110

// noteSize is the size of writing in notes, in units.
const noteSize = 12.5

// note writes a note, with a thread to what it tells of.
func (p *painter) note(n placed) {
	if n.thread && n.of.Dist(n.mid) <= longestThread*p.px+n.half {
		p.line([]geom.Point{n.of, n.mid}, p.pen(1.2, fade(p.palette.Note, 0x90)))
	}
	a, b := n.ends()
	p.line([]geom.Point{a, b}, pen{width: 2*n.r + 2*p.px, color: p.palette.NoteInk})
	p.line([]geom.Point{a, b}, pen{width: 2 * n.r, color: p.palette.Note})
	for i, line := range n.lines {
		down := (float64(i) - 0.5*float64(len(n.lines)-1)) * noteLead * noteSize * p.px
		p.write(line, n.mid.Add(geom.Pt(0, down)), noteSize*p.px, false, p.palette.NoteInk)
	}
}

// signHalf is half the width of a numbered lozenge, in units, and spotRing the
// radius of the ring around the spot that it numbers.
const (
	signHalf = 12
	spotRing = 5
)

// flag draws a lozenge with what numbers it, and a pointer to its spot, which
// stays to be seen in a ring.
func (p *painter) flag(f flag) {
	toward := f.mid.Sub(f.of).Unit()
	foot := f.of.Add(toward.Mul(spotRing * p.px))
	for _, pen := range []pen{p.pen(4.5, p.palette.Paper), p.pen(2, p.palette.Accent)} {
		p.line([]geom.Point{foot, f.mid}, pen)
		p.ring(circle(f.of, spotRing*p.px), pen)
	}
	p.lozenge(f.mid, signHalf)
	p.write(f.text, f.mid, smallSize*p.px, true, p.palette.OnAccent)
}

package mat

import (
	"truemat/geom"
	"truemat/ops/pattern"
)

// noCutText stands beside the edge whose allowance cannot be laid beside it.
const noCutText = "no cut line here"

// noCutLine draws a piece that has no cut line: its sew lines alone, dashed as
// always so that they are not taken for a line to cut along, and a broken band
// along the edge that is to blame.
func (p *painter) noCutLine(l laid, m affine) {
	for i, e := range l.piece.Edges {
		run := m.all(p.pts, l.sewRuns[i])
		if i == l.uncut {
			p.line(run, p.pen(5, fade(p.palette.Poor, 0xB0), 3, 5))
		}
		if e.Role == pattern.Fold {
			p.line(run, p.pen(1.3, p.palette.Cut, 14, 4, 3, 4))
			continue
		}
		p.line(run, p.pen(1.4, p.palette.Sew, dashes(e.Role)...))
	}
}

// noCutSign is a triangle with a bar and a dot, pointed at the middle of the
// edge to blame from outside, and what it means.
func (p *painter) noCutSign(l laid, m affine) {
	e := &l.piece.Edges[l.uncut]
	half := e.Length() / 2
	at := m.apply(e.Path.At(half))
	out := m.inward(m.vector(e.Path.TangentAt(half)).Unit()).Mul(-1)
	c := at.Add(out.Mul(20 * p.px))
	pt := func(x, y float64) geom.Point { return c.Add(geom.Pt(x*p.px, y*p.px)) }
	p.line([]geom.Point{at, c}, p.pen(1.2, p.palette.Poor))
	tri := []geom.Point{pt(0, -11), pt(11, 8), pt(-11, 8)}
	p.fill(tri, p.palette.Paper)
	p.ring(tri, p.pen(2, p.palette.Poor))
	p.line([]geom.Point{pt(0, -4), pt(0, 2)}, p.pen(2.2, p.palette.Poor))
	p.fill(circle(pt(0, 5.2), 1.4*p.px), p.palette.Poor)
	size := noteSize * p.px
	w := textWidth(noCutText, size, true)
	side := 1.0
	if out.X < 0 {
		side = -1
	}
	p.label(noCutText, pt(side*(20+w/2/p.px), 0), geom.Pt(1, 0), size, true, p.palette.Paper, p.palette.Poor)
}

package mat

import (
	"math"
	"slices"
	"strings"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/unit"
)

// selection shows what is chosen: the piece by a broad line around it and the
// names of its edges, an edge or inner line by a thick line, a notch by a
// ring, a corner by a lozenge. Names keep clear of what is taken; where they
// stand is returned.
func (p *painter) selection(l laid, s tool.Selection, u unit.System, told bool, taken []strip) []strip {
	m := p.onto(l.pose)
	l.flatten(m.scale())
	ring := m.all(nil, l.rim())
	p.ring(ring, p.pen(6, fade(p.palette.Accent, 0x38)))
	p.ring(ring, p.pen(1.8, p.palette.Accent))
	pc := &l.piece
	taken = slices.Concat(p.written(l, m), p.notched(l, m), taken)
	others := len(taken)
	chosen := -1
	if !s.Joint {
		chosen = pc.EdgeIndex(s.Edge)
	}
	if chosen >= 0 { // first, since the other names give way
		p.line(m.all(nil, l.sewRuns[chosen]), p.pen(4, p.palette.Accent))
		if !told {
			taken = p.edgeName(l, &pc.Edges[chosen], m, true, u, taken)
		}
	}
	for i := range pc.Edges {
		if i != chosen {
			taken = p.edgeName(l, &pc.Edges[i], m, false, u, taken)
		}
	}
	for i, in := range pc.Inner {
		if in.Name == s.Inner {
			p.line(m.all(nil, l.inner[i]), p.pen(3.6, p.palette.Accent))
		}
	}
	if n := pc.Notch(s.Notch); n != nil {
		if e := pc.Edge(n.Edge); e != nil {
			at := min(max(n.At(e.Length()), 0), e.Length())
			out := m.vector(e.Path.TangentAt(at).Perp().Mul(-1)).Unit()
			c := m.apply(e.Path.At(at)).Add(out.Mul(e.Allowance * m.scale()))
			p.ring(circle(c, 10*p.px), p.pen(2.4, p.palette.Accent))
		}
	}
	if e := pc.Edge(s.Edge); e != nil && s.Joint {
		p.lozenge(m.apply(e.Path.Start()), 8)
	}
	return taken[others:]
}

func (p *painter) lozenge(c geom.Point, r float64) {
	r *= p.px
	pts := []geom.Point{c.Add(geom.Pt(0, -r)), c.Add(geom.Pt(r, 0)), c.Add(geom.Pt(0, r)), c.Add(geom.Pt(-r, 0))}
	p.fill(pts, p.palette.Accent)
	p.ring(pts, p.pen(1.2, p.palette.OnAccent))
}

// label writes on a rounded strip.
func (p *painter) label(text string, mid, dir geom.Point, size float64, bold bool, ground, ink colour) {
	w, r := textWidth(text, size, bold)/2, size*0.75
	p.line([]geom.Point{mid.Sub(dir.Mul(w)), mid.Add(dir.Mul(w))}, pen{width: 2 * r, color: ground})
	p.text(text, mid, dir, size, bold, ink)
}

// overlay draws what a tool shows, with its notes and signs where they were
// placed.
func (p *painter) overlay(o tool.Overlay, f floats) {
	m := p.onto(geom.Identity())
	for _, s := range o.Strokes {
		if !s.Path.Empty() {
			p.stroke(m.all(nil, s.Path.Flatten(0.2/m.scale())), s.Style)
		}
	}
	for _, name := range p.above {
		name()
	}
	for _, d := range o.Dots {
		p.dot(m.apply(d.At), d.Style)
	}
	for _, s := range f.signs {
		p.flag(s)
	}
	for _, n := range f.notes {
		p.note(n)
	}
}

// strokePen is how the lines of an overlay differ, in dashes as well as colour.
func (p *painter) strokePen(s tool.Style) pen {
	switch s {
	case tool.Pointed:
		return p.pen(7, fade(p.palette.Accent, 0x60))
	case tool.Chosen:
		return p.pen(3.6, p.palette.Accent)
	case tool.Guide:
		return p.pen(1.4, p.palette.Guide, 16, 5, 2, 5)
	case tool.Handle:
		return p.pen(1.3, p.palette.Accent)
	case tool.Pin:
		return p.pen(1.4, p.palette.Accent, 2, 4)
	case tool.Good:
		return p.pen(3, p.palette.Good)
	case tool.Measured:
		return p.pen(2, p.palette.Note)
	}
	return p.pen(3, p.palette.Poor, 3, 4.5)
}

func (p *painter) stroke(pts []geom.Point, s tool.Style) {
	p.line(pts, p.strokePen(s))
	if s != tool.Poor && s != tool.Measured || len(pts) < 2 {
		return
	}
	// A gap or overlap is measured between two short bars.
	ink := p.strokePen(s).color
	for _, e := range [][2]geom.Point{{pts[0], pts[1]}, {pts[len(pts)-1], pts[len(pts)-2]}} {
		v := e[1].Sub(e[0]).Unit().Perp().Mul(5 * p.px)
		p.line([]geom.Point{e[0].Add(v), e[0].Sub(v)}, p.pen(2, ink))
	}
}

// dot draws a mark whose shape says what it stands for.
func (p *painter) dot(c geom.Point, s tool.Style) {
	at := func(x, y float64) geom.Point { return c.Add(geom.Pt(x*p.px, y*p.px)) }
	switch s {
	case tool.Pointed:
		p.fill(circle(c, 9*p.px), fade(p.palette.Accent, 0x48))
		p.ring(circle(c, 9*p.px), p.pen(1.2, p.palette.Accent))
	case tool.Chosen:
		p.lozenge(c, 7)
	case tool.Guide:
		pen := p.pen(1.6, p.palette.Guide)
		p.trace([]geom.Point{at(-6, 0), at(6, 0)}, pen)
		p.trace([]geom.Point{at(0, -6), at(0, 6)}, pen)
		p.ink(pen)
	case tool.Handle:
		p.fill(circle(c, 6*p.px), p.palette.Paper)
		p.ring(circle(c, 6*p.px), p.pen(2, p.palette.Accent))
	case tool.Pin:
		p.line([]geom.Point{at(0, 0), at(8.5, -15)}, p.pen(3.4, p.palette.Paper))
		p.line([]geom.Point{at(0, 0), at(8.5, -15)}, p.pen(1.8, p.palette.Ink))
		p.fill(circle(at(10, -18), 6.5*p.px), p.palette.Accent)
		p.ring(circle(at(10, -18), 6.5*p.px), p.pen(1.2, p.palette.OnAccent))
		p.fill(circle(at(8, -20), 1.8*p.px), p.palette.OnAccent)
		p.fill(circle(c, 2.2*p.px), p.palette.Ink)
	case tool.Good:
		p.fill(circle(c, 8.5*p.px), p.palette.Good)
		p.line([]geom.Point{at(-4, 0.2), at(-1.2, 3.2), at(4, -3.2)}, p.pen(2.2, p.palette.Paper))
	case tool.Poor:
		p.fill(circle(c, 8.5*p.px), p.palette.Paper)
		p.ring(circle(c, 8.5*p.px), p.pen(1.6, p.palette.Poor))
		pen := p.pen(2.2, p.palette.Poor)
		p.trace([]geom.Point{at(-3.4, -3.4), at(3.4, 3.4)}, pen)
		p.trace([]geom.Point{at(-3.4, 3.4), at(3.4, -3.4)}, pen)
		p.ink(pen)
	}
}

// overlay is what the tool shows, with notes that are the names of pieces
// where those have room: the middle of a hollow piece lies beside it.
func (m *Mat) overlay() tool.Overlay {
	o := m.view.Overlay
	o.Notes = slices.Clone(o.Notes)
	for i, n := range o.Notes {
		if l := m.named(n); l != nil {
			l.findRoom()
			if l.room > 0 {
				o.Notes[i].At = l.pose.Apply(l.label)
			}
		}
	}
	return o
}

// named returns the piece that a note names as a whole. A note at a dot tells
// of the dot, though it may be called like a piece.
func (m *Mat) named(n tool.Note) *laid {
	for _, d := range m.view.Overlay.Dots {
		if d.At == n.At {
			return nil
		}
	}
	piece, _, _ := strings.Cut(n.Text, tool.OfPiece)
	return m.find(piece)
}

// overBox is what selection and overlay cover, in units on the widget.
func (m *Mat) overBox(o tool.Overlay) geom.Box {
	b := geom.NoBox()
	add := func(on geom.Box, margin float64) {
		if on.Empty() {
			return
		}
		p, q := m.camera.ToScreen(on.Min), m.camera.ToScreen(on.Max)
		b = b.Union(geom.BoxOf(geom.Pt(float64(p.X), float64(p.Y)), geom.Pt(float64(q.X), float64(q.Y))).Grow(margin))
	}
	if l := m.selected(); l != nil {
		add(l.bounds(), 150) // an edge's name may stand out of a narrow piece
	}
	for _, s := range o.Strokes {
		add(s.Path.Bounds(), 12)
	}
	for _, d := range o.Dots {
		add(geom.BoxOf(d.At), 32)
	}
	floats := func(on geom.Box, margin float64) {
		b = b.Union(geom.BoxOf(on.Min.Mul(1/m.px), on.Max.Mul(1/m.px)).Grow(margin))
	}
	for _, n := range m.floats.notes {
		from, to := n.ends()
		floats(geom.BoxOf(from, to, n.of), n.r/m.px+3)
	}
	for _, s := range m.floats.signs {
		floats(geom.BoxOf(s.mid, s.of), signHalf+3)
	}
	if math.IsNaN(b.Min.X) {
		return geom.NoBox()
	}
	return b
}

package tool

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Measure tells distances and lengths; it alters nothing.
type Measure struct {
	base
	a, b *place
}

// place is a thing that was pressed, or just a place on the mat.
type place struct {
	Pointing
	at geom.Point
}

// NewMeasure returns the measure for a table.
func NewMeasure(t Table) Tool { return &Measure{base: base{table: t}} }

// Name returns "measure".
func (m *Measure) Name() string { return "measure" }

// Hint says what to do next.
func (m *Measure) Hint() string {
	switch {
	case m.a == nil:
		return "Press an edge to read its length, or two places to read how far they lie apart."
	case m.b == nil && m.a.Kind == OnEdge:
		if _, e := m.pattern().Edge(m.a.Piece, m.a.Edge); e != nil {
			return fmt.Sprintf("%s of %s is %s long. Press or drag to another place to read how far it lies from here, or Escape to begin anew.", titled(m.a.Edge), m.a.Piece, unit.MM(e.Length()))
		}
		fallthrough
	case m.b == nil:
		return "Press or drag to the second place."
	}
	return "Press another place to measure anew."
}

// Pointer takes the two places.
func (m *Measure) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	ask := Ask{Kind: OnSpot, Prefer: m.table.Selection().Piece}
	switch e.Act {
	case Hover:
		m.hover(e, ask)
	case Press:
		m.drop()
		m.take(m.under(e, ask))
	case Drag:
		if to := m.under(e, ask); m.a != nil && to.at.Dist(m.a.at) > e.Reach {
			m.b = &to
		}
	}
}

func (m *Measure) under(e Event, ask Ask) place {
	if pt, ok := Point(m.pattern(), e.At, e.Reach, ask); ok {
		return place{pt, pt.At}
	}
	return place{at: e.At}
}

func (m *Measure) take(pl place) {
	if m.a == nil || m.b != nil {
		m.a, m.b = &pl, nil
	} else {
		m.b = &pl
	}
}

// now finds a place anew, since pieces may have moved.
func (m *Measure) now(pl *place) geom.Point {
	if pl.Kind != 0 {
		if at, err := m.pattern().Find(pl.Spot); err == nil {
			return at.Mat
		}
	}
	return pl.at
}

// Key walks to the places.
func (m *Measure) Key(k Key) bool {
	chosen, took, used := m.keyed(k, Ask{Kind: OnSpot})
	if took {
		m.take(place{chosen, chosen.At})
	}
	return used
}

// Fields are none: what is measured cannot be set.
func (m *Measure) Fields() []Field { return nil }

// Set refuses every field.
func (m *Measure) Set(field, _ string) error {
	return fmt.Errorf("the measure has no field %q; it only tells lengths", field)
}

// Proposal is none.
func (m *Measure) Proposal() []step.Step { return nil }

// Overlay shows the places, the way between them, and the lengths.
func (m *Measure) Overlay() Overlay {
	var o Overlay
	m.pointed(&o)
	if m.over.Kind == OnEdge && m.a == nil {
		m.edge(&o, m.over)
	}
	if m.a == nil {
		return o
	}
	from := m.now(m.a)
	o.Dots = append(o.Dots, Dot{from, Chosen})
	if m.b == nil {
		if m.a.Kind == OnEdge {
			m.edge(&o, m.a.Pointing)
		}
		return o
	}
	to := m.now(m.b)
	o.Dots = append(o.Dots, Dot{to, Chosen})
	if way, err := geom.Polyline(from, to); err == nil {
		o.Strokes = append(o.Strokes, Stroke{way, Guide})
	}
	d := to.Sub(from)
	text := fmt.Sprintf("%s (%s across, %s up)", unit.MM(d.Norm()), unit.MM(d.X), unit.MM(d.Y))
	if along, ok := m.along(&o); ok {
		text += ", " + unit.MM(along) + " along the edge"
	}
	o.Notes = append(o.Notes, Note{from.Lerp(to, 0.5), text})
	return o
}

// edge shows an edge with its length and that of the line it belongs to.
func (m *Measure) edge(o *Overlay, pt Pointing) {
	p := m.pattern()
	pc, e := p.Edge(pt.Piece, pt.Edge)
	if e == nil {
		return
	}
	o.Show(p, Pointing{Kind: OnEdge, Piece: pt.Piece, Edge: pt.Edge}, Chosen)
	text := e.Name + " " + unit.MM(e.Length())
	for _, l := range p.Lines {
		for _, part := range l.Parts {
			if part.Piece == pc.Name && part.Edge == e.Name && len(l.Parts) > 1 {
				text += fmt.Sprintf(", all of the %s %s", l.Name, unit.MM(p.Length(l.Parts)))
				break
			}
		}
	}
	o.Notes = append(o.Notes, Note{middleOf(pc, e).At, text})
}

// along returns the length of the edge between two places on it.
func (m *Measure) along(o *Overlay) (float64, bool) {
	p := m.pattern()
	pc := p.Piece(m.a.Piece)
	if pc == nil || m.b.Kind == 0 || m.b.Piece != pc.Name {
		return 0, false
	}
	for i := range pc.Edges {
		e := &pc.Edges[i]
		s0, ok0 := onThe(p, pc, i, m.a.Spot)
		s1, ok1 := onThe(p, pc, i, m.b.Spot)
		if !ok0 || !ok1 {
			continue
		}
		if s0 > s1 {
			s0, s1 = s1, s0
		}
		stretch, err := e.Path.Sub(s0, s1)
		if err != nil {
			return 0, false
		}
		o.Strokes = append(o.Strokes, Stroke{stretch.Transform(pc.Pose), Chosen})
		return s1 - s0, true
	}
	return 0, false
}

// onThe returns where a spot lies on edge i of a piece, its two joints counted in.
func onThe(p pattern.Pattern, pc *pattern.Piece, i int, s pattern.Spot) (float64, bool) {
	at, err := p.Find(s)
	if err != nil {
		return 0, false
	}
	e := &pc.Edges[i]
	k := pc.EdgeIndex(at.Edge)
	switch {
	case k == i:
		return at.S, true
	case k == pc.Next(i) && at.S == 0:
		return e.Length(), true
	case k == pc.Prev(i) && at.S == pc.Edges[k].Length():
		return 0, true
	}
	return 0, false
}

// Reset forgets the places.
func (m *Measure) Reset() bool {
	walked := m.drop()
	was := m.a != nil
	m.a, m.b = nil, nil
	return was || walked
}

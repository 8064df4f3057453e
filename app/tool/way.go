package tool

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// way leads from one spot to another on the outline of one piece. It is
// chosen by pressing both, or by pulling from the one to the other; either
// can be pulled on later.
type way struct {
	from, to *Pointing
	pulled   pull
	loose    *geom.Point // where the pointer is while it pulls at nothing
	astray   string      // the piece that was pressed inside, where no spot is
}

// pull says which end of a way is pulled.
type pull int

const (
	pullNone pull = iota
	pullFrom
	pullTo
)

// anew returns a thing as it lies now, nil when it is no more.
func anew(p pattern.Pattern, pt *Pointing) *Pointing {
	if pt == nil {
		return nil
	}
	at, err := p.Find(pt.Spot)
	if err != nil {
		return nil
	}
	now := *pt
	now.Edge, now.S, now.At = at.Edge, at.S, at.Mat
	return &now
}

// ends returns both spots as they lie now, as far as they are chosen.
func (w *way) ends(p pattern.Pattern) (from, to *Pointing) {
	w.from, w.to = anew(p, w.from), anew(p, w.to)
	if w.from == nil {
		w.from, w.to = w.to, nil
	}
	if w.from == nil {
		*w = way{astray: w.astray}
	}
	return w.from, w.to
}

// ask says what the pointer looks for: after the first spot only the same piece.
func (w *way) ask(b *base) Ask {
	from, to := w.ends(b.pattern())
	ask := Ask{Kind: OnSpot, Prefer: b.table.Selection().Piece}
	if from != nil && (to == nil || w.pulled != pullNone) {
		ask.Only = from.Piece
	}
	return ask
}

// pointer takes what the pointer did; a press after both spots are chosen
// pulls at one of them or begins anew.
func (w *way) pointer(b *base, e Event) {
	if !e.At.Finite() {
		return
	}
	ask := w.ask(b)
	from, to := w.from, w.to
	switch e.Act {
	case Hover:
		b.hover(e, ask)
	case Press:
		b.drop()
		w.loose, w.astray = nil, ""
		switch {
		case to != nil && to.At.Dist(e.At) <= e.Reach:
			w.pulled = pullTo
		case to != nil && from.At.Dist(e.At) <= e.Reach:
			w.pulled = pullFrom
		default:
			if pt, ok := Point(b.pattern(), e.At, e.Reach, ask); ok {
				w.take(b, pt)
				w.pulled = pullTo
			} else if in, ok := Point(b.pattern(), e.At, e.Reach, Ask{Kind: OnPiece, Only: ask.Only}); ok && to == nil {
				w.astray = in.Piece
			}
		}
	case Drag:
		if w.pulled == pullNone {
			return
		}
		at := e.At
		w.loose = &at
		if pt, ok := Point(b.pattern(), e.At, e.Reach, ask); ok {
			w.put(pt)
		} else if w.pulled == pullTo {
			w.to = nil
		}
	case Release:
		w.pulled, w.loose = pullNone, nil
		if w.to != nil {
			b.walk.Reset()
		}
	}
}

// onRim says before a hint that what was pressed last is no spot.
func (w *way) onRim(hint string) string {
	if w.astray == "" {
		return hint
	}
	return fmt.Sprintf("Inside %s there is no spot to hold on to; begin and end on its outline. %s", w.astray, hint)
}

// put sets the end that is pulled, unless it lies on the other one.
func (w *way) put(pt Pointing) {
	end, other := &w.to, w.from
	if w.pulled == pullFrom {
		end, other = &w.from, w.to
	}
	if other == nil || other.At.Dist(pt.At) > samePlace {
		*end, w.loose = &pt, nil
	}
}

// take takes the first spot, the second, or the first anew.
func (w *way) take(b *base, pt Pointing) {
	from, to := w.ends(b.pattern())
	switch {
	case from == nil || to != nil || from.Piece != pt.Piece:
		*w = way{from: &pt}
		b.table.Select(Selection{Piece: pt.Piece})
		b.walk = goingOn(pt)
	case from.At.Dist(pt.At) > samePlace:
		w.to = &pt
		b.walk.Reset()
	}
}

// key walks to the spots; the arrows left and right slide the one that was
// chosen last along the outline.
func (w *way) key(b *base, k Key) bool {
	if w.pulled != pullNone {
		return false
	}
	w.astray = ""
	ask := w.ask(b)
	p := b.pattern()
	if d, ok := arrow(k); ok && d.X != 0 {
		end, other := &w.to, w.from
		if w.to == nil {
			end, other = &w.from, nil
		}
		if *end == nil {
			return false
		}
		if pt, ok := slide(p, **end, d.X); ok && (other == nil || other.At.Dist(pt.At) > samePlace) {
			*end = &pt
		}
		return true
	}
	if pt, ok := b.atOnce(); ok && k.Name == Choose && w.from == nil {
		w.take(b, pt)
		return true
	}
	chosen, took, used := b.keyed(k, ask)
	if took {
		w.take(b, chosen)
	}
	return used
}

// anew reports whether the way has begun anew after an act.
func (w *way) anew(p pattern.Pattern, act func()) bool {
	had, _ := w.ends(p)
	act()
	from, to := w.ends(p)
	return to == nil && (had == nil || from == nil || had.Spot != from.Spot)
}

// slide returns the spot d mm further along the outline, counter-clockwise.
func slide(p pattern.Pattern, pt Pointing, d float64) (Pointing, bool) {
	pc := p.Piece(pt.Piece)
	if pc == nil {
		return pt, false
	}
	i, s := pc.EdgeIndex(pt.Edge), pt.S+d
	if i < 0 {
		return pt, false
	}
	for range 2 * len(pc.Edges) {
		switch l := pc.Edges[i].Length(); {
		case s < -samePlace:
			i = pc.Prev(i)
			s += pc.Edges[i].Length()
		case s > l+samePlace:
			i = pc.Next(i)
			s -= l
		default:
			return spotOn(pc, &pc.Edges[i], s), true
		}
	}
	return pt, false
}

// spotOn returns the place at s mm from the start of an edge, its joint when
// it is there.
func spotOn(pc *pattern.Piece, e *pattern.Edge, s float64) Pointing {
	switch {
	case s <= samePlace:
		return EndOf(pc, e, pattern.Start)
	case s >= e.Length()-samePlace:
		return EndOf(pc, e, pattern.End)
	}
	return onEdge(pc, e, s)
}

// fromStart names an edge and whence a place on it is measured: from the edge
// that it meets where it starts.
func fromStart(p pattern.Pattern, pt Pointing) string {
	pc, e := p.Edge(pt.Piece, pt.Edge)
	if e == nil {
		return pt.Edge
	}
	i := pc.EdgeIndex(e.Name)
	if pc.Prev(i) == pc.Next(i) {
		return e.Name + ", from its start"
	}
	return e.Name + ", from " + pc.Edges[pc.Prev(i)].Name
}

// fields are how far along their edges the spots lie.
func (w *way) fields(b *base) []Field {
	from, to := w.ends(b.pattern())
	if to == nil {
		return nil
	}
	return []Field{
		{Name: "from", Label: "Starts on " + fromStart(b.pattern(), *from), Text: written(b.table, from.S)},
		{Name: "to", Label: "Ends on " + fromStart(b.pattern(), *to), Text: written(b.table, to.S)},
	}
}

// set takes a distance typed for a spot, from the start of its edge; in every
// size it is then that far along.
func (w *way) set(b *base, field, text string) error {
	end, other := &w.from, w.to
	if field == "to" {
		end, other = &w.to, w.from
	}
	s, err := typedLength(b.table, text)
	if err != nil {
		return err
	}
	pc, e := b.pattern().Edge((*end).Piece, (*end).Edge)
	if e == nil || !(s >= 0 && s <= e.Length()) {
		return fmt.Errorf("%s is not on %s, which is %s long", unit.MM(s), (*end).Edge, unit.MM(e.Length()))
	}
	pt := spotOn(pc, e, s)
	if pt.Kind == OnEdge {
		pt.Spot.Along = pattern.Along{MM: s}
	}
	if pt.At.Dist(other.At) <= samePlace {
		return fmt.Errorf("both spots would lie at the same place; choose two")
	}
	*end = &pt
	return nil
}

// show marks the spots, and the line to the pointer while one is pulled.
func (w *way) show(b *base, o *Overlay) {
	p := b.pattern()
	from, to := w.ends(p)
	if from == nil {
		return
	}
	o.Dots = append(o.Dots, Dot{from.At, Handle})
	if to != nil {
		o.Dots = append(o.Dots, Dot{to.At, Handle})
		return
	}
	at := from.At
	if w.loose != nil {
		at = *w.loose
	} else if b.over.Kind != 0 {
		at = b.over.At
	} else if c, ok := b.walk.At(p); ok && c.Kind != OnPiece {
		at = c.At
	}
	if line, err := geom.Polyline(from.At, at); err == nil && from.At.Dist(at) > samePlace {
		o.Strokes = append(o.Strokes, Stroke{line, Guide})
		o.Notes = append(o.Notes, Note{from.At.Lerp(at, 0.5), unit.MM(from.At.Dist(at))})
	}
}

// unused returns a name that no edge of the piece has, but for those that go.
func unused(pc *pattern.Piece, name string, gone []string) string {
	free := func(n string) bool {
		for _, e := range pc.Edges {
			if e.Name == n {
				for _, g := range gone {
					if g == n {
						return true
					}
				}
				return false
			}
		}
		return true
	}
	for n, try := 2, name; ; n++ {
		if free(try) {
			return try
		}
		try = fmt.Sprintf("%s %d", name, n)
	}
}

// typedAllowance reads the width of an allowance.
func typedAllowance(t Table, text string) (float64, error) {
	w, err := typedLength(t, text)
	if err == nil && !(w >= 0 && w <= pattern.MaxAllowance) {
		err = fmt.Errorf("an allowance of %s is not between 0 and %d mm", unit.MM(w), pattern.MaxAllowance)
	}
	return w, err
}

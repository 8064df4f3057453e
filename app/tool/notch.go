package tool

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Notch adds notches to edges, moves, deletes and doubles them.
type Notch struct {
	base
	piece string
	name  string // of the notch there is; "" for a new one
	fresh string // the name of a new one
	spot  *notchSpot
	match *notchMatch // what it is to meet in every size, or nil
	kind  string      // single, double or as it is when empty
	gone  bool        // to be deleted
	held  bool        // by the pointer
	try   trial
}

// notchSpot is where a notch is to lie.
type notchSpot struct {
	edge string
	pattern.Along
}

// NewNotch returns the notch tool for a table.
func NewNotch(t Table) Tool { return &Notch{base: base{table: t}} }

// Name returns "notch".
func (n *Notch) Name() string { return "notch" }

// Hint says what to do next.
func (n *Notch) Hint() string {
	pc, old := n.now()
	switch {
	case pc == nil:
		return "Press an edge where a notch is wanted, or a notch to change it."
	case n.Proposal() == nil && old != nil:
		return fmt.Sprintf("Drag %s along the edge, push it with the arrows, or press Delete to take it away.", pattern.NotchSaid(n.name))
	}
	if res, err := n.try.of(n.table, n.Proposal()...); err != nil {
		return sentence(err)
	} else if last := res.Reports[len(res.Reports)-1]; len(last.Notes) > 0 {
		return last.Notes[0] + " Enter accepts it, Escape abandons." + n.kept()
	}
	switch {
	case n.gone:
		return fmt.Sprintf("Enter takes %s away, Escape leaves it.", pattern.NotchSaid(n.name))
	case old != nil:
		return fmt.Sprintf("Enter accepts the change of %s, Escape leaves it as it was.", pattern.NotchSaid(n.name)) + n.kept()
	}
	return "Enter adds the notch, Escape abandons; drag it or push it with the arrows first, if you like." + n.kept()
}

// now returns the piece and the notch there is, which is nil for a new one;
// without a piece nothing is begun.
func (n *Notch) now() (*pattern.Piece, *pattern.Notch) {
	pc := n.pattern().Piece(n.piece)
	if pc == nil {
		return nil, nil
	}
	if n.name != "" {
		old := pc.Notch(n.name)
		if old == nil {
			return nil, nil
		}
		return pc, old
	}
	if n.spot == nil || pc.Edge(n.spot.edge) == nil {
		return nil, nil
	}
	return pc, nil
}

// where returns the edge of the notch as it is to be, and the mm from its start.
func (n *Notch) where() (*pattern.Piece, *pattern.Edge, float64, bool) {
	pc, old := n.now()
	if pc == nil {
		return nil, nil, 0, false
	}
	at := n.matched()
	if at == nil {
		at = n.spot
	}
	if at == nil {
		at = &notchSpot{old.Edge, old.Along}
	}
	e := pc.Edge(at.edge)
	if e == nil {
		return nil, nil, 0, false
	}
	l := e.Length()
	return pc, e, min(max(at.At(l), 0), l), true
}

// Pointer takes a notch, or a place for a new one, and drags it along its piece.
func (n *Notch) Pointer(e Event) {
	p := n.pattern()
	ask := Ask{Kind: OnNotch | OnEdge, Prefer: n.table.Selection().Piece}
	switch e.Act {
	case Hover:
		n.hover(e, ask)
	case Press:
		n.drop()
		if pc, ed, s, ok := n.where(); ok && pc.Pose.Apply(ed.Path.At(s)).Dist(e.At) <= e.Reach {
			n.held = true // the one that is being worked on
			return
		}
		if pt, ok := Point(p, e.At, e.Reach, ask); ok {
			n.take(pt)
			n.held = true
		}
	case Drag:
		pc, _ := n.now()
		if !n.held || pc == nil || n.gone {
			return
		}
		if pt, ok := Point(p, e.At, math.Inf(1), Ask{Kind: OnEdge, Only: pc.Name}); ok {
			n.put(pt.Edge, pt.S)
		}
	case Release:
		n.held = false
	}
}

func (n *Notch) take(pt Pointing) {
	n.forget()
	n.piece = pt.Piece
	n.table.Select(pt.Selection())
	if pt.Kind == OnNotch {
		n.name = pt.Notch
		return
	}
	n.fresh = freshName(n.pattern().Piece(pt.Piece))
	n.spot = &notchSpot{pt.Edge, pt.Spot.Along}
}

// put lays the notch at s mm from the start of an edge, held as before.
func (n *Notch) put(edge string, s float64) {
	pc, old := n.now()
	if pc == nil {
		return
	}
	e := pc.Edge(edge)
	along := pattern.Along{Share: 1}
	switch {
	case n.spot != nil:
		along = n.spot.Along
	case old != nil:
		along = old.Along
	}
	l := e.Length()
	n.spot, n.match = &notchSpot{edge, along.Moved(min(max(s, 0), l), l)}, nil
}

// freshName returns a name for a new notch that the piece does not have.
func freshName(pc *pattern.Piece) string {
	for i := 1; ; i++ {
		if name := "notch " + strconv.Itoa(i); pc.Notch(name) == nil {
			return name
		}
	}
}

func (n *Notch) forget() bool {
	was := n.piece != ""
	*n = Notch{base: n.base}
	return was
}

// Key pushes the notch along its edge, deletes it, or walks to one.
func (n *Notch) Key(k Key) bool {
	if n.held {
		return false
	}
	if d, ok := arrow(k); ok {
		_, e, s, ok := n.where()
		if ok && !n.gone {
			n.put(e.Name, s+d.X+d.Y)
		}
		return ok
	}
	if k.Name == Delete {
		pc, old := n.now()
		if pc == nil {
			return false
		}
		if old == nil {
			n.forget()
			return true
		}
		n.gone, n.spot, n.match, n.kind = true, nil, nil, ""
		return true
	}
	chosen, took, used := n.keyed(k, Ask{Kind: OnNotch | OnEdge})
	if took {
		n.take(chosen)
	}
	return used
}

// The kinds of notch.
const (
	singleNotch = "single"
	doubleNotch = "double"
)

// Fields are the distances from both ends, the kind, and the name of a new one.
func (n *Notch) Fields() []Field {
	pc, e, s, ok := n.where()
	if !ok || n.gone {
		return nil
	}
	kind := n.kind
	if old := pc.Notch(n.name); kind == "" {
		kind = singleNotch
		if old != nil && old.Double {
			kind = doubleNotch
		}
	}
	out := []Field{
		{Name: "start", Label: titled(e.Name) + ", from " + cmp.Or(pc.Meets(e.Name, pattern.Start), "its start"), Text: written(n.table, s)},
		{Name: "end", Label: "From " + cmp.Or(pc.Meets(e.Name, pattern.End), "its end"), Text: written(n.table, e.Length()-s)},
		{Name: "kind", Label: "Notch", Text: kind, Options: []string{singleNotch, doubleNotch}},
	}
	out = append(out, n.holdField(pc, e, s)...)
	if n.name == "" {
		out = append(out, Field{Name: "name", Label: "Name", Text: n.fresh})
	}
	return out
}

// Set takes a distance from an end, held from there in mm, or as a share of
// the edge when typed as "40 %"; the kind; or the name of a new notch.
func (n *Notch) Set(field, text string) error {
	pc, e, _, ok := n.where()
	if !ok || n.gone {
		return unknownField("the notch", field)
	}
	switch field {
	case "start", "end":
		along := pattern.Along{From: pattern.EndName(field)}
		if share, found := strings.CutSuffix(strings.TrimSpace(text), "%"); found {
			v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(share), ",", "."), 64)
			if err != nil || !(v >= 0 && v <= 100) {
				return fmt.Errorf("%q is no share of the edge; write 0 %% to 100 %%", text)
			}
			along.Share = v / 100
		} else {
			v, err := typedLength(n.table, text)
			if err != nil {
				return err
			}
			if !(v >= 0 && v <= e.Length()) {
				return fmt.Errorf("%s lies off %s, which is %s long", unit.MM(v), e.Name, unit.MM(e.Length()))
			}
			along.MM = v
		}
		n.spot, n.match = &notchSpot{e.Name, along}, nil
		return nil
	case "hold":
		return n.setHold(text)
	case "kind":
		o, err := picked(text, []string{singleNotch, doubleNotch})
		if err == nil {
			n.kind = o
		}
		return err
	case "name":
		if n.name != "" {
			return unknownField("a notch that is there", field)
		}
		name, err := typedName(text)
		if err != nil {
			return err
		}
		if pc.Notch(name) != nil {
			return fmt.Errorf("%s already has a notch %q; give the new one another name", pc.Name, name)
		}
		n.fresh = name
		return nil
	}
	return unknownField("the notch", field)
}

// Proposal adds the new notch, or moves, doubles or deletes the one there is.
func (n *Notch) Proposal() []step.Step {
	pc, old := n.now()
	if pc == nil {
		return nil
	}
	var out []step.Step
	place := func(act step.NotchAct, name string) *step.Notch {
		if m := n.match; m != nil {
			return &step.Notch{Act: act, Piece: pc.Name, Name: name, Seam: m.seam, Spot: &m.spot}
		}
		return &step.Notch{Act: act, Piece: pc.Name, Name: name, Edge: n.spot.edge,
			From: n.spot.From, MM: step.Lit(n.spot.MM), Share: step.Lit(n.spot.Share)}
	}
	switch {
	case old == nil:
		s := place(step.AddNotch, n.fresh)
		s.Double = n.kind == doubleNotch
		return []step.Step{s}
	case n.gone:
		return []step.Step{&step.Notch{Act: step.DeleteNotch, Piece: pc.Name, Name: old.Name}}
	}
	if n.match != nil || n.spot != nil && pc.Edge(n.spot.edge) != nil && (n.spot.edge != old.Edge || n.spot.Along != old.Along) {
		out = append(out, place(step.MoveNotch, old.Name))
	}
	switch {
	case n.kind == doubleNotch && !old.Double:
		out = append(out, &step.Notch{Act: step.MakeDouble, Piece: pc.Name, Name: old.Name})
	case n.kind == singleNotch && old.Double:
		out = append(out, &step.Notch{Act: step.MakeSingle, Piece: pc.Name, Name: old.Name})
	}
	return out
}

// Overlay shows the notch and how far it lies from the ends of its edge.
func (n *Notch) Overlay() Overlay {
	var o Overlay
	n.pointed(&o)
	pc, e, s, ok := n.where()
	if !ok {
		return o
	}
	o.Show(n.pattern(), Pointing{Kind: OnEdge, Piece: pc.Name, Edge: e.Name}, Guide)
	at := pc.Pose.Apply(e.Path.At(s))
	style := Handle
	if n.gone {
		style = Poor
	}
	o.Dots = append(o.Dots, Dot{at, style})
	o.Notes = append(o.Notes, Note{at, fmt.Sprintf("%s | %s", unit.MM(s), unit.MM(e.Length()-s))})
	return o
}

// Reset forgets the notch and what was to be done with it.
func (n *Notch) Reset() bool {
	walked := n.drop()
	return n.forget() || walked
}

package tool

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Reshape draws an edge, or a part of one, anew by its knots and handles.
type Reshape struct {
	base
	at       *Pointing // on the edge
	from, to float64   // the run, in shares of the edge
	knots    []step.Knot
	touched  bool
	free     [2]bool // the tangents at the start and the end
	ends     bool    // may move
	keep     bool    // its length
	chosen   grip
	held     bool
	laid     bool // the run is being laid along the edge
	try      trial
}

// grip is a knot or one of its handles.
type grip struct {
	knot int
	part gripPart
}

type gripPart int

const (
	gripKnot gripPart = iota
	gripIn
	gripOut
)

// NewReshape returns the tool for a table.
func NewReshape(t Table) Tool { return &Reshape{base: base{table: t}} }

// Name returns "reshape".
func (r *Reshape) Name() string { return "reshape" }

// Hint says what to do next.
func (r *Reshape) Hint() string {
	_, ok := r.run()
	switch {
	case !ok:
		return "Press the edge to be drawn anew; drag along it for a part of it."
	case r.laid:
		return "Drag along the edge to where the run is to end."
	case r.held:
		return "Drag; with Shift a handle turns by itself and leaves a corner."
	case !r.touched:
		return "Drag a knot or handle; press twice on the edge for one more knot, Delete takes one away."
	}
	res, err := r.trial()
	if err != nil {
		return sentence(err)
	}
	return "Enter accepts, Escape abandons; drag on, or nudge with the arrow keys." + told(r.table, res) + r.everySize()
}

// everySize tells how what is drawn is kept in other sizes, as a sentence with a
// blank before it; "" where there are none.
func (r *Reshape) everySize() string {
	d, ok := r.run()
	if !ok || !severalSizes(r.table) {
		return ""
	}
	return fmt.Sprintf(" In every size it is drawn in proportion to the straight line between its ends, here %s.", unit.MM(d.way.Norm()))
}

// drawnRun is the run as it lies now, on the mat, and its chord.
type drawnRun struct {
	pc    *pattern.Piece
	edge  *pattern.Edge
	path  geom.Path
	start geom.Point
	way   geom.Point // from its start to its end
	left  geom.Point // as long, to its left on the piece, which is inward
}

// point returns a place given in shares of the chord.
func (d drawnRun) point(v geom.Point) geom.Point { return d.start.Add(d.vector(v)) }

func (d drawnRun) vector(v geom.Point) geom.Point {
	return d.way.Mul(v.X).Add(d.left.Mul(v.Y))
}

// shares is the opposite of vector.
func (d drawnRun) shares(v geom.Point) geom.Point {
	n := d.way.Dot(d.way)
	return geom.Pt(v.Dot(d.way)/n, v.Dot(d.left)/n)
}

// run returns the run once an edge is chosen.
func (r *Reshape) run() (d drawnRun, ok bool) {
	p := r.pattern()
	if r.at = anew(p, r.at); r.at == nil {
		r.forget()
		return d, false
	}
	d.pc, d.edge = p.Edge(r.at.Piece, r.at.Edge)
	l := d.edge.Length()
	path := d.edge.Path
	if r.from > 0 || r.to < 1 {
		part, err := path.Sub(r.from*l, r.to*l)
		if err != nil {
			r.forget()
			return d, false
		}
		path = part
	}
	d.path = path.Transform(d.pc.Pose)
	d.start, d.way = d.path.Start(), d.path.End().Sub(d.path.Start())
	if d.left = d.way.Perp(); d.pc.Pose.Mirrors() {
		d.left = d.left.Mul(-1)
	}
	if d.way.Norm() < leastReach {
		r.forget()
		return d, false
	}
	return d, true
}

// take begins with an edge, or a run of it between two shares.
func (r *Reshape) take(pt Pointing, from, to float64) {
	r.forget()
	r.at, r.from, r.to = &pt, from, to
	if d, ok := r.run(); ok {
		knots, err := step.KnotsOf(d.path.Transform(d.pc.Pose.Inverse()))
		if err != nil {
			r.forget()
			return
		}
		r.knots = knots
		r.chosen = grip{0, gripOut}
		r.table.Select(Selection{Piece: pt.Piece, Edge: pt.Edge})
	}
	r.walk.Reset()
}

// grips returns all that can be gripped, in the order of the run.
func (r *Reshape) grips() []grip {
	var out []grip
	for i, k := range r.knots {
		if k.In != nil {
			out = append(out, grip{i, gripIn})
		}
		if r.ends || i > 0 && i < len(r.knots)-1 {
			out = append(out, grip{i, gripKnot})
		}
		if k.Out != nil {
			out = append(out, grip{i, gripOut})
		}
	}
	return out
}

func plain(o *step.Offset) geom.Point {
	if o == nil {
		return geom.Point{}
	}
	return geom.Pt(o.Along, o.Off)
}

// place returns where a grip lies on the mat.
func (r *Reshape) place(d drawnRun, g grip) geom.Point {
	k := r.knots[g.knot]
	at := plain(&k.Offset)
	switch g.part {
	case gripIn:
		at = at.Add(plain(k.In))
	case gripOut:
		at = at.Add(plain(k.Out))
	}
	return d.point(at)
}

// kept returns the direction on the mat that a handle keeps, if it keeps one.
func (r *Reshape) kept(d drawnRun, g grip) (geom.Point, bool) {
	switch {
	case g == grip{0, gripOut} && !r.free[0]:
		return d.path.TangentAt(0), true
	case g == grip{len(r.knots) - 1, gripIn} && !r.free[1]:
		return d.path.TangentBefore(d.path.Length()).Mul(-1), true
	}
	return geom.Point{}, false
}

// move puts a grip at a place on the mat; alone leaves the opposite handle.
func (r *Reshape) move(d drawnRun, g grip, to geom.Point, alone bool) {
	if g.knot >= len(r.knots) || !to.Finite() {
		return
	}
	r.knots = slices.Clone(r.knots)
	k := &r.knots[g.knot]
	r.touched = true
	if g.part == gripKnot {
		at := d.shares(to.Sub(d.start))
		k.Along, k.Off = at.X, at.Y
		return
	}
	knot := d.point(plain(&k.Offset))
	v := to.Sub(knot)
	if dir, ok := r.kept(d, g); ok {
		v = dir.Mul(max(v.Dot(dir), leastHandle))
	} else if v.Norm() < leastHandle {
		return
	}
	s := d.shares(v)
	one := &step.Offset{Along: s.X, Off: s.Y}
	inner := g.knot > 0 && g.knot < len(r.knots)-1
	if inner && alone {
		k.Corner = true
	}
	opposite := &k.In
	if g.part == gripIn {
		k.In, opposite = one, &k.Out
	} else {
		k.Out = one
	}
	if inner && !k.Corner {
		o := s.Unit().Mul(-plain(*opposite).Norm())
		*opposite = &step.Offset{Along: o.X, Off: o.Y}
	}
}

// leastHandle is the shortest handle in mm that can be gripped.
const leastHandle = 1

// Pointer chooses the edge or the run, and drags knots and handles.
func (r *Reshape) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	d, ok := r.run()
	switch e.Act {
	case Hover:
		r.hover(e, r.ask())
	case Press:
		r.drop()
		if g, near := r.near(d, ok, e); near {
			r.chosen, r.held = g, true
			return
		}
		pt, found := Point(r.pattern(), e.At, e.Reach, r.ask())
		if !found || ok && r.touched && pt.Piece == d.pc.Name && pt.Edge == d.edge.Name {
			return // a stray press does not take the drawing away
		}
		r.take(pt, 0, 1)
		r.laid = r.at != nil
	case Drag:
		switch {
		case r.held && ok:
			r.move(d, r.chosen, e.At, e.Shift)
		case r.laid && ok:
			r.lay(d, e)
		}
	case Release:
		r.held, r.laid = false, false
	case Double:
		if ok {
			r.addAt(d, e)
		}
	}
}

func (r *Reshape) ask() Ask { return Ask{Kind: OnEdge, Prefer: r.table.Selection().Piece} }

// near returns the grip next to the pointer.
func (r *Reshape) near(d drawnRun, ok bool, e Event) (best grip, found bool) {
	if !ok {
		return best, false
	}
	least := e.Reach
	for _, g := range r.grips() {
		if dist := r.place(d, g).Dist(e.At); dist <= least {
			best, least, found = g, dist, true
		}
	}
	return best, found
}

// lay makes the run reach from where the press was to the pointer.
func (r *Reshape) lay(d drawnRun, e Event) {
	l := d.edge.Length()
	a := r.at.S
	b := d.edge.Path.Nearest(d.pc.Pose.Inverse().Apply(e.At)).S
	if math.Abs(a-b) < max(e.Reach, leastRun) {
		return
	}
	pt := *r.at
	r.take(pt, min(a, b)/l, max(a, b)/l)
	r.laid = r.at != nil
}

// leastRun is the shortest run in mm that is laid by dragging along an edge.
const leastRun = 10

// addAt adds a knot where the pointer is on the curve as it is drawn.
func (r *Reshape) addAt(d drawnRun, e Event) {
	path, err := r.drawn(d)
	if err != nil || len(r.knots) > 20 {
		return
	}
	if foot := path.Nearest(e.At); foot.Dist <= e.Reach && foot.T > 0.05 && foot.T < 0.95 {
		r.knots = step.AddKnot(r.knots, foot.Seg, foot.T)
		r.chosen = grip{foot.Seg + 1, gripKnot}
		r.held, r.touched = false, true
	}
}

// drawn returns the curve of the knots on the mat.
func (r *Reshape) drawn(d drawnRun) (geom.Path, error) {
	var segs []geom.Cubic
	for i := 1; i < len(r.knots); i++ {
		segs = append(segs, geom.Curve(
			r.place(d, grip{i - 1, gripKnot}), r.place(d, grip{i - 1, gripOut}),
			r.place(d, grip{i, gripIn}), r.place(d, grip{i, gripKnot})))
	}
	return geom.NewPath(segs...)
}

// Key walks to an edge and then through its knots and handles; the arrows
// nudge the one that is chosen, Choose adds a knot after it, Delete takes it away.
func (r *Reshape) Key(k Key) bool {
	if r.held || r.laid {
		return false
	}
	d, ok := r.run()
	if !ok {
		chosen, took, used := r.keyed(k, r.ask())
		if took {
			r.take(chosen, 0, 1)
		}
		return used
	}
	grips := r.grips()
	if !slices.Contains(grips, r.chosen) && len(grips) > 0 {
		r.chosen = grips[0]
	}
	if v, is := arrow(k); is {
		r.move(d, r.chosen, r.place(d, r.chosen).Add(v), false)
		return true
	}
	i := slices.Index(grips, r.chosen)
	switch k.Name {
	case Next:
		r.chosen = grips[(i+1)%len(grips)]
	case Previous:
		r.chosen = grips[(i+len(grips)-1)%len(grips)]
	case Choose:
		after := min(r.chosen.knot, len(r.knots)-2)
		r.setKnots(len(r.knots)-1, after)
	case Delete:
		if r.chosen.knot <= 0 || r.chosen.knot >= len(r.knots)-1 {
			return false
		}
		r.knots = step.RemoveKnot(r.knots, r.chosen.knot)
		r.chosen, r.touched = grip{r.chosen.knot - 1, gripOut}, true
	default:
		return false
	}
	return true
}

// setKnots makes there be n knots between the ends, adding after the knot
// given first.
func (r *Reshape) setKnots(n, after int) {
	for len(r.knots)-2 < n && len(r.knots) <= 20 {
		r.knots = step.AddKnot(r.knots, after, 0.5)
		r.chosen, r.touched = grip{after + 1, gripKnot}, true
		after = r.longest()
	}
	for len(r.knots)-2 > n && len(r.knots) > 2 {
		r.knots = step.RemoveKnot(r.knots, len(r.knots)/2)
		r.chosen, r.touched = grip{0, gripOut}, true
	}
}

// longest returns the knot after which the longest stretch lies.
func (r *Reshape) longest() int {
	best, most := 0, 0.0
	for i := 1; i < len(r.knots); i++ {
		if d := plain(&r.knots[i].Offset).Dist(plain(&r.knots[i-1].Offset)); d > most {
			best, most = i-1, d
		}
	}
	return best
}

func (r *Reshape) forget() { *r = Reshape{base: r.base, try: r.try} }

// Proposal is the reshaping, once something was moved.
func (r *Reshape) Proposal() []step.Step {
	d, ok := r.run()
	if !ok || !r.touched {
		return nil
	}
	out := &step.Reshape{Piece: d.pc.Name, Edge: d.edge.Name, Knots: r.knots}
	if r.from > 0 {
		out.From = &pattern.Along{Share: r.from}
	}
	if r.to < 1 {
		out.To = &pattern.Along{Share: r.to}
	}
	if r.free[0] {
		out.Start = step.TangentFree
	}
	if r.free[1] {
		out.End = step.TangentFree
	}
	if r.keep {
		out.Keep = "length"
	}
	return []step.Step{out}
}

func (r *Reshape) trial() (step.Result, error) { return r.try.of(r.table, r.Proposal()...) }

// Reset forgets the edge and what was drawn.
func (r *Reshape) Reset() bool {
	walked := r.drop()
	was := r.at != nil
	*r = Reshape{base: r.base}
	return was || walked
}

// gripName names a grip for the person.
func (r *Reshape) gripName(g grip) string {
	switch last := len(r.knots) - 1; {
	case g == grip{0, gripOut}:
		return "start's handle"
	case g == grip{last, gripIn}:
		return "end's handle"
	case g.knot == 0:
		return "start"
	case g.knot == last:
		return "end"
	}
	name := fmt.Sprintf("knot %d", g.knot)
	switch g.part {
	case gripIn:
		return name + "'s handle before"
	case gripOut:
		return name + "'s handle after"
	}
	return name
}

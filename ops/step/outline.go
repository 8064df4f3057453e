package step

import (
	"fmt"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// placeSlack is the distance in mm within which a place on an edge is taken
// for the joint at its end: over the rounding of lengths (1e-9), far under
// anything that can be cut.
const placeSlack = 1e-6

// outline is the outline of a piece while it is altered. Each of its runs
// will be an edge, and knows which stretches of the old edges lie on it; out
// of that the edge map is made.
type outline struct {
	old  *pattern.Piece
	all  pattern.Pattern // the whole old pattern
	runs []run
}

type run struct {
	edge   pattern.Edge
	traces []trace
}

// index returns the run of that name, or an error that names those there are.
func (o *outline) index(edge string) (int, error) {
	for i := range o.runs {
		if o.runs[i].edge.Name == edge {
			return i, nil
		}
	}
	names := make([]string, len(o.runs))
	for i := range o.runs {
		names[i] = o.runs[i].edge.Name
	}
	return 0, fmt.Errorf("piece %q has no edge %q; it has %s", o.old.Name, edge, quotedList(names))
}

func (o *outline) next(i int) int { return (i + 1) % len(o.runs) }
func (o *outline) prev(i int) int { return (i + len(o.runs) - 1) % len(o.runs) }

// locate finds the place at s mm on an old edge among the runs.
func (o *outline) locate(edge string, s float64) (i int, at float64, err error) {
	for i, r := range o.runs {
		for _, t := range r.traces {
			if t.edge == edge && s >= t.from-placeSlack && s <= t.to+placeSlack {
				k := min(max((s-t.from)/(t.to-t.from), 0), 1)
				return i, t.a + k*(t.b-t.a), nil
			}
		}
	}
	return 0, 0, fmt.Errorf("the place on %s of %s was cut away", edge, o.old.Name)
}

// cut makes a joint at s mm on an old edge, unless there is one, and returns
// the run that starts there. Both parts keep the name of the edge until a run
// is replaced.
func (o *outline) cut(edge string, s float64) (int, error) {
	i, at, err := o.locate(edge, s)
	if err != nil {
		return 0, err
	}
	r := o.runs[i]
	length := r.edge.Length()
	switch {
	case at <= placeSlack:
		return i, nil
	case at >= length-placeSlack:
		return o.next(i), nil
	}
	before, after, err := r.edge.Path.Split(at)
	if err != nil {
		return 0, err
	}
	first, second := run{edge: r.edge}, run{edge: r.edge}
	first.edge.Path, second.edge.Path = before, after
	second.edge.Corner = pattern.Corner{}
	first.traces = carryTraces(r.traces, 0, []knot{{0, 0}, {at, before.Length()}})
	second.traces = carryTraces(r.traces, 0, []knot{{at, 0}, {length, after.Length()}})
	o.runs = slices.Replace(o.runs, i, i+1, first, second)
	return i + 1, nil
}

// between makes joints at two places of the old outline and returns the run
// that starts at the one and how many runs lead from there to the other.
func (o *outline) between(from, to pattern.Place) (i, n int, err error) {
	if _, err = o.cut(from.Edge, from.S); err != nil {
		return 0, 0, err
	}
	j, err := o.cut(to.Edge, to.S)
	if err != nil {
		return 0, 0, err
	}
	// Cutting may have moved the first one on.
	if i, err = o.cut(from.Edge, from.S); err != nil {
		return 0, 0, err
	}
	n = (j - i + len(o.runs)) % len(o.runs)
	if n == 0 {
		return 0, 0, fmt.Errorf("both ends are at the same place on %s of %s; choose two different places", from.Edge, o.old.Name)
	}
	return i, n, nil
}

// nameRests gives the part of an edge left after the new run i another name
// than the part left before it, made from the names of both.
func (o *outline) nameRests(i int) {
	before, after := o.runs[o.prev(i)].edge, &o.runs[o.next(i)].edge
	if len(o.runs) > 2 && before.Name == after.Name {
		after.Name += " after " + o.runs[i].edge.Name
	}
}

// whole returns the old edge that is all of run i, or nil.
func (o *outline) whole(i int) *pattern.Edge {
	r := o.runs[i]
	if len(r.traces) != 1 {
		return nil
	}
	e := o.old.Edge(r.traces[0].edge)
	if e == nil || r.edge.Name != e.Name || r.traces[0].from > placeSlack || r.traces[0].to < e.Length()-placeSlack {
		return nil
	}
	return e
}

// gone reports whether nothing of an old edge is left.
func (o *outline) gone(edge string) bool { return len(o.left(edge)) == 0 }

// left returns the stretches of an old edge that are left, in mm from its start.
func (o *outline) left(edge string) [][2]float64 {
	var left [][2]float64
	for _, r := range o.runs {
		for _, t := range r.traces {
			if t.edge == edge {
				left = append(left, [2]float64{t.from, t.to})
			}
		}
	}
	return left
}

// span returns the path of n runs from run i on, and their old stops: the
// lengths along it at which joints, notches and ends of parts lie.
func (o *outline) span(i, n int) (geom.Path, []float64, error) {
	var paths []geom.Path
	var stops []float64
	length := 0.0
	for range n {
		paths = append(paths, o.runs[i].edge.Path)
		for _, s := range o.stops(i) {
			stops = append(stops, length+s)
		}
		length += o.runs[i].edge.Length()
		stops = append(stops, length)
		i = o.next(i)
	}
	path, err := geom.Join(paths...)
	if err != nil {
		return geom.Path{}, nil, err
	}
	slices.Sort(stops)
	return path, stops[:len(stops)-1], nil
}

// stops returns the lengths along a run at which notches and ends of parts of
// seams and lines lie, its own ends left out.
func (o *outline) stops(i int) []float64 {
	r := o.runs[i]
	var at []float64
	for _, t := range r.traces {
		for _, s := range oldStops(o.all, o.old, t.edge) {
			if s > t.from+placeSlack && s < t.to-placeSlack {
				at = append(at, t.a+(t.b-t.a)*(s-t.from)/(t.to-t.from))
			}
		}
	}
	slices.Sort(at)
	return slices.CompactFunc(at, func(a, b float64) bool { return b-a <= placeSlack })
}

func oldStops(p pattern.Pattern, pc *pattern.Piece, edge string) []float64 {
	length := pc.Edge(edge).Length()
	var at []float64
	for _, n := range pc.Notches {
		if n.Edge == edge {
			at = append(at, n.At(length))
		}
	}
	part := func(pt pattern.Part) {
		if pt.Piece == pc.Name && pt.Edge == edge {
			at = append(at, pt.From*length, pt.To*length)
		}
	}
	for _, s := range p.Seams {
		for _, pt := range slices.Concat(s.A, s.B) {
			part(pt)
		}
	}
	for _, l := range p.Lines {
		for _, pt := range l.Parts {
			part(pt)
		}
	}
	return at
}

// replace puts one new edge in the place of n runs from run i on. knots say
// where the old length along them lies on the new edge; nil when the old run
// is cut away. It returns the index of the new run.
func (o *outline) replace(i, n int, e pattern.Edge, knots []knot) int {
	if n >= len(o.runs) {
		n = len(o.runs)
	}
	made := run{edge: e}
	offset, j := 0.0, i
	for range n {
		made.traces = append(made.traces, carryTraces(o.runs[j].traces, offset, knots)...)
		offset += o.runs[j].edge.Length()
		j = o.next(j)
	}
	if i+n <= len(o.runs) {
		o.runs = slices.Replace(o.runs, i, i+n, made)
		return i
	}
	// The run goes over the last edge to the first: the new edge is the last.
	o.runs = append(slices.Clone(o.runs[j:i]), made)
	return len(o.runs) - 1
}

// reshape gives run i another path; knots say where its old length lies now.
func (o *outline) reshape(i int, path geom.Path, knots []knot) {
	r := &o.runs[i]
	r.edge.Path = path
	r.traces = carryTraces(r.traces, 0, knots)
}

// edges returns the runs as edges whose ends meet exactly.
func (o *outline) edges() ([]pattern.Edge, error) {
	if len(o.runs) < 2 {
		return nil, fmt.Errorf("piece %q would have %d edge left; an outline needs at least two: take in less", o.old.Name, len(o.runs))
	}
	edges := make([]pattern.Edge, len(o.runs))
	for i, r := range o.runs {
		edges[i] = r.edge
		for _, other := range edges[:i] {
			if other.Name == r.edge.Name {
				return nil, fmt.Errorf("piece %q would have two edges called %q; give the new edge another name", o.old.Name, other.Name)
			}
		}
	}
	for i := range edges {
		start := edges[o.prev(i)].Path.End()
		if edges[i].Path.Start() == start {
			continue
		}
		path, err := edges[i].Path.WithEnds(start, edges[i].Path.End())
		if err != nil {
			return nil, fmt.Errorf("edge %q of %q: %w", edges[i].Name, o.old.Name, err)
		}
		edges[i].Path = path
	}
	return edges, nil
}

// mapTo writes where the old edges went.
func (o *outline) mapTo(m *pattern.Map, pc *pattern.Piece) {
	for i := range o.old.Edges {
		e := &o.old.Edges[i]
		type found struct {
			run int
			t   trace
		}
		var on []found
		for j, r := range o.runs {
			for _, t := range r.traces {
				if t.edge == e.Name {
					on = append(on, found{j, t})
				}
			}
		}
		if len(on) == 0 {
			m.Gone(o.old.Name, e.Name)
			continue
		}
		if len(on) == 1 {
			t, n := on[0].t, &pc.Edges[on[0].run]
			same := func(a, b float64) bool { return a-b <= geom.Coincident && b-a <= geom.Coincident }
			if n.Name == e.Name && t.from == 0 && t.a == 0 && same(t.to, e.Length()) && same(t.b, n.Length()) && same(t.to, t.b) {
				continue // as it was
			}
		}
		for _, f := range on {
			n := &pc.Edges[f.run]
			m.Span(
				pattern.Span{Piece: o.old.Name, Edge: e.Name, From: f.t.from, To: f.t.to},
				pattern.Span{Piece: pc.Name, Edge: n.Name, From: f.t.a, To: min(f.t.b, n.Length())},
			)
		}
	}
}

// ends finds two spots on the outline and is then like between. A spot that
// names no piece is on this one.
func (o *outline) ends(from, to pattern.Spot) (i, n int, err error) {
	a, err := o.find(from)
	if err != nil {
		return 0, 0, err
	}
	b, err := o.find(to)
	if err != nil {
		return 0, 0, err
	}
	return o.between(a, b)
}

func (o *outline) find(s pattern.Spot) (pattern.Place, error) {
	s = spotOn(s, o.old.Name)
	if s.Piece != o.old.Name {
		return pattern.Place{}, fmt.Errorf("%s does not lie on piece %q, which is altered; choose a place on %s", s, o.old.Name, o.old.Name)
	}
	return o.all.Find(s)
}

// spotOn returns the spot on that piece unless it names one itself.
func spotOn(s pattern.Spot, piece string) pattern.Spot {
	if s.Piece == "" {
		s.Piece = piece
	}
	return s
}

// placeOn names the spot on that piece, which is known.
func placeOn(s pattern.Spot, piece string) string {
	return strings.Replace(spotOn(s, piece).String(), " of "+piece, "", 1)
}

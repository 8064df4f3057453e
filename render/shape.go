package render

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// shape is the geometry of one piece as it is to be drawn: moved, mirrored or
// unfolded, but not yet lines and labels.
type shape struct {
	cut     geom.Path
	edges   []shapeEdge
	notches []shapeNotch
	inner   []pattern.Inner
	marks   []pattern.Mark
	arrow   pattern.Arrow
	crease  [2]geom.Point // the fold of a piece drawn whole
	whole   bool
}

// shapeEdge is an edge with its outward normals to the right of its path.
type shapeEdge struct {
	name      string
	role      pattern.Role
	path      geom.Path
	allowance float64
	twin      bool // the mirrored half of an unfolded piece
	second    bool // the second leg of a dart whose cloth stays folded
}

// beside reports whether the sew line of the edge is drawn: not on the fold,
// nor where it is the cut line itself.
func (e shapeEdge) beside() bool {
	return e.role == pattern.DartEdge || e.allowance > 0 && e.role != pattern.Fold
}

// shapeNotch is one stroke of a notch.
type shapeNotch struct {
	at        geom.Point // on the sew line
	out       geom.Point // unit normal, outward
	allowance float64
	apex      bool // the first stroke of a notch at the apex
}

// doubleGap is the distance between the strokes of a double notch, in mm.
const doubleGap = 3.0

// apexName names the notch or inner line that lies at the apex.
const apexName = "apex"

// shapeOf returns the shape of a piece moved by m.
func shapeOf(pc pattern.Piece, m geom.Motion) (shape, error) {
	cut, err := pc.CutLine()
	if err != nil {
		return shape{}, fmt.Errorf("piece %s: %w", pc.Name, err)
	}
	s := shape{cut: turnOver(cut, m), marks: make([]pattern.Mark, len(pc.Marks)), arrow: pc.Arrow}
	second := dartEdges(&pc)
	for i, e := range pc.Edges {
		s.edges = append(s.edges, shapeEdge{name: e.Name, role: e.Role, path: turnOver(e.Path, m), allowance: e.Allowance, second: second[i]})
	}
	for _, n := range pc.Notches {
		e := pc.Edge(n.Edge)
		if e == nil {
			return shape{}, fmt.Errorf("piece %s: notch %s lies on an edge %s that is not there", pc.Name, n.Name, n.Edge)
		}
		for i, at := range strokes(n, e.Length()) {
			out := e.Path.TangentAt(at).Perp().Mul(-1)
			s.notches = append(s.notches, shapeNotch{m.Apply(e.Path.At(at)), m.Vector(out), e.Allowance, i == 0 && n.Name == apexName})
		}
	}
	for _, in := range pc.Inner {
		in.Path = in.Path.Transform(m)
		s.inner = append(s.inner, in)
	}
	for i, mk := range pc.Marks {
		mk.At = m.Apply(mk.At)
		s.marks[i] = mk
	}
	s.arrow.From, s.arrow.To = m.Apply(s.arrow.From), m.Apply(s.arrow.To)
	return s, nil
}

// turnOver moves a path and keeps the inside to its left.
func turnOver(p geom.Path, m geom.Motion) geom.Path {
	p = p.Transform(m)
	if m.Mirrors() {
		return p.Reverse()
	}
	return p
}

// strokes returns where the strokes of a notch stand on an edge.
func strokes(n pattern.Notch, length float64) []float64 {
	at := min(max(n.At(length), 0), length)
	if !n.Double {
		return []float64{at}
	}
	return []float64{max(at-doubleGap/2, 0), min(at+doubleGap/2, length)}
}

// fold returns the edge on the fold, or nil.
func (s *shape) fold() *shapeEdge {
	for i := range s.edges {
		if s.edges[i].role == pattern.Fold {
			return &s.edges[i]
		}
	}
	return nil
}

// foldSlack is how far from the fold, in mm, the cut line may run along it.
const foldSlack = 1e-4

// unfold returns a fold piece drawn whole; other pieces as they are.
func (s shape) unfold() (shape, error) {
	f := s.fold()
	if f == nil {
		return s, nil
	}
	a, b := f.path.Start(), f.path.End()
	mirror, err := geom.Mirror(a, b)
	if err != nil {
		return shape{}, fmt.Errorf("the fold: %w", err)
	}
	half, err := openAt(s.cut, a, b)
	if err != nil {
		return shape{}, err
	}
	cut, err := geom.JoinClosed(half, half.Transform(mirror).Reverse())
	if err != nil {
		return shape{}, fmt.Errorf("the cut line does not mirror across the fold: %w", err)
	}
	w := shape{cut: cut, marks: s.marks, arrow: s.arrow, whole: true, crease: [2]geom.Point{half.Start(), half.End()}}
	for _, e := range s.edges {
		if e.role == pattern.Fold {
			continue
		}
		w.edges = append(w.edges, e)
		e.path, e.twin = e.path.Transform(mirror).Reverse(), true
		w.edges = append(w.edges, e)
	}
	for _, n := range s.notches {
		w.notches = append(w.notches, n)
		n.at, n.out = mirror.Apply(n.at), mirror.Vector(n.out)
		w.notches = append(w.notches, n)
	}
	for _, in := range s.inner {
		w.inner = append(w.inner, in)
		in.Path = in.Path.Transform(mirror)
		w.inner = append(w.inner, in)
	}
	return w, nil
}

// openAt takes from a closed path what runs along the line through a and b.
// The rest, one run, starts and ends exactly on that line.
func openAt(p geom.Path, a, b geom.Point) (geom.Path, error) {
	u := b.Sub(a).Unit()
	off := func(q geom.Point) float64 { return math.Abs(u.Cross(q.Sub(a))) }
	n, first := p.Len(), -1
	along := make([]bool, n)
	for i := range n {
		c := p.Seg(i)
		along[i] = off(c.P[0]) < foldSlack && off(c.P[1]) < foldSlack && off(c.P[2]) < foldSlack && off(c.P[3]) < foldSlack
	}
	for i := range n {
		if !along[i] && along[(i+n-1)%n] {
			first = i
			break
		}
	}
	if first < 0 {
		return geom.Path{}, fmt.Errorf("the cut line does not run along the fold, so the piece cannot be drawn whole")
	}
	var segs []geom.Cubic
	for k := 0; k < n && !along[(first+k)%n]; k++ {
		segs = append(segs, p.Seg((first+k)%n))
	}
	half, err := geom.NewPath(segs...)
	if err != nil {
		return geom.Path{}, err
	}
	foot := func(q geom.Point) geom.Point { return a.Add(u.Mul(u.Dot(q.Sub(a)))) }
	return half.WithEnds(foot(half.Start()), foot(half.End()))
}

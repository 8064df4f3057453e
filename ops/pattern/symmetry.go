package pattern

import (
	"errors"
	"fmt"
	"slices"

	"truemat/geom"
)

// SymmetrySlack is how far in mm the halves of a piece may be from lying on
// each other and still be cut as one on the fold: what a seam may be off
// (common practice, no source).
const SymmetrySlack = 0.5

// Axis returns where a line divides the piece in two: the two places at which
// it crosses the outline, in the order of the line's direction. A crossing
// nearer than snap mm to a joint is taken to be there, unless other joints lie
// as near to the line and it would not be told where it goes.
func (pc *Piece) Axis(l geom.Line, snap float64) (a, b Place, err error) {
	at := pc.places(l, snap)
	if exactly := pc.places(l, geom.Coincident); len(at) != 2 && len(exactly) == 2 {
		at = exactly
	}
	if len(at) != 2 {
		return a, b, fmt.Errorf("the line meets the outline of %s at %d places; it must divide the piece in two, from one place on the outline to one other", pc.Name, len(at))
	}
	a, b = at[0], at[1]
	if l.Along(a.Point) > l.Along(b.Point) {
		a, b = b, a
	}
	return a, b, nil
}

// places returns where the outline meets a line.
func (pc *Piece) places(l geom.Line, snap float64) []Place {
	var at []Place
	for i := range pc.Edges {
		e := &pc.Edges[i]
		length := e.Length()
		hits := []float64{}
		for _, x := range e.Path.CrossLine(l.Point, l.Dir) {
			hits = append(hits, x.S)
		}
		// The line may just miss the joint it is meant for.
		if d := l.Distance(e.Path.Start()); d <= snap && d >= -snap {
			hits = append(hits, 0)
		}
		for _, s := range hits {
			switch {
			case s <= snap:
				s = 0
			case s >= length-snap:
				s = length
			}
			p := Place{Piece: pc.Name, Edge: e.Name, S: s, Point: e.Path.At(s)}
			if !slices.ContainsFunc(at, func(o Place) bool { return o.Point.Dist(p.Point) <= snap+geom.Coincident }) {
				at = append(at, p)
			}
		}
	}
	return at
}

// Asymmetry returns how far in mm the outline left of the way from a to b is
// from lying on that right of it when the piece is folded there, at most, and
// the edge on which that is.
func (pc *Piece) Asymmetry(a, b Place) (mm float64, edge string, err error) {
	over, err := geom.Mirror(a.Point, b.Point)
	if err != nil {
		return 0, "", errors.New("a fold needs two places that differ")
	}
	left, err := pc.run(b, a)
	if err != nil {
		return 0, "", err
	}
	right, err := pc.run(a, b)
	if err != nil {
		return 0, "", err
	}
	image := right.Transform(over).Reverse()
	mm, s := left.Farthest(image)
	at := left.At(s)
	if d, s := image.Farthest(left); d > mm {
		mm, at = d, over.Apply(image.At(s))
	}
	return mm, pc.nearestEdge(at), nil
}

// run returns the outline from a place to another.
func (pc *Piece) run(from, to Place) (geom.Path, error) {
	i, j := pc.EdgeIndex(from.Edge), pc.EdgeIndex(to.Edge)
	if i < 0 || j < 0 {
		return geom.Path{}, fmt.Errorf("%s has no edge %q or %q", pc.Name, from.Edge, to.Edge)
	}
	var parts []geom.Path
	part := func(k int, s0, s1 float64) error {
		if s1-s0 <= geom.Coincident {
			return nil
		}
		p, err := pc.Edges[k].Path.Sub(s0, s1)
		parts = append(parts, p)
		return err
	}
	if i == j && from.S < to.S {
		if err := part(i, from.S, to.S); err != nil {
			return geom.Path{}, err
		}
		return geom.Join(parts...)
	}
	if err := part(i, from.S, pc.Edges[i].Length()); err != nil {
		return geom.Path{}, err
	}
	for k := pc.Next(i); k != j; k = pc.Next(k) {
		parts = append(parts, pc.Edges[k].Path)
	}
	if err := part(j, 0, to.S); err != nil {
		return geom.Path{}, err
	}
	return geom.Join(parts...)
}

func (pc *Piece) nearestEdge(at geom.Point) string {
	name, least := "", 0.0
	for i := range pc.Edges {
		if d := pc.Edges[i].Path.Nearest(at).Dist; name == "" || d < least {
			name, least = pc.Edges[i].Name, d
		}
	}
	return name
}

package pattern

import (
	"slices"

	"truemat/geom"
)

// Told is what a drawing says of a piece besides its lines: everything but
// the paths of its edges and inner lines and the place of its arrow, which
// are drawn.
type Told struct {
	Piece
	// Middles are the places of the marks from the middle of the box around
	// the sew line, in the piece's own coordinates, mm.
	Middles []geom.Point `json:"middles,omitempty"`
}

// Tell returns what a drawing says of a piece.
func Tell(pc Piece) (Told, error) {
	o, err := pc.Outline()
	if err != nil {
		return Told{}, err
	}
	t := Told{Piece: pc.Clone()}
	for _, m := range t.Marks {
		t.Middles = append(t.Middles, m.At.Sub(o.Bounds().Center()))
	}
	for i := range t.Edges {
		t.Edges[i].Path = geom.Path{}
	}
	for i := range t.Inner {
		t.Inner[i].Path = geom.Path{}
	}
	t.Arrow.From, t.Arrow.To = geom.Point{}, geom.Point{}
	return t, nil
}

// Drawn returns the piece whose lines were drawn where it lies on the mat:
// those of its edges, by name, with the inside to their left, of its inner
// lines, and of its arrow, which may be empty. Ends of edges that meet within
// slack mm are made to meet. ok is false when a line is lacking.
func (t Told) Drawn(edges, inner map[string]geom.Path, arrow geom.Path, slack float64) (pc Piece, ok bool) {
	pc = t.Piece.Clone()
	back := pc.Pose.Inverse()
	for i := range pc.Edges {
		p, ok := edges[pc.Edges[i].Name]
		if !ok || p.Closed() || p.Empty() {
			return pc, false
		}
		if back.Mirrors() {
			p = p.Reverse()
		}
		pc.Edges[i].Path = p.Transform(back)
	}
	for i := range pc.Edges {
		e, next := &pc.Edges[i], &pc.Edges[pc.Next(i)]
		if e.Path.End().Dist(next.Path.Start()) > slack {
			return pc, false
		}
		segs := slices.Clone(next.Path.Segments())
		if len(pc.Edges) > 1 {
			segs[0] = segs[0].WithEnds(e.Path.End(), segs[0].End())
		}
		p, err := geom.NewPath(segs...)
		if err != nil {
			return pc, false
		}
		next.Path = p
	}
	for i := range pc.Inner {
		p, ok := inner[pc.Inner[i].Name]
		if !ok {
			return pc, false
		}
		pc.Inner[i].Path = p.Transform(back)
	}
	if !arrow.Empty() {
		pc.Arrow.From, pc.Arrow.To = back.Apply(arrow.Start()), back.Apply(arrow.End())
	}
	o, err := pc.Outline()
	if err != nil || len(t.Middles) != len(pc.Marks) {
		return pc, false
	}
	for i := range pc.Marks {
		pc.Marks[i].At = o.Bounds().Center().Add(t.Middles[i])
	}
	return pc, true
}

// ToldPattern is what a drawing of one size says of the pattern besides its
// pieces.
type ToldPattern struct {
	Name    string             `json:"name"`
	Size    string             `json:"size"`
	Seams   []Seam             `json:"seams,omitempty"`
	Lines   []Line             `json:"lines,omitempty"`
	Figures map[string]float64 `json:"figures,omitempty"`
}

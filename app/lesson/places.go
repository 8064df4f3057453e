package lesson

import (
	"truemat/geom"
	"truemat/ops/pattern"
)

// edgeOf is an edge with its piece.
type edgeOf struct {
	piece *pattern.Piece
	edge  *pattern.Edge
}

// frame returns the piece that bridge and cradle became, whatever its name:
// the one that reaches from the fold to the side seam. Nil while there is none.
func frame(p pattern.Pattern) *pattern.Piece {
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		if pc.Edge(sideSeam) == nil {
			continue
		}
		for _, e := range pc.Edges {
			if e.Role == pattern.Fold {
				return pc
			}
		}
	}
	return nil
}

// frameEdge returns the edge of the frame that lies in a line of that kind.
func frameEdge(p pattern.Pattern, kind pattern.LineKind) *edgeOf {
	f := frame(p)
	if f == nil {
		return nil
	}
	for _, l := range p.Lines {
		for _, part := range l.Parts {
			if e := f.Edge(part.Edge); l.Kind == kind && part.Piece == f.Name && e != nil {
				return &edgeOf{f, e}
			}
		}
	}
	return nil
}

// hemParts returns of how many edges of the frame the hem is made.
func hemParts(p pattern.Pattern) (n int) {
	f := frame(p)
	if f == nil {
		return 0
	}
	for _, l := range p.Lines {
		for _, part := range l.Parts {
			if l.Kind == pattern.LineHem && part.Piece == f.Name {
				n++
			}
		}
	}
	return n
}

// hemLength returns the length of the hem in mm, 0 when there is none.
func hemLength(p pattern.Pattern) float64 {
	for _, l := range p.Lines {
		if l.Kind == pattern.LineHem {
			return p.Length(l.Parts)
		}
	}
	return 0
}

// spots returns where the spots lie on the mat, leaving out those that are not there.
func spots(p pattern.Pattern, list ...pattern.Spot) []geom.Point {
	var out []geom.Point
	for _, s := range list {
		if at, err := p.Find(s); err == nil {
			out = append(out, at.Mat)
		}
	}
	return out
}

// middles returns the middles of edges, named as piece and edge in turn.
func middles(p pattern.Pattern, names ...string) []geom.Point {
	var out []geom.Point
	for i := 0; i+1 < len(names); i += 2 {
		if pc, e := p.Edge(names[i], names[i+1]); e != nil {
			out = append(out, pc.Pose.Apply(e.Path.At(e.Length()/2)))
		}
	}
	return out
}

// ends returns both ends of an edge on the mat; none for nil.
func ends(e *edgeOf) []geom.Point {
	if e == nil {
		return nil
	}
	return []geom.Point{e.piece.Pose.Apply(e.edge.Path.Start()), e.piece.Pose.Apply(e.edge.Path.End())}
}

// corners returns where an edge turns sharply, on the mat; none for nil.
func corners(e *edgeOf) []geom.Point {
	if e == nil {
		return nil
	}
	var out []geom.Point
	for _, s := range e.edge.Path.Corners(leastKink) {
		out = append(out, e.piece.Pose.Apply(e.edge.Path.At(s)))
	}
	return out
}

// straight reports whether a path lies within a hair of the line between its ends.
func straight(path geom.Path) bool {
	line, err := geom.NewLine(path.Start(), path.End())
	if err != nil {
		return false
	}
	for _, q := range path.Flatten(near / 10) {
		if d := line.Distance(q); d > near || d < -near {
			return false
		}
	}
	return true
}

// box returns the extent of a piece on the mat.
func box(pc *pattern.Piece) geom.Box {
	b := geom.NoBox()
	for i := range pc.Edges {
		b = b.Union(pc.Edges[i].Path.Transform(pc.Pose).Bounds())
	}
	return b
}

// within returns the middle of the longest upright stretch of a piece half way
// across it on the mat: the middle of its box may lie in a hollow.
func within(pc *pattern.Piece) geom.Point {
	const rows = 48
	b := box(pc)
	at := b.Center()
	outline, err := pc.Outline()
	if err != nil {
		return at
	}
	outline = outline.Transform(pc.Pose)
	row := func(i float64) float64 { return b.Min.Y + b.Height()*(i+0.5)/rows }
	run, longest := 0, 0
	best := at
	for i := range rows {
		if !outline.Contains(geom.Pt(at.X, row(float64(i)))) {
			run = 0
			continue
		}
		if run++; run > longest {
			longest = run
			best = geom.Pt(at.X, row(float64(i)-float64(run-1)/2))
		}
	}
	return best
}

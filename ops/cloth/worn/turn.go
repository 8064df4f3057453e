package worn

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// outlook returns the cross and dot products, weighted by length in mm, by
// which the open edges of a piece, or of its mirror image, pull it to look the
// way they look when worn.
func outlook(p pattern.Pattern, pc *pattern.Piece, mirrored bool) (cross, dot float64) {
	for _, e := range pc.Edges {
		way, weight := looking(e, kindOf(p, pc.Name, e))
		if weight == 0 {
			continue
		}
		// The outline runs counter-clockwise, so outside is at its right.
		chord := e.Path.End().Sub(e.Path.Start())
		out := geom.Pt(chord.Y, -chord.X)
		if mirrored {
			out = over(out)
		}
		cross += weight * out.Cross(way)
		dot += weight * out.Dot(way)
	}
	return cross, dot
}

// looking returns the way an open edge looks on the wearer's left, centre front
// at the left, and how much it counts against seams of the same length (our
// choice; where edges look is common practice).
func looking(e pattern.Edge, kind pattern.LineKind) (way geom.Point, weight float64) {
	half := math.Sqrt2 / 2
	switch {
	case e.Role == pattern.SeamEdge && e.Free: // where a strap is sewn on: short, and never elsewhere
		return geom.Pt(0, 1), 15
	case e.Role == pattern.Closure:
		return geom.Pt(1, 0), 0.5
	case kind == pattern.LineHem:
		return geom.Pt(0, -1), 1
	case kind == pattern.LineNeckline:
		return geom.Pt(-half, half), 0.25
	case kind == pattern.LineUnderarm:
		return geom.Pt(half, half), 0.25
	}
	return geom.Point{}, 0
}

// kindOf returns the kind of the line in which an edge lies, since an edge that
// is laid on lace or turned back may be any; one in no line goes by its role.
func kindOf(p pattern.Pattern, piece string, e pattern.Edge) pattern.LineKind {
	for _, l := range p.Lines {
		for _, pt := range l.Parts {
			if pt.Piece == piece && pt.Edge == e.Name {
				return l.Kind
			}
		}
	}
	switch e.Role {
	case pattern.Hem:
		return pattern.LineHem
	case pattern.Neckline:
		return pattern.LineNeckline
	case pattern.Underarm:
		return pattern.LineUnderarm
	}
	return ""
}

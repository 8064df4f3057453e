package cloth

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Lain is a cloth as it lies under a piece: the stretch in per cent along its
// axis and across it, and the direction of the axis in the piece's
// coordinates.
type Lain struct {
	Axis, Cross float64
	Towards     geom.Angle
}

// In returns the stretch in per cent in a direction of the piece,
// a cos² φ + c sin² φ for the angle φ from the axis: the strain in a
// direction of a sheet strained along two axes without shear (Mohr's circle
// of strain, any handbook of the strength of materials).
func (l Lain) In(direction geom.Angle) float64 {
	sin, cos := math.Sincos(float64(direction - l.Towards))
	return l.Axis*cos*cos + l.Cross*sin*sin
}

// Least and Most return the smallest and the greatest stretch in any direction.
func (l Lain) Least() float64 { return min(l.Axis, l.Cross) }

// Most returns the greatest stretch in any direction.
func (l Lain) Most() float64 { return max(l.Axis, l.Cross) }

// Lay tells how a cloth lies under a piece: a lace with its border along the
// piece's longest lace edge; another cloth by the arrow, which is its selvedge
// for the grain, and the direction of its greatest or least stretch otherwise.
func (g Goods) Lay(c Cloth, pc *pattern.Piece) Lain {
	along, across := g.Stretch(c)
	arrow := pc.Arrow.To.Sub(pc.Arrow.From).Direction()
	if e := LaceEdge(pc); e != nil && c.Lace != nil {
		return Lain{along, across, e.Path.End().Sub(e.Path.Start()).Direction()}
	}
	most, least := max(along, across), min(along, across)
	switch pc.Arrow.Kind {
	case pattern.MostStretch:
		return Lain{most, least, arrow}
	case pattern.LeastStretch:
		return Lain{least, most, arrow}
	}
	return Lain{along, across, arrow}
}

// LaceEdge returns the longest edge of a piece that lies on a border, or nil.
func LaceEdge(pc *pattern.Piece) *pattern.Edge {
	var longest *pattern.Edge
	for i := range pc.Edges {
		e := &pc.Edges[i]
		if e.Role == pattern.LaceEdge && (longest == nil || e.Length() > longest.Length()) {
			longest = e
		}
	}
	return longest
}

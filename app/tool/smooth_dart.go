package tool

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// dartTurn and dartReach are by how much, in radians and mm, a kink may differ
// from what a dart's opening makes of an edge that is fair when it is sewn.
const (
	dartTurn  = 3 * math.Pi / 180
	dartReach = 1.0
)

// fromDart reports whether a kink of a piece, at a place and by a turn, is only
// there while a dart lies open: the ends of the dart's mouth lie equally far
// from it, and it turns by as much as they stand apart seen from it, so that it
// is gone when the dart is sewn.
func fromDart(pc *pattern.Piece, at geom.Point, turn float64) bool {
	for i := range pc.Edges {
		if pc.Edges[i].Role != pattern.DartEdge || pc.Edges[pc.Prev(i)].Role == pattern.DartEdge {
			continue
		}
		last := i
		for pc.Edges[pc.Next(last)].Role == pattern.DartEdge && pc.Next(last) != i {
			last = pc.Next(last)
		}
		a, b := pc.Edges[i].Path.Start().Sub(at), pc.Edges[last].Path.End().Sub(at)
		open := math.Abs(math.Atan2(a.Cross(b), a.Dot(b)))
		if math.Abs(a.Norm()-b.Norm()) <= dartReach && math.Abs(open-math.Abs(turn)) <= dartTurn {
			return true
		}
	}
	return false
}

package cloth

import (
	"math"
	"slices"

	"truemat/ops/pattern"
)

// OneGo returns in how many stretches a chain of edges that is count times in
// the garment is sewn: two halves that meet on the fold are one.
func OneGo(p pattern.Pattern, chain []pattern.Part, count int) int {
	count = max(count, 1)
	if count%2 == 0 && slices.ContainsFunc(chain, func(pt pattern.Part) bool { return overFold(p, pt) }) {
		return count / 2
	}
	return count
}

// overFold reports whether a part of an edge runs on over the fold of its piece.
func overFold(p pattern.Pattern, pt pattern.Part) bool {
	pc, e := p.Edge(pt.Piece, pt.Edge)
	if e == nil || pc.Fold() == nil {
		return false
	}
	fold := pc.Fold().Path
	least, most := math.Min(pt.From, pt.To), math.Max(pt.From, pt.To)
	return least == 0 && e.Path.Start().Dist(fold.End()) <= onFold || most == 1 && e.Path.End().Dist(fold.Start()) <= onFold
}

package tool

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// seenTilt is in degrees how far a straight edge turns before anybody sees it:
// half a millimetre on 30 cm.
const seenTilt = 0.1

// tiltWeighs is how much a tilt counts where a proposal is chosen, in things that
// deserve a look: less than any of them.
const tiltWeighs = 0.5

// otherEndWeighs is how much it counts there that the end moves which the maker
// did not move.
const otherEndWeighs = 0.25

// tilts tells in words which straight edges that are not sewn, such as a ruled hem
// or a lace edge, would turn within their piece, and which edges would be farther
// off square at the fold than they are.
func tilts(was, is pattern.Pattern) []string {
	var told []string
	for i := range was.Pieces {
		pc := &was.Pieces[i]
		now := is.Piece(pc.Name)
		if now == nil {
			continue
		}
		for k := range pc.Edges {
			e := &pc.Edges[k]
			n := now.Edge(e.Name)
			if n == nil || e.Role == pattern.Fold || e.Role.Sewn() || !e.Path.IsStraight() {
				continue
			}
			turned := math.Abs(geom.Between(e.Path.TangentAt(0), n.Path.TangentAt(0)).Degrees())
			if turned <= seenTilt {
				continue
			}
			what := fmt.Sprintf("%s of %s", e.Name, pc.Name)
			if e.Role == pattern.LaceEdge {
				what += ", a lace edge,"
			}
			what += " by " + writtenAngle(turned)
			if off, before := offFold(now, n.Name), offFold(pc, e.Name); off > before+seenTilt {
				what += fmt.Sprintf(", to %s off square at the fold", writtenAngle(off))
			}
			told = append(told, what)
		}
	}
	return told
}

// offFold returns by how many degrees an edge misses the right angle at the fold
// of its piece, 0 when it does not meet it.
func offFold(pc *pattern.Piece, edge string) float64 {
	fold := pc.Fold()
	if fold == nil {
		return 0
	}
	i, f := pc.EdgeIndex(edge), pc.EdgeIndex(fold.Name)
	path := pc.Edges[i].Path
	dir := path.TangentAt(0)
	switch {
	case pc.Next(i) == f:
		dir = path.TangentBefore(path.Length())
	case pc.Prev(i) != f:
		return 0
	}
	return math.Abs(math.Abs(geom.Between(fold.Path.TangentAt(0), dir).Degrees()) - 90)
}

package tool

import (
	"math"
	"slices"

	"truemat/geom"
)

// begin is where in all the keys begin: after the end that is chosen, else at
// the one where the table marks a place, else at the one nearest to what is
// selected, else at the first.
func (t *True) begin(all []seamEnd) int {
	if i := slices.IndexFunc(all, func(s seamEnd) bool { return s.seam == t.seam && s.end == t.end }); i >= 0 {
		return (i + 1) % len(all)
	}
	if i := atMarks(all, t.marks()); i >= 0 {
		return i
	}
	return max(t.nearestTo(all, t.selected(Ask{Kind: OnAnything})), 0)
}

// atMarks returns the first of the ends that lies at all marks, with either of its
// sides; -1 when none does.
func atMarks(all []seamEnd, marks []geom.Point) int {
	if len(marks) == 0 {
		return -1
	}
	return slices.IndexFunc(all, func(s seamEnd) bool {
		for _, at := range marks {
			if min(s.sides[0].At.Dist(at), s.sides[1].At.Dist(at)) > markReach {
				return false
			}
		}
		return true
	})
}

// nearestTo returns the first of the ends that are nearest to a thing, on its
// piece; -1 when none is there. Of an edge all is equally near, what is sewn
// along it before what it only touches.
func (t *True) nearestTo(all []seamEnd, thing Pointing) int {
	best, least := -1, math.Inf(1)
	pc, e := t.pattern().Edge(thing.Piece, thing.Edge)
	for i, s := range all {
		for _, side := range s.sides {
			if side.Piece != thing.Piece {
				continue
			}
			d := 0.0
			switch {
			case thing.Kind == OnPiece:
			case thing.Kind != OnEdge || e == nil:
				d = side.At.Dist(thing.At)
			case side.Edge != thing.Edge:
				d = nearestOn(pc, e, side.At).Dist + sewnFirst
			}
			if d < least-samePlace {
				best, least = i, d
			}
		}
	}
	return best
}

// sewnFirst is how much nearer in mm an edge counts to the ends of its own seam.
const sewnFirst = 1

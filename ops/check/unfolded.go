package check

import (
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// unfoldedOnly reports whether a piece is a half on the fold laid open and
// nothing else: its edges and notches are those of the half, and on the other
// side of the fold their mirror images. The garment is the same then.
func unfoldedOnly(was, is *pattern.Piece) bool {
	fold := was.Fold()
	if fold == nil || is.Fold() != nil || len(is.Edges) != 2*(len(was.Edges)-1) || len(is.Notches) != 2*len(was.Notches) {
		return false
	}
	over, err := geom.Mirror(fold.Path.Start(), fold.Path.End())
	if err != nil {
		return false
	}
	for i := range was.Edges {
		e := &was.Edges[i]
		if e.Name == fold.Name {
			continue
		}
		own := is.Edge(e.Name)
		if own == nil || own.Allowance != e.Allowance || !runsAs(own.Path, e.Path) {
			return false
		}
		image := e.Path.Transform(over).Reverse()
		if !slices.ContainsFunc(is.Edges, func(o pattern.Edge) bool {
			return o.Name != e.Name && o.Allowance == e.Allowance && runsAs(o.Path, image)
		}) {
			return false
		}
	}
	for _, n := range was.Notches {
		if now := is.Notch(n.Name); now == nil || *now != n {
			return false
		}
	}
	return true
}

// runsAs reports whether two paths run through the same places, to the
// rounding of a mirroring.
func runsAs(a, b geom.Path) bool {
	if math.Abs(a.Length()-b.Length()) > sameRun {
		return false
	}
	for k := range 9 {
		if a.At(a.Length()*float64(k)/8).Dist(b.At(b.Length()*float64(k)/8)) > sameRun {
			return false
		}
	}
	return true
}

// sameRun is in mm far under what can be cut, over that rounding.
const sameRun = 1e-6

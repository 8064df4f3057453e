package border

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/slice"
	"truemat/ops/pattern"
)

// Plan is a way of laying pieces on a lace.
type Plan struct {
	Lace   cloth.Cloth
	Placed []Placed
	// Length is how much of the lace it takes, in mm, from the leftmost place
	// of a piece to the rightmost.
	Length float64
	// Origin is the x of a motif point of the first border, in [0, repeat).
	Origin float64
	// Least says that no plan with these pieces, places in the motif and
	// spacing is shorter.
	Least bool
}

// Placed is a piece laid on the lace.
type Placed struct {
	Cut
	Second bool        // on the second border
	X      float64     // of the held spot, from the left end of the length used
	Motion geom.Motion // from the piece's coordinates to the length used
}

// Outline returns the cut line on the lace.
func (p Placed) Outline() geom.Path {
	return p.Cut.Outline.Transform(p.Cut.Lay.Inverse().Then(p.Motion))
}

// way is a cut piece on one of the borders.
type way struct {
	cut, kind int         // which cut, and which kind of cut: equal ones share a kind
	second    bool        // border
	onto      geom.Motion // from its place at x = 0 of the first border
	phase     float64     // of its held spot, in [0, repeat)
	profile   slice.Profile
}

// ways returns how each cut may be laid: on the first border as it is; on the
// second turned half round, when the lace has one. On the second border the
// motif is that of the first turned over, and moved along when it is shifted.
func ways(lace cloth.Cloth, cuts []Cut) [][]way {
	l := lace.Lace
	half := geom.Turn(math.Pi, geom.Pt(0, lace.Usable()/2))
	out := make([][]way, len(cuts))
	for i, c := range cuts {
		kind := slices.IndexFunc(cuts[:i], func(o Cut) bool {
			return o.Piece == c.Piece && o.Hand == c.Hand && o.Held == c.Held && o.Motif == c.Motif
		})
		if kind < 0 {
			kind = i
		}
		sign := 1.0
		if c.Hand == Mirrored {
			sign = -1
		}
		out[i] = []way{{cut: i, kind: kind, onto: geom.Identity(), phase: cycle(sign*c.Motif, l.Repeat), profile: slice.Of(c.Outline, geom.Identity())}}
		if l.Both {
			shift := 0.0
			if l.Second == cloth.Shifted {
				shift = l.Shift
			}
			out[i] = append(out[i], way{cut: i, kind: kind, second: true, onto: half, phase: cycle(shift-sign*c.Motif, l.Repeat), profile: slice.Of(c.Outline, half)})
		}
	}
	return out
}

// cycle returns v in [0, repeat).
func cycle(v, repeat float64) float64 {
	v = math.Mod(v, repeat)
	if v < 0 {
		v += repeat
	}
	if v >= repeat-phaseSlack {
		return 0
	}
	return v
}

// phaseSlack is the difference in mm that rounding makes to a place in the motif.
const phaseSlack = 1e-9

// next returns the first place at x or beyond that has the phase.
func next(x, phase, repeat float64) float64 {
	return phase + repeat*math.Ceil((x-phase)/repeat-phaseSlack)
}

// Of lays on a lace what the goods say, or every piece with a lace edge that is
// cut from it.
func Of(g cloth.Goods, lace cloth.Cloth, p pattern.Pattern) (Plan, error) {
	on := g.OnLaceOf(lace.Name, p)
	cuts, err := Cuts(p, lace, on.Wishes)
	if err != nil {
		return Plan{}, err
	}
	return Lay(lace, cuts, on.Gap)
}

// Lay returns the shortest plan found for the pieces, their cut lines gap mm
// apart.
//
// It is exact for a handful of pieces, and says so: pieces that do not overlap can be
// ordered so that none has an earlier one on its right in any slice across
// the lace (slices of one piece being intervals), and moved left in that
// order as far as the motif lets them; so some order, with the borders tried
// both ways and the left end tried at every piece, gives the least length.
// More pieces are laid by search from the greedy plan on, which it is never
// longer than. A spot whose place in the motif is free is tried at a number
// of places in the repeat, left and right hand mirrored; such a plan is the
// best of those.
func Lay(lace cloth.Cloth, cuts []Cut, gap float64) (Plan, error) {
	switch {
	case lace.Lace == nil:
		return Plan{}, fmt.Errorf("cloth %q has no border to lay pieces on", lace.Name)
	case !(gap >= 0 && gap < lace.Width):
		return Plan{}, fmt.Errorf("pieces are to keep %g mm apart; give 0 or more, below the width of the lace", gap)
	case len(cuts) == 0:
		return Plan{Lace: lace, Least: true}, nil
	}
	return settleMotif(lace, cuts, gap), nil
}

// laid is a plan in the making: ways in order, with their places.
type laid struct {
	ways []way
	x    []float64
	span float64
}

// plan returns what was laid, moved so that its left end is at x = 0 of the plan.
func (l laid) plan(lace cloth.Cloth, cuts []Cut, least bool) Plan {
	start := math.Inf(1)
	for i, w := range l.ways {
		start = min(start, l.x[i]+w.profile.Min)
	}
	p := Plan{Lace: lace, Length: l.span, Origin: cycle(-start, lace.Lace.Repeat), Least: least, Placed: make([]Placed, len(cuts))}
	for i, w := range l.ways {
		c := cuts[w.cut]
		p.Placed[w.cut] = Placed{Cut: c, Second: w.second, X: l.x[i] - start, Motion: c.Lay.Then(w.onto).Then(geom.Shift(geom.Pt(l.x[i]-start, 0)))}
	}
	return p
}

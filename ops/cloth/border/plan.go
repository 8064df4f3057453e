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
	Gap    float64 // mm between cut lines
	Placed []Placed
	// Length is how much of the lace it takes, in mm, from the leftmost place
	// of a piece to the rightmost.
	Length float64
	// Start is where the length used begins, in mm along the lace from a motif
	// point of the first border.
	Start float64
	// Least says that no plan with these pieces, places in the motif, spacing
	// and places by hand is shorter.
	Least bool
}

// Origin returns the x of a motif point of the first border, in [0, repeat),
// from the left end of the length used.
func (p Plan) Origin() float64 { return cycle(-p.Start, p.Lace.Lace.Repeat) }

// Placed is a piece laid on the lace.
type Placed struct {
	Cut
	Second bool        // on the second border
	ByHand bool        // where she laid it
	At     float64     // of the held spot along the lace, from a motif point of the first border
	X      float64     // of the held spot, from the left end of the length used
	Motion geom.Motion // from the piece's coordinates to the length used

	ways []way
}

// way returns how it lies.
func (p Placed) way() way {
	i := slices.IndexFunc(p.ways, func(w way) bool { return w.second == p.Second })
	return p.ways[max(i, 0)]
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
	at        float64 // where it was laid by hand, NaN when it is free
}

func (w way) byHand() bool { return !math.IsNaN(w.at) }

// ways returns how each cut may be laid: on the first border as it is; on the
// second turned half round, when the lace has one. On the second border the
// motif is that of the first turned over, and moved along when it is shifted.
// A piece that was laid by hand has one way.
func ways(lace cloth.Cloth, cuts []Cut, by []hold) [][]way {
	out := make([][]way, len(cuts))
	for i, c := range cuts {
		kind := i
		for k := i - 1; k >= 0 && !by[i].held; k-- {
			if o := cuts[k]; !by[k].held && o.Piece == c.Piece && o.Hand == c.Hand && o.Motif == c.Motif {
				kind = k
			}
		}
		for _, w := range waysOf(lace, c) {
			w.cut, w.kind, w.at = i, kind, math.NaN()
			if by[i].held {
				if w.second != by[i].second {
					continue
				}
				w.at = by[i].at
			}
			out[i] = append(out[i], w)
		}
	}
	return out
}

func waysOf(lace cloth.Cloth, c Cut) []way {
	l := lace.Lace
	out := []way{{onto: geom.Identity(), phase: phase(l, c, false), profile: c.profiles[0]}}
	if l.Both {
		out = append(out, way{second: true, onto: halfRound(lace), phase: phase(l, c, true), profile: c.profiles[1]})
	}
	return out
}

func halfRound(lace cloth.Cloth) geom.Motion {
	return geom.Turn(math.Pi, geom.Pt(0, lace.Usable()/2))
}

// sliced returns the cuts with their profiles on both borders, and by how much
// each must lie right of each other one: two rows and columns for each cut.
func sliced(lace cloth.Cloth, cuts []Cut, gap float64) ([]Cut, [][]float64) {
	cuts = slices.Clone(cuts)
	var all []slice.Profile
	for i := range cuts {
		c := &cuts[i]
		c.profiles = [2]slice.Profile{slice.Of(c.Outline, geom.Identity()), slice.Of(c.Outline, halfRound(lace))}
		all = append(all, c.profiles[:]...)
	}
	apart := make([][]float64, len(all))
	for i, p := range all {
		apart[i] = make([]float64, len(all))
		p = p.Grown(gap)
		for k, q := range all {
			apart[i][k] = p.Apart(q)
		}
	}
	return cuts, apart
}

// index is the row of a way in what sliced returns.
func (w way) index() int {
	if w.second {
		return 2*w.cut + 1
	}
	return 2 * w.cut
}

// phase returns where in the repeat the held spot of a cut lies on a border.
func phase(l *cloth.Lace, c Cut, second bool) float64 {
	if second {
		return cycle(l.Shift-c.sign()*c.Motif, l.Repeat)
	}
	return cycle(c.sign()*c.Motif, l.Repeat)
}

// motif is the place in the motif of a cut that is held at a place of the lace.
func motif(l *cloth.Lace, c Cut, second bool, at float64) float64 {
	if second {
		at = l.Shift - at
	}
	return cycle(c.sign()*at, l.Repeat)
}

// sign is −1 for a cut that is turned over, which sees the motif turned over.
func (c Cut) sign() float64 {
	if c.Hand == Mirrored {
		return -1
	}
	return 1
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
// cut from it; what she laid by hand for the size stays where it is.
func Of(g cloth.Goods, lace cloth.Cloth, p pattern.Pattern, size string) (Plan, error) {
	on := g.OnLaceOf(lace.Name, p)
	cuts, err := Cuts(p, lace, on.Wishes)
	if err != nil {
		return Plan{}, err
	}
	places := on.In(size)
	if _, err := newJob(lace, cuts, on.Gap, places); err != nil {
		places = cloth.Firm(places)
	}
	return Lay(lace, cuts, on.Gap, places)
}

// All returns the plans of all laces that a piece of the pattern is laid on.
func All(g cloth.Goods, p pattern.Pattern, size string) ([]Plan, error) {
	var out []Plan
	for _, c := range g.Cloths {
		if c.Lace == nil || len(g.OnLaceOf(c.Name, p).Wishes) == 0 {
			continue
		}
		plan, err := Of(g, c, p, size)
		if err != nil {
			return nil, err
		}
		out = append(out, plan)
	}
	return out, nil
}

// Lay returns the shortest plan found for the pieces, their cut lines gap mm
// apart, those that were laid by hand where they were laid. It refuses pieces
// laid by hand over each other, or left and right on places of the motif that
// do not mirror each other.
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
func Lay(lace cloth.Cloth, cuts []Cut, gap float64, byHand []cloth.Place) (Plan, error) {
	switch {
	case lace.Lace == nil:
		return Plan{}, fmt.Errorf("cloth %q has no border to lay pieces on", lace.Name)
	case !(gap >= 0 && gap < lace.Width):
		return Plan{}, fmt.Errorf("pieces are to keep %g mm apart; give 0 or more, below the width of the lace", gap)
	case len(cuts) == 0:
		return Plan{Lace: lace, Gap: gap, Least: true}, nil
	}
	t, err := newJob(lace, cuts, gap, byHand)
	if err != nil {
		return Plan{}, err
	}
	return t.settleMotif(), nil
}

// Fits tells, as Of does but at once, what is wrong with how the goods say that
// pieces lie on a lace.
func Fits(g cloth.Goods, lace cloth.Cloth, p pattern.Pattern, size string) error {
	on := g.OnLaceOf(lace.Name, p)
	cuts, err := Cuts(p, lace, on.Wishes)
	if err != nil {
		return err
	}
	_, err = newJob(lace, cuts, on.Gap, cloth.Firm(on.In(size)))
	return err
}

func newJob(lace cloth.Cloth, cuts []Cut, gap float64, byHand []cloth.Place) (job, error) {
	cuts, by, err := settle(lace, cuts, byHand)
	if err != nil {
		return job{}, err
	}
	t := job{lace: lace, gap: gap, by: by}
	t.cuts, t.apart = sliced(lace, cuts, gap)
	return t, t.held().Wrong()
}

// job is what is to be laid.
type job struct {
	lace  cloth.Cloth
	cuts  []Cut
	gap   float64
	by    []hold
	apart [][]float64 // of sliced
}

// laid is a plan in the making: ways in order, with their places.
type laid struct {
	ways []way
	x    []float64
	span float64
}

// plan returns what was laid.
func (l laid) plan(t job, least bool) Plan {
	p := Plan{Lace: t.lace, Gap: t.gap, Least: least, Placed: make([]Placed, len(t.cuts))}
	for i, w := range l.ways {
		c := t.cuts[w.cut]
		p.Placed[w.cut] = Placed{Cut: c, Second: w.second, ByHand: t.by[w.cut].held && !t.by[w.cut].loose, At: l.x[i], ways: waysOf(t.lace, c)}
	}
	p.measure()
	if !slices.ContainsFunc(t.by, func(h hold) bool { return h.held }) {
		// Any motif point of the lace may be the first.
		whole := p.Lace.Lace.Repeat * math.Floor(p.Start/p.Lace.Lace.Repeat)
		for i := range p.Placed {
			p.Placed[i].At -= whole
		}
		p.measure()
	}
	return p
}

// measure finds the ends of the length used, and where the pieces lie in it.
func (p *Plan) measure() {
	left, right := math.Inf(1), math.Inf(-1)
	for _, o := range p.Placed {
		w := o.way()
		left, right = min(left, o.At+w.profile.Min), max(right, o.At+w.profile.Max)
	}
	p.Start, p.Length = left, right-left
	for i := range p.Placed {
		o := &p.Placed[i]
		o.X = o.At - left
		o.Motion = o.Cut.Lay.Then(o.way().onto).Then(geom.Shift(geom.Pt(o.X, 0)))
	}
}

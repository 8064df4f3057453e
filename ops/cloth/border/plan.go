package border

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/cloth"
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
	// Least says that no plan with these pieces, places in the motif that were
	// chosen, spacing and places by hand is shorter.
	Least bool
	// Without names the pieces that are cut from the lace too, but not laid.
	Without []string

	table table
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
	shape     int         // its row in the table
	reach     span        // leftmost and rightmost place, from its held spot
	at        float64     // where it was laid by hand, NaN when it is free
}

func (w way) byHand() bool { return !math.IsNaN(w.at) }

// ways returns how each cut may be laid: on the first border as it is; on the
// second turned half round, when the lace has one; where the scallops are too
// shallow for it, not. On the second border the
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
	var out []way
	if c.liesOn(l, false) {
		out = append(out, way{onto: geom.Identity(), phase: phase(l, c, false), shape: c.shape, reach: c.reach})
	}
	if c.liesOn(l, true) {
		out = append(out, way{second: true, onto: halfRound(lace), phase: phase(l, c, true), shape: c.shape + 1, reach: span{-c.reach.to, -c.reach.from}})
	}
	return out
}

func halfRound(lace cloth.Cloth) geom.Motion {
	return geom.Turn(math.Pi, geom.Pt(0, lace.Usable()/2))
}

// table tells of each two shapes on the lace by how much the second may not lie
// right of the first.
type table [][][]span

// compared returns the cuts with what they take of the lace, and how they may lie
// to each other: equal cuts share a shape on the first border and the next one
// on the second.
func compared(lace cloth.Cloth, cuts []Cut, gap float64) ([]Cut, table) {
	cuts = slices.Clone(cuts)
	var all []ring
	for i := range cuts {
		c := &cuts[i]
		if k := slices.IndexFunc(cuts[:i], func(o Cut) bool { return o.Piece == c.Piece && o.Hand == c.Hand }); k >= 0 {
			c.shape, c.reach = cuts[k].shape, cuts[k].reach
			continue
		}
		c.shape = len(all)
		all = append(all, ringOf(c.Outline, geom.Identity()), ringOf(c.Outline, halfRound(lace)))
		c.reach = all[c.shape].ends()
	}
	t := make(table, len(all))
	for i := range t {
		t[i] = make([][]span, len(all))
	}
	for i, p := range all {
		for k := i; k < len(all); k++ {
			t[i][k] = taken(p, all[k], gap)
			t[k][i] = reversed(t[i][k])
		}
	}
	return cuts, t
}

// reversed returns ranges seen from the other one.
func reversed(list []span) []span {
	out := make([]span, len(list))
	for i, s := range list {
		out[len(list)-1-i] = span{-s.to, -s.from}
	}
	return out
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
	return max(v, 0) // no −0
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
	plan, err := Lay(lace, cuts, on.Gap, places)
	plan.Without = without(g, lace, p, on.Wishes)
	return plan, err
}

// without names the pieces that are cut from a lace but not wished on it.
func without(g cloth.Goods, lace cloth.Cloth, p pattern.Pattern, wishes []cloth.Wish) []string {
	var out []string
	for _, pc := range p.Pieces {
		if g.Cuts(pc.Name, lace.Name) && !slices.ContainsFunc(wishes, func(w cloth.Wish) bool { return w.Piece == pc.Name }) {
			out = append(out, pc.Name)
		}
	}
	return out
}

// Lacks says which pieces are cut from the lace but not laid on it, so that its
// length lacks them; empty when none are.
func (p Plan) Lacks() string {
	if len(p.Without) == 0 {
		return ""
	}
	names := strings.Join(p.Without, " and ")
	return fmt.Sprintf("%s cut from %q too, but not laid on its border: more of it is to be bought; give an edge of %s the role lace edge, or name the edge for the plan", names+map[bool]string{true: " is", false: " are"}[len(p.Without) == 1], p.Lace.Name, names)
}

// AsLaid returns the plan that Of refuses because pieces that she laid by hand
// lie over each other, as after an alteration: all of those where they were laid,
// the rest beside them.
func AsLaid(g cloth.Goods, lace cloth.Cloth, p pattern.Pattern, size string) (Plan, error) {
	on := g.OnLaceOf(lace.Name, p)
	cuts, err := Cuts(p, lace, on.Wishes)
	if err != nil {
		return Plan{}, err
	}
	t, err := settled(lace, cuts, on.Gap, on.In(size))
	if err != nil {
		return Plan{}, err
	}
	f := newSearcher(t)
	f.greedy()
	return f.best.plan(t, false), nil
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
// Cut lines are polygons that miss their curves by at most a hundredth of a
// millimetre; a piece may lie in the hollow of another. All plans of a handful of
// pieces are gone through (see prover), places in the motif that are free
// included, and the plan says so. More pieces are laid by search from greedy
// plans on, which it is never longer than; a spot whose place in the motif is
// free is then tried at a number of places in the repeat, left and right hand
// mirrored.
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
	return t.shortest(), nil
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

// newJob refuses pieces that were laid by hand over each other.
func newJob(lace cloth.Cloth, cuts []Cut, gap float64, byHand []cloth.Place) (job, error) {
	t, err := settled(lace, cuts, gap, byHand)
	if err != nil {
		return job{}, err
	}
	return t, t.held().Wrong()
}

func settled(lace cloth.Cloth, cuts []Cut, gap float64, byHand []cloth.Place) (job, error) {
	cuts, by, err := settle(lace, cuts, byHand)
	if err != nil {
		return job{}, err
	}
	t := job{lace: lace, gap: gap, by: by}
	t.cuts, t.table = compared(lace, cuts, gap)
	return t, nil
}

// job is what is to be laid.
type job struct {
	lace  cloth.Cloth
	cuts  []Cut
	gap   float64
	by    []hold
	table table
}

// laid is a plan in the making: ways in order, with their places.
type laid struct {
	ways []way
	x    []float64
	span float64
}

// plan returns what was laid.
func (l laid) plan(t job, least bool) Plan {
	p := Plan{Lace: t.lace, Gap: t.gap, Least: least, table: t.table, Placed: make([]Placed, len(t.cuts))}
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
		left, right = min(left, o.At+w.reach.from), max(right, o.At+w.reach.to)
	}
	p.Start, p.Length = left, right-left
	for i := range p.Placed {
		o := &p.Placed[i]
		o.X = o.At - left
		o.Motion = o.Cut.Lay.Then(o.way().onto).Then(geom.Shift(geom.Pt(o.X, 0)))
	}
}

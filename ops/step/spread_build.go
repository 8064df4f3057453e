package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// spreading is a plan carried out by given angles.
type spreading struct {
	p     *slashPlan
	r     *redraw
	o     *outline
	turns []geom.Angle
	gaps  []gap
	darts []pattern.Seam
	step  float64
	// hinges lie within edges.
	hinges []hingeIn
}

// gap is a place on the outline where a cut opens by turn, or closes below 0.
type gap struct {
	line  *slashLine
	turn  geom.Angle
	until float64 // where on the ring the paper that is folded away ends
	leg   geom.Point
	name  string // of the dart to leave there
}

// build cuts, turns the parts and puts the outline together anew.
func (p *slashPlan) build(turns []geom.Angle) (*spreading, error) {
	b := &spreading{p: p, r: newRedraw(p.all), turns: turns}
	var err error
	if b.o, err = b.r.piece(p.old.Name); err != nil {
		return nil, err
	}
	if err := b.findGaps(); err != nil {
		return nil, err
	}
	kept, err := b.parts()
	if err != nil {
		return nil, err
	}
	mends, err := b.join(kept)
	if err != nil {
		return nil, err
	}
	return b, b.mend(mends)
}

// edgeOf returns the edge of that name as it is now, or nil.
func (b *spreading) edgeOf(name string) *pattern.Edge {
	for i := range b.o.runs {
		if b.o.runs[i].edge.Name == name {
			return &b.o.runs[i].edge
		}
	}
	return nil
}

// folds reports whether the dart closes entirely.
func (b *spreading) folds() bool {
	return b.p.dart != nil && math.Abs(float64(b.total()-b.p.dart.angle)) <= 1e-9
}

func (b *spreading) total() geom.Angle {
	sum := geom.Angle(0)
	for _, t := range b.turns {
		sum += t
	}
	return sum
}

func (b *spreading) findGaps() error {
	p := b.p
	for i := range p.slashes {
		g := gap{line: &p.slashes[i], turn: b.turns[i]}
		if math.Abs(float64(g.turn)) > float64(mostTurn) {
			return fmt.Errorf("the slash from %s would turn a part of %s by %.1f degrees, more than %.0f; use a smaller amount, or share it over several slashes", g.line.name, p.old.Name, math.Abs(g.turn.Degrees()), mostTurn.Degrees())
		}
		if d := p.spread.Dart; d != nil && g.turn > 0 {
			if g.name = d.Name; i > 0 {
				g.name += fmt.Sprint(" ", i+1)
			}
			if g.line.onRim && p.short < leastEdge && !b.folds() {
				return fmt.Errorf("a dart to the hinge of the slash from %s would cut %s apart, since the hinge lies on the outline; keep its point short of it by %q", g.line.name, p.old.Name, "short")
			}
			if p.short > g.line.radius()-leastEdge {
				return fmt.Errorf("the slash from %s is %.4g mm long; a dart whose point stays %.4g mm short of the hinge has no room there", g.line.name, g.line.radius(), p.short)
			}
		}
		b.gaps = append(b.gaps, g)
	}
	if p.closing != nil {
		b.gaps = append(b.gaps, gap{line: p.closing, turn: -b.total()})
	}
	if d := p.dart; d != nil && !b.folds() {
		switch {
		case b.total() > d.angle:
			return fmt.Errorf("dart %q holds %.2f degrees and cannot close by %.2f; use a smaller amount", d.name, d.angle.Degrees(), b.total().Degrees())
		case !d.apex:
			return fmt.Errorf("dart %q closes by %.2f of its %.2f degrees; a dart that closes in part turns about its own point: leave the hinge away, or close it entirely", d.name, b.total().Degrees(), d.angle.Degrees())
		}
	}
	for i := range b.gaps {
		if b.gaps[i].turn < 0 {
			if err := b.foldAway(&b.gaps[i]); err != nil {
				return err
			}
		}
	}
	for i, g := range b.gaps {
		for j, other := range b.gaps {
			if d := p.reach(g.line.at, other.line.at); i != j && g.turn < 0 && d < p.reach(g.line.at, g.until)+placeSlack {
				return fmt.Errorf("closing at %s folds away the place from which the slash from %s begins; use a smaller amount or other places", g.line.name, other.line.name)
			}
		}
	}
	return nil
}

// foldAway finds where the second line of a slash that closes meets the edge.
func (b *spreading) foldAway(g *gap) error {
	p, l := b.p, g.line
	e := p.old.Edge(l.edge)
	dir := geom.Turn(-g.turn, geom.Point{}).Vector(l.from.Sub(l.pivot))
	for _, x := range e.Path.CrossLine(l.pivot, dir) {
		if x.T > 0 && x.S > l.s+placeSlack {
			if x.S > e.Length()-leastEdge {
				break
			}
			g.until, g.leg = p.place(l.edge, x.S), x.Point
			b.step = max(b.step, math.Abs(x.Point.Dist(l.pivot)-l.radius()))
			return nil
		}
	}
	return fmt.Errorf("closing the slash from %s by %.2f degrees folds away more than the rest of %s of %s; use a smaller amount, or begin further from its end", l.name, -g.turn.Degrees(), l.edge, p.old.Name)
}

// mostTurn is the greatest angle that one slash opens or closes by (our own
// bound: beyond it no paper lies beside the other).
const mostTurn = 90 * geom.Degree

// motion returns how the part with a place on the ring, or in the piece when
// regions are given, turns: the innermost cut first.
func (b *spreading) motion(turns func(l *slashLine) bool) geom.Motion {
	p := b.p
	type act struct {
		arc float64
		m   geom.Motion
	}
	var acts []act
	for i := range p.slashes {
		l := &p.slashes[i]
		if b.turns[i] == 0 || !turns(l) {
			continue
		}
		_, length := p.arc(l)
		angle := b.turns[i]
		if !l.forward {
			angle = -angle
		}
		acts = append(acts, act{length, geom.Turn(angle, l.pivot)})
	}
	slices.SortStableFunc(acts, func(a, b act) int {
		switch {
		case a.arc < b.arc:
			return -1
		case a.arc > b.arc:
			return 1
		}
		return 0
	})
	m := geom.Identity()
	for _, a := range acts {
		m = m.Then(a.m)
	}
	return m
}

// part is a stretch of an old edge that is kept, where it lies now.
type part struct {
	run
	at    float64 // its start on the old ring
	stop  float64 // the first old stop on it, mm from its start
	after *gap    // the gap just before it
	hinge bool    // it starts at a hinge within its edge
}

// parts cuts the outline at every event and turns what is kept.
func (b *spreading) parts() ([]part, error) {
	p, o := b.p, b.o
	cut := func(at float64) error {
		at = p.reach(0, at)
		i := len(p.starts) - 1
		for i > 0 && p.starts[i] > at+placeSlack {
			i--
		}
		_, err := o.cut(p.old.Edges[i].Name, min(max(at-p.starts[i], 0), p.old.Edges[i].Length()))
		return err
	}
	for _, at := range p.events() {
		if err := cut(at); err != nil {
			return nil, err
		}
	}
	for _, g := range b.gaps {
		if err := cut(g.line.at); err != nil {
			return nil, err
		}
		if g.turn < 0 {
			if err := cut(g.until); err != nil {
				return nil, err
			}
		}
	}
	var kept []part
	for i, r := range o.runs {
		t := r.traces[0]
		k := part{run: r, at: p.place(t.edge, t.from), stop: r.edge.Length()}
		middle := p.place(t.edge, (t.from+t.to)/2)
		if b.folded(t.edge, middle) {
			continue
		}
		if stops := o.stops(i); len(stops) > 0 {
			k.stop = stops[0]
		}
		for j := range b.gaps {
			g := &b.gaps[j]
			at := g.line.at
			if g.turn < 0 {
				at = g.until
			}
			if g.turn != 0 && b.same(at, k.at) {
				k.after = g
			}
		}
		for j := range p.slashes {
			if l := &p.slashes[j]; l.onRim && t.from > placeSlack && b.same(l.other, k.at) {
				k.hinge = true
			}
		}
		k.edge.Path = r.edge.Path.Transform(b.motion(func(l *slashLine) bool { return p.turnsAt(l, middle) }))
		kept = append(kept, k)
	}
	return kept, nil
}

// same reports whether two places on the ring are one.
func (b *spreading) same(s, t float64) bool {
	d := b.p.reach(s, t)
	return d <= placeSlack || d >= b.p.ring.Length()-placeSlack
}

// folded reports whether a place is on paper that is folded away.
func (b *spreading) folded(edge string, at float64) bool {
	if d := b.p.dart; d != nil && b.folds() && (edge == d.first || edge == d.second) {
		return true
	}
	for _, g := range b.gaps {
		if g.turn < 0 && b.p.reach(g.line.at, at) < b.p.reach(g.line.at, g.until) {
			return true
		}
	}
	return false
}

package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
)

// close finds what closes and ties the slashes to it.
func (p *slashPlan) close() error {
	s := p.spread
	inner := slices.ContainsFunc(p.slashes, func(l slashLine) bool { return !l.onRim })
	switch {
	case s.Close == nil && !inner:
		return nil
	case s.Close == nil:
		return fmt.Errorf("the hinge lies inside %s, where paper opens only as much as closes elsewhere; name a slash or a dart to close by %q, or lay the hinge on the sew line", p.old.Name, "close")
	case s.Close.At != nil && s.Close.Dart != "":
		return fmt.Errorf("on %s either a slash closes or a dart, not both", p.old.Name)
	case s.Close.At == nil && p.dart == nil:
		return fmt.Errorf(`say what closes on %s: a slash from a spot by "at", or a dart by the name of its seam by "dart"`, p.old.Name)
	}
	first := &p.slashes[0]
	for i := range p.slashes {
		if l := &p.slashes[i]; l.pivot.Dist(first.pivot) > placeSlack {
			return fmt.Errorf("the slashes on %s have different hinges; about what closes by the same angle all turn about one", p.old.Name)
		}
	}
	if p.dart != nil {
		if first.onRim && first.pivot.Dist(p.dart.point) > placeSlack {
			return fmt.Errorf("a slash that closes dart %q has its hinge at the dart's point or inside %s, not elsewhere on the sew line", s.Close.Dart, p.old.Name)
		}
		if !first.onRim {
			p.dart.about(first.pivot)
		}
		for i := range p.slashes {
			p.slashes[i].other = p.dart.at
		}
		return nil
	}
	if first.onRim {
		return fmt.Errorf("with the hinge on the sew line of %s nothing has to close; leave %q away, or lay the hinge inside the piece", p.old.Name, "close")
	}
	hinge := s.Hinge
	if hinge == nil {
		hinge = s.Slashes[0].Hinge
	}
	l, err := p.line(*s.Close.At, hinge)
	if err != nil {
		return err
	}
	p.closing = &l
	for i := range p.slashes {
		p.slashes[i].other = l.at
	}
	return nil
}

// apart refuses slashes that meet elsewhere than at one hinge.
func (p *slashPlan) apart() error {
	lines := p.lines()
	for i, a := range lines {
		for _, b := range lines[:i] {
			together := a.pivot.Dist(b.pivot) <= placeSlack
			if a.from.Dist(b.from) < leastEdge {
				return fmt.Errorf("the slashes from %s and %s begin at the same place; keep them at least %d mm apart", b.name, a.name, leastEdge)
			}
			if meet(a.from, a.pivot, b.from, b.pivot, together) {
				return fmt.Errorf("the slashes from %s and %s cross; let them run side by side, or to one hinge", b.name, a.name)
			}
		}
	}
	return nil
}

// lines returns all slashes, that which closes last.
func (p *slashPlan) lines() []*slashLine {
	var lines []*slashLine
	for i := range p.slashes {
		lines = append(lines, &p.slashes[i])
	}
	if p.closing != nil {
		lines = append(lines, p.closing)
	}
	return lines
}

// meet reports whether the straight ways from a to b and from c to d meet;
// together says that b and d are one place, at which they may.
func meet(a, b, c, d geom.Point, together bool) bool {
	u, v := b.Sub(a), d.Sub(c)
	if together {
		return math.Abs(u.Cross(v)) <= 1e-6*u.Norm()*v.Norm() && u.Dot(v) > 0
	}
	cross := u.Cross(v)
	if math.Abs(cross) <= 1e-12*u.Norm()*v.Norm() {
		return false
	}
	s, t := c.Sub(a).Cross(v)/cross, c.Sub(a).Cross(u)/cross
	return s >= 0 && s <= 1 && t >= 0 && t <= 1
}

// sides finds the part that stays put and which way the others lie.
func (p *slashPlan) sides() error {
	s, first := p.spread, p.slashes[0].at
	marks := p.events()
	switch fold := p.old.Fold(); {
	case s.Hold != nil:
		o := outline{old: p.old, all: p.all}
		at, err := o.find(*s.Hold)
		if err != nil {
			return err
		}
		p.hold = p.place(at.Edge, at.S)
		for _, m := range marks {
			if d := p.reach(m, p.hold); d <= placeSlack || d >= p.ring.Length()-placeSlack {
				return fmt.Errorf("%s, which is to stay put, lies on a slash or hinge; name a spot within one part", spotOn(*s.Hold, p.old.Name))
			}
		}
		if p.dart != nil && (at.Edge == p.dart.first || at.Edge == p.dart.second) {
			return fmt.Errorf("%s, which is to stay put, lies on the dart that closes; name a spot beside it", spotOn(*s.Hold, p.old.Name))
		}
	case fold != nil:
		p.hold = p.place(fold.Name, fold.Length()/2)
	default:
		back := p.ring.Length()
		for _, m := range marks {
			if d := p.reach(m, first); d > placeSlack {
				back = min(back, d)
			}
		}
		p.hold = p.reach(0, first-back/2)
	}
	for i := range p.slashes {
		l := &p.slashes[i]
		l.forward = true
		l.forward = !p.turnsAt(l, p.hold)
	}
	return nil
}

// events returns the places on the ring where slashes start and cuts end.
func (p *slashPlan) events() []float64 {
	var at []float64
	for i := range p.slashes {
		at = append(at, p.slashes[i].at, p.slashes[i].other)
	}
	if p.dart != nil {
		at = append(at, p.dart.mouth[0], p.dart.mouth[1])
	}
	return at
}

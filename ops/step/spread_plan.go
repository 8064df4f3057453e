package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// slashPlan is a spread with its places found in one size.
type slashPlan struct {
	spread  *Spread
	all     pattern.Pattern
	old     *pattern.Piece
	ring    geom.Path // the outline
	starts  []float64 // where each edge starts along the ring
	slashes []slashLine
	closing *slashLine // the slash that closes, when one is named
	dart    *dartIn
	hold    float64 // a place on the ring within the part that stays put

	fair, fairLength, hingeReach, short float64 // 0 when not asked for
	dartAllowance                       *float64
}

// slashLine is a slash found in one size.
type slashLine struct {
	name  string // of its start, in words
	edge  string // on which it starts
	s     float64
	at    float64    // the start along the ring
	from  geom.Point // the start
	pivot geom.Point
	// other is where on the ring the cut that it is part of ends: at its hinge,
	// at the slash that closes or at the dart.
	other float64
	onRim bool // the hinge lies on the sew line
	// far is the way round the ring that turns: forward from at, or backward.
	forward bool
}

func (l *slashLine) radius() float64 { return l.from.Dist(l.pivot) }

// reach returns how far along the ring, in its direction, b lies from a.
func (p *slashPlan) reach(a, b float64) float64 {
	d := math.Mod(b-a, p.ring.Length())
	if d < 0 {
		d += p.ring.Length()
	}
	return d
}

// arc returns the stretch of the ring that turns with a slash.
func (p *slashPlan) arc(l *slashLine) (from, length float64) {
	if l.forward {
		return l.at, p.reach(l.at, l.other)
	}
	return l.other, p.reach(l.other, l.at)
}

// turnsAt reports whether the place on the ring lies on the part that turns.
func (p *slashPlan) turnsAt(l *slashLine, at float64) bool {
	from, length := p.arc(l)
	d := p.reach(from, at)
	return d > 0 && d < length
}

func (p *slashPlan) place(edge string, s float64) float64 {
	return p.starts[p.old.EdgeIndex(edge)] + s
}

func newSlashPlan(all pattern.Pattern, old *pattern.Piece) (*slashPlan, error) {
	p := &slashPlan{all: all, old: old}
	var err error
	if p.ring, err = old.Outline(); err != nil {
		return nil, fmt.Errorf("piece %q: %w", old.Name, err)
	}
	length := 0.0
	for i := range old.Edges {
		p.starts = append(p.starts, length)
		length += old.Edges[i].Length()
	}
	return p, nil
}

// plan finds everything and refuses what cannot be cut.
func (s *Spread) plan(in Input) (*slashPlan, error) {
	old, err := pieceIn(in.Pattern, s.Piece)
	if err != nil {
		return nil, err
	}
	p, err := newSlashPlan(in.Pattern, old)
	if err != nil {
		return nil, err
	}
	p.spread = s
	if len(s.Slashes) == 0 {
		return nil, fmt.Errorf("no slash is named on %s; give the spots where they start by %q", s.Piece, "slashes")
	}
	if err := p.numbers(in); err != nil {
		return nil, err
	}
	if s.Close != nil && s.Close.Dart != "" {
		if p.dart, err = p.findDart(s.Close.Dart); err != nil {
			return nil, err
		}
	}
	for i := range s.Slashes {
		l, err := p.line(s.Slashes[i].From, s.Slashes[i].Hinge)
		if err != nil {
			return nil, err
		}
		for _, k := range p.slashes {
			if k.onRim && l.onRim && k.pivot.Dist(l.pivot) <= placeSlack {
				l.pivot, l.other = k.pivot, k.other
			}
		}
		p.slashes = append(p.slashes, l)
	}
	if err := p.close(); err != nil {
		return nil, err
	}
	if err := p.apart(); err != nil {
		return nil, err
	}
	return p, p.sides()
}

func (p *slashPlan) numbers(in Input) error {
	s := p.spread
	for _, n := range []struct {
		given *Number
		what  string
		to    *float64
	}{
		{s.Fair, "the reach of fairing", &p.fair},
		{s.FairLength, "the length after fairing", &p.fairLength},
		{s.HingeReach, "the reach of smoothing at the hinge", &p.hingeReach},
	} {
		if n.given == nil {
			continue
		}
		v, err := n.given.In(in)
		if err != nil {
			return err
		}
		if !(v > placeSlack) {
			return fmt.Errorf("%s on %s is %.4g mm; it must be above 0, or left away", n.what, p.old.Name, v)
		}
		*n.to = v
	}
	if p.fairLength > 0 && p.fair == 0 {
		return fmt.Errorf("to give the edge of %s a length, say by %q within which reach it is made fair", p.old.Name, "fair")
	}
	if s.Dart == nil {
		return nil
	}
	if s.Dart.Name == "" {
		return fmt.Errorf("the dart left on %s needs a name", p.old.Name)
	}
	if first, second := s.Dart.legs(s.Dart.Name); first == second {
		return fmt.Errorf("both legs of the dart left on %s would be called %q; let %q and %q differ", p.old.Name, first, "first", "second")
	}
	if p.all.Seam(s.Dart.Name) != nil {
		return fmt.Errorf("there is a seam %q already; give the dart left on %s another name", s.Dart.Name, p.old.Name)
	}
	if s.Dart.Short != nil {
		var err error
		if p.short, err = s.Dart.Short.In(in); err != nil {
			return err
		}
		if !(p.short >= 0) {
			return fmt.Errorf("a dart's point can stay short of the hinge by 0 mm or more, not %.4g mm", p.short)
		}
	}
	if s.Dart.Allowance != nil {
		e := pattern.Edge{Name: s.Dart.Name}
		if err := dress(&e, in, pattern.SeamEdge, s.Dart.Allowance); err != nil {
			return err
		}
		p.dartAllowance = &e.Allowance
	}
	return nil
}

// line finds a slash.
func (p *slashPlan) line(from pattern.Spot, hinge *Hinge) (slashLine, error) {
	var l slashLine
	o := outline{old: p.old, all: p.all}
	at, err := o.find(from)
	if err != nil {
		return l, err
	}
	l = slashLine{name: spotOn(from, p.old.Name).String(), edge: at.Edge, s: at.S, at: p.place(at.Edge, at.S), from: at.Point}
	if length := p.old.Edge(at.Edge).Length(); at.S < leastEdge || at.S > length-leastEdge {
		where := "at a corner"
		if off := min(at.S, length-at.S); off > placeSlack {
			where = fmt.Sprintf("%.2g mm from a corner", off)
		}
		return l, fmt.Errorf("the slash from %s begins %s; begin it at least %d mm inside an edge, where there is an edge to open", l.name, where, leastEdge)
	}
	if p.dart != nil && (l.edge == p.dart.first || l.edge == p.dart.second) {
		return l, fmt.Errorf("the slash from %s begins on the dart that is to close; begin it on another edge", l.name)
	}
	if hinge == nil {
		hinge = p.spread.Hinge
	}
	if err := p.hinge(&l, hinge); err != nil {
		return l, err
	}
	return l, p.inside(&l)
}

// hinge finds the place about which a part turns.
func (p *slashPlan) hinge(l *slashLine, h *Hinge) error {
	o := outline{old: p.old, all: p.all}
	switch {
	case h == nil && p.dart != nil:
		l.pivot, l.other, l.onRim = p.dart.point, p.dart.at, true
	case h == nil:
		return fmt.Errorf("the slash from %s has no hinge; name a spot on the opposite edge, or a place inside %s", l.name, p.old.Name)
	case h.Spot != nil && h.Inner == "" && h.From == nil && h.To == nil:
		at, err := o.find(*h.Spot)
		if err != nil {
			return err
		}
		l.pivot, l.other, l.onRim = at.Point, p.place(at.Edge, at.S), true
	case h.Inner != "" && h.Spot == nil && h.From == nil && h.To == nil:
		i := slices.IndexFunc(p.old.Inner, func(in pattern.Inner) bool { return in.Name == h.Inner })
		switch {
		case i < 0:
			return fmt.Errorf("piece %q has no inner line %q at whose end the hinge could lie", p.old.Name, h.Inner)
		case h.End == pattern.End:
			l.pivot = p.old.Inner[i].Path.End()
		default:
			l.pivot = p.old.Inner[i].Path.Start()
		}
	case h.From != nil && h.To != nil && h.Spot == nil && h.Inner == "":
		a, err := o.find(*h.From)
		if err != nil {
			return err
		}
		b, err := o.find(*h.To)
		if err != nil {
			return err
		}
		way := b.Point.Sub(a.Point)
		if way.Norm() < leastEdge {
			return fmt.Errorf("the hinge on %s is held between %s and %s, which lie at the same place; choose two apart", p.old.Name, spotOn(*h.From, p.old.Name), spotOn(*h.To, p.old.Name))
		}
		l.pivot = a.Point.Add(way.Mul(h.Along)).Add(way.Perp().Mul(h.Off))
	default:
		return fmt.Errorf("a hinge on %s is a spot on the sew line, an end of an inner line, or a place between two spots: one of them", p.old.Name)
	}
	if !l.pivot.Finite() {
		return fmt.Errorf("the hinge of the slash from %s lies beyond every mat", l.name)
	}
	return nil
}

// inside refuses a slash that does not run through the piece to its hinge.
func (p *slashPlan) inside(l *slashLine) error {
	if l.radius() < leastEdge {
		return fmt.Errorf("the slash from %s ends at its start; choose a hinge on another place", l.name)
	}
	if near := p.ring.Nearest(l.pivot); !l.onRim {
		if near.Dist < leastEdge && near.Dist > 0 || near.Dist == 0 {
			return fmt.Errorf("the hinge of the slash from %s lies on the outline of %s or within %d mm of it; name it as a spot on the sew line, or lay it further inside", l.name, p.old.Name, leastEdge)
		}
		if !p.ring.Contains(l.pivot) {
			return fmt.Errorf("the slash from %s misses its hinge, which lies %s outside %s; lay the hinge inside the piece or on its sew line", l.name, unit.MM(near.Dist), p.old.Name)
		}
	}
	if q := l.from.Lerp(l.pivot, 0.5); !p.ring.Contains(q) || p.ring.Nearest(q).Dist <= placeSlack {
		return fmt.Errorf("the slash from %s runs out of %s on the way to its hinge; choose a hinge that can be reached straight through the piece", l.name, p.old.Name)
	}
	for _, x := range p.ring.CrossLine(l.from, l.pivot.Sub(l.from)) {
		if x.T > leastEdge/2.0 && x.T < l.radius()-leastEdge/2.0 {
			return fmt.Errorf("the slash from %s runs out of %s after %s, before it reaches its hinge; choose a hinge that can be reached straight through the piece", l.name, p.old.Name, unit.MM(x.T))
		}
	}
	return nil
}

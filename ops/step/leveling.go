package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// leveling alters one side of a seam.
type leveling struct {
	r      *redraw
	side   string
	parts  pattern.Side
	longer float64 // mm by which the side is to become longer
	limit  float64
	steady bool   // edges keep the directions of their ends
	bow    string // the side to which straight edges bow
}

// alter makes the side longer, or shorter.
func (l *leveling) alter(moves pattern.EndName, along string) error {
	if moves == "" {
		return l.swell()
	}
	pt := l.parts[len(l.parts)-1]
	if moves == pattern.Start {
		pt = l.parts[0].Backwards()
	}
	c, err := acrossAt(l.r.old, pt)
	if err != nil {
		return err
	}
	if along == alongNeighbour {
		return l.slide(pt, c)
	}
	return l.r.add(EdgeEnd{c.piece, c.edge, c.at}, l.longer, false, l.limit)
}

// slide moves the end of the sewn edge along its neighbour until the edge,
// bent to reach it, has its length.
func (l *leveling) slide(pt pattern.Part, c *across) error {
	_, e, err := edgeIn(l.r.old, pt.Piece, pt.Edge)
	if err != nil {
		return err
	}
	want := e.Length() + l.longer/math.Abs(pt.To-pt.From)
	// The neighbour's path leads to the joint.
	length, out := c.path.Length(), c.path.TangentBefore(c.path.Length())
	off := func(t float64) float64 {
		at := c.joint.Add(out.Mul(t))
		if t < 0 {
			at = c.path.At(length + t)
		}
		a, b := e.Path.Start(), at
		if c.seamAt == pattern.Start {
			a, b = at, e.Path.End()
		}
		bent, err := e.Path.Bend(a, b)
		if err != nil {
			return math.NaN()
		}
		return bent.Length() - want
	}
	const looks = 64
	least := min(l.limit, length-leastEdge)
	for k := 1; k <= looks; k++ {
		for _, most := range []float64{l.limit, -least} {
			lo, hi := most*float64(k-1)/looks, most*float64(k)/looks
			a, b := off(lo), off(hi)
			if !(a*b <= 0) {
				continue
			}
			for range 80 {
				if m := (lo + hi) / 2; off(m)*a > 0 {
					lo = m
				} else {
					hi = m
				}
			}
			return l.r.add(EdgeEnd{pt.Piece, pt.Edge, c.seamAt}, (lo+hi)/2, false, l.limit)
		}
	}
	return fmt.Errorf("its end would have to move along %s by more than %.3g mm to make it %.3g mm %s; let it move along the seam instead", c, l.limit, math.Abs(l.longer), longerWord(l.longer))
}

func longerWord(v float64) string {
	if v < 0 {
		return "shorter"
	}
	return "longer"
}

// swelling is a part of a side while it is bent more or less.
type swelling struct {
	pt       pattern.Part
	edge     *pattern.Edge
	from, to float64   // mm on the edge
	path     geom.Path // that stretch of it
	most     float64   // signed: as far as it can be bent the way that is wanted
	bend     func(mm float64) (geom.Path, error)
}

// swell bends the edges of the side with their ends in place.
func (l *leveling) swell() error {
	var parts []*swelling
	for _, pt := range l.parts {
		s, err := l.stretch(pt)
		if err != nil {
			return err
		}
		parts = append(parts, s)
	}
	total := func(h float64) float64 {
		sum := 0.0
		for _, s := range parts {
			sum += s.at(h).Length()
		}
		return sum
	}
	was := total(0)
	want := was + l.longer
	if reach := total(l.limit); (reach-want)*l.longer < 0 {
		return fmt.Errorf("with its ends in place it becomes %s %s at most, not %s%s",
			unit.MM(math.Abs(reach-was)), longerWord(l.longer), unit.MM(math.Abs(l.longer)), l.ways(parts))
	}
	lo, hi := 0.0, l.limit
	for range 60 {
		if m := (lo + hi) / 2; (total(m)-want)*l.longer < 0 {
			lo = m
		} else {
			hi = m
		}
	}
	for _, s := range parts {
		if s.most == 0 {
			continue
		}
		o, err := l.r.piece(s.pt.Piece)
		if err != nil {
			return err
		}
		i, err := o.index(s.pt.Edge)
		if err != nil {
			return err
		}
		now := s.at((lo + hi) / 2)
		path, err := l.put(s, now)
		if err != nil {
			return err
		}
		length := s.edge.Length()
		o.reshape(i, path, []knot{{0, 0}, {s.from, s.from}, {s.to, s.from + now.Length()}, {length, path.Length()}})
	}
	return nil
}

// ways says why its ends in place do not do, and what does.
func (l *leveling) ways(parts []*swelling) string {
	why, ways := "; ", "let an end move, or give the other side more"
	if l.steady {
		ways = "let its edges turn at their ends, " + ways
	}
	i := slices.IndexFunc(parts, func(s *swelling) bool { return s.path.Bulge() <= leastBulge })
	switch {
	case i >= 0 && l.longer < 0:
		why = fmt.Sprintf(", since %s of %s is straight and so the shortest way between its ends already; ", parts[i].pt.Edge, parts[i].pt.Piece)
	case i >= 0 && l.bow == "":
		why = fmt.Sprintf(", since %s of %s is straight and stays so; ", parts[i].pt.Edge, parts[i].pt.Piece)
		ways = "let straight edges bow, " + ways
	default:
		ways = "raise the limit, " + ways
	}
	return why + ways
}

// put returns the whole edge with its stretch as it is now.
func (l *leveling) put(s *swelling, now geom.Path) (geom.Path, error) {
	paths := []geom.Path{now}
	if s.from > placeSlack {
		before, err := s.edge.Path.Sub(0, s.from)
		if err != nil {
			return geom.Path{}, err
		}
		paths = append([]geom.Path{before}, paths...)
	}
	if length := s.edge.Length(); s.to < length-placeSlack {
		after, err := s.edge.Path.Sub(s.to, length)
		if err != nil {
			return geom.Path{}, err
		}
		paths = append(paths, after)
	}
	return geom.Join(paths...)
}

// stretch returns a part with how far it can be bent.
func (l *leveling) stretch(pt pattern.Part) (*swelling, error) {
	_, e, err := edgeIn(l.r.old, pt.Piece, pt.Edge)
	if err != nil {
		return nil, err
	}
	length := e.Length()
	s := &swelling{pt: pt, edge: e, from: min(pt.From, pt.To) * length, to: max(pt.From, pt.To) * length}
	if s.path, err = e.Path.Sub(s.from, s.to); err != nil {
		return nil, err
	}
	if l.bow != "" && l.longer > 0 && s.path.Bulge() <= leastBulge {
		s.most = l.limit // to the left, into the piece
		if l.bow == bowOut {
			s.most = -l.limit
		}
		if s.bend = s.path.Swell; !l.steady {
			s.bend = func(mm float64) (geom.Path, error) { return bowed(s.path.Start(), s.path.End(), mm) }
		}
		return s, nil
	}
	if !l.steady {
		s.bend = s.path.Fuller
		if bulge := s.path.Bulge(); bulge > leastBulge {
			s.most = math.Copysign(min(l.limit, 0.8*bulge), l.longer)
			if l.longer > 0 {
				s.most = min(l.limit, bulge)
			}
		}
		return s, nil
	}
	s.bend = s.path.Swell
	const step = 0.01 // mm: as small as the change of length can well be told
	left, err := s.path.Swell(step)
	if err != nil {
		return nil, err
	}
	right, err := s.path.Swell(-step)
	if err != nil {
		return nil, err
	}
	if gains := (left.Length() - right.Length()) * l.longer; math.Abs(left.Length()-right.Length()) > 1e-9 {
		s.most = s.path.SwellMost(gains, l.limit)
	}
	return s, nil
}

// bowed returns the parabola from a to b that rises by mm to the left of the way.
func bowed(a, b geom.Point, mm float64) (geom.Path, error) {
	out := b.Sub(a).Unit().Perp().Mul(mm * 4 / 3)
	return geom.NewPath(geom.Curve(a, a.Lerp(b, 1./3).Add(out), a.Lerp(b, 2./3).Add(out), b))
}

// leastBulge is the bulge in mm under which an edge counts as straight.
const leastBulge = 0.05

// at returns the stretch bent by h mm, or as far as it can be.
func (s *swelling) at(h float64) geom.Path {
	if h = min(h, math.Abs(s.most)); h == 0 {
		return s.path
	}
	if q, err := s.bend(math.Copysign(h, s.most)); err == nil {
		return q
	}
	return s.path
}

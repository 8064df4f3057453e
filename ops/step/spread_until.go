package step

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// mostUntil is the angle within which a stated length is looked for: beyond
// it a piece of cloth is no longer the same piece (our own bound).
const mostUntil = 75 * geom.Degree

// until returns the angle in all by which the slashes open when the edge has
// the length asked for. It widens the bracket from nothing to both sides, so
// that of two answers the smaller turn counts.
func (s *Spread) until(in Input, p *slashPlan, evenly func(geom.Angle) []geom.Angle) (geom.Angle, error) {
	want, err := s.Until.want(in, s.Piece)
	if err != nil {
		return 0, err
	}
	if _, _, err := edgeIn(in.Pattern, s.Piece, s.Until.Edge); err != nil {
		return 0, err
	}
	if s.FairLength != nil && p.slashes[0].edge == s.Until.Edge {
		return 0, fmt.Errorf("%s of %s cannot be spread until it has a length and be made fair to a length as well; leave %q away", s.Until.Edge, s.Piece, "fair_length")
	}
	miss := func(total geom.Angle) (float64, error) {
		b, err := p.build(evenly(total))
		if err != nil {
			return 0, err
		}
		e := b.edgeOf(s.Until.Edge)
		if e == nil {
			return 0, fmt.Errorf("%s of %s is no more", s.Until.Edge, s.Piece)
		}
		return e.Length() - want, nil
	}
	start, err := miss(0)
	if err != nil {
		return 0, err
	}
	nearest, nearestAt := start, geom.Angle(0)
	closer := func(v float64, at geom.Angle) {
		if math.Abs(v) < math.Abs(nearest) {
			nearest, nearestAt = v, at
		}
	}
	for _, dir := range []geom.Angle{1, -1} {
		lo, vLo := geom.Angle(0), start
		for step := geom.Angle(0.25) * geom.Degree; step <= mostUntil; step *= 1.4 {
			hi := dir * step
			if p.dart != nil && hi > p.dart.angle {
				hi = p.dart.angle
			}
			vHi, err := miss(hi)
			if err != nil {
				break
			}
			closer(vHi, hi)
			if vLo == 0 || (vLo < 0) != (vHi < 0) {
				total, err := bracketed(lo, hi, vLo, vHi, miss)
				if err != nil {
					return 0, err
				}
				return total, s.settle(p, total, want, miss)
			}
			lo, vLo = hi, vHi
			if p.dart != nil && hi == p.dart.angle {
				break
			}
		}
	}
	if math.Abs(nearest) <= lengthSlack {
		return nearestAt, nil
	}
	return 0, fmt.Errorf("no spread makes %s of %s %s long; the nearest is %s, at %.1f degrees: ask for a length between, or slash from another place", s.Until.Edge, s.Piece, unit.MM(want), unit.MM(want+nearest), nearestAt.Degrees())
}

// settle makes sure of the length at the angle found. A fair curve is found
// by a search and its length is not quite even in the angle; the last hair is
// then taken up by the curve itself.
func (s *Spread) settle(p *slashPlan, total geom.Angle, want float64, miss func(geom.Angle) (float64, error)) error {
	v, err := miss(total)
	if err != nil || math.Abs(v) <= lengthSlack {
		return err
	}
	if p.fair > 0 && p.slashes[0].edge == s.Until.Edge && math.Abs(v) < leastStep {
		p.fairLength = want
		return nil
	}
	return fmt.Errorf("%s of %s comes within %.4f mm of %s at %.2f degrees, but not to it; ask for another length or another reach", s.Until.Edge, s.Piece, math.Abs(v), unit.MM(want), total.Degrees())
}

// words tell the length that is asked for.
func (u *ToLength) words() string {
	if u.Length == nil {
		return "is as long as the other side of " + seamWords(u.Seam)
	}
	return "measures " + u.Length.String()
}

// want returns the length that is asked for, in mm.
func (u *ToLength) want(in Input, piece string) (float64, error) {
	switch {
	case (u.Length == nil) == (u.Seam == ""):
		return 0, fmt.Errorf("say until what %s of %s is spread: until it has a %q, or until it fits the other side of a %q; one of them", u.Edge, piece, "length", "seam")
	case u.Length != nil:
		return u.Length.In(in)
	}
	return Fitting(in.Pattern, piece, u.Edge, u.Seam)
}

// Fitting returns the length in mm that an edge is to have for its side of a
// seam to be as long as the other, ease included. It is refused when the edge
// is not sewn there, or on both sides.
func Fitting(p pattern.Pattern, piece, edge, seam string) (float64, error) {
	_, e, err := edgeIn(p, piece, edge)
	if err != nil {
		return 0, err
	}
	s := p.Seam(seam)
	if s == nil {
		return 0, fmt.Errorf("there is no seam %q", seam)
	}
	share := func(side pattern.Side) (sum float64) {
		for _, pt := range side {
			if pt.Piece == piece && pt.Edge == edge {
				sum += math.Abs(pt.To - pt.From)
			}
		}
		return sum
	}
	a, b := share(s.A), share(s.B)
	lacks := p.Length(s.B) + s.Ease - p.Length(s.A)
	switch {
	case a > 0 && b > 0:
		return 0, fmt.Errorf("%s of %s lies on both sides of %s; give its length in mm", edge, piece, seamWords(seam))
	case b > 0:
		a, lacks = b, -lacks
	case a == 0:
		return 0, fmt.Errorf("%s of %s is not sewn in %s; name a seam in which it is", edge, piece, seamWords(seam))
	}
	return e.Length() + lacks/a, nil
}

// lengthSlack is the accuracy in mm of a length that is solved for.
const lengthSlack = 1e-7

// bracketed returns where miss vanishes between a and b, where it has the
// values va and vb of different signs. It halves the bracket whenever the
// secant does not shrink it fast (the Illinois rule, M. Dowell and P. Jarratt,
// "A modified regula falsi method", 1971).
func bracketed[T ~float64](a, b T, va, vb float64, miss func(T) (float64, error)) (T, error) {
	if va == 0 {
		return a, nil
	}
	const most = 80
	for range most {
		m := b - T(vb)*(b-a)/T(vb-va)
		vm, err := miss(m)
		if err != nil {
			return 0, err
		}
		if (vm < 0) == (vb < 0) {
			va /= 2
		} else {
			a, va = b, vb
		}
		if b, vb = m, vm; math.Abs(vb) <= lengthSlack/100 || math.Abs(float64(b-a)) < 1e-14 {
			break
		}
	}
	return b, nil
}

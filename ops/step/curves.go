package step

import (
	"errors"

	"truemat/geom"
)

// blend replaces what lies between two lengths of an open path by a fair
// curve that meets both sides in their directions there; on request one of
// the same length as what it replaces, within 1e-12 of it.
func blend(p geom.Path, from, to float64, keep bool) (geom.Path, error) {
	return blendTo(p, from, to, p.TangentAt(to), keep)
}

// blendEnd is blend up to the end of the path, where the curve arrives in the
// given unit direction.
func blendEnd(p geom.Path, from float64, dir geom.Point) (geom.Path, error) {
	return blendTo(p, from, p.Length(), dir, false)
}

func blendTo(p geom.Path, from, to float64, dir geom.Point, keep bool) (geom.Path, error) {
	a, b := p.At(from), p.At(to)
	leave := p.TangentBefore(from)
	with := func(reach float64) geom.Cubic {
		return geom.Curve(a, a.Add(leave.Mul(reach)), b.Sub(dir.Mul(reach)), b)
	}
	reach, err := fairReach(with, a.Dist(b))
	if keep && err == nil {
		reach, err = reachOfLength(with, to-from)
	}
	if err != nil {
		return geom.Path{}, err
	}
	var parts []geom.Path
	if from > placeSlack {
		before, err := p.Sub(0, from)
		if err != nil {
			return geom.Path{}, err
		}
		parts = append(parts, before)
	}
	middle, err := geom.NewPath(with(reach))
	if err != nil {
		return geom.Path{}, err
	}
	parts = append(parts, middle)
	if to < p.Length()-placeSlack {
		after, err := p.Sub(to, p.Length())
		if err != nil {
			return geom.Path{}, err
		}
		parts = append(parts, after)
	}
	return geom.Join(parts...)
}

// fairReach returns the length of both handles with the least bending energy,
// the integral of the squared curvature, by golden section (Kiefer 1953).
func fairReach(with func(float64) geom.Cubic, chord float64) (float64, error) {
	if chord <= placeSlack {
		return 0, errors.New("both ends of the stretch lie at the same place")
	}
	energy := func(reach float64) float64 {
		const steps = 64
		c, sum := with(reach), 0.0
		for i := range steps {
			t := (float64(i) + 0.5) / steps
			k := c.Curvature(t)
			sum += k * k * c.Deriv(t).Norm()
		}
		return sum
	}
	const golden = 0.6180339887498949
	lo, hi := 0.1*chord, chord
	for hi-lo > 1e-10*chord {
		x, y := hi-golden*(hi-lo), lo+golden*(hi-lo)
		if energy(x) < energy(y) {
			hi = y
		} else {
			lo = x
		}
	}
	return (lo + hi) / 2, nil
}

// reachOfLength returns the length of both handles that gives the cubic the
// wanted length, by bisection: it grows with them.
func reachOfLength(with func(float64) geom.Cubic, want float64) (float64, error) {
	lo, hi := 0.0, want
	if with(lo).Length() > want*(1+1e-12) || with(hi).Length() < want {
		return 0, errors.New("no fair curve there has the length that is to be kept; use a longer reach")
	}
	for range 100 {
		mid := (lo + hi) / 2
		if with(mid).Length() > want {
			hi = mid
		} else {
			lo = mid
		}
	}
	return (lo + hi) / 2, nil
}

// bend carries an open path so that its ends land on two points: each place
// is displaced by a share that changes evenly along the length. Directions
// turn with it, so that smooth places stay smooth and straight paths straight.
func bend(p geom.Path, start, end geom.Point) (geom.Path, error) {
	first, last := start.Sub(p.Start()), end.Sub(p.End())
	total := p.Length()
	slope := last.Sub(first).Mul(1 / total)
	segs := p.Segments()
	from := first
	for i, c := range segs {
		to := first.Lerp(last, p.LengthTo(i, 1)/total)
		a, b := c.P[0].Add(from), c.P[3].Add(to)
		if i == 0 {
			a = start
		}
		if i == len(segs)-1 {
			b = end
		}
		if c.IsStraight() {
			segs[i] = geom.Straight(a, b)
		} else {
			out, in := c.P[1].Sub(c.P[0]), c.P[3].Sub(c.P[2])
			segs[i] = geom.Curve(a, a.Add(out).Add(slope.Mul(out.Norm())), b.Sub(in).Sub(slope.Mul(in.Norm())), b)
		}
		from = to
	}
	return geom.NewPath(segs...)
}

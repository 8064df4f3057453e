package step

import (
	"errors"
	"math"

	"truemat/geom"
)

// blend replaces what lies between two lengths of an open path by a fair
// curve; on request the path keeps its length, to rounding. Such a curve may
// have to swing out and bend to and fro, which [geom.Path.BlendLength] refuses.
func blend(p geom.Path, from, to float64, keep bool) (geom.Path, error) {
	if !keep {
		return p.Blend(from, to)
	}
	a, b := p.At(from), p.At(to)
	if a.Dist(b) <= placeSlack {
		return geom.Path{}, errors.New("both ends of the stretch lie at the same place")
	}
	leave, arrive := p.TangentBefore(from), p.TangentAt(to)
	with := func(h handles) geom.Cubic {
		return geom.Curve(a, a.Add(leave.Mul(h.out)), b.Sub(arrive.Mul(h.in)), b)
	}
	h, err := fairestOfLength(with, to-from)
	if err != nil {
		return geom.Path{}, err
	}
	segs := []geom.Cubic{with(h)}
	if before, err := p.Sub(0, from); err == nil {
		segs = append(before.Segments(), segs...)
	}
	if after, err := p.Sub(to, p.Length()); err == nil {
		segs = append(segs, after.Segments()...)
	}
	return geom.NewPath(segs...)
}

// blendEnd replaces what lies beyond a length of an open path by a fair curve
// to its end, where it arrives in the given direction.
func blendEnd(p geom.Path, from float64, dir geom.Point) (geom.Path, error) {
	fair, err := geom.FairCurve(p.At(from), p.TangentBefore(from), p.End(), dir)
	if err != nil || from <= placeSlack {
		return fair, err
	}
	kept, err := p.Sub(0, from)
	if err != nil {
		return geom.Path{}, err
	}
	return geom.Join(kept, fair)
}

// handles are the lengths in mm of the two handles of a blending cubic.
type handles struct{ out, in float64 }

// mostUneven bounds the share of both handles that one of them may have.
const mostUneven = 0.75

// fairestOfLength returns of all handles that give the cubic the wanted
// length those with the least bending energy.
func fairestOfLength(with func(handles) geom.Cubic, want float64) (handles, error) {
	best := func(share float64) (handles, bool) {
		at := func(sum float64) handles { return handles{share * sum, (1 - share) * sum} }
		lo, hi := 0.0, 2*want
		if with(at(lo)).Length() > want || with(at(hi)).Length() < want {
			return handles{}, false
		}
		for range 60 { // the length grows with the handles
			mid := (lo + hi) / 2
			if with(at(mid)).Length() > want {
				hi = mid
			} else {
				lo = mid
			}
		}
		return at((lo + hi) / 2), true
	}
	share := leastAt(1-mostUneven, mostUneven, func(x float64) float64 {
		h, ok := best(x)
		if !ok {
			return math.Inf(1)
		}
		return bending(with(h))
	})
	h, ok := best(share)
	if !ok {
		return handles{}, errors.New("no fair curve there has the length that is to be kept; use a longer reach")
	}
	return h, nil
}

// bending returns the bending energy of a cubic, the integral of its squared
// curvature, by the midpoint rule: good enough to compare two of them.
func bending(c geom.Cubic) float64 {
	const steps = 64
	sum := 0.0
	for i := range steps {
		t := (float64(i) + 0.5) / steps
		k := c.Curvature(t)
		sum += k * k * c.Deriv(t).Norm() / steps
	}
	return sum
}

// leastAt returns where f is least between lo and hi, by golden section
// (Kiefer 1953), within 1e-6 of the interval.
func leastAt(lo, hi float64, f func(float64) float64) float64 {
	const golden = 0.6180339887498949
	x, y := hi-golden*(hi-lo), lo+golden*(hi-lo)
	fx, fy := f(x), f(y)
	for range 29 { // golden²⁹ < 1e-6
		if fx < fy {
			hi, y, fy = y, x, fx
			x = hi - golden*(hi-lo)
			fx = f(x)
		} else {
			lo, x, fx = x, y, fy
			y = lo + golden*(hi-lo)
			fy = f(y)
		}
	}
	return (lo + hi) / 2
}

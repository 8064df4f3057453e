package geom

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// swellPieces is the least number of cubics on a swollen path: on the curves of
// a garment each is off the true displacement by under 1/500 of it.
const swellPieces = 8

// Swell displaces every place of an open run to its left (to its right when h
// is negative) by h·16·u²·(1−u)² mm, u being its share of the arc length: by h
// at the middle, by nothing at the ends, which also keep their directions. So a
// stretch of an edge can be made longer or shorter without a corner where it
// ends. Joints lie exactly where that puts them, at a corner along the mean of
// both normals; between them the handles follow the displaced derivative.
func (p Path) Swell(h float64) (Path, error) {
	switch {
	case p.Empty() || p.closed:
		return Path{}, errors.New("only an open run of a path can be swollen")
	case math.IsNaN(h) || math.Abs(h) > Reach:
		return Path{}, fmt.Errorf("a path cannot swell by %g mm", h)
	case h == 0:
		return p, nil
	}
	length := p.Length()
	by := func(s float64) (w, slope float64) {
		u := s / length
		return h * 16 * u * u * (1 - u) * (1 - u), h * 32 * u * (1 - u) * (1 - 2*u) / length
	}
	// The normal at the joint where segment i starts.
	normal := func(i int) Point {
		before, after := p.segs[max(i, 1)-1], p.segs[min(i, len(p.segs)-1)]
		sum := before.Tangent(1).Perp().Add(after.Tangent(0).Perp())
		if i == 0 || i == len(p.segs) || sum.Norm() < Coincident {
			return after.Tangent(0).Perp()
		}
		return sum.Unit()
	}
	var segs []Cubic
	for i := range p.segs {
		c := &p.segs[i]
		own := c.Length()
		// A path swollen before is not cut up again.
		n := max(1, int(math.Ceil(own*swellPieces/length-0.25)))
		place := func(k int) (q Point, t float64) {
			switch k {
			case 0:
				w, _ := by(p.cum[i])
				return c.P[0].Add(normal(i).Mul(w)), 0
			case n:
				w, _ := by(p.cum[i] + own)
				return c.P[3].Add(normal(i + 1).Mul(w)), 1
			}
			s := own * float64(k) / float64(n)
			t = c.ParamAt(s)
			w, _ := by(p.cum[i] + s)
			return c.At(t).Add(c.Tangent(t).Perp().Mul(w)), t
		}
		q, t := place(0)
		for k := range n {
			end, to := place(k + 1)
			part := c.Sub(t, to)
			handle := func(u, s, size float64) Point {
				w, slope := by(p.cum[i] + s)
				along := part.Tangent(u)
				return along.Mul(1 - w*part.Curvature(u)).Add(along.Perp().Mul(slope)).Mul(size)
			}
			s0, s1 := own*float64(k)/float64(n), own*float64(k+1)/float64(n)
			out := handle(0, s0, part.P[1].Dist(part.P[0]))
			in := handle(1, s1, part.P[3].Dist(part.P[2]))
			segs = append(segs, Curve(q, q.Add(out), end.Sub(in), end))
			q, t = end, to
		}
	}
	return NewPath(segs...)
}

// SwellMost returns up to which h, at most of size most and of the sign of
// side, the path can be swollen so that it goes on bending to the same sides
// one after the other as it did, and nowhere by more than half its radius; 0
// when it is straight.
func (p Path) SwellMost(side, most float64) float64 {
	low, high := p.CurvatureRange()
	if k := math.Max(-low, high); k > 0 {
		most = math.Min(most, 0.5/k)
	}
	sides := p.bendSides()
	fine := func(size float64) bool {
		q, err := p.Swell(math.Copysign(size, side))
		return err == nil && slices.Equal(q.bendSides(), sides)
	}
	if fine(most) {
		return math.Copysign(most, side)
	}
	lo, hi := 0.0, most
	for hi-lo > swellFine {
		if m := (lo + hi) / 2; fine(m) {
			lo = m
		} else {
			hi = m
		}
	}
	return math.Copysign(lo, side)
}

// swellFine is the accuracy in mm to which the most a path can swell is found.
const swellFine = 1e-4

// bendSides returns to which sides the path bends one after the other, true
// for left.
func (p Path) bendSides() []bool {
	var sides []bool
	for _, b := range p.bends() {
		if n := len(sides); n == 0 || sides[n-1] != b.left {
			sides = append(sides, b.left)
		}
	}
	return sides
}

package demo

import (
	"fmt"
	"math"

	"truemat/geom"
)

// deg is an angle in degrees, counter-clockwise from the x axis.
func deg(a float64) geom.Angle { return geom.Angle(a) * geom.Degree }

// sweep returns the cubic from a to b that leaves and arrives in the given
// directions, with handles of the given shares of the distance.
func sweep(a geom.Point, leave geom.Angle, pullA float64, b geom.Point, arrive geom.Angle, pullB float64) geom.Cubic {
	d := a.Dist(b)
	return geom.Curve(a, a.Add(leave.Unit().Mul(pullA*d)), b.Sub(arrive.Unit().Mul(pullB*d)), b)
}

// third is the handle of a gentle curve, as a share of the distance.
const third = 1.0 / 3

// hollow returns the parabola from a to b that leaves and arrives in the given
// directions, so that it bends one way all along. The directions must meet
// between a and b.
func hollow(a geom.Point, leave geom.Angle, b geom.Point, arrive geom.Angle) geom.Cubic {
	u, v, d := leave.Unit(), arrive.Unit(), b.Sub(a)
	turn := u.Cross(v)
	return geom.Curve(a, a.Add(u.Mul(2.0/3*d.Cross(v)/turn)), b.Sub(v.Mul(2.0/3*u.Cross(d)/turn)), b)
}

// bow returns the cubic of the given length that leaves the origin along the x
// axis' chord and bulges to its left by bulge at most, the crest nearer the
// start.
func bow(length, bulge float64) (geom.Cubic, error) {
	if bulge == 0 {
		return geom.Straight(geom.Point{}, geom.Pt(length, 0)), nil
	}
	// The crest of the cubic with handles of heights 1 and bowFall.
	crest := 0.0
	for i := range 1001 {
		t := float64(i) / 1000
		crest = math.Max(crest, 3*(1-t)*(1-t)*t+3*(1-t)*t*t*bowFall)
	}
	y := bulge / crest
	with := func(chord float64) geom.Cubic {
		return geom.Curve(geom.Point{}, geom.Pt(third*chord, y), geom.Pt(2*third*chord, bowFall*y), geom.Pt(chord, 0))
	}
	chord, err := solve(length/4, 1.01*length, func(q float64) float64 { return with(q).Length() - length })
	return with(chord), err
}

// bowFall is the height of a bow's second handle over that of its first.
const bowFall = 0.55

// unbent returns a curve as long as p, from the origin in the direction of the
// x axis, whose bend is everywhere the given share of that of p.
func unbent(p geom.Path, share float64) (geom.Path, error) {
	sections := int(math.Ceil(p.Length() / unbentStep))
	step := p.Length() / float64(sections)
	turned := func(s float64) geom.Angle {
		// Sections turn far less than half a circle, so summing them is safe.
		sum := geom.Angle(0)
		for i := 0; float64(i)*step < s-geom.Coincident; i++ {
			to := math.Min(float64(i+1)*step, s)
			sum += geom.Between(p.TangentAt(float64(i)*step), p.TangentBefore(to))
		}
		return sum * geom.Angle(share)
	}
	segs := make([]geom.Cubic, sections)
	var at geom.Point
	for i := range segs {
		from, mid, to := turned(float64(i)*step), turned((float64(i)+0.5)*step), turned(float64(i+1)*step)
		// A short arc: the chord by Simpson's rule over the directions, the
		// handles those of the circle with the same turn.
		end := at.Add(from.Unit().Add(mid.Unit().Mul(4)).Add(to.Unit()).Mul(step / 6))
		h := step * third
		if a := float64(to - from); a != 0 {
			h = 4.0 / 3 * math.Tan(a/4) / a * step
		}
		segs[i] = geom.Curve(at, at.Add(from.Unit().Mul(h)), end.Sub(to.Unit().Mul(h)), end)
		at = end
	}
	q, err := geom.NewPath(segs...)
	if err != nil {
		return geom.Path{}, err
	}
	return scaled(q, p.Length()/q.Length())
}

// unbentStep is the length of the sections in which a curve is unbent, short
// enough for the length to be right to a part in a million before scaling.
const unbentStep = 18

// scaled returns p made k times as large about the origin.
func scaled(p geom.Path, k float64) (geom.Path, error) {
	segs := p.Segments()
	for i, c := range segs {
		segs[i] = geom.Curve(c.P[0].Mul(k), c.P[1].Mul(k), c.P[2].Mul(k), c.P[3].Mul(k))
	}
	return geom.NewPath(segs...)
}

// laid returns p moved so that it starts at a in the direction leave.
func laid(p geom.Path, a geom.Point, leave geom.Angle) geom.Path {
	turn := leave - p.TangentAt(0).Direction()
	return p.Transform(geom.Turn(turn, p.Start()).Then(geom.Shift(a.Sub(p.Start()))))
}

// grip returns the direction in which p leaves its start as far as a maker
// pins it to its partner to see how the edges run across.
func grip(p geom.Path) geom.Angle { return p.At(gripAt).Sub(p.Start()).Direction() }

// gripAt is the distance in mm at which the first 20 mm of an evenly curved
// edge cross the straight line that fits them best.
const gripAt = 15

// line returns the straight path from a to b.
func line(a, b geom.Point) (geom.Path, error) { return geom.Polyline(a, b) }

// solve returns where f changes its sign between lo and hi, to the last
// digits, by false position with the Illinois rule (Dowell & Jarratt 1971).
func solve(lo, hi float64, f func(float64) float64) (float64, error) {
	a, b := f(lo), f(hi)
	if !(a*b <= 0) {
		return 0, fmt.Errorf("nothing between %g and %g fits (%g, %g)", lo, hi, a, b)
	}
	x := lo
	for range 200 {
		if a == 0 {
			return lo, nil
		}
		if b == 0 || math.Abs(hi-lo) <= 1e-14*(1+math.Abs(hi)) {
			return hi, nil
		}
		x = hi - b*(hi-lo)/(b-a)
		y := f(x)
		if y*b < 0 {
			lo, a = hi, b
		} else {
			a /= 2
		}
		hi, b = x, y
	}
	return x, nil
}

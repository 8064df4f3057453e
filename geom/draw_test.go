package geom

import (
	"math"

	"pgregory.net/rapid"
)

// Generators shared by the property tests.

// drawPoint draws multiples of 1/1024 mm: near misses by less than that, which
// decide between a touch and a crossing, have tests of their own.
func drawPoint(t *rapid.T, reach float64) Point {
	g := rapid.Custom(func(t *rapid.T) float64 {
		return math.Round(rapid.Float64Range(-reach, reach).Draw(t, "v")*1024) / 1024
	})
	if rapid.IntRange(0, 3).Draw(t, "round") == 0 { // round numbers make coincidences
		i := rapid.IntRange(-4, 4)
		return Pt(float64(i.Draw(t, "x"))*reach/4, float64(i.Draw(t, "y"))*reach/4)
	}
	return Pt(g.Draw(t, "x"), g.Draw(t, "y"))
}

func drawMotion(t *rapid.T) Motion {
	m := Turn(Angle(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "turn")), drawPoint(t, 200)).Then(Shift(drawPoint(t, 200)))
	if rapid.Bool().Draw(t, "mirror") {
		if r, err := Mirror(drawPoint(t, 100), drawPoint(t, 100)); err == nil {
			m = m.Then(r)
		}
	}
	return m
}

// drawCubic draws straight, curved, looped, cusped and half-degenerate cubics.
func drawCubic(t *rapid.T, from Point) Cubic {
	switch rapid.IntRange(0, 5).Draw(t, "kind") {
	case 0:
		return Straight(from, drawPoint(t, 100))
	case 1: // a handle without length
		return Curve(from, from, drawPoint(t, 100), drawPoint(t, 100))
	case 2: // a gentle curve
		d := drawPoint(t, 100)
		v := d.Sub(from)
		n := v.Perp().Mul(rapid.Float64Range(-0.4, 0.4).Draw(t, "bulge"))
		return Curve(from, from.Add(v.Mul(0.3)).Add(n), from.Add(v.Mul(0.7)).Add(n), d)
	}
	return Curve(from, drawPoint(t, 100), drawPoint(t, 100), drawPoint(t, 100))
}

// drawPath draws an open or closed path of 1–5 segments.
func drawPath(t *rapid.T, label string) Path {
	n := rapid.IntRange(1, 5).Draw(t, label)
	closed := rapid.Bool().Draw(t, "closed")
	at := drawPoint(t, 100)
	start := at
	var segs []Cubic
	for range n {
		c := drawCubic(t, at)
		segs, at = append(segs, c), c.End()
	}
	if closed {
		segs = append(segs, Straight(at, start))
	}
	p, err := build(segs, closed)
	if err != nil {
		t.Skip(err)
	}
	return p
}

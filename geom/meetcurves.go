package geom

import (
	"cmp"
	"math"
	"slices"
)

// arc is a part of a cubic between two of its parameters.
type arc struct {
	Cubic
	t0, t1 float64
}

func (a *arc) halves() [2]arc {
	l, r := a.Split(0.5)
	m := (a.t0 + a.t1) / 2
	return [2]arc{{l, a.t0, m}, {r, m, a.t1}}
}

// arcPair is a pair of arcs that may meet.
type arcPair struct{ a, b arc }

// meetCurves finds where two curves meet by halving both and dropping pairs
// of arcs whose hulls, seen along the chord of either, are apart (the fat
// lines of T. W. Sederberg & T. Nishita, "Curve intersection using Bézier
// clipping", 1990). Once no direction of the one arc is a direction of the
// other they meet once at most, and Newton's method decides. Arcs that stay
// nearly parallel are halved down to meetLeaf; neighbours among what is left
// are one touch, or a shared stretch when they are long. Depth and number of
// pairs are bounded by meetDepth and meetWidth.
func meetCurves(c, d *Cubic) (hits []hit, laps []lap) {
	live := []arcPair{{arc{*c, 0, 1}, arc{*d, 0, 1}}}
	var next, leaves []arcPair
	for depth := 0; depth < meetDepth && len(live) > 0 && len(live) <= meetWidth; depth++ {
		next = next[:0]
		for i := range live {
			p := &live[i]
			if p.apart() {
				continue
			}
			if p.square() {
				if h, ok := p.newton(); ok {
					hits = append(hits, h)
					continue
				}
			}
			sizeA, sizeB := p.a.extent(), p.b.extent()
			switch {
			case sizeA <= meetLeaf && sizeB <= meetLeaf:
				leaves = append(leaves, *p)
			case sizeB < sizeA/2:
				for _, a := range p.a.halves() {
					next = append(next, arcPair{a, p.b})
				}
			case sizeA < sizeB/2:
				for _, b := range p.b.halves() {
					next = append(next, arcPair{p.a, b})
				}
			default:
				as, bs := p.a.halves(), p.b.halves()
				next = append(next, arcPair{as[0], bs[0]}, arcPair{as[0], bs[1]}, arcPair{as[1], bs[0]}, arcPair{as[1], bs[1]})
			}
		}
		live, next = next, live
	}
	for _, z := range zones(append(leaves, live...)) {
		if c.At(z.t0).Dist(c.At(z.t1)) <= sharedLeast {
			hits = append(hits, z.touches(c, d, 1)...)
		} else if u0, u1, ok := z.shared(c, d); ok {
			laps = append(laps, lap{z.t0, z.t1, u0, u1})
		} else {
			hits = append(hits, z.touches(c, d, zoneProbes)...)
		}
	}
	return hits, laps
}

// apart reports whether the arcs are farther from each other than touchSlack.
func (p *arcPair) apart() bool {
	return !p.a.hull().Grow(touchSlack).Overlaps(p.b.hull()) ||
		apartAlong(&p.a.Cubic, &p.b.Cubic) || apartAlong(&p.b.Cubic, &p.a.Cubic)
}

// apartAlong compares the hulls of a and b along and across the chord of a.
func apartAlong(a, b *Cubic) bool {
	dir := a.P[3].Sub(a.P[0]).Unit()
	if dir == (Point{}) {
		return false // the upright hulls have been compared
	}
	span := func(c *Cubic) Box {
		box := NoBox()
		for _, q := range c.P {
			q = q.Sub(a.P[0])
			box = box.with(Pt(q.Dot(dir), dir.Cross(q)))
		}
		return box
	}
	return !span(a).Grow(touchSlack).Overlaps(span(b))
}

// square reports whether no direction of a is a direction of b. Directions
// are positive mixtures of the legs of the control polygon, so it is enough
// that all cross products of two legs have one sign. Then a and b meet once
// at most: two meetings would need equal chords, which are such mixtures too.
func (p *arcPair) square() bool {
	sign := 0.0
	for i := range 3 {
		v := p.a.P[i+1].Sub(p.a.P[i])
		for j := range 3 {
			w := p.b.P[j+1].Sub(p.b.P[j])
			x := v.Cross(w)
			if x == 0 && (v == (Point{}) || w == (Point{})) {
				continue
			}
			if x*x <= parallelSlack*parallelSlack*v.Dot(v)*w.Dot(w) || x*sign < 0 {
				return false
			}
			sign = x
		}
	}
	return sign != 0
}

// newton looks for the one crossing of a square pair.
func (p *arcPair) newton() (hit, bool) {
	t, u, ok := crossNewton(&p.a.Cubic, &p.b.Cubic, 0.5, 0.5)
	return hit{t: p.a.t0 + (p.a.t1-p.a.t0)*t, u: p.b.t0 + (p.b.t1-p.b.t0)*u}, ok
}

// crossNewton solves c(t) = d(u) from a guess; ok when the place found lies
// on both, within touchSlack.
func crossNewton(c, d *Cubic, t, u float64) (float64, float64, bool) {
	for range newtonSteps {
		gap := c.At(t).Sub(d.At(u))
		v, w := c.Deriv(t), d.Deriv(u)
		det := v.Cross(w)
		if det == 0 {
			break
		}
		dt, du := -gap.Cross(w)/det, -gap.Cross(v)/det
		// Half an arc outside is far enough to see that it leads away.
		t1, u1 := clamp(t+dt, -0.5, 1.5), clamp(u+du, -0.5, 1.5)
		done := math.Abs(t1-t)+math.Abs(u1-u) <= rootSlack
		t, u = t1, u1
		if done {
			break
		}
	}
	t, u = clamp(t, 0, 1), clamp(u, 0, 1)
	return t, u, c.At(t).Dist(d.At(u)) <= touchSlack
}

// touchNewton solves for the places of c and d near t and u that face each
// other on a common normal with a common direction.
func touchNewton(c, d *Cubic, t, u float64) (float64, float64, bool) {
	for range newtonSteps {
		gap := c.At(t).Sub(d.At(u))
		v, w := c.Deriv(t), d.Deriv(u)
		v2, w2 := c.Second(t), d.Second(u)
		f, g := gap.Dot(w), v.Cross(w)
		ft, fu := v.Dot(w), gap.Dot(w2)-w.Dot(w)
		gt, gu := v2.Cross(w), v.Cross(w2)
		det := ft*gu - fu*gt
		if det == 0 {
			break
		}
		t1, u1 := clamp(t-(f*gu-fu*g)/det, 0, 1), clamp(u-(ft*g-f*gt)/det, 0, 1)
		done := math.Abs(t1-t)+math.Abs(u1-u) <= rootSlack
		t, u = t1, u1
		if done {
			break
		}
	}
	return t, u, c.At(t).Dist(d.At(u)) <= touchSlack
}

func clamp(v, lo, hi float64) float64 { return math.Min(math.Max(v, lo), hi) }

// zone is a region of both parameters in which nearly parallel curves are close.
type zone struct{ t0, t1, u0, u1 float64 }

// zones gathers neighbouring pairs.
func zones(ps []arcPair) (zs []zone) {
	slices.SortFunc(ps, func(p, q arcPair) int {
		return cmp.Or(cmp.Compare(p.a.t0, q.a.t0), cmp.Compare(p.b.t0, q.b.t0))
	})
next:
	for _, p := range ps {
		for i := range zs {
			z := &zs[i]
			if p.a.t0 <= z.t1 && p.b.t0 <= z.u1 && p.b.t1 >= z.u0 {
				z.t1, z.u0, z.u1 = math.Max(z.t1, p.a.t1), math.Min(z.u0, p.b.t0), math.Max(z.u1, p.b.t1)
				continue next
			}
		}
		zs = append(zs, zone{p.a.t0, p.a.t1, p.b.t0, p.b.t1})
	}
	return zs
}

// shared reports whether c keeps within touchSlack of d all along the zone,
// and where on d the ends are.
func (z zone) shared(c, d *Cubic) (u0, u1 float64, ok bool) {
	for k := range zoneProbes + 1 {
		u, dist := d.nearest(c.At(z.t0 + (z.t1-z.t0)*float64(k)/zoneProbes))
		if dist > 2*touchSlack {
			return 0, 0, false
		}
		if k == 0 {
			u0 = u
		}
		u1 = u
	}
	return u0, u1, true
}

// touches returns the places in the zone where the curves touch or cross,
// looked for from the middle of each of n parts. Where they only pass each
// other closely there are none.
func (z zone) touches(c, d *Cubic, n int) (hits []hit) {
	within := func(t, u float64) bool {
		return c.At(t).Dist(c.At(clamp(t, z.t0, z.t1))) <= sharedLeast &&
			d.At(u).Dist(d.At(clamp(u, z.u0, z.u1))) <= sharedLeast
	}
	for k := range n {
		t0 := z.t0 + (z.t1-z.t0)*(float64(k)+0.5)/float64(n)
		u0 := (z.u0 + z.u1) / 2
		if n > 1 {
			u0, _ = d.nearest(c.At(t0))
		}
		if t, u, ok := touchNewton(c, d, t0, u0); ok && within(t, u) {
			hits = append(hits, hit{t, u, true})
		} else if t, u, ok := crossNewton(c, d, t0, u0); ok && within(t, u) {
			hits = append(hits, hit{t: t, u: u})
		} else if u, dist := d.nearest(c.At(t0)); dist <= touchSlack && within(t0, u) {
			hits = append(hits, hit{t0, u, true})
		}
	}
	return hits
}

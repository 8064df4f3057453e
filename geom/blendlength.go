package geom

import (
	"fmt"
	"math"
)

// fairMostBend is the greatest length times ∫κ² ds of a fair curve of a given
// length that may inflect; a full circle has 39.
const fairMostBend = 250

// fairBounds are the lengths that can be reached for sure, none when hi < lo.
type fairBounds struct{ lo, hi float64 }

func (b fairBounds) hold(length float64) bool { return b.lo <= length && length <= b.hi }

// solveLength looks for the fairest curve of the length: first among those
// that keep their bend, then among all cubics between the ends.
//
// The length of a cubic is a convex function of its control points and least,
// the chord, without handles. So it grows with both handles along every fixed
// ratio of the two, and each ratio gives one cubic of the length.
func (f *fair) solveLength(length float64) ([]Cubic, error) {
	var bent fairBounds
	most0, most1, convex := fairMost(f.chord, float64(f.out), float64(f.in))
	switch {
	case f.two:
		bent = fairBounds{lo: math.Inf(1), hi: math.Inf(-1)}
		if segs, ok := f.twoOfLength(length); ok {
			return f.finite(segs)
		}
	case convex:
		const least, most = 0.04, 0.96
		sure := most0 / (most0 + most1)
		bent = fairBounds{f.handles(least*most0, least*most1).Length(), f.handles(most*most0, most*most1).Length()}
		if bent.hold(length) {
			return f.finite(f.fairest(length, sure, least*most0/(least*most0+most*most1), most*most0/(most*most0+least*most1), func(h0, h1 float64) bool {
				return min(h0/most0, h1/most1) >= least && max(h0/most0, h1/most1) <= most
			}))
		}
	default:
		bent = fairBounds{lo: math.Inf(1), hi: math.Inf(-1)}
	}
	all := f.swingBounds()
	if all.hold(length) {
		return f.finite(f.fairest(length, 0.5, 0.1, 0.9, func(float64, float64) bool { return true }))
	}
	all = fairBounds{min(bent.lo, all.lo), max(bent.hi, all.hi)}
	if all.lo > all.hi {
		return nil, fmt.Errorf("a fair curve here cannot make %.6g mm in all; blend another stretch or let the length change", f.kept+length)
	}
	return nil, fmt.Errorf("with a fair curve here it can be about %.6g mm to %.6g mm long in all, not %.6g mm; blend another stretch, ask for a length between or let the length change", f.kept+all.lo, f.kept+all.hi, f.kept+length)
}

// handles returns the cubic between the ends with handles of these lengths.
func (f *fair) handles(h0, h1 float64) Cubic {
	return Curve(f.a, f.a.Add(f.da.Mul(h0)), f.b.Sub(f.db.Mul(h1)), f.b)
}

// swing returns the energy of a cubic, infinite when it makes a loop or turns
// so sharply that the energy cannot be trusted.
func (f *fair) swing(c Cubic) float64 {
	const looks = 32
	if _, _, loops := c.loop(); loops {
		return math.Inf(1)
	}
	last := f.da
	for k := 1; k <= looks; k++ {
		dir := c.Tangent(float64(k) / looks)
		if dir.Dot(last) < 0.3 {
			return math.Inf(1)
		}
		last = dir
	}
	bend, length := fairBending([]Cubic{c})
	return bend * length
}

// swingBounds returns the lengths that cubics with equal handles reach without
// loops and sharp bends.
func (f *fair) swingBounds() fairBounds {
	const steps = 96
	sum := func(k int) float64 { return 0.01 * f.chord * math.Pow(1.1, float64(k)) }
	var energy [steps]float64
	best := 0
	for k := range energy {
		energy[k] = f.swing(f.handles(sum(k)/2, sum(k)/2))
		if energy[k] < energy[best] {
			best = k
		}
	}
	if !(energy[best] <= fairMostBend) {
		return fairBounds{math.Inf(1), math.Inf(-1)}
	}
	lo, hi := best, best
	for lo > 0 && energy[lo-1] <= fairMostBend {
		lo--
	}
	for hi < steps-1 && energy[hi+1] <= fairMostBend {
		hi++
	}
	return fairBounds{f.handles(sum(lo)/2, sum(lo)/2).Length(), f.handles(sum(hi)/2, sum(hi)/2).Length()}
}

// fairest returns the cubic of the length with the least energy among those
// whose first handle has a share from lo to hi of both and whose handles are
// allowed, the cubic at the share sure when it knows no better.
func (f *fair) fairest(length, sure, lo, hi float64, allowed func(h0, h1 float64) bool) []Cubic {
	const steps = 16
	best := f.level(sure, length)
	least := f.swing(best)
	look := func(share float64) (energy float64) {
		c := f.level(share, length)
		if !allowed(c.P[1].Dist(f.a), c.P[2].Dist(f.b)) {
			return math.Inf(1)
		}
		energy = f.swing(c)
		if energy < least {
			best, least, sure = c, energy, share
		}
		return energy
	}
	for k := range steps + 1 {
		look(lo + (hi-lo)*float64(k)/steps)
	}
	// Golden section (Kiefer 1953) next to the best.
	const golden = 0.6180339887498949
	from, to := max(lo, sure-(hi-lo)/steps), min(hi, sure+(hi-lo)/steps)
	x, y := to-golden*(to-from), from+golden*(to-from)
	ex, ey := look(x), look(y)
	for range 24 {
		if ex < ey {
			to, y, ey = y, x, ex
			x = to - golden*(to-from)
			ex = look(x)
		} else {
			from, x, ex = x, y, ey
			y = from + golden*(to-from)
			ey = look(y)
		}
	}
	return []Cubic{best}
}

// level returns the cubic of the length, which is not below the chord, whose
// first handle has the share of both: by false position with halved weights
// (the Illinois rule), a bounded number of times.
func (f *fair) level(share, length float64) Cubic {
	at := func(sum float64) Cubic { return f.handles(share*sum, (1-share)*sum) }
	off := func(sum float64) float64 { return at(sum).Length() - length }
	lo, hi := 0.0, length
	below, above := f.chord-length, off(hi)
	for range 40 {
		if above >= 0 {
			break
		}
		lo, below = hi, above
		hi *= 2
		above = off(hi)
	}
	side := 0
	for range 100 {
		m := (lo*above - hi*below) / (above - below)
		if !(m > lo && m < hi) {
			if m = (lo + hi) / 2; !(m > lo && m < hi) {
				break
			}
		}
		switch v := off(m); {
		case math.Abs(v) <= 1e-13*length:
			return at(m)
		case v < 0:
			if lo, below = m, v; side < 0 {
				above /= 2
			}
			side = -1
		default:
			if hi, above = m, v; side > 0 {
				below /= 2
			}
			side = 1
		}
	}
	return at((lo + hi) / 2)
}

// twoOfLength looks for two cubics near the length and then scales their
// handles until it is exact.
func (f *fair) twoOfLength(length float64) ([]Cubic, bool) {
	x := f.best()
	for _, pull := range [2]float64{1e4, 1e6} {
		x = f.search(x, func(x []float64) float64 { return f.energyNear(x, length, pull) })
	}
	segs := f.cubics(x)
	grown := func(k float64) []Cubic {
		out := make([]Cubic, len(segs))
		for i, c := range segs {
			out[i] = Curve(c.P[0], c.P[0].Add(c.P[1].Sub(c.P[0]).Mul(k)), c.P[3].Add(c.P[2].Sub(c.P[3]).Mul(k)), c.P[3])
		}
		return out
	}
	lo, hi := 0.96, 1.04
	off := func(k float64) float64 { return fairLength(grown(k)) - length }
	if len(segs) == 0 || !(off(lo) < 0 && off(hi) > 0) {
		return nil, false
	}
	for range 100 {
		k := (lo + hi) / 2
		if off(k) > 0 {
			hi = k
		} else {
			lo = k
		}
		if hi-lo < 1e-16 {
			break
		}
	}
	return grown((lo + hi) / 2), true
}

package geom

import (
	"fmt"
	"math"
)

// fitCount is the number of places along a cubic that choose its handles; as
// many again in between judge the result. The error of a cubic fitted with
// both end directions has three lobes, so each is seen about eight times.
const fitCount = 11

// fitTries bounds the number of cubics tried for one curve.
const fitTries = 20000

// fitLeast is the smallest step, as a share of the whole range.
const fitLeast = 1e-8

// fitSpot is a place on a curve, with its unit direction and speed.
type fitSpot struct {
	p, dir Point
	speed  float64
}

// fitAlong emits cubics within tol of the curve that see looks at (from after
// t with ahead 1, from before with −1), with the parameters between which each
// stands for the curve. The next range to try follows from the last error, as
// in the solution of differential equations: the error goes with the sixth
// power of the range. What is left is shared evenly, so that the last cubic is
// no shorter than the others.
func fitAlong(see func(t, ahead float64) fitSpot, t0, t1, tol float64, emit func(c Cubic, t0, t1 float64)) error {
	whole := t1 - t0
	a, end := see(t0, 1), see(t1, -1)
	step := whole
	for range fitTries {
		t, b := t1, end
		if math.Abs(step) < math.Abs(t1-t0)*(1-1e-9) {
			t = t0 + step
			b = see(t, 1)
		}
		c, worst := fitOne(see, t0, t, a, b, tol)
		grow := 0.5 // when nothing is known
		if worst < math.Inf(1) {
			grow = math.Pow(0.6*tol/max(worst, 1e-6*tol), 1.0/6)
		}
		switch {
		case math.IsNaN(worst):
			return fmt.Errorf("the curve is not finite near its parameter %g", t0)
		case worst <= tol:
			emit(c, t0, t)
			if t == t1 {
				return nil
			}
			t0, a = t, b
			step *= max(1, min(2, grow))
		case math.Abs(step) < fitLeast*math.Abs(whole):
			return fmt.Errorf("the curve cannot be followed within %g mm near (%.4g, %.4g); allow more", tol, a.p.X, a.p.Y)
		default:
			step *= max(0.2, min(0.9, grow))
		}
		if left := t1 - t0; math.Abs(step) < math.Abs(left) {
			step = left / math.Ceil(left/step-1e-9)
		} else {
			step = left
		}
	}
	return fmt.Errorf("the curve needs more than %d cubics at a tolerance of %g mm; allow more", fitTries/2, tol)
}

// fitOne fits one cubic to the curve between t0 and t1 and returns the greatest
// distance seen: infinite where that is not known, not a number where the curve
// is not finite.
func fitOne(see func(t, ahead float64) fitSpot, t0, t1 float64, a, b fitSpot, tol float64) (Cubic, float64) {
	var spots [2*fitCount + 1]fitSpot
	reach := dist2(b.p, a.p)
	for k := range spots {
		spots[k] = see(t0+(t1-t0)*float64(k+1)/float64(len(spots)+1), 1)
		reach = max(reach, dist2(spots[k].p, a.p))
	}
	if reach = math.Sqrt(reach); math.IsNaN(reach) || reach <= tol/2 { // too small to matter: a corner or a cusp
		return Straight(a.p, b.p), reach
	}
	step := math.Abs(t1-t0) / 3
	s := fitSpan{a: a.p, b: b.p, da: a.dir, db: b.dir, ha: a.speed * step, hb: b.speed * step}
	return s.along(&spots, tol)
}

// fitBend is the cosine of the greatest turn between two neighbouring places;
// where a curve turns faster a corner may hide between them.
const fitBend = 0.85

// along fits the span to the spots, which stand at even steps of some
// parameter, and returns the greatest distance seen. Every second spot chooses
// the handles, all of them judge; a distance close under tol counts as more.
func (s *fitSpan) along(spots *[2*fitCount + 1]fitSpot, tol float64) (Cubic, float64) {
	chord := s.b.Sub(s.a)
	n := chord.Norm()
	straight := n > 0
	last := fitSpot{p: s.a, dir: s.da}
	for k := 0; k <= len(spots); k++ {
		next := fitSpot{p: s.b, dir: s.db}
		if k < len(spots) {
			next = spots[k]
		}
		if next.dir.Dot(last.dir) < fitBend && next.p.Dist(last.p) > tol/2 {
			return Cubic{}, math.Inf(1)
		}
		straight = straight && math.Abs(chord.Cross(next.p.Sub(s.a))) <= Coincident*n && chord.Dot(next.dir) >= (1-1e-12)*n
		last = next
	}
	if straight && chord.Dot(s.da) >= (1-1e-12)*n {
		return Straight(s.a, s.b), 0
	}
	if s.ha < 0.05*n || s.ha > 5*n {
		s.ha = n / 3
	}
	if s.hb < 0.05*n || s.hb > 5*n {
		s.hb = n / 3
	}
	var pts [fitCount]Point
	var us [fitCount]float64
	for k := range pts {
		pts[k] = spots[2*k+1].p
		us[k] = float64(2*k+2) / float64(len(spots)+1)
	}
	const margin = 1.04 // for what lies between the places
	worst, _ := s.near(pts[:], us[:], tol/2)
	if worst *= margin; !(worst <= tol) {
		return Cubic{}, worst
	}
	c := s.cubic()
	for k := 0; k <= fitCount; k++ {
		u0, u1 := 0.0, 1.0
		if k > 0 {
			u0 = us[k-1]
		}
		if k < fitCount {
			u1 = us[k]
		}
		worst = max(worst, margin*fitMiss(&c, spots[2*k].p, (u0+u1)/2))
	}
	return c, worst
}

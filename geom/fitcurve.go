package geom

import (
	"errors"
	"fmt"
	"math"
)

// fitCount is the number of places along a span that choose its handles; as
// many again in between judge the result. The error of a cubic fitted with
// both end directions has three lobes, so each is seen about ten times.
const fitCount = 15

// fitDepth bounds the halving: 2⁻²⁰ of the parameter range.
const fitDepth = 20

// fitMost bounds the number of cubics of one fitted curve.
const fitMost = 20000

// FitCurve returns cubics along the curve f for t from t0 to t1, everywhere
// within tol mm of it, where f gives the place and the derivative by t. The
// ends and the directions there are those of f, and so are the places and
// directions where one cubic passes into the next, so the result is smooth
// where f is. Corners and cusps of f are followed to within tol. It is refused
// when f gives a place that is not finite or the tolerance is out of reach.
//
// Each cubic is chosen by least squares of the distances; where that is not
// enough the range is halved. The error falls with the sixth power of the
// number of cubics.
func FitCurve(f func(t float64) (pos, deriv Point), t0, t1, tol float64) (Path, error) {
	if !(tol > 0) || math.IsInf(tol, 0) {
		return Path{}, errors.New("fitting a curve needs a tolerance above 0 mm")
	}
	if !(math.Abs(t0) < math.MaxFloat64/4 && math.Abs(t1) < math.MaxFloat64/4) || t0 == t1 {
		return Path{}, errors.New("fitting a curve needs two different, finite ends of the parameter")
	}
	w := fitWalk{f: f, tol: tol, rate: t1 - t0}
	a, b := w.see(t0, 1), w.see(t1, -1)
	if err := w.span(t0, t1, a, b, 0); err != nil {
		return Path{}, err
	}
	return NewPath(w.out...)
}

// fitWalk collects the cubics of one fitted curve.
type fitWalk struct {
	f    func(t float64) (pos, deriv Point)
	tol  float64
	rate float64 // range of the parameter, with sign
	out  []Cubic
	err  error
}

// fitSpot is a place on a curve, with its unit direction and speed.
type fitSpot struct {
	p, dir Point
	speed  float64
}

// see evaluates the curve at t. Where the derivative vanishes the direction is
// that of a short step forward (ahead 1) or backward (ahead −1).
func (w *fitWalk) see(t, ahead float64) fitSpot {
	p, d := w.f(t)
	d = d.Mul(math.Copysign(1, w.rate))
	speed := d.Norm()
	if !p.Finite() || math.IsNaN(speed) || math.IsInf(speed, 0) {
		if w.err == nil {
			w.err = fmt.Errorf("the curve to fit is not within %g mm at its parameter %g", Reach, t)
		}
		return fitSpot{}
	}
	if speed*math.Abs(w.rate) <= 1e-9*w.tol {
		q, _ := w.f(t + ahead*1e-5*w.rate)
		d, speed = q.Sub(p).Mul(ahead), 0
	}
	return fitSpot{p, d.Unit(), speed}
}

func (w *fitWalk) span(t0, t1 float64, a, b fitSpot, depth int) error {
	var spots [2*fitCount + 1]fitSpot
	reach := b.p.Dist(a.p)
	for k := range spots {
		spots[k] = w.see(t0+(t1-t0)*float64(k+1)/float64(len(spots)+1), 1)
		reach = max(reach, spots[k].p.Dist(a.p))
	}
	mid := spots[fitCount]
	switch {
	case w.err != nil:
		return w.err
	case len(w.out) >= fitMost:
		return fmt.Errorf("the curve needs more than %d cubics at a tolerance of %g mm; allow more", fitMost, w.tol)
	case reach <= w.tol/2: // too small to matter: a corner or a cusp
		w.out = append(w.out, Straight(a.p, b.p))
		return nil
	}
	step := math.Abs(t1-t0) / 3
	s := fitSpan{a: a.p, b: b.p, da: a.dir, db: b.dir, ha: a.speed * step, hb: b.speed * step}
	if c, ok := s.along(&spots, w.tol); ok {
		w.out = append(w.out, c)
		return nil
	}
	if depth == fitDepth {
		return fmt.Errorf("the curve cannot be followed within %g mm near (%.4g, %.4g)", w.tol, mid.p.X, mid.p.Y)
	}
	m := (t0 + t1) / 2
	if err := w.span(t0, m, a, mid, depth+1); err != nil {
		return err
	}
	return w.span(m, t1, mid, b, depth+1)
}

// fitBend is the cosine of the greatest turn between two neighbouring places;
// where a curve turns faster a corner may hide between them.
const fitBend = 0.85

// along fits the span to the spots, which stand at even steps of some
// parameter, and reports whether the curve stays within tol. Every second spot
// chooses the handles, all of them judge.
func (s *fitSpan) along(spots *[2*fitCount + 1]fitSpot, tol float64) (Cubic, bool) {
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
			return Cubic{}, false
		}
		straight = straight && math.Abs(chord.Cross(next.p.Sub(s.a))) <= Coincident*n && chord.Dot(next.dir) >= (1-1e-12)*n
		last = next
	}
	if straight && chord.Dot(s.da) >= (1-1e-12)*n {
		return Straight(s.a, s.b), true
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
	if worst, _ := s.near(pts[:], us[:], tol/4); !(worst <= 0.98*tol) {
		return Cubic{}, false
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
		if !(fitMiss(&c, spots[2*k].p, (u0+u1)/2) <= 0.98*tol) {
			return Cubic{}, false
		}
	}
	return c, true
}

package geom

import (
	"cmp"
	"errors"
	"fmt"
	"math"
)

// FitCurve returns cubics along the curve f for t from t0 to t1, everywhere
// within tol mm of it, where f gives the place and the derivative by t. The
// ends and the directions there are those of f, and so are the places and
// directions where one cubic passes into the next, so the result is smooth
// where f is. Corners and cusps of f are followed to within tol. It is refused
// when f gives a place that is not finite or the tolerance is out of reach.
//
// Each cubic is chosen by least squares of the distances and judged at 23
// places; the error falls with the sixth power of the number of cubics.
func FitCurve(f func(t float64) (pos, deriv Point), t0, t1, tol float64) (Path, error) {
	if !(tol > 0) || math.IsInf(tol, 0) {
		return Path{}, errors.New("fitting a curve needs a tolerance above 0 mm")
	}
	if !(math.Abs(t0) < math.MaxFloat64/4 && math.Abs(t1) < math.MaxFloat64/4) || t0 == t1 {
		return Path{}, errors.New("fitting a curve needs two different, finite ends of the parameter")
	}
	w := fitEye{f: f, tol: tol, rate: t1 - t0}
	var segs []Cubic
	if err := fitAlong(w.see, t0, t1, tol, func(c Cubic, _, _ float64) { segs = append(segs, c) }); err != nil {
		return Path{}, cmp.Or(w.err, err)
	}
	return NewPath(segs...)
}

// fitEye looks at a curve given by place and derivative.
type fitEye struct {
	f    func(t float64) (pos, deriv Point)
	tol  float64
	rate float64 // range of the parameter, with sign
	err  error   // the first place that was not finite
}

// see evaluates the curve at t. Where the derivative vanishes the direction is
// that of a short step forward (ahead 1) or backward (ahead −1).
func (w *fitEye) see(t, ahead float64) fitSpot {
	p, d := w.f(t)
	d = d.Mul(math.Copysign(1, w.rate))
	speed := d.Norm()
	if !p.Finite() || math.IsNaN(speed) || math.IsInf(speed, 0) {
		if w.err == nil {
			w.err = fmt.Errorf("the curve to fit is not within %g mm at its parameter %g", Reach, t)
		}
		return fitSpot{p: Point{math.NaN(), math.NaN()}}
	}
	if speed*math.Abs(w.rate) <= 1e-9*w.tol {
		q, _ := w.f(t + ahead*1e-5*w.rate)
		d, speed = q.Sub(p).Mul(ahead), 0
	}
	return fitSpot{p, d.Unit(), speed}
}

package geom

import (
	"errors"
	"fmt"
	"math"
)

// MissError says that a turn about a pin cannot reach what it was asked to
// reach, and how near it comes.
type MissError struct {
	Miss float64 // the least distance left, in mm
	Turn Angle   // the turn that leaves it, in (−π, π]
}

func (e *MissError) Error() string {
	return fmt.Sprintf("out of reach: the nearest turn, by %.4g°, still misses by %.4g mm", e.Turn.Degrees(), e.Miss)
}

// ErrMeetsAlready says that a path that was to be turned until it touches a
// line touches or crosses that line before any turn.
var ErrMeetsAlready = errors.New("the path touches or crosses the line already")

var errTurnInput = errors.New("a turn needs finite places")

// TurnToLine returns the turns about pin that bring q onto l, sorted, each in
// (−π, π]: two, or one where the circle of q just touches the line (within
// [Coincident]) or q is the pin itself. When none does, the error is a
// [*MissError]. Closed form; a q on the line already gives exactly 0.
func TurnToLine(pin, q Point, l Line) ([]Angle, error) {
	if err := l.check(); err != nil {
		return nil, err
	}
	if !pin.Finite() || !q.Finite() {
		return nil, errTurnInput
	}
	answers, miss := turnPoint(pin, q, l)
	if miss != nil {
		return nil, miss
	}
	return answers, nil
}

func turnPoint(pin, q Point, l Line) ([]Angle, *MissError) {
	v := q.Sub(pin)
	height, radius := l.Distance(pin), v.Norm()
	down := l.Dir.Perp().Mul(-height) // from the pin to its foot on the line
	switch {
	case math.Abs(height)-radius > Coincident:
		var turn Angle
		if radius > 0 {
			turn = Between(v, down)
		}
		return nil, &MissError{Miss: math.Abs(height) - radius, Turn: turn}
	case radius <= Coincident:
		return []Angle{0}, nil
	}
	half := 0.0 // half the chord that the line cuts from the circle of q
	if radius-math.Abs(height) > Coincident {
		half = math.Sqrt((radius - height) * (radius + height))
	}
	a, b := Between(v, down.Add(l.Dir.Mul(half))), Between(v, down.Sub(l.Dir.Mul(half)))
	if math.Abs(l.Distance(q)) <= Coincident {
		if math.Abs(float64(b)) < math.Abs(float64(a)) {
			a, b = b, a
		}
		a = 0
	}
	if half == 0 {
		return []Angle{a}, nil
	}
	return turnSorted(a, b), nil
}

func turnSorted(a, b Angle) []Angle {
	a, b = a.Normalized(), b.Normalized()
	if a > b {
		a, b = b, a
	}
	return []Angle{a, b}
}

// TurnNearest returns the turn about pin, in (−π, π], that brings q nearest to
// r; 0 when q or r lies on the pin, where no turn is nearer than another.
func TurnNearest(pin, q, r Point) Angle {
	v, w := q.Sub(pin), r.Sub(pin)
	if !(v.Norm() > Coincident) || !(w.Norm() > Coincident) || !v.Finite() || !w.Finite() {
		return 0
	}
	return Between(v, w).Normalized()
}

// TurnParallel returns the two turns, sorted and in (−π, π], that lay the
// chord from a to b parallel to l, once along and once against its direction;
// none when a and b coincide.
func TurnParallel(a, b Point, l Line) []Angle {
	v := b.Sub(a)
	if !a.Finite() || !b.Finite() || v.Norm() <= Coincident || l.check() != nil {
		return nil
	}
	return turnSorted(Between(v, l.Dir), Between(v, l.Dir.Mul(-1)))
}

// FirstTurn returns which of the turns is met first when turning in the
// direction dir (positive counter-clockwise, negative clockwise): the signed
// amount turned, in [0, 2π) or (−2π, 0]. A turn of 0, or within 1e-12 of it,
// is met at once. It reports false when there is no turn or no direction.
func FirstTurn(angles []Angle, dir int) (Angle, bool) {
	sign := Angle(1)
	if dir < 0 {
		sign = -1
	}
	best, found := Angle(0), false
	for _, a := range angles {
		a = (sign * a).Normalized()
		switch {
		case math.Abs(float64(a)) <= turnSlack:
			a = 0
		case a < 0:
			a += 2 * math.Pi
		}
		if !math.IsNaN(float64(a)) && dir != 0 && (!found || a < best) {
			best, found = a, true
		}
	}
	return sign * best, found
}

// turnSlack is the turn in radians below which nothing was turned.
const turnSlack = 1e-12

// TurnToTouch returns the smallest turn about pin in the direction dir
// (positive counter-clockwise, negative clockwise) after which p, which lies
// clear of l, just touches it: with an end, a joint or a tangent. The amount
// is signed, below a full turn in size, and right to about 1e-12. When p meets
// l already the error is [ErrMeetsAlready]; when it never reaches l it is a
// [*MissError].
//
// A point that touches first is an end of a cubic or one whose tangent is l
// after the turn, that is, whose tangent is as far from the pin as l. Those
// are the roots of a polynomial, isolated in its Bernstein form; no sampling.
func TurnToTouch(p Path, pin Point, l Line, dir int) (Angle, error) {
	if err := l.check(); err != nil {
		return 0, err
	}
	switch {
	case p.Empty():
		return 0, errors.New("an empty path touches nothing")
	case !pin.Finite():
		return 0, errTurnInput
	case dir == 0:
		return 0, errors.New("a turn until something touches needs a direction")
	}
	if turnMeets(p, l) {
		return 0, ErrMeetsAlready
	}
	best, found := Angle(0), false
	var miss *MissError
	try := func(q Point) {
		answers, m := turnPoint(pin, q, l)
		if m != nil && (miss == nil || m.Miss < miss.Miss) {
			miss = m
		}
		if a, ok := FirstTurn(answers, dir); ok && (!found || math.Abs(float64(a)) < math.Abs(float64(best))) {
			best, found = a, true
		}
	}
	try(p.Start())
	for _, c := range p.segs {
		try(c.End())
		if !c.straight {
			turnCandidates(c, pin, l.Distance(pin), func(t float64) { try(c.At(t)) })
		}
	}
	if found {
		return best, nil
	}
	return 0, miss
}

// turnMeets reports whether p comes within Coincident of l or crosses it.
func turnMeets(p Path, l Line) bool {
	lo, hi := math.Inf(1), math.Inf(-1)
	see := func(q Point) {
		d := l.Distance(q)
		lo, hi = math.Min(lo, d), math.Max(hi, d)
	}
	see(p.Start())
	for _, c := range p.segs {
		see(c.End())
		if !c.straight {
			d := turnHodograph(c)
			turnRoots([]float64{l.Dir.Cross(d[0]), l.Dir.Cross(d[1]), l.Dir.Cross(d[2])}, func(t float64) { see(c.At(t)) })
		}
	}
	return lo <= Coincident && hi >= -Coincident
}

// turnCandidates visits the parameters where the tangent of c is as far from
// the pin as height, and those where c is farthest from the pin.
func turnCandidates(c Cubic, pin Point, height float64, visit func(t float64)) {
	var x, y [4]float64
	for i, q := range c.P {
		x[i], y[i] = q.X-pin.X, q.Y-pin.Y
	}
	var dx, dy [3]float64
	for i, d := range turnHodograph(c) {
		dx[i], dy[i] = d.X, d.Y
	}
	moment := turnAdd(turnTimes(x[:], dy[:]), turnTimes(y[:], dx[:]), -1)
	if math.Abs(height) <= Coincident {
		turnRoots(moment, visit)
	} else {
		speed2 := turnAdd(turnTimes(dx[:], dx[:]), turnTimes(dy[:], dy[:]), 1)
		one := [7]float64{1, 1, 1, 1, 1, 1, 1}
		turnRoots(turnAdd(turnTimes(moment, moment), turnTimes(speed2, one[:]), -height*height), visit)
	}
	turnRoots(turnAdd(turnTimes(x[:], dx[:]), turnTimes(y[:], dy[:]), 1), visit)
}

// turnHodograph returns the control points of the derivative of c.
func turnHodograph(c Cubic) [3]Point {
	return [3]Point{c.P[1].Sub(c.P[0]).Mul(3), c.P[2].Sub(c.P[1]).Mul(3), c.P[3].Sub(c.P[2]).Mul(3)}
}

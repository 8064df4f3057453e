package geom

import (
	"errors"
	"fmt"
	"math"
)

// Arc returns the circular arc about center that starts in the direction from
// and turns by sweep, at most a full turn either way. Its cubics turn by 45°
// at most and are off the radius by at most 4.2455e-6·r, outwards (0.0004 mm
// at 100 mm). A full turn ends exactly where it starts, and is still open.
func Arc(center Point, r float64, from, sweep Angle) (Path, error) {
	return fitArc(center, r, r, 0, from, sweep, 45*Degree)
}

// EllipseArc returns the arc of the ellipse with the half axes rx and ry, the
// first turned by rotation from the x axis, as cubics within tol mm of it.
// from and sweep are eccentric angles, counted from the first half axis: the
// direction on the circle of which the ellipse is the squeezed image.
func EllipseArc(center Point, rx, ry float64, rotation, from, sweep Angle, tol float64) (Path, error) {
	if !(tol > 0) {
		return Path{}, errors.New("an arc needs a tolerance above 0 mm")
	}
	// A quarter circle is 2.7253e-4 off, and the error falls with the sixth power.
	piece := 90 * Degree * Angle(math.Pow(tol/(2.7253e-4*max(rx, ry)), 1.0/6))
	if !(piece > Degree/2) {
		piece = Degree / 2
	}
	return fitArc(center, rx, ry, rotation, from, sweep, min(piece, 90*Degree))
}

// fitArc makes the arc with pieces of one size that turn by piece at most, the
// handles 4/3·tan(θ/4) of the radius long, which puts the middle of each on
// the arc.
func fitArc(center Point, rx, ry float64, rotation, from, sweep, piece Angle) (Path, error) {
	for _, a := range [3]Angle{rotation, from, sweep} {
		if math.IsNaN(float64(a)) || math.IsInf(float64(a), 0) {
			return Path{}, errors.New("an arc needs finite angles")
		}
	}
	switch turned := math.Abs(float64(sweep)); {
	case !center.Finite() || !(rx > 0 && rx <= Reach) || !(ry > 0 && ry <= Reach):
		return Path{}, fmt.Errorf("an arc needs a finite centre and a radius above 0 and up to %g mm", Reach)
	case turned == 0 || turned > 2*math.Pi*(1+1e-15):
		return Path{}, errors.New("an arc turns by more than 0 and at most 360°")
	}
	n := int(math.Ceil(math.Abs(float64(sweep/piece)) - 1e-9))
	n = max(n, 1)
	theta := sweep / Angle(n)
	reach := 4.0 / 3 * math.Tan(float64(theta)/4)
	first, second := rotation.Unit().Mul(rx), rotation.Unit().Perp().Mul(ry)
	place := func(u Point) Point { return first.Mul(u.X).Add(second.Mul(u.Y)) }
	segs := make([]Cubic, n)
	at := from.Unit()
	for i := range segs {
		next := (from + theta*Angle(i+1)).Unit()
		if i == n-1 && math.Abs(float64(sweep)) >= 2*math.Pi*(1-1e-15) {
			next = from.Unit()
		}
		b, c := at.Add(at.Perp().Mul(reach)), next.Sub(next.Perp().Mul(reach))
		segs[i] = Curve(center.Add(place(at)), center.Add(place(b)), center.Add(place(c)), center.Add(place(next)))
		at = next
	}
	return NewPath(segs...)
}

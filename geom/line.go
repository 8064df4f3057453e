package geom

import (
	"errors"
	"fmt"
)

// Line is a straight line without ends, through Point in the unit direction
// Dir. Make one with [NewLine].
type Line struct{ Point, Dir Point }

// NewLine returns the line through a towards b; an error when the points
// coincide or are not finite.
func NewLine(a, b Point) (Line, error) {
	for _, p := range [2]Point{a, b} {
		if !p.Finite() {
			return Line{}, fmt.Errorf("(%g, %g) is not a finite place within %g mm", p.X, p.Y, Reach)
		}
	}
	if a.Dist(b) <= Coincident {
		return Line{}, errors.New("a line needs two different points")
	}
	return Line{Point: a, Dir: b.Sub(a).Unit()}, nil
}

// Distance returns the signed distance of p from the line, positive on its left.
func (l Line) Distance(p Point) float64 { return l.Dir.Cross(p.Sub(l.Point)) }

// Along returns how far along the line, counted from Point, the foot of p lies.
func (l Line) Along(p Point) float64 { return l.Dir.Dot(p.Sub(l.Point)) }

// At returns the point of the line at the signed distance s from Point.
func (l Line) At(s float64) Point { return l.Point.Add(l.Dir.Mul(s)) }

// Foot returns the point of the line nearest to p.
func (l Line) Foot(p Point) Point { return l.At(l.Along(p)) }

func (l Line) check() error {
	n := l.Dir.Norm()
	if !l.Point.Finite() || !(n > 1-unitSlack && n < 1+unitSlack) {
		return errors.New("a line needs a finite point and a direction of length 1")
	}
	return nil
}

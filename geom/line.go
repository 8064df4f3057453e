package geom

import "errors"

// Line is an infinite straight line through Point along the unit vector Dir.
type Line struct{ Point, Dir Point }

// NewLine returns the line from a towards b; an error when they coincide.
func NewLine(a, b Point) (Line, error) {
	if a.Dist(b) <= Coincident {
		return Line{}, errors.New("a line needs two different points")
	}
	return Line{Point: a, Dir: b.Sub(a).Unit()}, nil
}

// Distance returns the signed distance of p from l in mm, positive to the
// left of its direction.
func (l Line) Distance(p Point) float64 { return l.Dir.Cross(p.Sub(l.Point)) }

// Along returns how far along l, in mm from its Point, the foot of p lies.
func (l Line) Along(p Point) float64 { return l.Dir.Dot(p.Sub(l.Point)) }

// Foot returns the point of l nearest to p.
func (l Line) Foot(p Point) Point { return l.Point.Add(l.Dir.Mul(l.Along(p))) }

// At returns the point of l that lies s mm from its Point.
func (l Line) At(s float64) Point { return l.Point.Add(l.Dir.Mul(s)) }

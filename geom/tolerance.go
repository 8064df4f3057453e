package geom

import "math"

const (
	// Coincident is the distance in millimetres below which two points are
	// the same point: far under anything a cutter or printer can show, far
	// above the rounding of coordinates of a few metres (about 1e-12).
	Coincident = 1e-9

	// Reach is the largest coordinate accepted, in millimetres (100 m). It
	// keeps every product of two coordinates well inside float64.
	Reach = 1e5
)

// Finite reports whether p can be used as a coordinate: neither NaN nor
// infinite and within [Reach].
func (p Point) Finite() bool {
	return math.Abs(p.X) <= Reach && math.Abs(p.Y) <= Reach
}

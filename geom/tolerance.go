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

const (
	// rootSlack is the step in the parameter at which root finding stops;
	// Newton's method has then converged to the last bits.
	rootSlack = 1e-15

	// rootSteps bounds every bracketed iteration. Halving alone needs 53.
	rootSteps = 64
)

const (
	// lengthSlack is the share of a cubic's length to which the parameter at
	// a length is found.
	lengthSlack = 1e-14

	// arcDepth bounds the halving of a cubic for its length. What a cusp
	// leaves in 2⁻⁵⁰ of the parameter is below rounding.
	arcDepth = 50

	// cuspSlack is how far, in half intervals, a root of the velocity may be
	// off the real line to be taken as a cusp: the speed then differs from
	// its kinked limit by the square of that.
	cuspSlack = 1e-9

	// clear8 … clear32 are the half long axes (ρ + 1/ρ)/2 of the ellipses on
	// which the Gauss–Legendre rules of 8 … 32 points err by ρ⁻²ⁿ ≈ 1e-14.
	clear8, clear16, clear24, clear32 = 3.82, 1.55, 1.234, 1.13
)

// Finite reports whether p can be used as a coordinate: neither NaN nor
// infinite and within [Reach].
func (p Point) Finite() bool {
	return math.Abs(p.X) <= Reach && math.Abs(p.Y) <= Reach
}

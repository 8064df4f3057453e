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

	// arcLeast is the share of the length below which a part of a cubic is
	// not cut further for its length, and arcDepth bounds the cutting.
	arcLeast, arcDepth = 1e-15, 50

	// cuspSlack is how far, in half intervals, a root of the velocity may be
	// off the real line to be taken as a cusp: the speed then differs from
	// its kinked limit by the square of that.
	cuspSlack = 1e-9

	// clear8 … clear32 are the half long axes (ρ + 1/ρ)/2 of the ellipses on
	// which ρ⁻²ⁿ = 1e-12 for the Gauss–Legendre rules of 8 … 32 points. On a
	// root of the speed they err by a hundredth of that, as measured.
	clear8, clear16, clear24, clear32 = 2.90, 1.396, 1.170, 1.095
)

const (
	// touchSlack is the distance in millimetres within which two curves
	// touch: above what a solved turn or a chain of motions leaves (1e-10),
	// far below what can be cut.
	touchSlack = 1e-8

	// sharedLeast is the length in millimetres from which a stretch that two
	// curves share counts as an overlap; a shorter one is a single touch.
	sharedLeast = 0.05

	// parallelSlack is the sine of the angle below which two directions are
	// the same for telling a touch from a crossing.
	parallelSlack = 1e-6

	// newtonSteps bounds Newton's method in two unknowns, which needs about 5.
	newtonSteps = 16

	// meetLeaf is the size in millimetres down to which two nearly parallel
	// arcs are halved; what is still close then is one touch.
	meetLeaf = 1e-4

	// meetDepth and meetWidth bound the halving: its depth (2⁻⁴⁰ of a curve
	// within Reach is below meetLeaf) and how many pairs of arcs may be alive
	// at once. Two curves that need more run together for a while.
	meetDepth, meetWidth = 40, 512

	// zoneProbes is the number of places at which a long stretch of nearly
	// parallel curves is looked at.
	zoneProbes = 16
)

const (
	// flattenLeast is the finest chord error in millimetres that a path is
	// flattened to; it bounds the number of points.
	flattenLeast = 1e-6

	// straightBulge is how far in millimetres a stretch may bulge and still
	// counts as straight: rounding bends no stretch by that much.
	straightBulge = 1e-6

	// restSpeed is the share of a cubic's extent below which it is at rest,
	// and restAside the distance in millimetres from there at which its
	// curvature is taken.
	restSpeed, restAside = 1e-9, 0.01
)

// Finite reports whether p can be used as a coordinate: neither NaN nor
// infinite and within [Reach].
func (p Point) Finite() bool {
	return math.Abs(p.X) <= Reach && math.Abs(p.Y) <= Reach
}

package geom

import "math"

// Flatten returns points on the path such that the path keeps within tol mm
// of the polyline through them. Joints are among the points; a closed path
// ends with its first point again. A tol below 1e-6, or none, counts as 1e-6.
//
// A chord over the step h of the parameter errs by h²/8·max|B″| at most, and
// |B″| of a cubic is greatest at an end (G. Wang, "The subdivision method for
// finding the intersection between two Bézier curves or surfaces", 1984).
func (p Path) Flatten(tol float64) []Point {
	if p.Empty() {
		return nil
	}
	if !(tol > flattenLeast) {
		tol = flattenLeast
	}
	pts := []Point{p.Start()}
	for _, c := range p.segs {
		n := c.chords(tol)
		for i := 1; i < n; i++ {
			pts = append(pts, c.At(float64(i)/float64(n)))
		}
		pts = append(pts, c.P[3])
	}
	return pts
}

// chords is the number of equal steps of the parameter that keep chords
// within tol of the cubic.
func (c Cubic) chords(tol float64) int {
	if c.straight {
		return 1
	}
	bend := math.Max(c.Second(0).Norm(), c.Second(1).Norm())
	return max(1, int(math.Ceil(math.Sqrt(bend/(8*tol)))))
}

package geom

import (
	"errors"
	"fmt"
	"math"
)

// Fit returns cubics along the points, which stand close together on a drawn
// or scanned line, in order. Every point lies within tol mm of the result,
// which starts at the first and ends at the last. Where the line turns by more
// than corner it keeps a corner, elsewhere the direction runs on; a run
// between two corners that lies within tol of its chord becomes straight. The
// turn at a point is taken over a distance of four times tol on either side,
// so that noise of the size of tol is not mistaken for corners.
//
// Method: P. J. Schneider, "An algorithm for automatically fitting digitized
// curves" (1990), corners first, with the distances taken along the normals
// instead of at fixed parameters.
func Fit(points []Point, tol float64, corner Angle) (Path, error) {
	if !(tol > 0) || math.IsInf(tol, 0) {
		return Path{}, errors.New("fitting points needs a tolerance above 0 mm")
	}
	if !(corner > 0) {
		return Path{}, errors.New("fitting points needs an angle above 0 from which a turn is a corner")
	}
	pts := make([]Point, 0, len(points))
	for i, p := range points {
		if !p.Finite() {
			return Path{}, fmt.Errorf("point %d (%g, %g) is not a finite place within %g mm", i+1, p.X, p.Y, Reach)
		}
		if len(pts) == 0 || p.Dist(pts[len(pts)-1]) > Coincident {
			pts = append(pts, p)
		}
	}
	if len(pts) < 2 {
		return Path{}, errors.New("fitting needs at least two different points")
	}
	d := fitDots{tol: tol}
	start := 0
	for _, end := range append(fitCorners(pts, 4*tol, corner), len(pts)-1) {
		d.run(pts[start : end+1])
		start = end
	}
	return NewPath(d.out...)
}

// fitCorners returns the inner indices where the line turns by more than
// corner, each the sharpest within reach.
func fitCorners(pts []Point, reach float64, corner Angle) []int {
	turns := make([]Angle, len(pts))
	for i := 1; i+1 < len(pts); i++ {
		before, after := fitAside(pts, i, -1, reach), fitAside(pts, i, 1, reach)
		turns[i] = Angle(math.Abs(float64(Between(pts[i].Sub(before), after.Sub(pts[i])))))
	}
	var corners []int
	for i := 1; i+1 < len(pts); i++ {
		if turns[i] <= corner {
			continue
		}
		if n := len(corners); n > 0 && pts[corners[n-1]].Dist(pts[i]) <= reach {
			if turns[i] > turns[corners[n-1]] {
				corners[n-1] = i
			}
			continue
		}
		corners = append(corners, i)
	}
	return corners
}

// fitAside returns the first point at least reach away from point i when
// walking by step, at most 64 points, or the last one met.
func fitAside(pts []Point, i, step int, reach float64) Point {
	j := i
	for k := 0; k < 64 && j+step >= 0 && j+step < len(pts); k++ {
		j += step
		if pts[j].Dist(pts[i]) >= reach {
			break
		}
	}
	return pts[j]
}

// fitDots collects the cubics along points.
type fitDots struct {
	tol float64
	out []Cubic
}

// run fits the points between two corners.
func (d *fitDots) run(pts []Point) {
	a, b := pts[0], pts[len(pts)-1]
	chord := b.Sub(a)
	flat := chord.Norm() > Coincident
	last := 0.0
	for _, p := range pts[1:] {
		along := p.Sub(a).Dot(chord) / chord.Norm()
		flat = flat && math.Abs(p.Sub(a).Cross(chord)) <= d.tol*chord.Norm() && along > last
		last = along
	}
	if flat {
		d.out = append(d.out, Straight(a, b))
		return
	}
	n := len(pts)
	share := max(fitFewest, n/4)
	d.smooth(pts, fitTangent(pts, 0, 0, share), fitTangent(pts, n-1, n-1-share, n-1), true, true)
}

// fitFewest is the number of neighbours wanted at least for a direction.
const fitFewest = 4

// fitTangent returns the unit direction at point i of the polynomial of least
// squares through the points lo … hi, cut to what there is, with the length of
// the line as its parameter: a cubic, or less when there are few points.
func fitTangent(pts []Point, i, lo, hi int) Point {
	lo, hi = max(lo, 0), min(hi, len(pts)-1)
	at := make([]float64, hi-lo+1)
	for k := lo; k < hi; k++ {
		at[k-lo+1] = at[k-lo] + pts[k+1].Dist(pts[k])
	}
	here, whole := at[i-lo], at[hi-lo]
	n := min(3, (hi-lo+1)/2) + 1 // unknowns
	var m [4][6]float64          // normal equations, right sides x and y
	for k, s := range at {
		v, q := (s-here)/whole, pts[lo+k].Sub(pts[i])
		var power [4]float64
		power[0] = 1
		for r := 1; r < n; r++ {
			power[r] = power[r-1] * v
		}
		for r := range n {
			for c := range n {
				m[r][c] += power[r] * power[c]
			}
			m[r][4] += power[r] * q.X
			m[r][5] += power[r] * q.Y
		}
	}
	x, y := fitSolve(&m, n)
	if d := Pt(x[1], y[1]).Unit(); d != (Point{}) {
		return d
	}
	return pts[hi].Sub(pts[lo]).Unit()
}

// smooth fits the points with the given end directions, of which the free ones
// are only first guesses, halving where they do not lie on one cubic. Two
// points always do, so it comes to an end.
func (d *fitDots) smooth(pts []Point, da, db Point, freeA, freeB bool) {
	n := len(pts)
	a, b := pts[0], pts[n-1]
	us := make([]float64, n)
	for i := 1; i < n; i++ {
		us[i] = us[i-1] + pts[i].Dist(pts[i-1])
	}
	whole := us[n-1]
	for i := range us {
		us[i] /= whole
	}
	s := fitSpan{a: a, b: b, da: da, db: db, ha: whole / 3, hb: whole / 3, freeA: freeA, freeB: freeB}
	if n == 2 {
		d.out = append(d.out, s.cubic())
		return
	}
	split := n / 2
	worst, at := s.near(pts[1:n-1], us[1:n-1], d.tol/4)
	if worst <= d.tol {
		d.out = append(d.out, s.cubic())
		return
	}
	if at++; !math.IsInf(worst, 1) && at > n/5 && at < n-1-n/5 {
		split = at
	}
	share := max(fitFewest, n/6)
	dir := fitTangent(pts, split, split-share, split+share)
	d.smooth(pts[:split+1], da, dir, freeA, false)
	d.smooth(pts[split:], dir, db, false, freeB)
}

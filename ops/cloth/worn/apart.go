package worn

import (
	"math"

	"truemat/geom"
)

// apart pushes pieces that overlap from each other, the one at centre front
// held, until none do and none reaches over centre front.
func (l *layer) apart() {
	outlines := make([]geom.Path, len(l.cuts))
	for i := range l.cuts {
		outlines[i] = l.cuts[i].Transform(l.at[i])
	}
	push := func(i int, by geom.Point) bool {
		if i == l.root || by == (geom.Point{}) {
			return false
		}
		m := geom.Shift(by)
		l.at[i], outlines[i] = l.at[i].Then(m), outlines[i].Transform(m)
		return true
	}
	for range pushes {
		moved := false
		for i := range outlines {
			if over := -outlines[i].Bounds().Min.X; i != l.root && !l.middle(i) && over > 0 {
				moved = push(i, geom.Pt(min(over, nudge), 0)) || moved
			}
			for j := range i {
				if !overlap(outlines[i], outlines[j]) {
					continue
				}
				way := l.off(i, j, outlines).Mul(nudge)
				if way == (geom.Point{}) {
					way = geom.Pt(0, nudge)
				}
				moved = push(i, way) || moved
				moved = push(j, way.Mul(-1)) || moved
			}
		}
		if !moved {
			return
		}
	}
}

// off returns the direction in which a piece is pushed off another one: off
// the seam that joins them, as the smaller of both lies to it, or else off the
// other's middle.
func (l *layer) off(i, j int, outlines []geom.Path) geom.Point {
	small, way := i, 1.0
	if math.Abs(outlines[j].Area()) < math.Abs(outlines[i].Area()) {
		small, way = j, -1
	}
	var sum geom.Point
	n := 0.0
	for _, pr := range l.pairs {
		if pr.a != i && pr.a != j || pr.b != i && pr.b != j {
			continue
		}
		q := pr.p
		if pr.b == small {
			q = pr.q
		}
		sum, n = sum.Add(l.at[small].Apply(q)), n+1
	}
	if n == 0 {
		return outlines[i].Centroid().Sub(outlines[j].Centroid()).Unit()
	}
	return outlines[small].Centroid().Sub(sum.Mul(1 / n)).Unit().Mul(way)
}

func overlap(a, b geom.Path) bool {
	x, y := a.Bounds(), b.Bounds()
	if !x.Overlaps(y) {
		return false
	}
	for _, q := range a.Flatten(chord) {
		if b.Contains(q) {
			return true
		}
	}
	for _, q := range b.Flatten(chord) {
		if a.Contains(q) {
			return true
		}
	}
	return len(geom.Cross(a, b).Crossings) > 0
}

// chord is the error in mm of the polylines that are compared.
const chord = 0.5

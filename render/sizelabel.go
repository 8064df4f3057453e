package render

import (
	"cmp"
	"math"
	"slices"

	"truemat/geom"
)

// Of a size's label on its cut line, in mm: its height, from what it stays clear
// where it can, by how much the line may bend under it, and how far apart the
// places are that are tried.
const (
	sizeTall  = 1.7
	sizeClear = 1.0
	sizeBend  = 0.3
	sizeTry   = 2.0
)

// sizeMark is a point that a size's label should not cover.
type sizeMark struct {
	at    geom.Point
	size  int     // whose cut line it is on, −1 for a notch or a label
	along float64 // mm along that line
}

// sizeLabels writes each size on its cut line, twice, near a usual place, of
// which each size has another, so that the labels stay apart: where it is clear of
// the other cut lines, of notches and of other labels, and the line is straight
// under it.
func (d *drawer) sizeLabels(own []Layer) {
	const places = 2
	var marks []sizeMark
	for i, v := range d.sizes {
		along, was := 0.0, v.shape.cut.Start()
		for _, q := range walkPoints(v.shape.cut, sizeClear) {
			along += q.Dist(was)
			was = q
			marks = append(marks, sizeMark{q, i, along})
		}
		for _, n := range v.shape.notches {
			for _, f := range n.figures(v.notch) {
				marks = withMarks(marks, f.Path)
			}
		}
	}
	byX := func(a, b sizeMark) int { return cmp.Compare(a.at.X, b.at.X) }
	slices.SortStableFunc(marks, byX)
	for i, v := range d.sizes {
		length := v.shape.cut.Length()
		for k := range places {
			usual := length * (float64(k) + (float64(i)+0.5)/float64(len(d.sizes))*0.8) / places
			label := clearSize(v, i, usual, length/(2*places), marks)
			q := label.quad(0.3)
			l := &own[i]
			l.Figures = append(l.Figures, Figure{Kind: Backing, Path: polygon(q[:]...), Fill: white})
			l.Labels = append(l.Labels, label)
			d.room.takeQuad(q)
			marks = withMarks(marks, polygon(q[:]...))
			slices.SortStableFunc(marks, byX)
		}
	}
}

// withMarks adds the points of a path.
func withMarks(marks []sizeMark, p geom.Path) []sizeMark {
	for _, q := range walkPoints(p, sizeClear) {
		marks = append(marks, sizeMark{at: q, size: -1})
	}
	return marks
}

// clearSize returns the label of size i at the clear place nearest to the usual
// one, at most reach away along the cut line; where none is clear, at the one
// farthest from what it should not cover.
func clearSize(v version, i int, usual, reach float64, marks []sizeMark) Label {
	best, most := Label{}, math.Inf(-1)
	for n := 0; float64((n+1)/2)*sizeTry <= reach; n++ {
		s := usual + float64((n+1)/2)*sizeTry*float64(1-2*(n%2))
		label := v.sizeAt(s)
		half := TextWidth(label.Text, label.Height, label.Bold)/2 + 0.3
		room := roomAround(label, i, v.onCut(s), half, v.shape.cut.Length(), marks)
		if bend := v.bend(s, half); bend > sizeBend { // a bent place is worse than any straight one
			room -= sizeClear + bend
		}
		if room > most {
			best, most = label, room
		}
		if most >= sizeClear {
			break
		}
	}
	return best
}

// onCut is a length along the cut line, which is closed.
func (v version) onCut(s float64) float64 {
	length := v.shape.cut.Length()
	return math.Mod(math.Mod(s, length)+length, length)
}

// sizeAt returns the label of a size at s mm along its cut line.
func (v version) sizeAt(s float64) Label {
	s = v.onCut(s)
	angle := readable(v.shape.cut.TangentAt(s).Direction())
	label := Label{Text: shortSize(v.size), Height: sizeTall, Angle: angle, Anchor: Middle, Color: black, Bold: true}
	label.At = v.shape.cut.At(s).Sub(angle.Unit().Perp().Mul(sizeTall / 2))
	return label
}

// bend is by how many mm the cut line leaves its tangent at s within half mm on
// both sides.
func (v version) bend(s, half float64) float64 {
	at := v.shape.cut.At(v.onCut(s))
	across := v.shape.cut.TangentAt(v.onCut(s)).Perp().Unit()
	most := 0.0
	const steps = 4
	for k := -steps; k <= steps; k++ {
		q := v.shape.cut.At(v.onCut(s + half*float64(k)/steps))
		most = max(most, math.Abs(q.Sub(at).Dot(across)))
	}
	return most
}

// roomAround is how far in mm a label at s along the cut line of size i, half mm
// wide on both sides, is from the marks, sizeClear at most. Of its own line those
// count that come back to it.
func roomAround(label Label, i int, s, half, length float64, marks []sizeMark) float64 {
	q := label.quad(0.3)
	middle := q[0].Lerp(q[2], 0.5)
	reach := q[0].Dist(middle) + sizeClear
	from, _ := slices.BinarySearchFunc(marks, middle.X-reach, func(m sizeMark, x float64) int { return cmp.Compare(m.at.X, x) })
	room := sizeClear
	for _, m := range marks[from:] {
		if m.at.X > middle.X+reach {
			break
		}
		if m.size == i {
			apart := math.Abs(m.along - s)
			if min(apart, length-apart) < half+2*sizeClear {
				continue
			}
		}
		room = min(room, apartFrom(q, m.at))
	}
	return room
}

// apartFrom is how far a point is from an upright or turned rectangle, 0 in it.
func apartFrom(q [4]geom.Point, p geom.Point) float64 {
	u, v, r := q[1].Sub(q[0]), q[3].Sub(q[0]), p.Sub(q[0])
	out := func(along geom.Point) float64 {
		x := r.Dot(along) / along.Norm()
		return max(-x, x-along.Norm(), 0)
	}
	return math.Hypot(out(u), out(v))
}

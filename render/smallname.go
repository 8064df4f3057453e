package render

import (
	"slices"
	"strings"

	"truemat/geom"
)

// clearName writes the name of a piece where it covers none of the marks, as
// large as it goes and then as far from the outline as it goes. Where there is no
// such place, the last of the marks count no more, and so on; where there is none
// at all, as pieceName does.
func clearName(name string, cut geom.Path, marks ...[]geom.Point) Layer {
	first := slices.Concat(marks...)
	if cut.Empty() || len(first) == 0 {
		return pieceName(name, cut, first...)
	}
	for n := len(marks); n > 0; n-- {
		if n < len(marks) && len(marks[n]) == 0 {
			continue // as before
		}
		if l, ok := nameClearOf(name, cut, slices.Concat(marks[:n]...)); ok {
			return l
		}
	}
	return pieceName(name, cut, marks[0]...)
}

// nameClearOf writes the name of a piece off the marks; false where there is no
// place for it.
func nameClearOf(name string, cut geom.Path, marks []geom.Point) (Layer, bool) {
	const n = 18
	b := cut.Bounds()
	var spots []geom.Point
	for i := range n {
		for j := range n {
			if q := b.Min.Add(geom.Pt(b.Width()*(float64(i)+0.5)/n, b.Height()*(float64(j)+0.5)/n)); cut.Contains(q) {
				spots = append(spots, q)
			}
		}
	}
	room := make([]float64, len(spots))
	for i, q := range spots {
		room[i] = cut.Nearest(q).Dist
	}
	for h := nameText; h >= leastRead; h *= 0.9 {
		var best []string
		var at geom.Point
		far := 0.0
		for _, lines := range [][]string{{name}, strings.SplitAfter(name, ", "), strings.Fields(name)} {
			for i, q := range spots {
				if room[i] > far && !covers(marks, lines, h, q) && holds(cut, lines, h+nameRim, q) {
					best, at, far = lines, q, room[i]
				}
			}
		}
		if best != nil {
			l := Layer{}
			for i, text := range best {
				l.Labels = append(l.Labels, Label{Text: strings.TrimSpace(text), At: nameLine(at, i, len(best), h), Height: h, Anchor: Middle, Color: black})
			}
			return l, true
		}
	}
	return Layer{}, false
}

// nameRim is by how much in mm the letters of a name are taken for higher than
// they are, so that white is left around them.
const nameRim = 0.3

// covers reports whether a name would lie on one of the marks.
func covers(marks []geom.Point, lines []string, height float64, at geom.Point) bool {
	for i, text := range lines {
		q, half := nameLine(at, i, len(lines), height), TextWidth(strings.TrimSpace(text), height, false)/2
		box := geom.BoxOf(q.Sub(geom.Pt(half, height/2)), q.Add(geom.Pt(half, height))).Grow(nameRim)
		if slices.ContainsFunc(marks, box.Contains) {
			return true
		}
	}
	return false
}

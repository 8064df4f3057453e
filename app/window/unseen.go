package window

import (
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// unseen says which pieces that were made lie beyond the view, and how they
// come into it: the mat itself stays where it is.
func (w *Window) unseen(before pattern.Pattern, now []pattern.Piece) string {
	var names []string
	for i := range now {
		pc := &now[i]
		if before.Piece(pc.Name) != nil {
			continue
		}
		box := geom.NoBox()
		for _, e := range pc.Edges {
			box = box.Union(e.Path.Transform(pc.Pose).Bounds())
		}
		if !w.mat.Sees(box) {
			names = append(names, pc.Name)
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return asSentence(names[0] + " lies beyond what is seen: 0 shows all")
	}
	return asSentence(strings.Join(names, ", ") + " lie beyond what is seen: 0 shows all")
}

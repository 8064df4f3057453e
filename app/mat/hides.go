package mat

import (
	"fmt"
	"strings"

	"truemat/app/tool"
	"truemat/geom"
)

// Hides tells, a sentence each, which of the notes, signs and names of edges that
// float over the pieces as last drawn lie on each other, on the name or mark of
// a piece, or on a spot that is told of; none when all can be read.
func (m *Mat) Hides() []string {
	type shown struct {
		what string
		strip
		named bool // it stands for the name it lies on
	}
	t := m.overlay()
	var all []shown
	for _, f := range m.floats.signs {
		all = append(all, shown{"sign " + f.text, f.ground(m.px), false})
	}
	for i, n := range m.floats.notes {
		all = append(all, shown{fmt.Sprintf("note %q", strings.Join(n.lines, " ")), n.strip, m.named(t.Notes[i]) != nil})
	}
	floating := len(all)
	for i, s := range m.floats.labels {
		all = append(all, shown{fmt.Sprintf("name %d of an edge", i+1), s, false})
	}
	o := m.obstacles(m.onMat(), tool.Overlay{Dots: t.Dots, Signs: t.Signs})
	view := geom.BoxOf(geom.Pt(0, 0), geom.Pt(float64(m.Size().Width), float64(m.Size().Height)).Mul(m.px))
	var told []string
	for i, a := range all {
		for _, b := range all[:i] {
			if a.hits(b.strip) {
				told = append(told, a.what+" lies on "+b.what)
			}
		}
		if !a.named && a.meets(o.names) {
			told = append(told, a.what+" lies on a name or a mark")
		}
		if a.meets(o.spots) {
			told = append(told, a.what+" lies on a spot")
		}
		if i < floating && !view.Contains(a.mid) {
			told = append(told, a.what+" lies out of view")
		}
	}
	return told
}

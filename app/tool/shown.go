package tool

import (
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// altered shows the edges that differ from what they were, as they will lie.
func (o *Overlay) altered(was, now pattern.Pattern, style Style, takes func(piece string) bool) {
	for i := range now.Pieces {
		pc := &now.Pieces[i]
		if !takes(pc.Name) {
			continue
		}
		for j := range pc.Edges {
			e := &pc.Edges[j]
			if _, old := was.Edge(pc.Name, e.Name); old == nil || !alike(old.Path, e.Path) {
				o.Strokes = append(o.Strokes, Stroke{e.Path.Transform(pc.Pose), style})
			}
		}
	}
}

// alike reports whether two paths are the same but for rounding.
func alike(a, b geom.Path) bool {
	return slices.EqualFunc(a.Segments(), b.Segments(), func(c, d geom.Cubic) bool {
		for i := range c.P {
			if c.P[i].Dist(d.P[i]) > geom.Coincident {
				return false
			}
		}
		return true
	})
}

func anyPiece(string) bool { return true }

// newNotches marks the notches that were not there, on a piece that is shown
// elsewhere than it lies there.
func (o *Overlay) newNotches(was, now pattern.Pattern, lays map[string]geom.Motion) {
	for i := range now.Pieces {
		pc := &now.Pieces[i]
		old := was.Piece(pc.Name)
		for _, n := range pc.Notches {
			if old == nil || old.Notch(n.Name) != nil {
				continue
			}
			at, err := now.Find(pattern.AtNotch(pc.Name, n.Name))
			if err != nil {
				continue
			}
			if m, ok := lays[pc.Name]; ok {
				at.Mat = m.Apply(at.Point)
			}
			o.Dots = append(o.Dots, Dot{at.Mat, Good})
			if !slices.ContainsFunc(o.Notes, func(t Note) bool { return t.Text == n.Name && t.At.Dist(at.Mat) < pinMeets }) {
				o.Notes = append(o.Notes, Note{at.Mat, n.Name})
			}
		}
	}
}

// showKinks marks where edges turn within themselves, on one piece when given.
func (o *Overlay) showKinks(p pattern.Pattern, piece string) {
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		if piece != "" && pc.Name != piece {
			continue
		}
		for j := range pc.Edges {
			e := &pc.Edges[j]
			for _, at := range kinks(e) {
				o.Dots = append(o.Dots, Dot{pc.Pose.Apply(e.Path.At(at)), Poor})
			}
		}
	}
}

package tool

import (
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// What becomes of the other edges of the seam of the one edge that is chosen.
const (
	othersStay = "stays"
	othersToo  = "as wide"
)

// bothField asks whether the other side of the seam gets the same allowance; false
// where the edge lies in no seam.
func (a *Allowance) bothField() (Field, bool) {
	if seam, _ := a.pressed(); seam == nil {
		return Field{}, false
	}
	f := Field{Name: "both", Label: "Other side", Text: othersStay, Options: []string{othersStay, othersToo}}
	if a.both {
		f.Text = othersToo
	}
	return f, true
}

// others returns steps that make the allowances of the other edges of the seam as
// wide, one for each piece.
func (a *Allowance) others() []step.Step {
	seam, _ := a.pressed()
	if seam == nil || !a.both {
		return nil
	}
	pc, i := a.first()
	wide := pc.Edges[i].Allowance
	if a.width != nil {
		wide = *a.width
	}
	p := a.pattern()
	var all []*step.Allow
	for _, pt := range slices.Concat(seam.A, seam.B) {
		on, e := p.Edge(pt.Piece, pt.Edge)
		if e == nil || e.Allowance == wide || on.Name == pc.Name && e.Name == pc.Edges[i].Name || e.Role == pattern.Fold {
			continue
		}
		k := slices.IndexFunc(all, func(s *step.Allow) bool { return s.Piece == on.Name })
		if k < 0 {
			w := step.Lit(wide)
			k, all = len(all), append(all, &step.Allow{Piece: on.Name, Width: &w})
		}
		if !slices.Contains(all[k].Edges, e.Name) {
			all[k].Edges = append(all[k].Edges, e.Name)
		}
	}
	var out []step.Step
	for _, s := range all {
		if len(s.Edges) == 1 {
			s.Edge, s.Edges = s.Edges[0], nil
		}
		out = append(out, s)
	}
	return out
}

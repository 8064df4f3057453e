package bulk

import (
	"slices"

	"truemat/geom"
	"truemat/ops/cloth/order"
	"truemat/ops/pattern"
)

// folds returns the edges that are folded to the inside, each along its run.
func (f finder) folds() []Place {
	var out []Place
	for _, fo := range order.Folds(f.p, f.g) {
		sd := f.part(pattern.Whole(fo.Piece, fo.Edge))
		pl := Place{Edge: fo.Edge + " of " + fo.Piece, How: how(fo.Kind)}
		lay := func(sheets []Sheet, width float64) {
			for _, s := range sheets {
				s.Width, s.Lies = width, width
				pl.Stack = append(pl.Stack, s)
			}
		}
		if fo.Kind == order.Enclose {
			lay(sd.outer, 0)
			lay(reversed(sd.outer), sd.width)
			lay(sd.lining, sd.width)
			lay(reversed(sd.lining), 0)
		} else {
			lay(sd.all(), 0)
			lay(reversed(sd.all()), sd.width)
		}
		f.judge(&pl, f.trimFold)
		out = append(out, pl)
	}
	return out
}

// how says how an edge is folded.
func how(k order.Kind) string {
	switch k {
	case order.Elastic:
		return "turned with its elastic"
	case order.Enclose:
		return "turned with its lining"
	}
	return "turned back"
}

// ends returns the ends of a seam at edges that are folded to the inside over it.
func (f finder) ends(s pattern.Seam) []Place {
	folds := order.Folds(f.p, f.g)
	var out []Place
	for _, end := range []bool{false, true} {
		a, b := s.A[0].Backwards(), s.B[0].Backwards()
		if end {
			a, b = s.A[len(s.A)-1], s.B[len(s.B)-1]
		}
		for _, pt := range []pattern.Part{a, b} {
			e := f.across(pt)
			if e == nil {
				continue
			}
			if i := slices.Index(kindless(folds), [2]string{pt.Piece, e.Name}); i >= 0 {
				out = append(out, f.place(s, e.Name+" of "+pt.Piece+", "+how(folds[i].Kind), f.part(a), f.part(b), true))
				break
			}
		}
	}
	return out
}

// kindless returns the piece and edge of each fold.
func kindless(folds []order.Fold) [][2]string {
	var out [][2]string
	for _, f := range folds {
		out = append(out, [2]string{f.Piece, f.Edge})
	}
	return out
}

// across returns the edge at which a part, walked, ends; nil when it ends
// inside its own edge.
func (f finder) across(pt pattern.Part) *pattern.Edge {
	pc, e := f.p.Edge(pt.Piece, pt.Edge)
	if e == nil {
		return nil
	}
	i := pc.EdgeIndex(pt.Edge)
	switch {
	case pt.To >= 1-geom.Coincident:
		return &pc.Edges[pc.Next(i)]
	case pt.To <= geom.Coincident:
		return &pc.Edges[pc.Prev(i)]
	}
	return nil
}

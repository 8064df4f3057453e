package step

import "slices"

// MergeMove puts the shift of s into an earlier shift of the same piece, if
// nothing but shifts lies between: a piece pushed about by hand then leaves
// one step. It reports false when s is no shift or there is none to join.
func (r Recipe) MergeMove(s Step) (Recipe, bool) {
	b, ok := shifted(s)
	if !ok {
		return r, false
	}
	for i := len(r) - 1; i >= 0; i-- {
		a, ok := shifted(r[i].Step)
		if !ok || r[i].Off || len(r[i].Sizes) > 0 {
			return r, false
		}
		if a.Piece == b.Piece {
			next := slices.Clone(r)
			next[i].Step = &Move{Piece: a.Piece, DX: Lit(a.DX.value + b.DX.value), DY: Lit(a.DY.value + b.DY.value)}
			return next, true
		}
	}
	return r, false
}

// shifted returns s as a move by literal numbers without a turn.
func shifted(s Step) (*Move, bool) {
	m, ok := s.(*Move)
	if !ok {
		return nil, false
	}
	for _, n := range []Number{m.DX, m.DY} {
		if n.sizes != nil || n.figure != "" {
			return nil, false
		}
	}
	return m, isNought(m.Degrees)
}

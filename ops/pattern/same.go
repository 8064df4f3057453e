package pattern

import "slices"

// SameOutline reports whether the edges of both pieces have the same names and
// are the same paths, handed on and not drawn anew: then all their measures are
// the same as well. It looks at no segment.
func (pc *Piece) SameOutline(b *Piece) bool {
	return slices.EqualFunc(pc.Edges, b.Edges, func(x, y Edge) bool { return x.Name == y.Name && x.Path.Same(y.Path) })
}

// same reports whether all there is to the pieces is the same. It looks at no
// segment: what was drawn anew counts as other, however alike.
func (pc *Piece) same(b *Piece) bool {
	return pc.Name == b.Name && pc.Arrow == b.Arrow && pc.Cut == b.Cut && pc.Pose == b.Pose && pc.Begun == b.Begun &&
		slices.Equal(pc.Notches, b.Notches) && slices.Equal(pc.Marks, b.Marks) &&
		slices.EqualFunc(pc.Edges, b.Edges, Edge.same) &&
		slices.EqualFunc(pc.Inner, b.Inner, func(x, y Inner) bool {
			return x.Name == y.Name && x.Kind == y.Kind && x.Path.Same(y.Path)
		})
}

func (e Edge) same(o Edge) bool {
	return e.Name == o.Name && e.Role == o.Role && e.Path.Same(o.Path) && e.Allowance == o.Allowance &&
		e.Corner == o.Corner && e.Free == o.Free && e.follows.Same(o.follows)
}

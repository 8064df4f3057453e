package geom

// Roll is one path that rolls along another without slipping: where they
// touch, both run in one direction. What lies to the left of the moving path
// lies to the left of the fixed one too, unless Mirror turns it over.
//
// Rolling without slipping keeps the difference of the arc lengths f on the
// fixed and m on the moving path the same; where the one is eased along the
// other it changes. Both are clamped to their paths. Where one of the paths
// has a corner, the moving one pivots about it, from the motion on arriving to
// the one on leaving. The places that touch coincide within 1e-9 mm.
type Roll struct {
	Fixed, Moving Path
	Mirror        bool
}

// Arriving returns the motion of the moving path when its place at m touches
// the fixed path at f, as it comes from before.
func (r Roll) Arriving(f, m float64) Motion {
	return r.pose(f, m, r.Fixed.TangentBefore(f), r.Moving.TangentBefore(m))
}

// Leaving returns the motion of the moving path when its place at m touches
// the fixed path at f, as it goes on from there.
func (r Roll) Leaving(f, m float64) Motion {
	return r.pose(f, m, r.Fixed.TangentAt(f), r.Moving.TangentAt(m))
}

func (r Roll) pose(f, m float64, along, own Point) Motion {
	over := Identity()
	over.mirror = r.Mirror
	own = over.Vector(own)
	over = over.Then(Motion{cos: own.Dot(along), sin: own.Cross(along)})
	return over.Then(Shift(r.Fixed.At(f).Sub(over.Vector(r.Moving.At(m)))))
}

package geom

// farthestPlaces bounds the number of places at which two paths are compared.
const farthestPlaces = 4000

// Farthest returns the greatest distance of places along p from the path o,
// and the length along p at which it was found. It looks at up to 16 places a
// segment; between two of them it may miss what a curve does within a
// sixteenth of it.
func (p Path) Farthest(o Path) (dist, s float64) {
	each := min(max(farthestPlaces/max(p.Len(), 1), 1), 16)
	seg, t := 0, 0.0
	look := func(i int, u float64) {
		if d := o.Nearest(p.segs[i].At(u)).Dist; d > dist {
			dist, seg, t = d, i, u
		}
	}
	for i := range p.segs {
		for k := range each {
			look(i, float64(k)/float64(each))
		}
	}
	if n := p.Len(); n > 0 {
		look(n-1, 1)
	}
	if dist > 0 {
		s = p.LengthTo(seg, t)
	}
	return dist, s
}

package mat

import (
	"slices"

	"truemat/geom"
)

// besideSize is the size of a name that stands beside its piece, in units, and
// besideGap its distance from it.
const (
	besideSize = 11
	besideGap  = 7
)

// nameBeside writes the names for which the pieces have no room beside them.
func (p *painter) nameBeside(all ...[]laid) {
	for name, at := range p.unnamedAt(all...) {
		p.write(name, at, besideSize*p.px, true, p.palette.Ink)
	}
}

// unnamedAt finds where the names for which the pieces have no room may stand
// on the bare mat, clear of all pieces; those that may nowhere are left out.
func (p *painter) unnamedAt(all ...[]laid) map[string]geom.Point {
	if len(p.unnamed) == 0 {
		return nil
	}
	found := map[string]geom.Point{}
	var rims [][]geom.Point
	for _, ls := range all {
		for _, l := range ls {
			m := p.onto(l.pose)
			l.flatten(m.scale())
			rims = append(rims, m.all(nil, l.rim()))
		}
	}
	size := besideSize * p.px
	var taken []strip
	for _, l := range p.unnamed {
		m := p.onto(l.pose)
		ring := m.all(nil, l.rim())
		if geom.BoxOf(ring...).Height() < 2*size {
			continue // from so far it is a dot
		}
		for _, at := range p.besides(ring, l.piece.Name, size) {
			s := lineStrip(l.piece.Name, at, geom.Pt(1, 0), size, true)
			if p.holds(s) && s.free(taken) && !slices.ContainsFunc(rims, s.onto) {
				found[l.piece.Name] = at
				taken = append(taken, s)
				break
			}
		}
	}
	return found
}

// besides are the middles of a name that stands beside an outline: to the right
// and left of it, at its middle, its highest and its lowest point, then above
// and below.
func (p *painter) besides(ring []geom.Point, name string, size float64) []geom.Point {
	half, gap := textWidth(name, size, true)/2, besideGap*p.px
	box := geom.BoxOf(ring...)
	most := func(by func(geom.Point) float64) geom.Point {
		return slices.MaxFunc(ring, func(a, b geom.Point) int {
			switch d := by(a) - by(b); {
			case d > 0:
				return 1
			case d < 0:
				return -1
			}
			return 0
		})
	}
	right := most(func(q geom.Point) float64 { return q.X })
	left := most(func(q geom.Point) float64 { return -q.X })
	high := most(func(q geom.Point) float64 { return -q.Y })
	low := most(func(q geom.Point) float64 { return q.Y })
	return []geom.Point{
		right.Add(geom.Pt(half+gap, 0)), left.Sub(geom.Pt(half+gap, 0)),
		high.Sub(geom.Pt(0, size/2+gap)), low.Add(geom.Pt(0, size/2+gap)),
		geom.Pt(box.Max.X+half+gap, (box.Min.Y+box.Max.Y)/2), geom.Pt(box.Min.X-half-gap, (box.Min.Y+box.Max.Y)/2),
		geom.Pt(box.Max.X+half+gap, box.Min.Y+size), geom.Pt(box.Min.X-half-gap, box.Min.Y+size),
		geom.Pt(box.Max.X+half+gap, box.Max.Y-size), geom.Pt(box.Min.X-half-gap, box.Max.Y-size),
	}
}

// view is what is drawn of the mat, clear of the rulers and of what hides its
// lowest part.
func (p *painter) view() geom.Box {
	rim, low := rulerWidth*p.px, float64(p.h)
	if p.foot > 0 {
		low = min(low, p.foot-p.y0)
	}
	return geom.Box{Min: geom.Pt(max(rim-p.x0, 0), max(rim-p.y0, 0)), Max: geom.Pt(float64(p.w), low)}
}

// takes is the box of a strip.
func (s strip) takes() geom.Box {
	a, b := s.ends()
	return geom.BoxOf(a, b).Grow(s.r)
}

// holds reports whether a line of writing shows whole, clear of the rulers.
func (p *painter) holds(s strip) bool {
	in, of := s.takes(), p.view()
	return of.Contains(in.Min) && of.Contains(in.Max)
}

// wholly shifts a line of writing of which a part shows until it shows whole,
// where the view is so large.
func (p *painter) wholly(s strip) strip {
	in, of := s.takes(), p.view()
	if !in.Overlaps(of) {
		return s
	}
	by := of.Min.Sub(in.Min)
	s.mid = s.mid.Add(geom.Pt(max(by.X, 0), max(by.Y, 0)))
	by = of.Max.Sub(in.Max)
	s.mid = s.mid.Add(geom.Pt(min(by.X, 0), min(by.Y, 0)))
	return s
}

// onto reports whether a strip lies on what an outline encloses, or meets it.
func (s strip) onto(ring []geom.Point) bool {
	if inside(ring, s.mid) {
		return true
	}
	box := geom.BoxOf(ring...)
	a, b := s.ends()
	if !box.Grow(s.r).Overlaps(geom.BoxOf(a, b)) {
		return false
	}
	for i, q := range ring {
		if s.hits(stripOf(q, ring[(i+1)%len(ring)], 0)) {
			return true
		}
	}
	return false
}

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

// holds reports whether a level line of writing shows whole, clear of the
// rulers.
func (p *painter) holds(s strip) bool {
	a, b := s.ends()
	rim := rulerWidth * p.px
	return a.X-s.r >= rim-p.x0 && a.Y-s.r >= rim-p.y0 && b.X+s.r <= float64(p.w) && b.Y+s.r <= float64(p.h)
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

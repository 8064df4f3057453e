package mat

import (
	"math"
	"slices"

	"truemat/geom"
)

// rimmed is the outline of a piece as it lies, in pixels.
type rimmed struct {
	laid
	m    affine
	rim  []geom.Point
	box  geom.Box
	size int // of the sizes beneath, −1 of the one shown
	id   int // from 1
}

func (p *painter) rimmedOf(l laid, size int) (rimmed, bool) {
	m := p.onto(l.pose)
	l.flatten(m.scale())
	if !p.visible(l, m) {
		return rimmed{}, false
	}
	rim := m.all(nil, l.rim())
	return rimmed{l, m, rim, geom.BoxOf(rim...), size, 0}, true
}

// nameSizes writes beside the outlines of the sizes beneath which sizes they
// are, where there is room beside them that no other line or word takes.
func (p *painter) nameSizes(sizes [][]laid, names []string, lying []laid) {
	if len(names) != len(sizes) {
		return
	}
	var all []rimmed
	for _, l := range lying {
		if r, ok := p.rimmedOf(l, -1); ok {
			all = append(all, r)
		}
	}
	for i, size := range sizes {
		for _, l := range size {
			if r, ok := p.rimmedOf(l, i); ok {
				all = append(all, r)
			}
		}
	}
	lines := newLineGrid(p.w, p.h, nestCell*p.px)
	for i := range all {
		all[i].id = i + 1
		lines.add(all[i].rim, all[i].id)
	}
	taken := map[string][]strip{}
	for _, r := range all {
		if r.size < 0 {
			taken[r.piece.Name] = append(p.written(r.laid, r.m), p.notched(r.laid, r.m)...)
		}
	}
	var said []strip
	for _, r := range all {
		if r.size < 0 {
			continue
		}
		if at, ok := p.besideRim(r, names[r.size], all, lines, slices.Concat(said, taken[r.piece.Name])); ok {
			p.write(names[r.size], at.mid, smallSize*p.px, false, p.palette.RulerInk)
			said = append(said, at)
		}
	}
}

// Of a size's name, in units.
const (
	nestEvery = 16 // between the places along an outline that are looked at
	nestOff   = 3  // from its own outline
	nestApart = 4  // from others
	nestAlone = 4  // of its outline from others there
	nestCell  = 2  // squares in which lines are looked for
)

// besideRim seeks a place for a word beside an outline, from its highest point on.
func (p *painter) besideRim(r rimmed, word string, all []rimmed, lines *lineGrid, taken []strip) (strip, bool) {
	first := 0
	for i, q := range r.rim {
		if q.Y < r.rim[first].Y {
			first = i
		}
	}
	left := 0.0
	for k := range r.rim {
		a, b := r.rim[(first+k)%len(r.rim)], r.rim[(first+k+1)%len(r.rim)]
		long := a.Dist(b)
		if long == 0 {
			continue
		}
		t := b.Sub(a).Mul(1 / long)
		for ; left < long; left += nestEvery * p.px {
			q := a.Add(t.Mul(left))
			for _, n := range []geom.Point{geom.Pt(-t.Y, t.X), geom.Pt(t.Y, -t.X)} {
				s := lineStrip(word, q, geom.Pt(1, 0), smallSize*p.px, false)
				s.mid = q.Add(n.Mul(s.r + nestOff*p.px + math.Abs(n.X)*s.half))
				if p.holds(s) && p.bare(s, q, r, all, lines) && s.free(taken) {
					return s, true
				}
			}
		}
		left -= long
	}
	return strip{}, false
}

// bare reports whether a level strip beside a place of an outline lies where
// that outline is seen by itself, and no other line does.
func (p *painter) bare(s strip, q geom.Point, r rimmed, all []rimmed, lines *lineGrid) bool {
	alone := nestAlone * p.px
	if !lines.only(geom.BoxOf(q).Grow(alone), r.id, true) {
		return false
	}
	tight := geom.BoxOf(s.mid.Sub(geom.Pt(s.half+s.r, s.r)), s.mid.Add(geom.Pt(s.half+s.r, s.r)))
	if !lines.only(tight.Grow(nestApart*p.px), r.id, true) || !lines.only(tight, r.id, false) {
		return false
	}
	return !slices.ContainsFunc(all, func(o rimmed) bool {
		return o.size < 0 && o.piece.Name != r.piece.Name && o.box.Overlaps(tight.Grow(alone)) && (inside(o.rim, s.mid) || inside(o.rim, q))
	})
}

// lineGrid says which outline runs through each small square of a picture.
type lineGrid struct {
	cell float64 // pixels
	w, h int
	of   []int // id of the outline, 0 for none, severalLines
}

const severalLines = -1

func newLineGrid(w, h int, cell float64) *lineGrid {
	g := &lineGrid{cell: cell, w: int(float64(w)/cell) + 1, h: int(float64(h)/cell) + 1}
	g.of = make([]int, g.w*g.h)
	return g
}

// add lets a closed outline run through the squares.
func (g *lineGrid) add(rim []geom.Point, id int) {
	for i, a := range rim {
		b := rim[(i+1)%len(rim)]
		n := int(a.Dist(b)/(0.7*g.cell)) + 1
		for k := range n {
			q := a.Lerp(b, float64(k)/float64(n))
			x, y := int(math.Floor(q.X/g.cell)), int(math.Floor(q.Y/g.cell))
			if x < 0 || y < 0 || x >= g.w || y >= g.h {
				continue
			}
			if at := &g.of[y*g.w+x]; *at == 0 {
				*at = id
			} else if *at != id {
				*at = severalLines
			}
		}
	}
}

// only reports whether no line but, where it may, that of an id runs through a box.
func (g *lineGrid) only(box geom.Box, id int, may bool) bool {
	to := func(v float64, n int) int { return min(max(int(math.Floor(v/g.cell)), 0), n-1) }
	for y := to(box.Min.Y, g.h); y <= to(box.Max.Y, g.h); y++ {
		for x := to(box.Min.X, g.w); x <= to(box.Max.X, g.w); x++ {
			if of := g.of[y*g.w+x]; of != 0 && !(may && of == id) {
				return false
			}
		}
	}
	return true
}

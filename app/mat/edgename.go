package mat

import (
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// edgeName writes an edge's name along its middle, inside the sew line; the
// chosen edge's with its length. It returns what is taken then.
func (p *painter) edgeName(l laid, e *pattern.Edge, m affine, chosen bool, u unit.System, taken []strip) []strip {
	text := e.Name
	length := e.Length()
	if chosen {
		if u == "" {
			u = unit.Centimetres
		}
		text = unit.Brief(text+"  "+unit.MM(length), u)
	}
	size := smallSize * p.px
	w := textWidth(text, size, chosen)
	away := 15 * p.px
	if sign(e.Role) != nil && e.Allowance == 0 {
		away = 28 * p.px // clear of the signs
	}
	var word strip
	if e.Role == pattern.Fold {
		var bracket bool
		if word, bracket = p.foldWord(l, m); bracket {
			away = 36 * p.px // clear of the bracket and its word
		}
	}
	folded := word.r > 0
	sewn := m.all(nil, l.sewRing)
	var mid, dir geom.Point
	found := false
	var thread []geom.Point // to where the name stands apart
	var cut *strip          // clear of everything, but cut at the rim
	for _, share := range []float64{0.5, 0.35, 0.65, 0.22, 0.78, 0.12, 0.88} {
		along := e.Path.TangentAt(share * length)
		mid = m.apply(e.Path.At(share * length)).Add(m.vector(along.Perp()).Unit().Mul(away))
		dir = readable(m.vector(along).Unit())
		s := strip{mid, dir, w / 2, 0.75 * size}
		if share*length*m.scale() > w/2 && (1-share)*length*m.scale() > w/2 && s.free(taken) && s.well(sewn) {
			if found = p.holds(s); found {
				break
			}
			if cut == nil {
				cut = &s
			}
		}
	}
	if !found && chosen && !folded {
		if mid, dir, found = p.beyond(e, m, w, size, taken, true); !found {
			if at, ok := p.level(e, sewn, m, w, size, taken); ok {
				mid, dir, found = at, geom.Pt(1, 0), true
			} else if at, ok := p.near(m.apply(e.Path.At(length/2)), w, size, taken); ok {
				thread = []geom.Point{m.apply(e.Path.At(length / 2)), at}
				mid, dir, found = at, geom.Pt(1, 0), true
			} else if cut != nil {
				mid, dir, found = cut.mid, cut.dir, true
			} else {
				mid, dir, found = p.beyond(e, m, w, size, taken, false)
			}
		}
	}
	switch {
	case folded && !chosen && e.Name == foldText:
		return taken // the bracket says it
	case folded && chosen && w < length*m.scale():
		mid, dir = word.mid, word.dir // in place of the bracket's word
	case found:
	case !chosen:
		return taken
	case w > length*m.scale():
		// Longer than its edge: level, beside the piece.
		out := m.vector(e.Path.TangentAt(length / 2).Perp()).Unit().Mul(-1)
		beside := e.Allowance*m.scale() + 14*p.px + math.Abs(out.X)*w/2
		mid, dir = m.apply(e.Path.At(length/2)).Add(out.Mul(beside)), geom.Pt(1, 0)
	}
	if s := p.wholly(strip{mid, dir, w / 2, 0.75 * size}); s.free(taken) {
		mid = s.mid
	}
	ground, ink := fade(p.palette.Paper, 0xE8), p.palette.Accent
	if chosen {
		ground, ink = p.palette.Accent, p.palette.OnAccent
	}
	p.above = append(p.above, func() {
		p.line(thread, p.pen(1.2, fade(p.palette.Accent, 0x90)))
		p.label(text, mid, dir, size, chosen, ground, ink)
	})
	return append(taken, strip{mid, dir, w / 2, 0.75 * size})
}

// beyond returns where the name of an edge stands clear outside its cut line, if
// asked only where it shows whole; false when nowhere, then with the middle of the edge just inside.
func (p *painter) beyond(e *pattern.Edge, m affine, w, size float64, taken []strip, whole bool) (mid, dir geom.Point, ok bool) {
	length := e.Length()
	at := func(share, away float64) (mid, dir geom.Point) {
		along := e.Path.TangentAt(share * length)
		in := m.vector(along.Perp()).Unit()
		return m.apply(e.Path.At(share * length)).Add(in.Mul(away)), readable(m.vector(along).Unit())
	}
	for _, share := range []float64{0.5, 0.35, 0.65, 0.22, 0.78} {
		mid, dir = at(share, -e.Allowance*m.scale()-15*p.px)
		if s := (strip{mid, dir, w / 2, 0.75 * size}); s.free(taken) && w < length*m.scale() && (!whole || p.holds(s)) {
			return mid, dir, true
		}
	}
	mid, dir = at(0.5, 15*p.px)
	return mid, dir, false
}

// level returns where the name of an edge stands clear when it runs level,
// nearest first: on its piece, or else outside the cut line, best where no other
// piece lies, or on none of its marks.
func (p *painter) level(e *pattern.Edge, sewn []geom.Point, m affine, w, size float64, taken []strip) (geom.Point, bool) {
	length := e.Length()
	others := p.sheetsAside()
	ill := func(s strip) (n int) {
		a, b := s.ends()
		box := geom.BoxOf(a, b).Grow(s.r)
		if slices.ContainsFunc(others, func(o sheet) bool { return o.box.Overlaps(box) && s.onto(o.ring) }) {
			n++
		}
		if s.meets(p.marks) {
			n++
		}
		return n
	}
	const worth = 20 // how much farther than where it stands less well
	best, least, limit := geom.Point{}, math.MaxInt, math.Inf(1)
	for _, away := range []float64{15, 30, 48, 70, 96} {
		if away > limit {
			break
		}
		for _, outside := range []bool{false, true} {
			for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95} {
				way := m.vector(e.Path.TangentAt(share * length).Perp()).Unit()
				off := away * p.px
				if outside {
					way, off = way.Mul(-1), off+e.Allowance*m.scale()
				}
				at := m.apply(e.Path.At(share * length)).Add(way.Mul(off)).Add(geom.Pt(math.Copysign(w/2, way.X), 0))
				s := strip{at, geom.Pt(1, 0), w / 2, 0.75 * size}
				if !s.free(taken) || !p.holds(s) {
					continue
				}
				n := ill(s)
				if !outside && !s.well(sewn) {
					n++
				}
				if n == 0 {
					return at, true
				}
				if n < least {
					best, least, limit = at, n, min(limit, away+worth)
				}
			}
		}
	}
	return best, least < math.MaxInt
}

// sheetsAside are the pieces that are not selected.
func (p *painter) sheetsAside() (all []sheet) {
	for _, l := range p.aside {
		m := p.onto(l.pose)
		l.flatten(m.scale())
		ring := m.all(nil, l.rim())
		all = append(all, sheet{ring, geom.BoxOf(ring...)})
	}
	return all
}

// near returns where about a place a level line of writing of some width stands
// wholly in view and clear of what is taken, the nearest there is.
func (p *painter) near(place geom.Point, w, size float64, taken []strip) (at geom.Point, ok bool) {
	const reach, apart = 150, 10
	least := math.Inf(1)
	for y := -reach; y <= reach; y += apart {
		for x := -reach; x <= reach; x += apart {
			s := strip{place.Add(geom.Pt(float64(x), float64(y)).Mul(p.px)), geom.Pt(1, 0), w / 2, 0.75 * size}
			a, b := s.ends()
			if far := distance(place, a, b); far < least && p.holds(s) && s.free(taken) {
				at, ok, least = s.mid, true, far
			}
		}
	}
	return at, ok
}

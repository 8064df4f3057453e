package mat

import (
	"math"
	"slices"

	"truemat/app/tool"
	"truemat/geom"
)

// longestThread is how long a thread from a note to its place may be, in units;
// a longer one would be taken for a line on what it crosses.
const longestThread = 110

// noteSize is the size of writing in notes, in units.
const noteSize = 12.5

// placed is a note where it stands in the picture.
type placed struct {
	strip
	text   string
	of     geom.Point // what it tells of
	thread bool       // leads there
}

// noteGround is what notes must keep off: handles that can be dragged, and
// pieces that are moving, which one wants to see.
type noteGround struct {
	handles []geom.Point
	marked  []geom.Point // places of all dots
	moving  [][]geom.Point
	names   []strip
	box     geom.Box // of what moves
}

func (p *painter) noteGround(dots []tool.Dot, moving []laid) noteGround {
	g := noteGround{names: p.names, box: geom.NoBox()}
	m := p.onto(geom.Identity())
	for _, d := range dots {
		at := m.apply(d.At)
		g.marked = append(g.marked, at)
		if d.Style == tool.Handle {
			g.handles = append(g.handles, at)
		}
	}
	for _, l := range moving {
		m := p.onto(l.pose)
		l.flatten(m.scale())
		ring := l.cutRing
		if ring == nil {
			ring = l.sewRing
		}
		ring = m.all(nil, ring)
		g.moving = append(g.moving, ring)
		g.box = g.box.Union(geom.BoxOf(ring...))
	}
	return g
}

// free reports whether a note may stand at mid, w and h being half its width
// and height and off the distance from handles.
func (g noteGround) free(mid geom.Point, w, h, off float64) bool {
	if slices.ContainsFunc(g.handles, func(at geom.Point) bool {
		return math.Abs(at.X-mid.X) <= w+off && math.Abs(at.Y-mid.Y) <= h+off
	}) {
		return false
	}
	s := strip{mid, geom.Pt(1, 0), w - h, h}
	a, b := s.ends()
	return !slices.ContainsFunc(g.moving, func(ring []geom.Point) bool {
		if inside(ring, mid) || inside(ring, a) || inside(ring, b) {
			return true
		}
		for i, q := range ring {
			if s.hits(stripOf(q, ring[(i+1)%len(ring)], 0)) {
				return true
			}
		}
		return false
	})
}

// best returns the first place that is free and hides no name of a piece, or
// else the first that is free.
func (g noteGround) best(places []geom.Point, w, h, px float64, clear func(geom.Point) geom.Point) geom.Point {
	best, found := clear(places[0]), false
	for _, at := range places {
		if at = clear(at); !g.free(at, w, h, 7*px) {
			continue
		}
		if (strip{at, geom.Pt(1, 0), w - h, h}).free(g.names) {
			return at
		}
		if !found {
			best, found = at, true
		}
	}
	return best
}

// beside returns where a note of c may stand: close to it, then outside what
// moves, the nearest side first.
func (g noteGround) beside(c geom.Point, w, h, px float64) []geom.Point {
	var out []geom.Point
	for _, off := range []float64{22, 48, 74} {
		for _, side := range []geom.Point{geom.Pt(1, -1), geom.Pt(1, 1), geom.Pt(-1, -1), geom.Pt(-1, 1)} {
			out = append(out, c.Add(geom.Pt(side.X*(14*px+w), side.Y*off*px)))
		}
	}
	if g.box.Empty() {
		return out
	}
	gap := 12 * px
	far := []geom.Point{
		geom.Pt(c.X, g.box.Min.Y-h-gap), geom.Pt(c.X, g.box.Max.Y+h+gap),
		geom.Pt(g.box.Max.X+w+gap, c.Y), geom.Pt(g.box.Min.X-w-gap, c.Y),
	}
	slices.SortStableFunc(far, func(a, b geom.Point) int {
		switch d := a.Dist(c) - b.Dist(c); {
		case d < -1:
			return -1
		case d > 1:
			return 1
		}
		return 0
	})
	return append(out, far...)
}

// placeNotes stands notes beside their places, within the picture, off the
// handles that can be dragged and the pieces that move, and clear of those
// before; the name of a piece stands on that piece.
func (p *painter) placeNotes(notes []tool.Note, dots []tool.Dot, moving []laid, named func(tool.Note) bool) []placed {
	if len(notes) == 0 {
		return nil
	}
	m := p.onto(geom.Identity())
	size := noteSize * p.px
	ground := p.noteGround(dots, moving)
	var all []placed
	for _, n := range notes {
		c := m.apply(n.At)
		w, h := textWidth(n.Text, size, false)/2+0.9*size, 0.95*size
		within := func(mid geom.Point) geom.Point {
			rim := (rulerWidth + 4) * p.px
			mid.X = max(min(mid.X, float64(p.w)-w-4*p.px), w+rim-p.x0)
			mid.Y = max(min(mid.Y, float64(p.h)-p.hidden-h-4*p.px), h+rim-p.y0)
			return mid
		}
		clear := func(mid geom.Point) geom.Point {
			return clearOf(all, within(mid), w, h, 3*p.px, float64(p.h)-p.hidden-4*p.px)
		}
		mid := clear(c)
		if !named(n) {
			mid = ground.best(ground.beside(c, w, h, p.px), w, h, p.px, clear)
		}
		on := slices.ContainsFunc(ground.moving, func(ring []geom.Point) bool { return inside(ring, c) })
		all = append(all, placed{strip{mid, geom.Pt(1, 0), w - h, h}, n.Text, c, !on || slices.Contains(ground.marked, c)})
	}
	return all
}

// clearOf pushes a note down from those that were placed, or up where there is
// no room below.
func clearOf(all []placed, mid geom.Point, w, h, gap, floor float64) geom.Point {
	for _, way := range []float64{1, -1} {
		at := mid
		for range len(all) {
			for _, t := range all {
				if math.Abs(at.X-t.mid.X) <= w+t.half+t.r && math.Abs(at.Y-t.mid.Y) <= h+t.r {
					at.Y = t.mid.Y + way*(t.r+h+gap)
				}
			}
		}
		if at.Y+h <= floor || way < 0 {
			return at
		}
	}
	return mid
}

// note writes a note, with a thread to what it tells of.
func (p *painter) note(n placed) {
	if n.thread && n.of.Dist(n.mid) <= longestThread*p.px+n.half {
		p.line([]geom.Point{n.of, n.mid}, p.pen(1.2, fade(p.palette.Note, 0x90)))
	}
	a, b := n.ends()
	p.line([]geom.Point{a, b}, pen{width: 2*n.r + 2*p.px, color: p.palette.NoteInk})
	p.line([]geom.Point{a, b}, pen{width: 2 * n.r, color: p.palette.Note})
	p.write(n.text, n.mid, noteSize*p.px, false, p.palette.NoteInk)
}

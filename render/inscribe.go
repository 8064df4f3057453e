package render

import (
	"math"
	"slices"
	"sort"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Inscription is a large mark as it is written on its piece.
type Inscription struct {
	Lines  []string
	Mid    geom.Point // of all lines, in the piece's coordinates
	Height float64    // of its capitals in mm
	Turned bool       // by a quarter turn, read from below
	Asked  float64    // height it was given in mm
}

// Smaller reports whether the letters were made smaller than asked to fit.
func (i Inscription) Smaller() bool { return i.Height < i.Asked-1e-9 }

// Writing is what is written large on a piece.
type Writing struct {
	Marks []Inscription
	// Name is a place that the marks leave for the piece's name and how often
	// it is cut; empty when there is none.
	Name geom.Box
}

// Measures in mm of what is written large on a piece.
const (
	leastMark  = 2.0
	coarseCell = 1.5 // of the room it is laid in, since it is laid anew in each frame of a drag
	signsDeep  = 8.0 // what the signs along an edge without allowance take
)

// Inscribe lays the marks of a piece: each near its place and as tall as asked
// where that fits inside the sew line, clear of arrow, lines and other marks,
// with a place left for the piece's name and how often it is cut; else as tall
// as fits. What is drawn, printed and told of a mark's height follows it. An
// error says that the piece has no cut line.
func Inscribe(pc pattern.Piece) (Writing, error) {
	v, err := newVersion(pc, geom.Identity(), "", false)
	if err != nil {
		return Writing{}, err
	}
	d := drawer{room: newRoom([]geom.Path{v.shape.cut}, []geom.Path{v.shape.sewOutline()}, coarseCell), first: v, sizes: []version{v}}
	d.bare = slices.Clone(d.room.taken)
	d.lines(v)
	d.signs()
	for _, e := range v.shape.edges {
		if e.allowance == 0 && e.role != pattern.Fold && e.role != pattern.SeamEdge {
			d.room.takePath(e.path, signsDeep)
		}
	}
	w := Writing{Name: geom.NoBox()}
	for _, mk := range v.shape.marks {
		var one Inscription
		one, w.Name = d.inscribe(mk, pc)
		w.Marks = append(w.Marks, one)
	}
	return w, nil
}

// nameHeights are those tried for the name and how often the piece is cut, so
// that they are read with the whole pattern in view.
var nameHeights = []float64{6.2, 5.4, 4.8, 4.2, 3.5}

// fairMark is the share of the height asked that a mark keeps before the name
// is made smaller for its sake.
const fairMark = 0.4

// inscribe lays one mark, and returns the place it leaves for the name.
func (d *drawer) inscribe(mk pattern.Mark, pc pattern.Piece) (is Inscription, name geom.Box) {
	in := inscribing{
		drawer: d, layouts: markLayouts(mk.Text), heights: markHeights(max(mk.Height, leastMark)), near: mk.At,
		names: nameBoxes(pc), plain: d.room.plan(onFree, d.bare),
	}
	name = geom.NoBox()
	var f fitting
	for _, in.tall = range nameHeights {
		g, place, ok := in.tallest()
		if ok && (name.Empty() || g.height > f.height) {
			f, name = g, place
		}
		if ok && f.height >= fairMark*in.heights[0] {
			break
		}
	}
	if name.Empty() {
		s := blockSearch{layouts: in.layouts, heights: in.heights, near: mk.At}
		f = s.found(d.room, d.bare)
	}
	w, h := f.size()
	d.room.takeQuad(upright(f.at, w, h))
	is = Inscription{Mid: f.middle(), Height: f.height, Turned: f.turned, Asked: mk.Height}
	for _, l := range f.block {
		is.Lines = append(is.Lines, l.text)
	}
	return is, name
}

// inscribing is the search for the place of one mark.
type inscribing struct {
	*drawer
	layouts []block
	heights []float64
	near    geom.Point
	names   []block // the ways to set name and cut
	tall    float64 // of the name's capitals
	plain   plan    // what is free
	kept    []*plan // the same without a place kept for the name, wherever there is one
}

// tallest finds the tallest letters that leave a place for the name.
func (in *inscribing) tallest() (best fitting, name geom.Box, ok bool) {
	in.kept = in.reserved()
	best, name, ok = in.tallestSo(false)
	if ok && best.height == in.heights[0] {
		return best, name, ok
	}
	if t, n, turned := in.tallestSo(true); turned && (!ok || best.height < uprightShare*t.height) {
		return t, n, true
	}
	return best, name, ok
}

func (in *inscribing) tallestSo(turned bool) (best fitting, name geom.Box, ok bool) {
	i := sort.Search(len(in.heights), func(i int) bool {
		f, n, fits := in.beside(in.heights[i], turned)
		if fits {
			best, name = f, n
		}
		return fits
	})
	return best, name, i < len(in.heights)
}

// markHeights are the heights tried for a mark, from that asked down to the
// least by halves of a millimetre, which can be told and measured; by sixteenths
// of an inch where that asked is some of them.
func markHeights(asked float64) []float64 {
	by := 0.5
	if math.Abs(2*asked-math.Round(2*asked)) > 1e-6 && unit.IsFraction(asked) {
		by = unit.Inch / unit.Sixteenths
	}
	hs := []float64{asked}
	for k := math.Ceil(asked/by-1e-6) - 1; k*by > leastMark; k-- {
		h := k * by
		hs = append(hs, h)
	}
	if asked > leastMark {
		hs = append(hs, leastMark)
	}
	return hs
}

// markLayouts are the ways to set a mark: in one line, or broken at its points.
func markLayouts(text string) []block {
	one := block{{text: text, scale: 1, bold: true}}
	var split block
	for _, part := range strings.Split(text, " · ") {
		split = append(split, blockLine{text: part, scale: 1, bold: true})
	}
	if len(split) == 1 {
		return []block{one}
	}
	return []block{one, split}
}

// cutScale is the height of how often a piece is cut, to its name's.
const cutScale = 0.95

// nameBoxes are the ways to set the name of a piece above how often it is cut.
func nameBoxes(pc pattern.Piece) (all []block) {
	cut, _, _ := strings.Cut(cutText(pc, false), " · ")
	for _, name := range [][]string{{pc.Name}, wrap(pc.Name, 1, true, TextWidth(pc.Name, 1, true)*0.6)} {
		for _, under := range [][]string{{cut}, wrap(cut, 1, false, TextWidth(cut, 1, false)*0.6)} {
			var b block
			for _, t := range name {
				b = append(b, blockLine{text: t, scale: 1, bold: true})
			}
			for _, t := range under {
				b = append(b, blockLine{text: t, scale: cutScale})
			}
			all = append(all, b)
		}
	}
	return all
}

// reserved is the room without a place in which the name fits, towards each of
// its corners: how tall a mark is does not hang on where it is to stand.
func (in *inscribing) reserved() (rooms []*plan) {
	for _, near := range in.room.corners() {
		for _, b := range in.names {
			w, h := b.size(in.tall)
			if at, ok := in.plain.place(w, h, near); ok {
				p := in.without(upright(at, w, h))
				rooms = append(rooms, &p)
				break
			}
		}
	}
	return rooms
}

// without is what is free once a rectangle is taken.
func (in *inscribing) without(q [4]geom.Point) plan {
	r := *in.room
	r.taken = slices.Clone(r.taken)
	r.takeQuad(q)
	p := r.plan(onFree, in.bare)
	p.room = in.room
	return p
}

// corners are the ends of the room, where what is least in the way stands.
func (r *room) corners() []geom.Point {
	return []geom.Point{r.middle(0, 0), r.middle(r.nx, 0), r.middle(0, r.ny), r.middle(r.nx, r.ny)}
}

// beside seeks a place for the mark of one height that leaves one for the name:
// the nearest one, or else the nearest beside the place kept for the name.
func (in *inscribing) beside(height float64, turned bool) (best fitting, name geom.Box, ok bool) {
	far := math.Inf(1)
	for _, b := range in.layouts {
		s := blockSearch{layouts: []block{b}, near: in.near}
		for _, p := range append([]*plan{&in.plain}, in.kept...) {
			f, found := s.search(*p, []float64{height}, turned)
			if away := f.middle().Dist(in.near); !found || away >= far {
				continue
			}
			w, h := f.size()
			if at, left := in.leftFor(upright(f.at, w, h)); left {
				best, name, far, ok = f, at, f.middle().Dist(in.near), true
				break
			}
		}
	}
	return best, name, ok
}

// leftFor returns a place for the name once a rectangle is taken.
func (in *inscribing) leftFor(taken [4]geom.Point) (geom.Box, bool) {
	p := in.without(taken)
	near := in.room.center()
	for _, b := range in.names {
		w, h := b.size(in.tall)
		if at, ok := p.place(w, h, near); ok {
			return geom.BoxOf(at, at.Add(geom.Pt(w, h))), true
		}
	}
	return geom.NoBox(), false
}

// upright is the rectangle with that lower left corner.
func upright(at geom.Point, w, h float64) [4]geom.Point {
	return [4]geom.Point{at, at.Add(geom.Pt(w, 0)), at.Add(geom.Pt(w, h)), at.Add(geom.Pt(0, h))}
}

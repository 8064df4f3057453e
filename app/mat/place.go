package mat

import (
	"math"
	"regexp"
	"strings"

	"truemat/app/tool"
	"truemat/geom"
)

// placed is a note where it stands, in pixels.
type placed struct {
	strip
	lines  []string
	of     geom.Point // what it tells of
	thread bool       // leads there
}

// flag is a sign beside the spot that it numbers, in pixels.
type flag struct {
	mid, of geom.Point
	text    string
}

func (f flag) ground(px float64) strip {
	return strip{mid: f.mid, dir: geom.Pt(1, 0), r: (signHalf - 1) * px}
}

// floats is what floats over the pieces where it stands, in pixels of the mat.
type floats struct {
	px    float64 // pixels to a unit
	notes []placed
	signs []flag
	sides [2][]side // of notes, of signs

	labels []strip // names of edges of what is selected
}

// shifted is the same for a picture whose corner lies elsewhere.
func (f floats) shifted(by geom.Point) (t floats) {
	for _, n := range f.notes {
		n.mid, n.of = n.mid.Add(by), n.of.Add(by)
		t.notes = append(t.notes, n)
	}
	for _, s := range f.signs {
		s.mid, s.of = s.mid.Add(by), s.of.Add(by)
		t.signs = append(t.signs, s)
	}
	return t
}

// side is where something stands about the place that it tells of, so that it
// stays on that side while the place moves.
type side struct {
	of  geom.Point
	try int // of the places that are tried
	n   int // how many these were
}

// among reports whether the place is the same one among n others. Those around
// what moves are there only while something does, after the near ones.
func (s side) among(n int) bool { return s.n == n || s.try < min(s.n, n)-anywhere }

// sideKept is how far, in units, a place may move from one picture to the next
// for what tells of it to stay on its side.
const sideKept = 90

// What it costs to stand somewhere, besides the distance in units; the place
// that costs least is taken.
const (
	onFloat  = 8000
	onSpot   = 3000 // a place that is told of, a handle
	onMoving = 1200 // a piece that is altered, which one wants to see
	onName   = 1000
	onPaper  = 40 // a piece that lies still
	across   = 40 // its thread runs over pieces, all the way
	under    = 60 // its thread runs under another note
	onMark   = 25 // a notch, an arrow
	hides    = onName
	strays   = 140 // it stands so ill that another place is looked for

	signOnMoving = 60 // a sign is small, and is to be near what it numbers
)

// obstacles is what floating things keep off, in pixels of the mat.
type obstacles struct {
	px      float64
	rim     geom.Box // within which they show
	floats  []strip
	spots   []strip
	names   []strip // of pieces, and their large marks
	marks   []strip // notches, arrows and folds
	still   []sheet // the paper of pieces at rest, for what keeps off it
	moving  [][]geom.Point
	movings []geom.Box
	over    float64  // what it costs to stand on what moves
	box     geom.Box // of what moves
}

// How much about a spot is kept free, in units.
const (
	toldSpot   = 9
	signedSpot = 6
)

// meets reports whether a strip meets one of others.
func (s strip) meets(others []strip) bool {
	for _, t := range others {
		if far := s.half + s.r + t.half + t.r; math.Abs(s.mid.X-t.mid.X) < far && math.Abs(s.mid.Y-t.mid.Y) < far && s.hits(t) {
			return true
		}
	}
	return false
}

// cost says how ill it is to stand at s for what tells of c; what is certain
// to cost more than best is not looked into further.
func (o *obstacles) cost(s strip, c geom.Point, best float64) float64 {
	a, b := s.ends()
	v := max(distance(c, a, b)-s.r, 0) / o.px
	for _, g := range []struct {
		strips []strip
		cost   float64
	}{{o.floats, onFloat}, {o.spots, onSpot}, {o.names, onName}, {o.marks, onMark}} {
		if v < best && s.meets(g.strips) {
			v += g.cost
		}
	}
	if v < best && o.onMoving(s) {
		v += o.over
	}
	if v < best && len(o.still) > 0 {
		v += o.onStill(s, c)
	}
	return v
}

func (o *obstacles) onMoving(s strip) bool {
	a, b := s.ends()
	box := geom.BoxOf(a, b).Grow(s.r)
	for i, ring := range o.moving {
		if o.movings[i].Overlaps(box) && s.onto(ring) {
			return true
		}
	}
	return false
}

// within pushes the middle of what is w and h in half into view.
func (o *obstacles) within(mid geom.Point, w, h float64) geom.Point {
	return geom.Pt(max(min(mid.X, o.rim.Max.X-w), o.rim.Min.X+w), max(min(mid.Y, o.rim.Max.Y-h), o.rim.Min.Y+h))
}

// about are the places about c for what is w and h in half, at the distances
// given: askew, beside, above and below; then clear of what moves; and at last
// anywhere near, for where all that hides something.
func (o *obstacles) about(c geom.Point, w, h float64, distances []float64) []geom.Point {
	var out []geom.Point
	at := func(x, y float64) { out = append(out, c.Add(geom.Pt(x, y))) }
	for _, d := range distances {
		d *= o.px
		x := w + max(14*o.px, 0.7*d-8*o.px)
		at(x, -d)
		at(x, d)
		at(-x, -d)
		at(-x, d)
		at(w+d, 0)
		at(-w-d, 0)
		at(0, -h-d)
		at(0, h+d)
	}
	if gap := 12 * o.px; !o.box.Empty() {
		for _, x := range []float64{c.X, c.X - 0.8*w, c.X + 0.8*w} {
			out = append(out, geom.Pt(x, o.box.Min.Y-h-gap), geom.Pt(x, o.box.Max.Y+h+gap))
		}
		for _, y := range []float64{c.Y, c.Y - 2.5*h, c.Y + 2.5*h} {
			out = append(out, geom.Pt(o.box.Max.X+w+gap, y), geom.Pt(o.box.Min.X-w-gap, y))
		}
	}
	const reach, apart = 240, 16
	for y := -reach; y <= reach; y += apart {
		for x := -reach; x <= reach; x += 2 * apart {
			at(float64(x)*o.px, float64(y)*o.px)
		}
	}
	return out
}

// anywhere is how many of the places about a spot are the last, tried only
// where all others hide something.
const anywhere = 31 * 16

// stand returns where among places what tells of c stands, w and h being half
// its width and height: where it stood before as long as it hides nothing
// there, or where it costs least.
func (o *obstacles) stand(places []geom.Point, c geom.Point, w, h float64, before *side) (geom.Point, side) {
	at := func(i int) strip {
		return strip{o.within(places[i], w, h), geom.Pt(1, 0), w - h, h}
	}
	best, least := 0, math.Inf(1)
	if before != nil && before.among(len(places)) && before.of.Dist(c) <= sideKept*o.px {
		best = before.try
		least = o.cost(at(best), c, math.Inf(1))
		if least < strays {
			return at(best).mid, side{c, best, len(places)}
		}
		least -= onMark // it moves for what is better, not for what is as well
	}
	for i := range places {
		if i == len(places)-anywhere && least < hides {
			break
		}
		if v := o.cost(at(i), c, least); v < least {
			best, least = i, v
		}
	}
	return at(best).mid, side{c, best, len(places)}
}

// Distances in units at which notes and signs are tried.
var (
	noteTries = []float64{22, 48, 74, 104, 140, 180, 230}
	signTries = []float64{20, 32, 48, 68}
)

// A note is broken into two lines where it would be wider than a share of the
// mat; the space between these is in em.
const (
	widestNote = 0.55
	noteLead   = 1.25
)

// placeFloats stands signs and notes beside their places: in view, off names
// and marks, off places that are told of and handles, off pieces that move, and
// clear of each other. The name of a piece stands on that piece.
func (m *Mat) placeFloats(t tool.Overlay) floats {
	f := floats{px: m.px}
	if len(t.Notes)+len(t.Signs) == 0 {
		return f
	}
	p := m.onMat()
	o := m.obstacles(p, t)
	onto := p.onto(geom.Identity())
	before := func(kind, i, n int) *side {
		if was := m.floats.sides[kind]; len(was) == n {
			return &was[i]
		}
		return nil
	}
	o.over = signOnMoving
	for i, s := range t.Signs {
		c, half := onto.apply(s.At), signHalf*p.px
		mid, now := o.stand(o.about(c, 0, 0, signTries), c, half, half, before(1, i, len(t.Signs)))
		f.signs, f.sides[1] = append(f.signs, flag{mid, c, s.Text}), append(f.sides[1], now)
		o.floats = append(o.floats, f.signs[i].ground(p.px))
	}
	size := noteSize * p.px
	o.over, o.still = onMoving, m.lettering.sheets
	for i, n := range t.Notes {
		c := onto.apply(n.At)
		lines := []string{n.Text}
		if textWidth(n.Text, size, false) > widestNote*o.rim.Width() {
			lines = twoLines(n.Text)
		}
		w, h := 0.0, (0.95+0.5*noteLead*float64(len(lines)-1))*size
		for _, line := range lines {
			w = max(w, textWidth(line, size, false)/2+0.95*h)
		}
		places := o.about(c, w, h, noteTries)
		names := o.names
		if m.named(n) != nil { // it stands for the name
			places, o.names = append([]geom.Point{c}, places...), nil
		}
		mid, now := o.stand(places, c, w, h, before(0, i, len(t.Notes)))
		o.names = names
		on := false
		for k, ring := range o.moving {
			on = on || o.movings[k].Contains(c) && inside(ring, c)
		}
		told := strip{mid: c, dir: geom.Pt(1, 0)}.meets(o.spots)
		f.notes = append(f.notes, placed{strip{mid, geom.Pt(1, 0), w - h, h}, lines, c, !on || told})
		f.sides[0] = append(f.sides[0], now)
		o.floats = append(o.floats, f.notes[i].strip)
	}
	return f
}

// measured is a number with what follows it in one measure.
var measured = regexp.MustCompile(`(\d) (\d|mm|cm|in\b)`)

// twoLines breaks a note, but no measure in it.
func twoLines(text string) []string {
	const held = "\u00a0"
	lines := halves(measured.ReplaceAllString(text, "$1"+held+"$2"), " ")
	for i := range lines {
		lines[i] = strings.ReplaceAll(lines[i], held, " ")
	}
	return lines
}

// onMat is a painter on the whole mat that measures and paints nothing.
func (m *Mat) onMat() *painter {
	size := m.Size()
	b := &brush{w: int(math.Ceil(float64(size.Width) * m.px)), h: int(math.Ceil(float64(size.Height) * m.px))}
	return &painter{brush: b, palette: m.palette, camera: m.camera, px: m.px}
}

// obstacles is what the floating things of an overlay must keep off.
func (m *Mat) obstacles(p *painter, t tool.Overlay) *obstacles {
	edge := 4 * p.px
	from := rulerWidth*p.px + edge
	o := &obstacles{px: p.px, box: geom.NoBox(), rim: geom.BoxOf(geom.Pt(from, from),
		geom.Pt(float64(p.w)-edge, max(float64(p.h)-float64(m.cover.height)*p.px-edge, from)))}
	still := m.stillLettering(p)
	moves := p.lettered(m.live)
	o.names = append(still.names[:len(still.names):len(still.names)], moves.names...)
	o.marks = append(still.marks[:len(still.marks):len(still.marks)], moves.marks...)
	onto := p.onto(geom.Identity())
	spot := func(at geom.Point, r float64) {
		o.spots = append(o.spots, strip{mid: onto.apply(at), dir: geom.Pt(1, 0), r: r * p.px})
	}
	for _, d := range t.Dots {
		if d.Style == tool.Pointed {
			continue // where the pointer is now
		}
		spot(d.At, toldSpot)
	}
	for _, s := range t.Signs {
		spot(s.At, signedSpot)
	}
	for _, l := range m.live {
		on := p.onto(l.pose)
		l.flatten(on.scale())
		ring := on.all(nil, l.rim())
		o.moving, o.movings = append(o.moving, ring), append(o.movings, geom.BoxOf(ring...))
		o.box = o.box.Union(geom.BoxOf(ring...))
	}
	return o
}

// lettered is where names and marks of pieces stand, in pixels of the mat.
type lettered struct {
	names, marks []strip
	sheets       []sheet
}

// lettering is that of the pieces at rest, good as long as they and the view
// are.
type lettering struct {
	lettered
	still  []laid
	camera Camera
	px     float64
	w, h   int
}

func (m *Mat) stillLettering(p *painter) lettered {
	k := &m.lettering
	if k.still == nil || k.camera != m.camera || k.px != p.px || k.w != p.w || k.h != p.h || !sameLaid(k.still, m.still) {
		*k = lettering{p.lettered(m.still), m.still, m.camera, p.px, p.w, p.h}
	}
	return k.lettered
}

// lettered finds where the names of pieces stand, on them or beside, and their
// marks.
func (p *painter) lettered(ls []laid) (t lettered) {
	p.unnamed = nil
	for _, l := range ls {
		m := p.onto(l.pose)
		l.flatten(m.scale())
		if !p.visible(l, m) {
			continue
		}
		ring := m.all(nil, l.rim())
		t.sheets = append(t.sheets, sheet{ring, geom.BoxOf(ring...)})
		t.names = append(t.names, p.marked(l, m)...)
		t.marks = append(append(t.marks, p.signed(l, m)...), p.notched(l, m)...)
		if n, ok := p.naming(l, m); ok {
			t.names = append(t.names, n.strips()...)
		} else {
			p.unnamed = append(p.unnamed, l)
		}
	}
	for name, at := range p.unnamedAt(ls) {
		t.names = append(t.names, lineStrip(name, at, geom.Pt(1, 0), besideSize*p.px, true))
	}
	return t
}

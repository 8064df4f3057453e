package mat

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// painter draws pieces and marks with a brush.
type painter struct {
	*brush
	palette Palette
	camera  Camera
	px      float64  // pixels to a unit of the toolkit
	x0, y0  float64  // the image's upper left corner on the widget, in pixels
	nested  [][]laid // the other sizes, which are seen through the paper
	unnamed []laid   // pieces without room for their name
	foot    float64  // where on the widget what hides its lowest part begins, in pixels; 0 when nothing does
	above   []func() // draws names of edges, over the lines of an overlay
	aside   []laid   // the pieces that are not selected, off which the names of its edges keep
	marks   []strip  // of pieces at rest
}

// onto returns the map from a piece's coordinates to pixels of the image.
func (p *painter) onto(pose geom.Motion) affine { return p.camera.onto(pose, p.px, p.x0, p.y0) }

func (p *painter) pen(width float64, c colour, dash ...float64) pen {
	scaled := make([]float64, len(dash))
	for i, d := range dash {
		scaled[i] = d * p.px
	}
	return pen{width: width * p.px, color: c, dash: scaled}
}

// Sizes of what has the same size at every zoom, in units.
const (
	nameSize   = 13.5
	smallSize  = 10.5
	capHeight  = 0.73 // of an em, in the program's typeface
	signEvery  = 150  // between the signs of an edge's role
	signInside = 9    // of a sign's foot inside the sew line
)

// piece draws a piece of paper with all that is on it.
func (p *painter) piece(l laid) {
	m := p.onto(l.pose)
	k := m.scale()
	l.flatten(k)
	if !p.visible(l, m) {
		return
	}
	sew, rim := m.all(nil, l.sewRing), m.all(nil, l.rim())
	paper, allowance := p.palette.Paper, p.palette.Allowance
	if l.traced {
		paper, allowance = fade(paper, tracing), fade(allowance, tracing)
	} else {
		p.shadow(rim)
	}
	if l.cutRing != nil {
		p.fill(rim, allowance)
	}
	p.fill(sew, paper)
	p.within(p.nested, l.piece.Name, rim)
	p.inside(l, m)
	p.lines(l, m)
	for i := range l.piece.Edges {
		p.signs(l, m, i)
	}
	p.notches(l, m)
	if !p.name(l, m) {
		p.unnamed = append(p.unnamed, l)
	}
	if l.uncut >= 0 {
		p.noCutSign(l, m)
	}
}

// tracing is how much of what lies beneath a piece of tracing paper covers.
const tracing = 0x70

// visible reports whether any of the piece may lie in the image.
func (p *painter) visible(l laid, m affine) bool {
	b := geom.NoBox()
	for _, q := range l.rim() {
		b = b.Union(geom.BoxOf(m.apply(q)))
	}
	return b.Grow(10 * p.px).Overlaps(geom.BoxOf(geom.Pt(0, 0), geom.Pt(float64(p.w), float64(p.h))))
}

// dashes gives each role its own sew line, so that no colour is needed.
func dashes(r pattern.Role) []float64 {
	switch r {
	case pattern.WireLine:
		return []float64{11, 3, 1.5, 3}
	case pattern.Hem:
		return []float64{9, 4}
	case pattern.Neckline, pattern.Underarm:
		return []float64{3, 3}
	case pattern.Closure:
		return []float64{3, 2.5, 3, 6}
	case pattern.TurnedBack:
		return []float64{7, 2.5, 2.5, 2.5}
	}
	return []float64{5.5, 3.5}
}

// lines draws the cut line solid, the fold as a chain line, the sew lines
// dashed by role.
func (p *painter) lines(l laid, m affine) {
	k := m.scale() / p.px
	if l.uncut >= 0 {
		p.noCutLine(l, m)
		return
	}
	cut := p.pen(1.5, p.palette.Cut)
	for i, e := range l.piece.Edges {
		run := l.sewRuns[i]
		if e.Role == pattern.DartEdge || e.Role != pattern.Fold && e.Allowance*k > 2.5 && l.cut != nil {
			p.line(m.all(p.pts, run), p.pen(1.1, p.palette.Sew, dashes(e.Role)...))
		}
		if e.Role == pattern.Fold {
			p.line(m.all(p.pts, run), p.pen(1.3, p.palette.Cut, 14, 4, 3, 4))
		}
	}
	for i, e := range l.piece.Edges {
		run := l.sewRuns[i]
		if l.cut != nil {
			run = l.cutRuns[i]
		}
		if e.Role != pattern.Fold && len(run) > 0 {
			p.trace(m.all(p.pts, run), cut)
		}
	}
	p.ink(cut)
}

// notches draws a stroke across the cut line, and where there is no allowance
// a ringed mark inside, since nothing may be snipped there.
func (p *painter) notches(l laid, m affine) {
	stroke, mark := p.pen(1.8, p.palette.Cut), p.pen(1.2, p.palette.Cut)
	for _, n := range l.piece.Notches {
		e := l.piece.Edge(n.Edge)
		if e == nil {
			continue
		}
		for _, s := range strokes(n, e.Length(), 5*p.px/m.scale()) {
			at, out := m.apply(e.Path.At(s)), m.vector(e.Path.TangentAt(s).Perp().Mul(-1)).Unit()
			if a := e.Allowance * m.scale(); a > 0 && l.uncut < 0 {
				in, beyond := min(5*p.px, a/2), 4*p.px
				p.line([]geom.Point{at.Add(out.Mul(a - in)), at.Add(out.Mul(a + beyond))}, stroke)
				continue
			}
			p.line([]geom.Point{at.Sub(out.Mul(2 * p.px)), at.Sub(out.Mul(9 * p.px))}, mark)
			p.ring(circle(at.Sub(out.Mul(11*p.px)), 2*p.px), mark)
		}
	}
}

// strokes returns where the strokes of a notch stand on its edge.
func strokes(n pattern.Notch, length, gap float64) []float64 {
	at := min(max(n.At(length), 0), length)
	if !n.Double {
		return []float64{at}
	}
	gap = max(gap, 3)
	return []float64{max(at-gap/2, 0), min(at+gap/2, length)}
}

// inside draws inner lines, marks, the arrow and the sign of the fold.
func (p *painter) inside(l laid, m affine) {
	for i, in := range l.piece.Inner {
		pen := p.pen(0.9, p.palette.Sew)
		switch in.Kind {
		case pattern.OldJoint:
			pen = p.pen(0.9, p.palette.Sew, 10, 3, 1.5, 3)
		case pattern.OldFold:
			pen = p.pen(0.9, p.palette.Faint, 6, 4)
		case pattern.OldNotch, pattern.OldArrow:
			pen = p.pen(0.9, p.palette.Faint)
		}
		run := m.all(nil, l.inner[i])
		if in.Kind == pattern.OldArrow && p.far(l, m) {
			continue // there is room for the one that counts only
		}
		p.line(run, pen)
		if in.Kind == pattern.OldArrow && len(run) > 1 {
			p.oldHeads(run[0], run[len(run)-1], pen)
		}
	}
	l.findRoom()
	for _, mk := range l.marks {
		dir := readable(m.vector(mk.dir).Unit())
		p.lettering(mk.lines, m.apply(mk.at), dir, mk.size*m.scale(), p.palette.Accent)
	}
	p.arrow(l.arrow, m)
	if word, bracket := p.foldWord(l, m); bracket {
		f := l.piece.Fold()
		p.bracket(m, m.apply(f.Path.Start()), m.apply(f.Path.End()))
		if word.r > 0 {
			p.text(foldText, word.mid, word.dir, smallSize*p.px, false, p.palette.Ink)
		}
	}
}

// far reports whether a piece is so small that an arrow that counts no more
// would be taken for the one that does.
func (p *painter) far(l laid, m affine) bool {
	a := l.arrow
	return m.apply(a.From).Dist(m.apply(a.To)) < 3*leastArrow*p.px
}

// readable turns a direction so that writing along it is not upside down.
func readable(dir geom.Point) geom.Point {
	if dir.X < -1e-9 || math.Abs(dir.X) <= 1e-9 && dir.Y > 0 {
		return dir.Mul(-1)
	}
	return dir
}

// leastArrow is the shortest arrow that can be read, in units; leastSwing the
// shortest whose swing can be told from a plain shaft.
const (
	leastArrow = 14
	leastSwing = 26
	swing      = 4 // of such a shaft to either side
)

// arrow draws a plain shaft for the grain, one that swings in the middle for
// the greatest stretch, and one with two bars across for the least; none where
// it is too short for its kind to be told.
func (p *painter) arrow(a pattern.Arrow, m affine) {
	from, to := m.apply(a.From), m.apply(a.To)
	length := from.Dist(to)
	head, least := min(8*p.px, length/3), leastArrow*p.px
	if a.Kind == pattern.MostStretch {
		head, least = min(8*p.px, length/4.5), leastSwing*p.px
	}
	if length < least {
		return
	}
	u := to.Sub(from).Unit()
	v := u.Perp()
	at := func(x, y float64) geom.Point { return from.Add(u.Mul(x)).Add(v.Mul(y * p.px)) }
	for _, t := range [2][2]float64{{0, head}, {length, length - head}} {
		p.fill([]geom.Point{at(t[0], 0), at(t[1], 0.4*head/p.px), at(t[1], -0.4*head/p.px)}, p.palette.Ink)
	}
	pen := p.pen(1.2, p.palette.Ink)
	mid := length / 2
	shaft := []geom.Point{at(head, 0)}
	if a.Kind == pattern.MostStretch {
		const widest = 5
		room := length - 2*head - 2*p.px
		turns := 4
		if room > 24*p.px {
			turns = 6
		}
		step := min(widest*p.px, room/float64(turns))
		start := mid - float64(turns)*step/2
		shaft = append(shaft, at(start, 0))
		for i := range turns {
			shaft = append(shaft, at(start+(float64(i)+0.5)*step, swing-2*swing*float64(i%2)))
		}
		shaft = append(shaft, at(start+float64(turns)*step, 0))
	}
	p.line(append(shaft, at(length-head, 0)), pen)
	if a.Kind == pattern.LeastStretch {
		for _, x := range []float64{mid - 2*p.px, mid + 2*p.px} {
			p.line([]geom.Point{at(x, 5), at(x, -5)}, pen)
		}
	}
}

// oldHeads draws the open heads of an arrow that counts no more.
func (p *painter) oldHeads(from, to geom.Point, pen pen) {
	u := to.Sub(from).Unit().Mul(6 * p.px)
	v := u.Perp().Mul(0.45)
	p.line([]geom.Point{from.Add(u).Add(v), from, from.Add(u).Sub(v)}, pen)
	p.line([]geom.Point{to.Sub(u).Add(v), to, to.Sub(u).Sub(v)}, pen)
}

// foldText stands beside the bracket, which is bracketDepth units deep.
const (
	foldText     = "fold"
	bracketDepth = 12
)

// bracketEnds returns where a bracket along a fold begins and ends, and the
// direction of the inside.
func (p *painter) bracketEnds(m affine, a, b geom.Point) (s, e, in geom.Point) {
	length := a.Dist(b)
	u := b.Sub(a).Unit()
	inset := min(length*0.15, 26*p.px)
	return a.Add(u.Mul(inset)), b.Sub(u.Mul(inset)), m.inward(u)
}

// bracket draws the sign for the fold: a line beside it whose ends bend and
// point at it.
func (p *painter) bracket(m affine, a, b geom.Point) {
	s, e, in := p.bracketEnds(m, a, b)
	u := e.Sub(s).Unit()
	depth := bracketDepth * p.px
	p.line([]geom.Point{s.Add(in.Mul(5 * p.px)), s.Add(in.Mul(depth)), e.Add(in.Mul(depth)), e.Add(in.Mul(5 * p.px))}, p.pen(1.2, p.palette.Ink))
	for _, tip := range []geom.Point{s, e} {
		base := tip.Add(in.Mul(7 * p.px))
		w := u.Mul(2.8 * p.px)
		p.fill([]geom.Point{tip.Add(in.Mul(1.5 * p.px)), base.Add(w), base.Sub(w)}, p.palette.Ink)
	}
}

// foldWord returns where the word beside the bracket of a fold stands, clear
// of the arrow and inside the piece; an empty strip when it fits nowhere. There
// is no bracket either when there is no fold or it is too short.
func (p *painter) foldWord(l laid, m affine) (word strip, bracket bool) {
	f := l.piece.Fold()
	if f == nil {
		return strip{}, false
	}
	a, b := m.apply(f.Path.Start()), m.apply(f.Path.End())
	if a.Dist(b) < 40*p.px {
		return strip{}, false
	}
	s, e, in := p.bracketEnds(m, a, b)
	arrow := stripOf(m.apply(l.arrow.From), m.apply(l.arrow.To), 7*p.px)
	ring := m.all(nil, l.sewRing)
	for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
		at := s.Lerp(e, share).Add(in.Mul((bracketDepth + 8) * p.px))
		w := lineStrip(foldText, at, readable(e.Sub(s).Unit()), smallSize*p.px, false)
		if !w.hits(arrow) && w.within(ring) {
			return w, true
		}
	}
	return strip{}, true
}

// lettering writes bold lines below each other, their middle at mid.
func (p *painter) lettering(lines []string, mid, dir geom.Point, size float64, c colour) {
	if size < 5*p.px {
		return
	}
	down := geom.Pt(-dir.Y, dir.X)
	for i, text := range lines {
		p.text(text, mid.Add(down.Mul((float64(i)-float64(len(lines)-1)/2)*1.15*size)), dir, size, true, c)
	}
}

// shadow lays a soft shadow below and to the right of an outline.
func (p *painter) shadow(rim []geom.Point) {
	turn := 0.0
	for i, a := range rim {
		turn += a.Cross(rim[(i+1)%len(rim)])
	}
	shift := geom.Pt(0.8*p.px, 1.8*p.px)
	soft := pen{width: 9 * p.px, color: p.palette.Shadow, soft: true}
	for i, a := range rim {
		b := rim[(i+1)%len(rim)]
		if out := b.Sub(a).Perp().Dot(shift); out*turn < 0 {
			p.trace([]geom.Point{a.Add(shift), b.Add(shift)}, soft)
		}
	}
	p.ink(soft)
}

// outline draws a piece as a faint line: a ghost, or a neighbouring size.
func (p *painter) outline(l laid, pen pen) {
	m := p.onto(l.pose)
	l.flatten(m.scale())
	if !p.visible(l, m) {
		return
	}
	p.ring(m.all(p.pts, l.rim()), pen)
}

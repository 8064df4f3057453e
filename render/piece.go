package render

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/cloth/border"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Options says what is written on a drawing and how pieces are drawn.
type Options struct {
	Pattern   string          // name of the pattern, for the title blocks
	Size      string          // label of the size
	Units     unit.System     // in which allowances are told, mm when empty
	FoldWhole bool            // pieces on a fold unfolded
	Ghost     []pattern.Piece // the pieces as they were, drawn faintly below (PatternScene only)
	On        []Common        // what of a piece lies on itself in all sizes (NestScene only)
	Laces     []border.Plan   // whose border is drawn along the lace edges (PieceScene only)
}

// PieceScene draws one piece in its own coordinates: cut line, sew line,
// notches, arrow, fold bracket, inner lines, marks, what each edge is, and the
// title block. An error names the piece that cannot be drawn.
func PieceScene(pc pattern.Piece, opt Options) (Scene, error) {
	l, err := onePiece(pc, geom.Identity(), opt)
	if err != nil {
		return Scene{}, err
	}
	return sceneOf(l), nil
}

func sceneOf(layers ...Layer) Scene { return Scene{Box: layersBox(layers), Layers: layers} }

func onePiece(pc pattern.Piece, m geom.Motion, opt Options) (Layer, error) {
	v, err := newVersion(pc, m, opt.Size, opt.FoldWhole, opt.Laces...)
	if err != nil {
		return Layer{}, err
	}
	v.units = opt.Units
	common, own := drawPiece([]version{v}, opt.Pattern, nil)
	return Layer{
		Name:    pc.Name,
		Figures: append(own[0].Figures, common.Figures...),
		Labels:  append(own[0].Labels, common.Labels...),
	}, nil
}

// version is a piece in one size.
type version struct {
	size  string
	piece pattern.Piece
	shape shape
	cut   Pen
	sew   Pen
	notch Pen
	along []Figure // the border of a lace
	units unit.System
	nth   int // among sizes that lie on each other, from 0
}

func newVersion(pc pattern.Piece, m geom.Motion, size string, whole bool, laces ...border.Plan) (version, error) {
	s, err := shapeOf(pc, m)
	if err != nil {
		return version{}, err
	}
	if whole {
		if s, err = s.unfold(); err != nil {
			return version{}, fmt.Errorf("piece %s: %w", pc.Name, err)
		}
	}
	along, err := borderLine(&pc, m, whole, laces)
	if err != nil {
		return version{}, fmt.Errorf("piece %s: %w", pc.Name, err)
	}
	return version{size: size, piece: pc, shape: s, cut: cutPen, sew: sewPen, notch: notchPen, along: along}, nil
}

// leg is the pen of a sew line: a dart's legs lie nearly on each other in
// sizes that do, so each size has its own dashes there.
func (v version) leg(e shapeEdge) Pen {
	pen := v.sew
	if e.role == pattern.DartEdge && v.nth > 0 {
		pen.Width, pen.Dash = 0.2, []float64{0.8 + 1.2*float64(v.nth), 1.6}
	}
	return pen
}

// sewOutline returns the sew line as one closed path.
func (s *shape) sewOutline() geom.Path {
	var paths []geom.Path
	for _, e := range s.edges {
		if !e.twin {
			paths = append(paths, e.path)
		}
	}
	if s.whole {
		return s.cut // what lies in the allowance is kept free by the lines there
	}
	if p, err := geom.JoinClosed(paths...); err == nil {
		return p
	}
	slices.Reverse(paths) // mirrored: the edges follow each other backwards
	if p, err := geom.JoinClosed(paths...); err == nil {
		return p
	}
	return s.cut
}

// drawPiece draws a piece in one or several sizes that lie on each other:
// what they have in common, taken from the first, and what each has of its own.
// Large writing stays off the glue lines where it can.
func drawPiece(vs []version, patternName string, glue []geom.Path) (common Layer, own []Layer) {
	var cuts, sews []geom.Path
	for _, v := range vs {
		cuts = append(cuts, v.shape.cut)
		sews = append(sews, v.shape.sewOutline())
	}
	d := drawer{room: newRoom(cuts, sews, roomCell), first: vs[0], sizes: vs}
	d.bare = slices.Clone(d.room.taken)
	for _, line := range glue {
		d.room.glue(line)
	}
	for _, v := range vs {
		own = append(own, d.lines(v))
	}
	if len(vs) > 1 {
		d.sizeLabels(own)
	}
	d.signs()
	d.marks()
	d.edgeTexts(false)
	d.arrowText()
	d.title(patternName)
	d.foldText()
	d.edgeTexts(true)
	return d.common, own
}

// drawer draws the things of one piece in turn, each keeping clear of those
// before it.
type drawer struct {
	room   *room
	bare   []bool // what lies outside the cut line
	first  version
	sizes  []version
	common Layer
}

func (d *drawer) add(margin float64, figs ...Figure) {
	for _, f := range figs {
		if !f.Path.Empty() {
			d.common.Figures = append(d.common.Figures, f)
			d.room.takePath(f.Path, margin)
		}
	}
}

// How far writing stays from lines, and from notches, in mm.
const (
	lineClear  = 0.4
	notchClear = 1.2
)

// lines draws what each size has of its own: cut line, sew line, notches.
func (d *drawer) lines(v version) Layer {
	l := Layer{Name: v.size}
	put := func(f Figure) {
		if !f.Path.Empty() {
			l.Figures = append(l.Figures, f)
			d.room.takePath(f.Path, lineClear)
		}
	}
	for _, e := range v.shape.edges {
		if e.beside() {
			put(Figure{Kind: SewLine, Name: e.name, Path: e.path, Pen: v.leg(e)})
		}
	}
	for _, f := range dartSigns(dartsOf(v.shape.edges), v.sew) {
		put(f)
	}
	if v.shape.whole {
		put(Figure{Kind: FoldLine, Path: polyline(v.shape.crease[0], v.shape.crease[1]), Pen: foldPen})
	}
	put(Figure{Kind: CutLine, Path: v.shape.cut, Pen: v.cut})
	for _, f := range v.along {
		put(f)
	}
	for _, n := range v.shape.notches {
		for _, f := range n.figures(v.notch) {
			put(f)
			d.room.takePath(f.Path, notchClear)
		}
	}
	return l
}

// signs draws the apex, inner lines, the arrow and the fold bracket.
func (d *drawer) signs() {
	s := &d.first.shape
	for _, n := range s.notches {
		if n.apex {
			d.add(lineClear, apexSign(n.at)...)
		}
	}
	for _, in := range s.inner {
		switch {
		case in.Name == apexName:
			d.add(lineClear, apexSign(in.Path.At(in.Path.Length()/2))...)
		case in.Kind == pattern.OldJoint:
			d.add(lineClear, Figure{Kind: InnerLine, Name: in.Name, Path: in.Path, Pen: jointPen})
		case in.Kind == pattern.Drawn:
			d.add(lineClear, Figure{Kind: InnerLine, Name: in.Name, Path: in.Path, Pen: innerPen})
		case in.Kind == pattern.OldArrow:
			d.add(lineClear, oldArrow(in.Path)...)
		default:
			d.add(lineClear, Figure{Kind: InnerLine, Name: in.Name, Path: in.Path, Pen: oldPen})
		}
	}
	s.arrow = ClearArrow(s.arrow, d.outlines()...)
	if figs := arrowFigures(s.arrow); len(figs) > 0 {
		d.add(lineClear, figs...)
	}
	if f := s.fold(); f != nil && !s.whole {
		a, b := f.path.Start(), f.path.End()
		figs, _ := bracket(a, b)
		d.add(lineClear, figs...)
	}
}

// arrowText says beside the arrow what it shows.
func (d *drawer) arrowText() {
	if a := d.first.shape.arrow; len(arrowFigures(a)) > 0 {
		d.along(a.From, a.To, arrowText(a.Kind), arrowHalf+1.2)
	}
}

// foldText says beside the fold what it is, where there is room; the bracket
// and the title block say it too.
func (d *drawer) foldText() {
	s := &d.first.shape
	if s.whole {
		d.along(s.crease[0], s.crease[1], "fold line", 1.2)
		return
	}
	if f := s.fold(); f != nil {
		a, b := f.path.Start(), f.path.End()
		_, depth := bracket(a, b)
		in := b.Sub(a).Unit().Perp().Mul(depth)
		d.along(a.Add(in), b.Add(in), "place on the fold", 1.2)
	}
}

// along writes a few words beside a line, where there is a free place, the
// left side first; not at all when there is none.
func (d *drawer) along(a, b geom.Point, text string, gap float64) {
	u := b.Sub(a).Unit()
	angle := readable(u.Direction())
	for _, h := range edgeTextHeights {
		w := TextWidth(text, h, false)
		for _, share := range []float64{0.5, 0.3, 0.7, 0.2, 0.8} {
			for _, side := range []geom.Point{u.Perp(), u.Perp().Mul(-1)} {
				c := a.Lerp(b, share).Add(side.Mul(gap + h*(1+descent)/2))
				base := c.Sub(angle.Unit().Perp().Mul(h * (1 - descent) / 2))
				l := Label{Text: text, At: base, Height: h, Angle: angle, Anchor: Middle, Color: black}
				if w <= 2*a.Dist(b) && d.room.free(l.quad(0)) {
					d.label(l)
					return
				}
			}
		}
	}
}

func (d *drawer) label(l Label) {
	d.common.Labels = append(d.common.Labels, l)
	d.room.takeQuad(l.quad(0.3))
}

// marks writes the large marks as tall as they fit in every size, as near to
// their places as may be.
func (d *drawer) marks() {
	for i, mk := range d.first.shape.marks {
		s := blockSearch{
			layouts: markLayouts(mk.Text), heights: steps(d.markHeight(i), leastMark), near: mk.At,
			inkColor: black,
		}
		figs, labels := s.fit(d.room, d.bare)
		d.common.Figures = append(d.common.Figures, figs...)
		d.common.Labels = append(d.common.Labels, labels...)
	}
}

// markHeight is how tall a mark is written, for which the smallest size counts.
func (d *drawer) markHeight(i int) float64 {
	h := max(d.first.shape.marks[i].Height, leastMark)
	for _, v := range d.sizes {
		w, err := Inscribe(v.piece)
		if err == nil && i < len(w.Marks) {
			h = min(h, w.Marks[i].Height)
		}
	}
	return h
}

// edgeTexts writes what every edge is: the names of seams, which are only a
// help, or the roles of the other edges.
func (d *drawer) edgeTexts(seams bool) {
	usual, _ := usualAllowance(d.first.shape.edges)
	for _, e := range d.first.shape.edges {
		if (e.role == pattern.SeamEdge) != seams || e.twin {
			continue
		}
		if l, ok := edgeLabel(e, usual, d.first.units, d.room); ok {
			d.label(l)
		}
	}
}

// title writes the title block into the largest free place; where there is none
// for it, in parts, each where it lies on nothing.
func (d *drawer) title(patternName string) {
	s := blockSearch{
		layouts: titleBlocks(d.sizes, patternName), heights: steps(3.2, leastTitle), near: d.room.center(),
		inkColor: black,
	}
	if _, ok := s.within(d.room, d.bare, onPaper); !ok {
		for _, parts := range titleParts(d.sizes, patternName) {
			if d.apart(parts) {
				return
			}
		}
	}
	figs, labels := s.fit(d.room, d.bare)
	d.common.Figures = append(d.common.Figures, figs...)
	d.common.Labels = append(d.common.Labels, labels...)
}

// Heights in mm of the title block's capitals: the least, and the most where it
// stands in parts.
const (
	leastTitle = 1.4
	partTitle  = 2.4
)

// apart writes each of the parts where there is a free place for it; when one of
// them has none it writes nothing and reports false.
func (d *drawer) apart(parts [][]block) bool {
	r := *d.room
	r.taken = slices.Clone(r.taken)
	var figs []Figure
	var labels []Label
	for _, ways := range parts {
		s := blockSearch{layouts: ways, heights: steps(partTitle, leastTitle), near: r.center(), inkColor: black}
		f, ok := s.within(&r, d.bare, onPaper)
		if !ok {
			return false
		}
		fs, ls := s.put(&r, f)
		figs, labels = append(figs, fs...), append(labels, ls...)
	}
	*d.room = r
	d.common.Figures = append(d.common.Figures, figs...)
	d.common.Labels = append(d.common.Labels, labels...)
	return true
}

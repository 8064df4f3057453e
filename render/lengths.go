package render

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/pattern"
)

// Kinds of figure of a length of cloth.
const (
	Selvedge Kind = "selvedge" // the edges of the cloth, and its scallops
	Valley   Kind = "valley"   // the innermost points between scallops
	Break    Kind = "break"    // where a cloth is drawn no further
	Extent   Kind = "extent"   // a measure with its ends
)

var (
	selvedgePen = Pen{Width: 0.4, Color: grey}
	valleyPen   = Pen{Width: 0.25, Color: grey, Dash: []float64{1, 1.5}}
	breakPen    = Pen{Width: 0.25, Color: grey, Dash: []float64{4, 3}}
	extentPen   = Pen{Width: 0.25, Color: dark}
)

// BorderScene draws a lace with its scallops and the pieces laid on its
// borders; how much of the lace they take stands below it.
func BorderScene(plan border.Plan, p pattern.Pattern) (Scene, error) {
	c := plan.Lace
	ground, err := LaceGround(c, plan.Origin(), -overhang, plan.Length+overhang)
	if err != nil {
		return Scene{}, err
	}
	ground = ground.with(extent(plan.Length, -c.Lace.Depth-extentBelow, fmt.Sprintf("%s: %.0f mm", c.Name, plan.Length)))
	layers := []Layer{ground}
	for _, o := range plan.Placed {
		l, err := LaidPiece(p.Piece(o.Piece), o.Motion, o.Outline(), o.Name())
		if err != nil {
			return Scene{}, err
		}
		layers = append(layers, l)
	}
	return sceneOf(layers...), nil
}

// LaceGround draws a lace alone, from one x to another: its scallops and the
// valley lines. A motif point of the first border lies at origin, its valley
// line at y = 0.
func LaceGround(c cloth.Cloth, origin, from, to float64) (Layer, error) {
	ground := Layer{Name: c.Name}
	lower, err := scallops(from, to, c.Lace.Repeat, c.Lace.Depth, origin)
	if err != nil {
		return Layer{}, err
	}
	line := func(kind Kind, pen Pen, a, b geom.Point) {
		ground.Figures = append(ground.Figures, Figure{Kind: kind, Path: geom.Must(geom.Polyline(a, b)), Pen: pen})
	}
	usable := c.Usable()
	ground.Figures = append(ground.Figures, Figure{Kind: Selvedge, Path: lower, Pen: selvedgePen})
	line(Valley, valleyPen, geom.Pt(from, 0), geom.Pt(to, 0))
	if !c.Lace.Both {
		line(Selvedge, selvedgePen, geom.Pt(from, usable), geom.Pt(to, usable))
		return ground, nil
	}
	second, err := scallops(from, to, c.Lace.Repeat, c.Lace.DepthOn(true), origin+c.Lace.Shift)
	if err != nil {
		return Layer{}, err
	}
	over, err := geom.Mirror(geom.Pt(0, usable/2), geom.Pt(1, usable/2))
	if err != nil {
		return Layer{}, err
	}
	ground.Figures = append(ground.Figures, Figure{Kind: Selvedge, Path: second.Transform(over), Pen: selvedgePen})
	line(Valley, valleyPen, geom.Pt(from, usable), geom.Pt(to, usable))
	return ground, nil
}

// ClothGround draws the selvedges of a plain cloth from one x to another, the
// lower one at y = 0. When it is drawn up to less than its width, a broken line
// stands there, and the other selvedge BrokenOff beyond it.
func ClothGround(c cloth.Cloth, upTo, from, to float64) Layer {
	ground := Layer{Name: c.Name}
	line := func(kind Kind, pen Pen, y float64) {
		ground.Figures = append(ground.Figures, Figure{Kind: kind, Path: geom.Must(geom.Polyline(geom.Pt(from, y), geom.Pt(to, y))), Pen: pen})
	}
	line(Selvedge, selvedgePen, 0)
	if upTo >= c.Width {
		line(Selvedge, selvedgePen, c.Width)
		return ground
	}
	line(Break, breakPen, upTo)
	line(Selvedge, selvedgePen, upTo+BrokenOff(upTo))
	return ground
}

// BrokenOff is how far in mm the other selvedge of a cloth is drawn beyond the
// line at which it is broken off, up to which it is drawn.
func BrokenOff(upTo float64) float64 { return max(12, 0.025*upTo) }

// LayoutScene draws a length of plain cloth with the pieces laid on it; it
// refuses a cloth without any.
func LayoutScene(l cutting.Layout, p pattern.Pattern) (Scene, error) {
	return LayoutUpTo(l, p, l.Cloth.Width)
}

// LayoutUpTo is LayoutScene with the cloth drawn up to a distance in mm from its
// first selvedge, and broken off there when that is less than its width.
func LayoutUpTo(l cutting.Layout, p pattern.Pattern, upTo float64) (Scene, error) {
	if len(l.Placed) == 0 {
		return Scene{}, fmt.Errorf("no piece is cut from %q, so there is no plan to draw", l.Cloth.Name)
	}
	ground := ClothGround(l.Cloth, upTo, -overhang, l.Length+overhang)
	ground = ground.with(extent(l.Length, -extentBelow, fmt.Sprintf("%s, %.0f mm wide: %.0f mm", l.Cloth.Name, l.Cloth.Width, l.Length)))
	layers := []Layer{ground}
	for _, o := range l.Placed {
		layer, err := LaidPiece(p.Piece(o.Piece), o.Motion, o.Outline, o.Name())
		if err != nil {
			return Scene{}, err
		}
		layers = append(layers, layer)
	}
	return sceneOf(layers...), nil
}

const (
	overhang    = 15.0 // mm of cloth drawn beyond the pieces
	extentBelow = 8.0  // mm from the cloth to the measure below it
	lengthText  = 4.0  // mm
	aboveArrow  = 3.0  // mm from the arrow to the name above it
)

// scallops returns the edge of a border below y = 0: one bow in each repeat
// from a motif point to the next, deep at its middle.
func scallops(from, to, repeat, depth, origin float64) (geom.Path, error) {
	first := origin + repeat*math.Floor((from-origin)/repeat)
	var segs []geom.Cubic
	for x := first; x < to; x += repeat {
		// The middle of a cubic whose handles lie at h is 3/4 h deep.
		h := depth * 4 / 3
		segs = append(segs, geom.Curve(geom.Pt(x, 0), geom.Pt(x+repeat/5, -h), geom.Pt(x+repeat*4/5, -h), geom.Pt(x+repeat, 0)))
	}
	whole, err := geom.NewPath(segs...)
	if err != nil {
		return geom.Path{}, err
	}
	part := func(x float64) float64 {
		cuts := whole.CrossLine(geom.Pt(x, 0), geom.Pt(0, 1))
		if len(cuts) == 0 {
			return 0
		}
		return cuts[0].S
	}
	return whole.Sub(part(from), part(to))
}

// extent draws a measure from x = 0 to length at height y with its text.
func extent(length, y float64, text string) Layer {
	l := Layer{}
	for _, path := range [][]geom.Point{{geom.Pt(0, y), geom.Pt(length, y)}, {geom.Pt(0, y-2), geom.Pt(0, y+2)}, {geom.Pt(length, y-2), geom.Pt(length, y+2)}} {
		l.Figures = append(l.Figures, Figure{Kind: Extent, Path: geom.Must(geom.Polyline(path...)), Pen: extentPen})
	}
	l.Labels = append(l.Labels, Label{Text: text, At: geom.Pt(length/2, y-2-lengthText*1.3), Height: lengthText, Anchor: Middle, Color: dark})
	return l
}

// LaidPiece draws a piece laid on cloth: cut line, sew lines and its name.
func LaidPiece(pc *pattern.Piece, m geom.Motion, outline geom.Path, name string) (Layer, error) {
	l := Layer{Name: name, Figures: []Figure{{Kind: CutLine, Path: outline, Pen: cutPen}}}
	halves := []geom.Motion{m}
	if fold := pc.Fold(); fold != nil {
		over, err := geom.Mirror(fold.Path.Start(), fold.Path.End())
		if err != nil {
			return Layer{}, err
		}
		halves = append(halves, over.Then(m))
	}
	second := dartEdges(pc)
	for _, half := range halves {
		var edges []shapeEdge
		for i, e := range pc.Edges {
			switch {
			case e.Role == pattern.DartEdge:
				l.Figures = append(l.Figures, Figure{Kind: SewLine, Name: dartName, Path: e.Path.Transform(half), Pen: sewPen})
			case e.Role != pattern.Fold && e.Allowance > 0:
				l.Figures = append(l.Figures, Figure{Kind: SewLine, Path: e.Path.Transform(half), Pen: sewPen})
			}
			edges = append(edges, shapeEdge{role: e.Role, path: e.Path.Transform(half), second: second[i]})
		}
		l.Figures = append(l.Figures, dartSigns(dartsOf(edges), sewPen)...)
	}
	from, to := m.Apply(pc.Arrow.From), m.Apply(pc.Arrow.To)
	if arrow, err := geom.Polyline(from, to); err == nil {
		l.Figures = append(l.Figures, Figure{Kind: ArrowLine, Path: arrow, Pen: signPen})
	}
	height := lengthText
	for TextWidth(name, height, true) > outline.Bounds().Width()*0.7 && height > 1.5 {
		height *= 0.9
	}
	at := geom.Pt((from.X+to.X)/2, max(from.Y, to.Y)+aboveArrow)
	if !outline.Contains(at) {
		at = outline.Centroid()
	}
	l.Labels = append(l.Labels, Label{Text: name, At: at, Height: height, Anchor: Middle, Color: black, Bold: true})
	return l, nil
}

// LaidOut returns a small picture of a scene of pieces laid on cloth: its
// lines and, where they can be read, the names of the pieces. Upright turns it
// a quarter so that the width of the cloth runs across the page.
func LaidOut(sc Scene, upright bool) Drawing {
	return func(b geom.Box) Layer {
		m, box := quarter(sc, upright)
		if box.Empty() || b.Empty() {
			return Layer{}
		}
		k := shrunk(box, b.Width(), b.Height())
		shift := b.Center().Sub(box.Center().Mul(k))
		var l Layer
		for _, layer := range sc.Layers {
			l = l.with(Miniature(layer, m, k, shift))
		}
		return l
	}
}

// sampled returns places along a path, 2 mm apart or less.
func sampled(p geom.Path) []geom.Point {
	n := max(int(p.Length()/2), 1)
	out := make([]geom.Point, n+1)
	for i := range out {
		out[i] = p.At(p.Length() * float64(i) / float64(n))
	}
	return out
}

// quarter returns the motion that turns a scene upright, and its box then.
func quarter(sc Scene, upright bool) (geom.Motion, geom.Box) {
	if !upright || sc.Box.Empty() {
		return geom.Identity(), sc.Box
	}
	m := geom.Turn(-90*geom.Degree, geom.Point{})
	return m, geom.BoxOf(m.Apply(sc.Box.Min), m.Apply(sc.Box.Max))
}

// shrunk is the scale at which a box fits into others.
func shrunk(box geom.Box, wide, high float64) float64 {
	return min(wide/box.Width(), high/box.Height(), 1)
}

// FitOnLeaf returns LaidOut as large as it goes on one page of a leaflet, with
// its height in mm and its scale.
func FitOnLeaf(sc Scene, upright bool, paper Paper) (picture Drawing, high, scale float64) {
	_, box := quarter(sc, upright)
	if box.Empty() {
		return LaidOut(sc, upright), 0, 1
	}
	scale = shrunk(box, paper.Width-2*leafMargin, (paper.Height-2*leafMargin)*leafPicture)
	return LaidOut(sc, upright), box.Height() * scale, scale
}

// leafPicture is the share of a page's height for a picture beside a table.
const leafPicture = 0.55

// Miniature returns what is laid on cloth moved by a motion, scaled by k and
// moved again, with pens for small pictures and the names of pieces where they
// can be read.
func Miniature(layer Layer, m geom.Motion, k float64, shift geom.Point) Layer {
	l := Layer{Name: layer.Name}
	for _, f := range layer.Figures {
		if f.Kind == Extent {
			continue
		}
		f.Path = scaled(f.Path.Transform(m), k, shift)
		f.Pen = smallPens[f.Kind]
		l.Figures = append(l.Figures, f)
		if f.Kind == ArrowLine {
			l.Figures = append(l.Figures, smallHeads(f)...)
		}
		if f.Kind == CutLine {
			var arrow, darts, lines []geom.Point
			for _, o := range layer.Figures {
				at := sampled(scaled(o.Path.Transform(m), k, shift))
				switch {
				case o.Kind == ArrowLine:
					arrow = append(arrow, at...)
				case o.Name == dartName:
					darts = append(darts, at...)
				case o.Kind == SewLine:
					lines = append(lines, at...)
				}
			}
			l = l.with(clearName(layer.Name, f.Path, arrow, darts, lines))
		}
	}
	return l
}

// smallHead is the length in mm of the heads of a small arrow.
const smallHead = 1.2

// smallHeads are the heads at both ends of the arrow of a piece, as far as it
// is long enough for them.
func smallHeads(f Figure) []Figure {
	n := f.Path.Length()
	if n < 2.5*smallHead {
		return nil
	}
	from, to := f.Path.Start(), f.Path.End()
	var out []Figure
	for _, tip := range [][2]geom.Point{{from, to}, {to, from}} {
		back := tip[1].Sub(tip[0]).Unit().Mul(smallHead)
		side := geom.Pt(-back.Y, back.X).Mul(0.4)
		out = append(out, Figure{Kind: ArrowLine, Path: polyline(tip[0].Add(back).Add(side), tip[0], tip[0].Add(back).Sub(side)), Pen: f.Pen})
	}
	return out
}

// smallPens draw what is shown far below its true size.
var smallPens = map[Kind]Pen{
	CutLine:   {Width: 0.25, Color: black},
	SewLine:   {Width: 0.12, Color: grey, Dash: []float64{0.6, 0.5}},
	ArrowLine: {Width: 0.15, Color: black},
	FoldLine:  {Width: 0.12, Color: grey, Dash: []float64{1.4, 0.4, 0.3, 0.4}},
	InnerLine: {Width: 0.12, Color: grey},
	Selvedge:  {Width: 0.25, Color: grey},
	Valley:    {Width: 0.15, Color: grey, Dash: []float64{0.5, 0.7}},
	Break:     {Width: 0.15, Color: grey, Dash: []float64{1.6, 1.2}},
}

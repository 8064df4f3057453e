package render

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"truemat/geom"
	"truemat/ops/cloth/bulk"
)

// Kinds of figure of a section.
const (
	LayerStrip Kind = "layer" // one layer of cloth, cut across
	Stitching  Kind = "stitching"
)

const (
	sectionText  = 1.9  // height of capitals, mm
	sectionLine  = 3.5  // from label to label
	sectionNames = 70.0 // width of the labels
	sectionGap   = 5.0
	sectionHigh  = 30.0 // of the layers, at most
	sectionRule  = 5.0  // of true size, the measure that is drawn
)

// magnifications are those at which a section is drawn.
var magnifications = []float64{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20}

var (
	layerPen  = Pen{Width: 0.15, Color: black}
	threadPen = Pen{Width: 0.4, Color: black, Dash: []float64{0.8, 0.5}}
	ownFill   = color.NRGBA{R: 0xff, G: 0xff, B: 0xff, A: 255}
	backFill  = color.NRGBA{R: 0xec, G: 0xec, B: 0xec, A: 255}
	otherFill = color.NRGBA{R: 0xd4, G: 0xd4, B: 0xd4, A: 255}
)

// Section draws a thick place cut across its seam, width mm wide at the most:
// as it is cut above, trimmed as proposed below. Widths and thicknesses are
// magnified alike, by how much stands beside; the scene's origin is its lower
// left corner. A place that is not thick has an empty one.
func Section(pl bulk.Place, width float64) Scene {
	if pl.Section == nil {
		return Scene{}
	}
	d := sectionDrawing{c: *pl.Section}
	d.open = len(d.c.Bends) > 0 && d.c.Bends[len(d.c.Bends)-1].Left
	for _, s := range d.c.Strips {
		if s.From < 0 || s.To < 0 {
			d.left = max(d.left, pieceLeft)
		}
		d.deep = max(d.deep, s.In)
	}
	if d.open {
		d.left = d.c.Reach
	}
	names := min(sectionNames, width*0.45)
	for _, m := range magnifications {
		if m == 1 || (d.left+d.c.Reach)*m <= width-names-sectionGap && d.deep*m <= sectionHigh {
			d.m = m
		}
	}
	d.names = (d.left+d.c.Reach)*d.m + sectionGap
	d.panel(fmt.Sprintf("As cut: %s", rises(d.c.AsCut)), func(s bulk.Strip) (float64, string) {
		if s.Allowance {
			return s.To, fmt.Sprintf(", allowance of %.1f mm", math.Abs(s.To))
		}
		return s.To, ""
	})
	d.panel(fmt.Sprintf("Trimmed: %s", rises(d.c.Trimmed)), func(s bulk.Strip) (float64, string) {
		switch {
		case !s.Allowance:
			return s.To, ""
		case s.Trimmed != s.To:
			return s.Trimmed, fmt.Sprintf(", trim %.1f mm to %.1f mm", math.Abs(s.To), math.Abs(s.Trimmed))
		}
		return s.To, fmt.Sprintf(", leave %.1f mm", math.Abs(s.To))
	})
	d.measure()
	d.l.Name = "section"
	low := geom.Shift(geom.Pt(0, -d.y))
	return Scene{Box: geom.Box{Max: geom.Pt(width, -d.y)}, Layers: []Layer{d.l.Transform(low)}}
}

// pieceLeft is how much in mm is shown left of the seam of a piece that runs
// on there.
const pieceLeft = 6

// sectionDrawing sets a section from the top, y = 0, down.
type sectionDrawing struct {
	c     bulk.Section
	m     float64 // magnification
	left  float64 // what is shown left of the seam, mm of true size
	deep  float64 // thickness at the seam
	names float64 // x of the labels
	open  bool
	y     float64
	l     Layer
}

func (d *sectionDrawing) label(text string, x, y float64, ink color.NRGBA, bold bool) {
	d.l.Labels = append(d.l.Labels, Label{Text: text, At: geom.Pt(x, y), Height: sectionText, Color: ink, Bold: bold})
}

// panel draws all layers, each up to where end says, with their names and what
// end says of them at the right.
func (d *sectionDrawing) panel(title string, end func(bulk.Strip) (float64, string)) {
	d.y -= sectionLine
	d.label(title, 0, d.y, black, true)
	d.y -= sectionGap * 0.5
	var told []bulk.Strip
	for _, s := range d.c.Strips {
		if !s.Again && s.To > 0 {
			told = append(told, s)
		}
	}
	lines := float64(len(told))
	doubled := d.c.Strips[len(d.c.Strips)-1].Again
	if doubled {
		lines++
	}
	high := max(d.deep*d.m, lines*sectionLine)
	top := d.y - (high-d.deep*d.m)/2
	at := func(x, depth float64) geom.Point { return geom.Pt((x+d.left)*d.m, top-depth*d.m) }
	reach := func(x float64) float64 { return max(x, -d.left) }
	for _, s := range d.c.Strips {
		to, _ := end(s)
		from := s.From
		if !s.Beyond {
			from = d.turn(s)
		}
		d.l.Figures = append(d.l.Figures, Figure{Kind: LayerStrip, Path: polygon(at(reach(from), s.In), at(reach(to), s.In), at(reach(to), s.Out), at(reach(from), s.Out)), Pen: layerPen, Fill: fillOf(s)})
	}
	for _, b := range d.c.Bends {
		d.bend(b, at)
	}
	d.stitch(at)
	d.outside(top)
	// Leaders leave the layers before they slant, so that they cross none.
	y := d.y - (high-lines*sectionLine)/2
	for _, s := range told {
		to, says := end(s)
		middle := y - sectionLine/2
		tip := at(min(to, d.c.Reach), (s.Out+s.In)/2)
		d.l.Figures = append(d.l.Figures, Figure{Kind: Extent, Path: polyline(tip, geom.Pt(at(d.c.Reach, 0).X+0.5, tip.Y), geom.Pt(d.names-1.5, middle), geom.Pt(d.names-0.5, middle)), Pen: Pen{Width: 0.1, Color: grey}})
		d.label(strings.TrimSpace(layerName(s)+says), d.names, middle-sectionText/2, black, false)
		y -= sectionLine
	}
	if doubled {
		d.label("and the same once more, folded back", d.names, y-sectionLine/2-sectionText/2, grey, false)
	}
	d.y -= high + sectionGap*0.5
}

// outside marks the outer side, in the free corner above what runs on beyond
// the seam where that is tall enough, or else above all.
func (d *sectionDrawing) outside(top float64) {
	for _, s := range d.c.Strips {
		if s.Beyond {
			if s.Out*d.m > 2*sectionText {
				top -= sectionText + 1.6
			}
			break
		}
	}
	d.label("outside", 0, top+0.8, grey, false)
}

// turn returns where a strip that folds back at the seam begins.
func (d *sectionDrawing) turn(s bulk.Strip) float64 {
	outer := 0.0
	for _, b := range d.c.Bends {
		if b.Left == (s.To < 0) {
			outer = max(outer, b.Outer)
		}
	}
	if s.To < 0 {
		return -outer
	}
	return outer
}

// bend draws a layer round the fold at the seam.
func (d *sectionDrawing) bend(b bulk.Bend, at func(x, depth float64) geom.Point) {
	const n = 16
	side, center := 1.0, 0.0
	for _, o := range d.c.Bends {
		if o.Left == b.Left {
			center = max(center, o.Outer)
		}
	}
	if b.Left {
		side = -1
	}
	var pts []geom.Point
	arc := func(r float64, from, to float64) {
		for i := range n + 1 {
			a := from + (to-from)*float64(i)/n
			pts = append(pts, at(side*(center-r*math.Sin(a)), b.Middle-r*math.Cos(a)))
		}
	}
	arc(b.Outer, 0, math.Pi)
	if b.Inner > 0 {
		arc(b.Inner, math.Pi, 0)
	}
	d.l.Figures = append(d.l.Figures, Figure{Kind: LayerStrip, Path: polygon(pts...), Pen: layerPen, Fill: ownFill})
}

// stitch draws the thread of the seam through what it holds.
func (d *sectionDrawing) stitch(at func(x, depth float64) geom.Point) {
	for again := range 2 {
		from, to, x := math.Inf(1), math.Inf(-1), 0.0
		for _, s := range d.c.Strips {
			if s.Allowance && s.Again == (again == 1) {
				from, to, x = min(from, s.Out), max(to, s.In), max(x, d.turn(s))
			}
		}
		if from >= to {
			continue
		}
		a, b := at(x, from), at(x, to)
		if d.open {
			a, b = at(-0.8/d.m, (from+to)/2), at(0.8/d.m, (from+to)/2)
		}
		d.l.Figures = append(d.l.Figures, Figure{Kind: Stitching, Path: polyline(a, b), Pen: threadPen})
	}
}

// measure draws a measure of the true size below.
func (d *sectionDrawing) measure() {
	d.y -= sectionLine
	long := sectionRule * d.m
	ends := []geom.Path{polyline(geom.Pt(0, d.y), geom.Pt(long, d.y)), polyline(geom.Pt(0, d.y-0.8), geom.Pt(0, d.y+0.8)), polyline(geom.Pt(long, d.y-0.8), geom.Pt(long, d.y+0.8))}
	for _, p := range ends {
		d.l.Figures = append(d.l.Figures, Figure{Kind: Extent, Path: p, Pen: Pen{Width: 0.2, Color: dark}})
	}
	d.label(fmt.Sprintf("%g mm, drawn at %g × true size in both directions; the dashed line is the seam's thread", sectionRule, d.m), long+2, d.y-sectionText/2, grey, false)
	d.y -= sectionText
}

func fillOf(s bulk.Strip) color.NRGBA {
	switch {
	case s.Beyond:
		return otherFill
	case s.Allowance:
		return backFill
	}
	return ownFill
}

func layerName(s bulk.Strip) string {
	name := s.Cloth
	if name == "" {
		name = "cloth"
	}
	return name + " of " + s.Piece
}

// rises tells how thick it is at which distance from the seam.
func rises(rs []bulk.Rise) string {
	var list []string
	for i, r := range rs {
		switch {
		case i == len(rs)-1:
			list = append(list, fmt.Sprintf("%.1f mm beyond", r.Thickness))
		case i == 0:
			list = append(list, fmt.Sprintf("%.1f mm thick up to %.1f mm from the seam", r.Thickness, r.To))
		default:
			list = append(list, fmt.Sprintf("%.1f mm up to %.1f mm", r.Thickness, r.To))
		}
	}
	return strings.Join(list, ", ")
}

// AsDrawn sets a scene that was drawn for a page on it, at its own scale.
func AsDrawn(sc Scene) Drawing {
	return func(b geom.Box) Layer {
		var l Layer
		m := geom.Shift(geom.Pt(b.Min.X, b.Max.Y-sc.Box.Height()).Sub(sc.Box.Min))
		for _, o := range sc.Layers {
			l = l.with(o.Transform(m))
		}
		return l
	}
}

// Sections draws all thick places under each other, each with its remedy;
// there is nothing to draw when none is thick.
func Sections(places []bulk.Place, width float64) Scene {
	var l Layer
	y := 0.0
	for _, pl := range places {
		if pl.Section == nil {
			continue
		}
		for _, line := range wrap(pl.Remedy+".", sectionText, false, width) {
			y -= sectionLine
			l.Labels = append(l.Labels, Label{Text: line, At: geom.Pt(0, y), Height: sectionText, Color: black})
		}
		sc := Section(pl, width)
		y -= sectionGap * 0.5
		l = l.with(AsDrawn(sc)(geom.Box{Min: geom.Pt(0, y-sc.Box.Height()), Max: geom.Pt(width, y)}))
		y -= sc.Box.Height() + 2*sectionGap
	}
	if y == 0 {
		return Scene{}
	}
	l.Name = "sections"
	return Scene{Box: geom.Box{Min: geom.Pt(0, y), Max: geom.Pt(width, 0)}, Layers: []Layer{l}}
}

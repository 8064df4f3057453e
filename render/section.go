package render

import (
	"fmt"
	"image/color"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/cloth/bulk"
	"truemat/ops/unit"
)

// Kinds of figure of a section.
const (
	LayerStrip Kind = "layer" // one layer of cloth, cut across
	Stitching  Kind = "stitching"
)

const (
	sectionText   = 1.9 // height of capitals, mm
	sectionLine   = 3.5 // from label to label
	sectionGap    = 5.0
	sectionHigh   = 30.0 // of the layers, at most
	sectionRule   = 5.0  // of true size, the measure that is drawn
	sectionInches = 6.35 // the measure for one who reads inches, mm
)

// magnifications are those at which a section is drawn.
var magnifications = []float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20}

var (
	layerPen  = Pen{Width: 0.15, Color: black}
	threadPen = Pen{Width: 0.4, Color: black, Dash: []float64{0.8, 0.5}}
	ownFill   = color.NRGBA{R: 0xff, G: 0xff, B: 0xff, A: 255}
	backFill  = color.NRGBA{R: 0xec, G: 0xec, B: 0xec, A: 255}
	otherFill = color.NRGBA{R: 0xd4, G: 0xd4, B: 0xd4, A: 255}
)

// Section draws a thick place cut across its seam or folded edge, width mm wide
// at the most: as it is cut at the left, beside it as proposed, with lengths
// written in a system of units. Widths and thicknesses are magnified alike, by
// how much stands below; the scene's origin is its lower left corner. A place
// that is not thick has an empty one.
func Section(pl bulk.Place, width float64, system unit.System) Scene {
	if pl.Section == nil {
		return Scene{}
	}
	d := sectionDrawing{c: *pl.Section, width: width, system: system}
	for _, s := range slices.Concat(d.c.Strips, d.c.After) {
		if s.From < 0 || s.To < 0 {
			d.left = max(d.left, pieceLeft)
		}
		d.deep = max(d.deep, s.In)
	}
	if d.c.Open {
		d.left = d.c.Reach
	}
	labels, doubled := labelled(d.c.After, d.says)
	names := 0.0
	for _, l := range labels {
		names = max(names, TextWidth(l.text, sectionText, false))
	}
	names = min(names, width/2)
	for _, m := range magnifications {
		if m == 1 || 2*(d.left+d.c.Reach)*m+2*sectionGap+names <= width && d.deep*m <= sectionHigh {
			d.m = m
		}
	}
	first, then := "As cut", "Trimmed"
	if d.c.Folded {
		first, then = "With folded edges", "Not folded, and trimmed"
	}
	wide := (d.left + d.c.Reach) * d.m
	right := wide + sectionGap
	d.names = right + wide + sectionGap
	above := max(
		d.title(fmt.Sprintf("%s: %s", first, d.rises(d.c.AsCut)), 0, wide),
		d.title(fmt.Sprintf("%s: %s", then, d.rises(d.c.Trimmed)), right, width-right))
	lines := float64(len(labels))
	if doubled {
		lines++
	}
	high := max(d.deep*d.m, lines*sectionLine)
	d.y = -above - sectionGap
	d.panel(d.c.Strips, d.c.Bends, 0, d.y-(high-d.deep*d.m)/2)
	d.panel(d.c.After, d.c.AfterBends, right, d.y-(high-d.deep*d.m)/2)
	d.label("outside", 0, d.y-(high-d.deep*d.m)/2+0.8, grey, false)
	d.leaders(labels, doubled, right, high)
	d.y -= high
	d.measure(high - d.deep*d.m)
	d.l.Name = "section"
	low := geom.Shift(geom.Pt(0, -d.y))
	return Scene{Box: geom.Box{Max: geom.Pt(width, -d.y)}, Layers: []Layer{d.l.Transform(low)}}
}

// says tells what is to be done with an allowance.
func (d *sectionDrawing) says(s bulk.Strip) string {
	switch {
	case !s.Allowance:
		return ""
	case s.Whole:
		return ", folded, stays whole"
	case s.Trimmed > 0:
		told := unit.Restate(fmt.Sprintf(", trim %s to %s", unit.MM(s.Cut), unit.MM(s.Trimmed)), d.system)
		return strings.Replace(told, " "+string(d.system)+" to ", " to ", 1)
	}
	return ", leave " + d.wide(s.Cut)
}

// thick writes a thickness, in mm to a tenth.
func (d *sectionDrawing) thick(mm float64) string {
	return unit.Restate(fmt.Sprintf("%.1f mm", mm), d.system)
}

// wide writes the width of an allowance.
func (d *sectionDrawing) wide(mm float64) string { return unit.Tell(mm, d.system) }

// pieceLeft is how much in mm is shown left of the seam of a piece that runs
// on there.
const pieceLeft = 6

// sectionDrawing sets a section from the top, y = 0, down.
type sectionDrawing struct {
	c      bulk.Section
	m      float64 // magnification
	left   float64 // what is shown left of the seam, mm of true size
	deep   float64 // thickness at the seam
	names  float64 // x of the labels
	width  float64
	y      float64
	system unit.System
	l      Layer
}

func (d *sectionDrawing) label(text string, x, y float64, ink color.NRGBA, bold bool) {
	d.l.Labels = append(d.l.Labels, Label{Text: text, At: geom.Pt(x, y), Height: sectionText, Color: ink, Bold: bold})
}

// title writes what a panel shows above it and returns how tall that is.
func (d *sectionDrawing) title(text string, x, width float64) float64 {
	y := 0.0
	for _, line := range wrap(text, sectionText, true, width) {
		y += sectionLine
		d.label(line, x, -y, black, true)
	}
	return y
}

// panel draws layers, the outermost at top.
func (d *sectionDrawing) panel(strips []bulk.Strip, bends []bulk.Bend, left, top float64) {
	at := func(x, depth float64) geom.Point { return geom.Pt(left+(x+d.left)*d.m, top-depth*d.m) }
	reach := func(x float64) float64 { return max(x, -d.left) }
	for _, s := range strips {
		from := s.From
		if !s.Beyond || s.Folded {
			from = turned(s, bends)
		}
		d.l.Figures = append(d.l.Figures, Figure{Kind: LayerStrip, Path: polygon(at(reach(from), s.In), at(reach(s.To), s.In), at(reach(s.To), s.Out), at(reach(from), s.Out)), Pen: layerPen, Fill: fillOf(s)})
	}
	for _, b := range bends {
		d.bend(b, bends, at)
	}
	d.stitch(strips, bends, at)
}

// leaders writes the labels of the panel at the right. They leave the layers
// before they slant, so that they cross none.
func (d *sectionDrawing) leaders(labels []layerLabel, doubled bool, left, high float64) {
	lines := float64(len(labels))
	if doubled {
		lines++
	}
	top := d.y - (high-d.deep*d.m)/2
	y := d.y - (high-lines*sectionLine)/2
	out := left + (d.left+d.c.Reach)*d.m + 0.5
	for _, t := range labels {
		middle := y - sectionLine/2
		tip := geom.Pt(left+(min(t.to, d.c.Reach)+d.left)*d.m, top-t.depth*d.m)
		d.l.Figures = append(d.l.Figures, Figure{Kind: Extent, Path: polyline(tip, geom.Pt(out, tip.Y), geom.Pt(d.names-1.5, middle), geom.Pt(d.names-0.5, middle)), Pen: Pen{Width: 0.1, Color: grey}})
		h := narrowed(t.text, sectionText, leastRead, false, d.width-d.names)
		d.l.Labels = append(d.l.Labels, Label{Text: t.text, At: geom.Pt(d.names, middle-h/2), Height: h, Color: black})
		y -= sectionLine
	}
	if doubled {
		d.label("and the same once more, folded back", d.names, y-sectionLine/2-sectionText/2, grey, false)
	}
}

// layerLabel is what is written beside a layer, or beside several that lie on
// each other and are alike.
type layerLabel struct {
	text      string
	to, depth float64 // where the layer ends, and its middle
}

// labelled names the layers, those that are folded back once more only once, and
// tells of each what says does.
func labelled(strips []bulk.Strip, says func(bulk.Strip) string) (labels []layerLabel, doubled bool) {
	first, count := 0, 0
	for i, s := range strips {
		doubled = doubled || s.Again
		if s.Again || s.To <= 0 {
			continue
		}
		text := layerName(s) + says(s)
		if count > 0 && text == layerName(strips[first])+says(strips[first]) {
			count++
			l := &labels[len(labels)-1]
			l.text, l.depth = fmt.Sprintf("%d × %s", count, text), (strips[first].Out+s.In)/2
			continue
		}
		first, count = i, 1
		labels = append(labels, layerLabel{text, s.To, (s.Out + s.In) / 2})
	}
	return labels, doubled
}

// measure draws a measure of the true size below, in what is free beneath the
// layers where that is enough.
func (d *sectionDrawing) measure(free float64) {
	rule := sectionRule
	if d.system == unit.InchFractions {
		rule = sectionInches
	}
	long := rule * d.m
	y := d.y + 0.8
	if free/2 < sectionLine+1 {
		y -= sectionLine
	}
	d.y = min(d.y, y-0.8)
	for _, p := range []geom.Path{polyline(geom.Pt(0, y), geom.Pt(long, y)), polyline(geom.Pt(0, y-0.8), geom.Pt(0, y+0.8)), polyline(geom.Pt(long, y-0.8), geom.Pt(long, y+0.8))} {
		d.l.Figures = append(d.l.Figures, Figure{Kind: Extent, Path: p, Pen: Pen{Width: 0.2, Color: dark}})
	}
	d.label(fmt.Sprintf("%s, at %g × true size; broken lines are thread", unit.Format(rule, d.system), d.m), long+2, y-sectionText/2, grey, false)
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
func (d *sectionDrawing) rises(rs []bulk.Rise) string {
	from := "seam"
	if d.c.Edge {
		from = "fold"
	}
	var list []string
	for i, r := range rs {
		switch {
		case i == len(rs)-1:
			list = append(list, fmt.Sprintf("%s beyond", d.thick(r.Thickness)))
		case i == 0:
			list = append(list, fmt.Sprintf("%s thick up to %s from the %s", d.thick(r.Thickness), d.wide(r.To), from))
		default:
			list = append(list, fmt.Sprintf("%s up to %s", d.thick(r.Thickness), d.wide(r.To)))
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
func Sections(places []bulk.Place, width float64, system unit.System) Scene {
	var l Layer
	y := 0.0
	for _, pl := range places {
		if pl.Section == nil {
			continue
		}
		for _, line := range wrap(unit.Restate(pl.Remedy+".", system), sectionText, false, width) {
			y -= sectionLine
			l.Labels = append(l.Labels, Label{Text: line, At: geom.Pt(0, y), Height: sectionText, Color: black})
		}
		sc := Section(pl, width, system)
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

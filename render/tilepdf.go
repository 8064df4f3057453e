package render

import (
	"fmt"
	"io"
	"math"

	"truemat/geom"
)

// writeTiles writes the covers and the tiles of a plan.
func writeTiles(w io.Writer, doc Print, plan Plan) error {
	d, err := newDrawn(doc, plan)
	if err != nil {
		return err
	}
	common, sizes := d.common, d.sizes
	p := newPDF(doc.headed())
	var layers []int
	if len(sizes) > 1 {
		for _, s := range sizes {
			layers = append(layers, p.layer(s.Name))
		}
	}
	margin := geom.Pt(plan.grid.margin, plan.grid.margin)
	if plan.cover == nil {
		for _, c := range coverPages(doc, plan, plan.grid.width, plan.grid.height) {
			p.page(plan.Paper.Width, plan.Paper.Height)
			p.draw(c, margin)
		}
	}
	for i, t := range plan.Tiles {
		p.page(plan.Paper.Width, plan.Paper.Height)
		shift := margin.Sub(t.Area.Min)
		frame := geom.Box{Min: t.Area.Min.Add(shift), Max: t.Area.Max.Add(shift)}
		own := plan.Printed(i)
		own = geom.Box{Min: own.Min.Add(shift), Max: own.Max.Add(shift)}
		joints, label := d.around(i)
		p.clipped(frame, func() { p.drawIn(joints, shift, t.Area) })
		for k, s := range sizes {
			put := func() {
				p.clipped(own, func() { p.drawIn(s, shift, t.Area) })
			}
			if len(layers) > 0 {
				p.in(layers[k], put)
			} else {
				put()
			}
		}
		p.clipped(own, func() { p.drawIn(common, shift, t.Area) })
		p.clipped(frame, func() { p.draw(label, shift) })
	}
	return p.finish(w)
}

// drawn draws everything on the sheet: what the sizes have in common, with
// the cover when it lies there, and what each has of its own.
func (p Plan) drawn(doc Print) (common Layer, sizes []Layer, err error) {
	sizes = make([]Layer, len(doc.Sizes))
	for i, s := range doc.Sizes {
		sizes[i].Name = "size " + s.Label
	}
	var glue []geom.Path
	for _, j := range p.Joints {
		if p.Glued() == 0 {
			break // no line is drawn
		}
		a, b, _ := p.glueLine(j)
		glue = append(glue, polyline(a, b))
	}
	for i, n := range p.nests {
		layers, err := n.draw(p.Pieces[i].Move, doc.options(), glue)
		if err != nil {
			return Layer{}, nil, err
		}
		for k := range sizes {
			sizes[k] = sizes[k].with(layers[k])
		}
		common = common.with(layers[len(sizes)])
	}
	if p.cover != nil {
		m := p.cover.motion()
		for _, c := range coverPages(doc, p, coverOnSheet.X, coverOnSheet.Y) {
			common = common.with(c.Transform(m))
		}
	}
	return common, sizes, nil
}

func (doc Print) sizeText() string {
	labels := make([]string, len(doc.Sizes))
	for i, size := range doc.Sizes {
		labels[i] = size.Label
	}
	return sizesText(labels)
}

// pageLabel writes where tile i belongs, in the place where least is drawn.
func (p Plan) pageLabel(doc Print, i int, ink inkMap) Layer {
	t := p.Tiles[i]
	title := Label{Text: fmt.Sprintf("row %d · column %d", t.Row+1, t.Col+1), Height: 3.4, Color: grey, Bold: true}
	if len(p.Tiles) == 1 {
		title.Text = ""
	}
	of := Label{Text: joined(" · ", fmt.Sprintf("page %d of %d", t.Number, p.Pages()), doc.headed()), Height: 2.2, Color: grey}
	kept := p.grid.kept(t.Row, t.Col, p.Rows, p.Cols).Grow(-3)
	of.Height = narrowed(of.Text, of.Height, 1.2, false, kept.Width())
	const between = 1.8
	width := max(TextWidth(title.Text, title.Height, true), TextWidth(of.Text, of.Height, false))
	height := title.Height + between + of.Height*(1+descent)
	best, corner := math.Inf(1), kept.Min
	const tries = 32
	for i := range tries + 1 {
		for k := range tries + 1 {
			// From the lower left corner on, so that equals go there.
			x := kept.Min.X + (kept.Width()-width)*float64(k)/tries
			y := kept.Min.Y + (kept.Height()-height)*float64(i)/tries
			b := geom.Box{Min: geom.Pt(x, y), Max: geom.Pt(x+width, y+height)}.Grow(0.5)
			if cost := ink.in(b); cost < best {
				best, corner = cost, geom.Pt(x, y)
			}
		}
	}
	of.At = corner.Add(geom.Pt(0, of.Height*descent))
	title.At = corner.Add(geom.Pt(0, height-title.Height))
	return Layer{Name: "page", Labels: []Label{title, of}}
}

// inkMap knows where something is drawn: points along lines, a millimetre
// apart, and boxes of labels.
type inkMap struct {
	points []geom.Point
	labels []geom.Box
}

func newInkMap(layers []boxed) inkMap {
	var m inkMap
	for _, l := range layers {
		for _, f := range l.Figures {
			m.points = append(m.points, walkPoints(f.Path, 1)...)
		}
		m.labels = append(m.labels, l.labels...)
	}
	return m
}

// within returns what m knows of an area, with another layer added.
func (m inkMap) within(area geom.Box, more boxed) inkMap {
	r := newInkMap([]boxed{more})
	for _, p := range m.points {
		if area.Contains(p) {
			r.points = append(r.points, p)
		}
	}
	for _, b := range m.labels {
		if area.Overlaps(b) {
			r.labels = append(r.labels, b)
		}
	}
	return r
}

// in measures how much is drawn in a box: millimetres of line, labels
// counting more.
func (m inkMap) in(b geom.Box) float64 {
	const labelCost = 40
	sum := 0.0
	for _, p := range m.points {
		if b.Contains(p) {
			sum++
		}
	}
	for _, l := range m.labels {
		if b.Overlaps(l) {
			sum += labelCost
		}
	}
	return sum
}

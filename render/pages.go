package render

import (
	"fmt"
	"image"
	"image/draw"
	"slices"

	"truemat/geom"
)

// drawn is everything on the sheet of a print, ready to be shown page by page.
type drawn struct {
	doc    Print
	plan   Plan
	common boxed
	sizes  []boxed
	ink    inkMap
}

func newDrawn(doc Print, plan Plan) (drawn, error) {
	common, sizes, err := plan.drawn(doc)
	if err != nil {
		return drawn{}, err
	}
	d := drawn{doc: doc, plan: plan, common: newBoxed(common)}
	for _, l := range sizes {
		d.sizes = append(d.sizes, newBoxed(l))
	}
	d.ink = newInkMap(append(d.sizes[:len(d.sizes):len(d.sizes)], d.common))
	d.plan.Joints = slices.Clone(plan.Joints) // the plan may be drawn for others as well
	d.plan.clear(d.ink)
	return d, nil
}

// around returns what tile i has beside the pieces: its joining marks, and
// what says where it belongs.
func (d drawn) around(i int) (joints boxed, label Layer) {
	joints = newBoxed(d.plan.joints(i))
	return joints, d.plan.pageLabel(d.doc, i, d.ink.within(d.plan.Tiles[i].Area, joints))
}

// Pages shows a print as it comes out of the printer.
type Pages struct {
	drawn
	covers []Layer
}

// NewPages draws a print that was planned.
func NewPages(doc Print, plan Plan) (*Pages, error) {
	d, err := newDrawn(doc, plan)
	if err != nil {
		return nil, err
	}
	p := &Pages{drawn: d}
	if plan.cover == nil {
		p.covers = coverPages(doc, plan, plan.grid.width, plan.grid.height)
	}
	return p, nil
}

// Sheet returns where the tiles lie together: all of the sheet that is printed.
func (p *Pages) Sheet() geom.Box {
	box := geom.NoBox()
	for _, t := range p.plan.Tiles {
		box = box.Union(t.Area)
	}
	return box
}

// Map draws the sheet whole, dots pixels a mm: the pieces and the joining
// marks, without the labels of the pages.
func (p *Pages) Map(dots float64) (*image.RGBA, error) {
	box := p.Sheet()
	var layers []Layer
	for i := range p.plan.Tiles {
		layers = append(layers, p.plan.joints(i))
	}
	for _, s := range p.sizes {
		layers = append(layers, s.Layer)
	}
	all := geom.Box{Max: geom.Pt(box.Width(), box.Height())}
	return pagePicture(append(layers, p.common.Layer), nil, box.Width(), box.Height(), all, all, box.Min.Mul(-1), dots)
}

// Page draws page n from 1, covers included, as large as the paper, dots
// pixels a mm.
func (p *Pages) Page(n int, dots float64) (*image.RGBA, error) {
	g := p.plan.grid
	margin := geom.Pt(g.margin, g.margin)
	frame := geom.Box{Min: margin, Max: margin.Add(geom.Pt(g.width, g.height))}
	paper := p.plan.Paper
	if n >= 1 && n <= len(p.covers) {
		return pagePicture(p.covers[n-1:n], nil, paper.Width, paper.Height, frame, frame, margin, dots)
	}
	i := n - 1 - len(p.covers)
	if i < 0 || i >= len(p.plan.Tiles) {
		return nil, fmt.Errorf("there is no page %d; there are %d", n, p.plan.Pages())
	}
	area := p.plan.Tiles[i].Area
	joints, label := p.around(i)
	var layers []Layer
	for _, s := range p.sizes {
		layers = append(layers, s.in(area))
	}
	shift, own := margin.Sub(area.Min), p.plan.Printed(i)
	own = geom.Box{Min: own.Min.Add(shift), Max: own.Max.Add(shift)}
	return pagePicture(append(layers, p.common.in(area)), []Layer{joints.in(area), label}, paper.Width, paper.Height, frame, own, shift, dots)
}

// pagePicture draws layers, moved by shift, on paper of so many mm, and over
// them those around; of the former nothing is printed outside own, of neither
// outside the frame.
func pagePicture(layers, around []Layer, width, height float64, frame, own geom.Box, shift geom.Point, dots float64) (*image.RGBA, error) {
	nx, ny := int(width*dots+0.5), int(height*dots+0.5)
	if nx < 1 || ny < 1 || float64(nx)*float64(ny) > maxPixels {
		return nil, fmt.Errorf("a picture of %d × %d pixels is not possible; between 1 and %.0f million are", nx, ny, maxPixels/1e6)
	}
	img, r := blank(nx, ny, dots)
	r.shift = shift
	r.shift.Y += float64(ny)/dots - height
	for _, l := range layers {
		r.layer(l)
	}
	within := func(b geom.Box) image.Rectangle {
		return image.Rect(int(b.Min.X*dots+0.5), ny-int(b.Max.Y*dots+0.5), int(b.Max.X*dots+0.5), ny-int(b.Min.Y*dots+0.5)).Intersect(img.Bounds())
	}
	whiten(img, within(own))
	for _, l := range around {
		r.layer(l)
	}
	whiten(img, within(frame))
	return img, nil
}

// whiten leaves of a picture what lies in a rectangle.
func whiten(img *image.RGBA, leave image.Rectangle) {
	b := img.Bounds()
	for _, r := range []image.Rectangle{
		image.Rect(b.Min.X, b.Min.Y, b.Max.X, leave.Min.Y), image.Rect(b.Min.X, leave.Max.Y, b.Max.X, b.Max.Y),
		image.Rect(b.Min.X, leave.Min.Y, leave.Min.X, leave.Max.Y), image.Rect(leave.Max.X, leave.Min.Y, b.Max.X, leave.Max.Y),
	} {
		draw.Draw(img, r, image.White, image.Point{}, draw.Src)
	}
}

package svg

import (
	"errors"
	"fmt"
	"math"

	"truemat/geom"
)

// fields reads the lengths of a shape's attributes and keeps the first error.
type fields struct {
	e    *element
	view viewport
	err  error
}

// get returns a length, 0 when the attribute is missing.
func (f *fields) get(name string, a axis) float64 {
	v, _ := f.find(name, a)
	return v
}

// find also reports whether the attribute is there and not auto.
func (f *fields) find(name string, a axis) (float64, bool) {
	s, ok := f.e.attr(name)
	if !ok || s == "auto" {
		return 0, false
	}
	v, err := f.view.length(s, a)
	if err != nil {
		if f.err == nil {
			f.err = fmt.Errorf("%s: %w", name, err)
		}
		return 0, false
	}
	return v, true
}

// size is like find for something that cannot be negative.
func (f *fields) size(name string, a axis) (float64, bool) {
	v, ok := f.find(name, a)
	if v < 0 && f.err == nil {
		f.err = fmt.Errorf("%s is negative", name)
	}
	return v, ok
}

var errNothing = errors.New("it draws nothing: it has no length")

// outline returns the lines of a shape in its own units. On a fault in path
// data or points it also returns what was drawn before it.
func outline(e *element, view viewport, arcTol float64) ([]subpath, error) {
	f := &fields{e: e, view: view}
	p := &pen{arcTol: arcTol}
	var err error
	switch e.name {
	case "path":
		p.done, err = parsePath(e.get("d"), arcTol)
	case "line":
		p.move(geom.Pt(f.get("x1", across), f.get("y1", down)))
		p.line(geom.Pt(f.get("x2", across), f.get("y2", down)))
	case "polyline", "polygon":
		err = p.points(e)
	case "rect":
		p.rect(f)
	case "circle":
		cx, cy := f.get("cx", across), f.get("cy", down)
		r, _ := f.size("r", diagonal)
		p.ellipse(cx, cy, r, r)
	case "ellipse":
		cx, cy := f.get("cx", across), f.get("cy", down)
		rx, okx := f.size("rx", across)
		ry, oky := f.size("ry", down)
		if !okx {
			rx = ry
		}
		if !oky {
			ry = rx
		}
		p.ellipse(cx, cy, rx, ry)
	}
	p.flush(false)
	switch {
	case f.err != nil:
		return nil, f.err
	case err != nil:
		return p.done, err
	case len(p.done) == 0:
		return nil, errNothing
	}
	return p.done, nil
}

// points draws a polyline or polygon; a closing point that repeats the first
// is fine.
func (p *pen) points(e *element) error {
	v, err := numbers(e.get("points"))
	if err == nil && len(v)%2 == 1 {
		err = errors.New("its points have an x without a y at the end")
	}
	if len(v) > 2*MaxSegments {
		return fmt.Errorf("there are more than %d points", MaxSegments)
	}
	for i := 0; i+1 < len(v); i += 2 {
		if pt := geom.Pt(v[i], v[i+1]); i == 0 {
			p.move(pt)
		} else {
			p.line(pt)
		}
	}
	if err == nil && e.name == "polygon" && len(p.segs) > 0 {
		p.close()
	}
	p.flush(false)
	return err
}

func (p *pen) ellipse(cx, cy, rx, ry float64) {
	if !(rx > 0 && ry > 0) {
		return
	}
	p.move(geom.Pt(cx+rx, cy))
	p.round(matrix{a: rx, d: ry, e: cx, f: cy}, 0, 2*math.Pi, math.Max(rx, ry), p.at)
	p.flush(true)
}

// rect draws a rectangle with or without rounded corners (SVG 2, section 10.2).
func (p *pen) rect(f *fields) {
	x, y := f.get("x", across), f.get("y", down)
	w, _ := f.size("width", across)
	h, _ := f.size("height", down)
	rx, okx := f.size("rx", across)
	ry, oky := f.size("ry", down)
	if !okx {
		rx = ry
	}
	if !oky {
		ry = rx
	}
	rx, ry = math.Min(rx, w/2), math.Min(ry, h/2)
	if !(w > 0 && h > 0) {
		return
	}
	if !(rx > 0 && ry > 0) {
		rx, ry = 0, 0
	}
	corner := func(to geom.Point) {
		if rx > 0 {
			p.arc(rx, ry, 0, false, true, to)
		}
	}
	p.move(geom.Pt(x+rx, y))
	p.line(geom.Pt(x+w-rx, y))
	corner(geom.Pt(x+w, y+ry))
	p.line(geom.Pt(x+w, y+h-ry))
	corner(geom.Pt(x+w-rx, y+h))
	p.line(geom.Pt(x+rx, y+h))
	corner(geom.Pt(x, y+h-ry))
	p.line(geom.Pt(x, y+ry))
	corner(p.start)
	p.close()
}

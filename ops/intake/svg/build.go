package svg

import (
	"fmt"
	"slices"
	"strings"

	"truemat/geom"
)

// builder turns the elements of a file into nodes.
type builder struct {
	d     Drawing
	ids   map[string]*element
	sheet sheet
	count int
	data  int // bytes of attributes met, copies included
	drawn int // segments drawn
}

// state is what an element inherits.
type state struct {
	to     matrix // to mm, y up
	view   viewport
	hidden bool
	uses   []*element // use elements that are being followed
	depth  int
	// Size that a use gives to the symbol or svg it refers to.
	useW, useH string
}

func build(root *element, page matrix, view viewport) (Drawing, error) {
	b := &builder{d: Drawing{page: page, Data: root.data()}, ids: map[string]*element{}}
	b.index(root)
	if n := len(b.sheet.rules); n > maxRules {
		return Drawing{}, fmt.Errorf("the drawing has %d style rules on what is shown; at most %d are read", n, maxRules)
	}
	for _, sel := range b.sheet.skipped {
		b.d.LeftOut = append(b.d.LeftOut, LeftOut{Kind: "style", Line: root.line, Reason: fmt.Sprintf("the rule for %.60q is not read; it says what is shown or where", sel)})
	}
	st := state{to: page, view: view}
	if !b.enter(root, &st) {
		return b.d, nil
	}
	nodes, err := b.children(root, st)
	b.d.Nodes = nodes
	return b.d, err
}

// index notes ids (the first of equal ones counts) and style rules.
func (b *builder) index(e *element) {
	if id := e.get("id"); id != "" && b.ids[id] == nil {
		b.ids[id] = e
	}
	if e.name == "style" && !e.foreign {
		b.sheet.add(string(e.text))
	}
	for _, c := range e.children {
		b.index(c)
	}
}

func (b *builder) leaveOut(e *element, reason string, before ...geom.Path) {
	b.d.LeftOut = append(b.d.LeftOut, LeftOut{Kind: e.name, ID: e.get("id"), Line: e.line, Reason: reason, Before: before})
}

func (b *builder) children(e *element, st state) ([]Node, error) {
	var nodes []Node
	for _, c := range e.children {
		n, ok, err := b.node(c, st)
		if err != nil {
			return nil, err
		}
		if ok {
			nodes = append(nodes, n)
		}
	}
	return nodes, nil
}

// enter applies what the element itself says about its transform and whether
// it is shown; false means that nothing of it is.
func (b *builder) enter(e *element, st *state) bool {
	props := b.sheet.style(e)
	look := func(name string) string {
		if v, ok := props[name]; ok {
			return v
		}
		return strings.TrimSpace(e.get(name))
	}
	if look("display") == "none" {
		b.leaveOut(e, "it is not shown (display: none)")
		return false
	}
	switch look("visibility") {
	case "hidden", "collapse":
		st.hidden = true
	case "visible":
		st.hidden = false
	}
	for _, name := range []string{"transform", "transform-origin", "d", "cx", "cy", "r", "rx", "ry", "x", "y", "width", "height"} {
		if v, ok := props[name]; ok && v != "none" && v != "auto" {
			b.leaveOut(e, fmt.Sprintf("its %s stands in a style; write it as an attribute", name))
			return false
		}
	}
	if e.get("transform-origin") != "" {
		b.leaveOut(e, "it has a transform-origin, which is not read; put the shift into its transform")
		return false
	}
	for _, name := range []string{"clip-path", "mask", "filter", "marker", "marker-start", "marker-mid", "marker-end"} {
		if v := look(name); v != "" && v != "none" {
			b.leaveOut(e, fmt.Sprintf("its %s is not applied; its lines were taken whole", name))
		}
	}
	if s, ok := e.attr("transform"); ok && strings.TrimSpace(s) != "" {
		m, err := parseTransform(s)
		if err != nil {
			b.leaveOut(e, fmt.Sprintf("its transform %.60q cannot be read: %v", s, err))
			return false
		}
		st.to = m.then(st.to)
		if st.to.flat() {
			b.leaveOut(e, "its transform flattens it to nothing")
			return false
		}
	}
	return true
}

func (b *builder) node(e *element, st state) (Node, bool, error) {
	if b.count++; b.count > MaxElements {
		return Node{}, false, fmt.Errorf("line %d: with the copies that use makes, the drawing has more than %d elements", e.line, MaxElements)
	}
	for _, a := range e.attrs {
		b.data += len(a.Value)
	}
	if b.data > 4*MaxBytes {
		return Node{}, false, fmt.Errorf("line %d: with the copies that use makes, the drawing has more than %d MB of data", e.line, 4*MaxBytes>>20)
	}
	if st.depth++; st.depth > MaxDepth {
		return Node{}, false, fmt.Errorf("line %d: with the copies that use makes, elements are nested more than %d deep", e.line, MaxDepth)
	}
	n := Node{Kind: e.name, ID: e.get("id"), Label: e.label(), Title: e.title, Line: e.line, Serial: b.count, Class: e.get("class"), Data: e.data()}
	useW, useH := st.useW, st.useH
	st.useW, st.useH = "", ""
	if e.foreign {
		return n, false, nil
	}
	var err error
	switch e.name {
	case "g", "a":
		if !b.enter(e, &st) {
			return n, false, nil
		}
		n.Children, err = b.children(e, st)
		return n, true, err
	case "svg":
		ok := b.enter(e, &st) && b.frame(e, &st, useW, useH)
		if ok {
			n.Children, err = b.children(e, st)
		}
		return n, ok, err
	case "symbol":
		if len(st.uses) == 0 || b.ids[refID(st.uses[len(st.uses)-1])] != e {
			return n, false, nil // drawn only where a use refers to it
		}
		ok := b.enter(e, &st) && b.frame(e, &st, useW, useH)
		if ok {
			n.Children, err = b.children(e, st)
		}
		return n, ok, err
	case "switch":
		if !b.enter(e, &st) {
			return n, false, nil
		}
		for _, c := range e.children {
			if !c.foreign && c.name != "foreignObject" && c.get("requiredExtensions") == "" && c.name != "title" && c.name != "desc" {
				child, ok, err := b.node(c, st)
				if ok {
					n.Children = []Node{child}
				}
				return n, ok, err
			}
		}
		return n, false, nil
	case "use":
		return b.use(e, n, st)
	case "path", "line", "polyline", "polygon", "rect", "circle", "ellipse":
		if !b.enter(e, &st) {
			return n, false, nil
		}
		if st.hidden {
			b.leaveOut(e, "it is not shown (visibility: hidden)")
			return n, false, nil
		}
		ok := b.shape(e, &n, st)
		if b.drawn > MaxSegments {
			return n, false, fmt.Errorf("line %d: the drawing has more than %d segments", e.line, MaxSegments)
		}
		return n, ok, nil
	case "text":
		if b.enter(e, &st) && !st.hidden {
			f := &fields{e: e, view: st.view}
			at := st.to.apply(geom.Pt(f.get("x", across), f.get("y", down)))
			if at.Finite() {
				b.d.Labels = append(b.d.Labels, Label{Text: strings.Join(strings.Fields(e.allText()), " "), At: at, ID: e.get("id"), Line: e.line})
			} else {
				b.leaveOut(e, "it stands nowhere")
			}
		}
		return n, false, nil
	case "defs", "title", "desc", "metadata", "style":
		return n, false, nil
	}
	reason := "it is not read"
	switch e.name {
	case "image":
		reason = "a picture has no lines; trace it in the drawing program"
	case "clipPath", "mask", "filter", "linearGradient", "radialGradient", "pattern", "marker":
		reason = "it changes how lines look, not where they run"
	case "script":
		reason = "scripts are never run"
	}
	b.leaveOut(e, reason)
	return n, false, nil
}

// shape adds the lines of a shape to its node.
func (b *builder) shape(e *element, n *Node, st state) bool {
	subs, fault := outline(e, st.view, ArcError/st.to.stretch())
	for _, s := range subs {
		b.drawn += len(s.segs)
	}
	paths, err := place(subs, st.to)
	switch {
	case fault != nil:
		b.leaveOut(e, fault.Error(), paths...)
	case err != nil:
		b.leaveOut(e, err.Error())
	case len(paths) == 0:
		b.leaveOut(e, errNothing.Error())
	}
	n.Paths = paths
	return fault == nil && err == nil && len(paths) > 0
}

// place maps subpaths to mm. Subpaths without length are passed over.
func place(subs []subpath, to matrix) ([]geom.Path, error) {
	var paths []geom.Path
	for _, sub := range subs {
		segs := make([]geom.Cubic, len(sub.segs))
		extent := 0.0
		for i, c := range sub.segs {
			var p [4]geom.Point
			for k := range p {
				p[k] = to.apply(c.P[k])
				if !p[k].Finite() {
					return paths, fmt.Errorf("it has a place at (%.4g, %.4g) mm; nothing may lie farther out than %g mm", p[k].X, p[k].Y, geom.Reach)
				}
			}
			segs[i] = geom.Curve(p[0], p[1], p[2], p[3])
			if c.IsStraight() {
				segs[i] = geom.Straight(p[0], p[3])
			}
			extent += p[0].Dist(p[1]) + p[1].Dist(p[2]) + p[2].Dist(p[3])
		}
		if extent <= geom.Coincident*float64(len(segs)+1) {
			continue
		}
		make := geom.NewPath
		if sub.closed {
			make = geom.NewClosed
		}
		p, err := make(segs...)
		if err != nil {
			return paths, err
		}
		paths = append(paths, p)
	}
	return paths, nil
}

// frame enters the coordinate system of a nested svg or a symbol.
func (b *builder) frame(e *element, st *state, useW, useH string) bool {
	f := &fields{e: e, view: st.view}
	x, y := 0.0, 0.0
	if e.name == "svg" {
		x, y = f.get("x", across), f.get("y", down)
	}
	side := func(name, fromUse string, a axis) float64 {
		if fromUse != "" {
			v, err := st.view.length(fromUse, a)
			if err != nil && f.err == nil {
				f.err = err
			}
			return v
		}
		if v, ok := f.size(name, a); ok {
			return v
		}
		return st.view.of(a)
	}
	w, h := side("width", useW, across), side("height", useH, down)
	box, boxed, err := viewBox(e)
	inner := translation(x, y)
	view := viewport{w, h}
	switch {
	case err != nil:
	case f.err != nil:
		err = f.err
	case boxed && !(w > 0 && h > 0):
		err = fmt.Errorf("it has a viewBox but no width and height over 0 to fit it into")
	case boxed:
		var m matrix
		if m, err = fit(box, w, h, e.get("preserveAspectRatio")); err == nil {
			inner = m.then(inner)
			view = viewport{box.w, box.h}
		}
	}
	if err != nil {
		b.leaveOut(e, err.Error())
		return false
	}
	st.to, st.view = inner.then(st.to), view
	return true
}

func refID(use *element) string {
	id, _ := strings.CutPrefix(use.href(), "#")
	return id
}

// use draws a copy of the element that it refers to.
func (b *builder) use(e *element, n Node, st state) (Node, bool, error) {
	if !b.enter(e, &st) {
		return n, false, nil
	}
	refuse := func(reason string) (Node, bool, error) {
		b.leaveOut(e, reason)
		return n, false, nil
	}
	href := e.href()
	if !strings.HasPrefix(href, "#") {
		return refuse(fmt.Sprintf("it refers to %.60q, which is not in this file", href))
	}
	target := b.ids[refID(e)]
	if target == nil {
		return refuse(fmt.Sprintf("it refers to %.60q, which is not there", href))
	}
	if slices.Contains(st.uses, e) || target.holds(e) {
		return refuse(fmt.Sprintf("it refers to itself through %.60q", href))
	}
	f := &fields{e: e, view: st.view}
	shift := translation(f.get("x", across), f.get("y", down))
	if f.err != nil {
		return refuse(f.err.Error())
	}
	st.to = shift.then(st.to)
	st.uses = append(st.uses[:len(st.uses):len(st.uses)], e)
	if target.name == "symbol" || target.name == "svg" {
		st.useW, st.useH = e.get("width"), e.get("height")
	}
	child, ok, err := b.node(target, st)
	if ok {
		n.Children = []Node{child}
	}
	return n, ok, err
}

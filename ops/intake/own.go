package intake

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/intake/svg"
	"truemat/ops/pattern"
)

// ownSlack is how far apart, in mm, the ends of edges may lie in a drawing that
// says which is which: what a drawing program's rounding leaves.
const ownSlack = 0.01

// own takes a drawing that says what its lines are, as those that Truemat
// draws do: data-pattern at the outermost element, data-piece at the group of a
// piece, data-name at its lines. The lines are taken as they are drawn, the
// rest as it is said; ok is false when it says nothing, or what it says does
// not go with its lines.
func (b *bringer) own() (run pattern.Run, ok bool) {
	var size pattern.Size
	fail := func(what string) (pattern.Run, bool) {
		b.note("the drawing says what its lines are, but %s; it was read as any drawing is", what)
		b.res.Pieces = nil
		return pattern.Run{}, false
	}
	var wrong string
	low := geom.NoBox()
	b.d.Walk(func(n svg.Node, _ []svg.Node) bool {
		if n.Data["piece"] == "" || wrong != "" {
			return true
		}
		var t pattern.Told
		if json.Unmarshal([]byte(n.Data["piece"]), &t) != nil {
			wrong = fmt.Sprintf("the words on %q cannot be read", n.Name())
			return true
		}
		edges, inner, arrow := ownLines(n)
		pc, drawn := t.Drawn(edges, inner, arrow, ownSlack)
		if !drawn {
			wrong = fmt.Sprintf("not all lines of %q are there, or its edges do not meet", t.Name)
			return true
		}
		o, err := pc.Outline()
		if err != nil {
			wrong = fmt.Sprintf("the edges of %q make no outline", t.Name)
			return true
		}
		low = low.Union(o.Transform(pc.Pose).Bounds())
		size.Pattern.Pieces = append(size.Pattern.Pieces, pc)
		return true
	})
	switch {
	case wrong != "":
		return fail(wrong)
	case len(size.Pattern.Pieces) == 0:
		return run, false
	}
	var t pattern.ToldPattern
	if said := b.d.Data["pattern"]; said != "" && json.Unmarshal([]byte(said), &t) != nil {
		return fail("what it says of the pattern cannot be read")
	}
	b.ownSewing(&size.Pattern, t)
	size.Label = t.Size
	if size.Label == "" {
		size.Label = OneSize
	}
	for i := range size.Pattern.Pieces {
		pc := &size.Pattern.Pieces[i]
		pc.Pose = pc.Pose.Then(geom.Shift(low.Min.Mul(-1)))
		b.res.Pieces = append(b.res.Pieces, Brought{Size: size.Label, Piece: pc.Name, Notches: len(pc.Notches), Inner: len(pc.Inner), Arrow: true, Told: true})
	}
	run = pattern.Run{Name: t.Name, Sizes: []pattern.Size{size}}
	if run.Name == "" {
		run.Name = tidyName(b.opt.Name)
	}
	if err := run.Validate(); err != nil {
		return fail("that cannot be: " + err.Error())
	}
	// Its writing says what the words of its pieces say too.
	b.res.Notes = slices.DeleteFunc(b.res.Notes, func(n string) bool { return strings.HasPrefix(n, writingUnused) })
	b.res.LeftOut = slices.DeleteFunc(b.res.LeftOut, func(l svg.LeftOut) bool { return l.Kind == "text" })
	b.note("Truemat drew this and said what its lines are: pieces, edges, allowances, notches, arrows and seams were taken as they were")
	return run, true
}

// ownLines returns the edges and inner lines of a piece by their names, and its arrow.
func ownLines(n svg.Node) (edges, inner map[string]geom.Path, arrow geom.Path) {
	edges, inner = map[string]geom.Path{}, map[string]geom.Path{}
	var walk func(svg.Node)
	walk = func(n svg.Node) {
		if name := n.Data["name"]; name != "" && len(n.Paths) == 1 {
			for _, class := range strings.Fields(n.Class) {
				switch class {
				case "sew-line":
					edges[name] = n.Paths[0]
				case "inner-line":
					inner[name] = n.Paths[0]
				case "arrow":
					arrow = n.Paths[0]
				}
			}
		}
		for _, c := range n.Children {
			walk(c)
		}
	}
	walk(n)
	return edges, inner, arrow
}

// ownSewing takes the seams and lines whose pieces are all there; edges that
// have lost their partner are free.
func (b *bringer) ownSewing(p *pattern.Pattern, t pattern.ToldPattern) {
	there := func(parts []pattern.Part) bool {
		all := true
		for _, pt := range parts {
			_, e := p.Edge(pt.Piece, pt.Edge)
			all = all && e != nil
		}
		return all
	}
	for _, s := range t.Seams {
		if there(s.A) && there(s.B) {
			p.Seams = append(p.Seams, s)
			continue
		}
		for _, pt := range append(append([]pattern.Part(nil), s.A...), s.B...) {
			if _, e := p.Edge(pt.Piece, pt.Edge); e != nil {
				e.Free = true
			}
		}
		b.note("%s lacks a piece in the drawing and was left out", s.Name)
	}
	for _, l := range t.Lines {
		if there(l.Parts) {
			p.Lines = append(p.Lines, l)
		}
	}
	p.Figures = t.Figures
}

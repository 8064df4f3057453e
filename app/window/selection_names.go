package window

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// named shows the name of a thing, which can be altered; what is selected
// then is told by follow.
func (c *column) named(label, name string, rename step.Rename, follow func(to string) tool.Selection) {
	c.number(label, name, func(s string) error {
		s = strings.TrimSpace(s)
		rename.To = s
		if err := c.accept(&rename); err != nil {
			return err
		}
		if follow != nil {
			c.w.desk.Select(follow(s))
		}
		return nil
	})
}

// offers is a row of things that can be done.
func (c *column) offers(words []string, do func(word string)) {
	row := container.New(line{gap: 16})
	for _, word := range words {
		row.Add(c.w.link(word, func() { do(word) }))
	}
	c.add(row)
}

// seamsOf shows the seams that an edge is in: name, lengths of both sides, and
// how to take it apart.
func (c *column) seamsOf(p pattern.Pattern, piece, edge string) {
	on := func(pt pattern.Part) bool { return pt.Piece == piece && pt.Edge == edge }
	sewn := false
	for _, s := range p.Seams {
		if !slices.ContainsFunc(slices.Concat(s.A, s.B), on) {
			continue
		}
		sewn = true
		c.named("Sewn in", s.Name, step.Rename{Seam: s.Name}, nil)
		for _, side := range []pattern.Side{s.A, s.B} {
			var names []string
			for _, pt := range side {
				name := pt.Edge + " of " + pt.Piece
				if pt.Mirrored {
					name += ", mirrored"
				}
				names = append(names, name)
			}
			c.part(strings.Join(names, " + "), p.Length(side), tool.Selection{Piece: side[0].Piece, Edge: side[0].Edge})
		}
		c.offers([]string{"Take it apart"}, func(string) { c.try(&step.Sew{Name: s.Name, Apart: true}) })
	}
	if _, e := p.Edge(piece, edge); !sewn && e != nil && e.Role.Sewn() {
		c.unsewn(p, piece, edge)
	}
}

// unsewn lets an edge that is in no seam be sewn to another such edge, whole to
// whole: one that is pressed on the mat, or picked by its name; of a pair its own
// mirror image, too.
func (c *column) unsewn(p pattern.Pattern, piece, edge string) {
	others := tool.Partners(p, piece, edge)
	if pc := p.Piece(piece); pc.Cut.Pair { // both halves of what else would be one piece
		image := pattern.Whole(piece, edge)
		image.Mirrored = true
		others = append(others, image)
	}
	if len(others) == 0 {
		c.figure("Sewn in", "nothing; no other edge is free to be sewn to it")
		return
	}
	words := make([]string, len(others))
	for i, pt := range others {
		if words[i] = pt.Edge + " of " + pt.Piece; pt.Mirrored {
			words[i] = "its mirror image"
		}
	}
	pick := newChoice(words, "", func(s string) {
		if i := slices.Index(words, s); i >= 0 {
			c.try(tool.SewTo(p, piece, edge, others[i]))
		}
	})
	pick.PlaceHolder, pick.tell = "sew it to …", c.w.prompt.explain
	pick.seen = func() { c.w.sewOnMat(piece, edge) }
	c.add(container.New(columns{112}, text("Sewn in", normal, false, c.w.palette.Faint), container.New(atWidth{columnInner - 112}, pick)))
	c.offers([]string{"Sew it to an edge that you press"}, func(string) {
		c.w.sewOnMat(piece, edge)
		c.w.focusMat()
	})
}

// sewOnMat lets the hand take the edge to which one is sewn; the mat names those
// that it can be.
func (w *Window) sewOnMat(piece, edge string) {
	i := slices.IndexFunc(w.tools, func(t tool.Tool) bool { return t.Name() == "hand" })
	hand := w.tools[i].(*tool.Hand)
	if i != w.active {
		w.tool().Reset()
		w.active = i
		w.layTray()
	}
	hand.Sew(piece, edge)
	w.prompt.say(nil)
	w.show()
}

// linesOf shows the lines that run over an edge, and lets one that is in none be
// taken into a line.
func (c *column) linesOf(p pattern.Pattern, piece, edge string) {
	in := false
	for _, l := range p.Lines {
		if !slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool { return pt.Piece == piece && pt.Edge == edge }) {
			continue
		}
		in = true
		c.named("Part of line", l.Name, step.Rename{Line: l.Name}, nil)
		c.offers([]string{"Forget this line"}, func(string) { c.try(&step.Remove{Line: l.Name}) })
	}
	if _, e := p.Edge(piece, edge); !in && e != nil && lineKinds[e.Role] != "" {
		c.toLine(p, piece, edge)
	}
}

// toLine lets an edge be taken into a line that there is, or begin one.
func (c *column) toLine(p pattern.Pattern, piece, edge string) {
	var there []string
	for _, l := range p.Lines {
		there = append(there, l.Name)
	}
	label := func(s string) fyne.CanvasObject { return text(s, normal, false, c.w.palette.Faint) }
	if len(there) > 0 {
		pick := newChoice(there, "", func(name string) {
			if err := c.intoLine(p, piece, edge, name); err != nil {
				c.fail(atSelection, err)
			}
		})
		pick.PlaceHolder, pick.tell = "a line there is …", c.w.prompt.explain
		c.add(container.New(columns{112}, label("Add to line"), container.New(atWidth{columnInner - 112}, pick)))
	}
	c.number("Begin a line", "", func(s string) error { return c.intoLine(p, piece, edge, strings.TrimSpace(s)) })
	c.note("A line runs on through the seams of several pieces, as a hem does; its length is told and checked as one.", c.w.palette.Faint)
}

// intoLine takes a whole edge into a line, as its last part; a name that no
// line has begins one of the kind that the edge has by its role.
func (c *column) intoLine(p pattern.Pattern, piece, edge, name string) error {
	part := pattern.Whole(piece, edge)
	made := step.SewLine{Name: name, Parts: []pattern.Part{part}}
	if l := p.Line(name); l != nil {
		made.Parts = append(slices.Clone(l.Parts), part)
	} else if pc, e := p.Edge(piece, edge); e != nil {
		made.Kind, made.Count = lineKinds[e.Role], pc.Cut.Count
		if pc.Cut.Pair || pc.Fold() != nil {
			made.Count *= 2
		}
	}
	return c.accept(&step.Sew{Line: &made})
}

// lineKinds are the kinds of line that edges begin, by their role.
var lineKinds = map[pattern.Role]pattern.LineKind{
	pattern.WireLine: pattern.LineWire, pattern.Hem: pattern.LineHem, pattern.LaceEdge: pattern.LineHem,
	pattern.Neckline: pattern.LineNeckline, pattern.Underarm: pattern.LineUnderarm,
}

// innerOf lists the inner lines of a piece, to be selected.
func (c *column) innerOf(pc *pattern.Piece) {
	if len(pc.Inner) > 0 {
		c.add(text("Lines inside", small, false, c.w.palette.Faint))
	}
	for _, in := range pc.Inner {
		c.part(in.Name, in.Path.Length(), tool.Selection{Piece: pc.Name, Inner: in.Name})
	}
}

// marked writes a mark on a piece, or takes the last one off.
func (c *column) marked(pc *pattern.Piece, was, text string) error {
	if text == "" && was != "" {
		return c.accept(&step.Remove{Piece: pc.Name, Mark: was})
	}
	return c.accept(&step.Mark{Piece: pc.Name, Text: text})
}

// remove takes away what is selected, as the Delete key does in the hand: a
// notch, an inner line, or a whole piece. It reports whether there was anything to take.
func (w *Window) remove() bool {
	s := w.desk.Selection()
	pc := w.desk.Pattern().Piece(s.Piece)
	switch {
	case pc == nil || s.Edge != "":
		return false
	case s.Inner != "":
		return w.do(&step.Remove{Piece: s.Piece, Inner: s.Inner})
	case s.Notch != "":
		return w.do(&step.Notch{Act: step.DeleteNotch, Piece: s.Piece, Name: s.Notch})
	}
	return w.do(&step.Remove{Piece: s.Piece})
}

// pieceActs offers what can be done with a whole piece.
func (c *column) pieceActs(pc *pattern.Piece) {
	const twin, away = "Copy this piece", "Remove this piece"
	c.offers([]string{twin, away}, func(word string) {
		if word == away {
			c.try(&step.Remove{Piece: pc.Name})
			return
		}
		name := pc.Name + " copy"
		for n := 2; c.w.desk.Pattern().Piece(name) != nil; n++ {
			name = fmt.Sprint(pc.Name, " copy ", n)
		}
		c.try(&step.Copy{Piece: pc.Name, Name: name, DX: step.Lit(copyAside), DY: step.Lit(-copyAside)})
	})
}

// copyAside is how far in mm a copy lies to the right of its piece and below it.
const copyAside = 20

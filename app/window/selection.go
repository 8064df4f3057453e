package window

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"image/color"
	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/render"
)

const atSelection = "selection"

// selection shows what is selected, with numbers that can be altered: each
// becomes a step.
func (c *column) selection() {
	c.would = would{}
	p := c.w.desk.Pattern()
	s := c.w.desk.Selection()
	pc := p.Piece(s.Piece)
	if t, ok := c.w.walkTable(); ok && pc == nil {
		c.walk(t)
		return
	}
	if pc == nil {
		c.note("Nothing. Press a piece or an edge on the mat.", c.w.palette.Faint)
		return
	}
	if _, err := pc.CutLine(); err != nil {
		c.note(sentence(fmt.Errorf("%s has no cut line and is drawn without its allowances: %w; make the allowance narrower where the edge bends tightly", pc.Name, err)), c.w.palette.Poor)
	}
	switch n := pc.Notch(s.Notch); {
	case s.Notch != "" && n != nil:
		c.notch(pc, n)
	case pc.InnerLine(s.Inner) != nil:
		c.inner(pc, pc.InnerLine(s.Inner))
	case pc.Edge(s.Edge) != nil && s.Joint:
		c.joint(pc, s.Edge)
	case pc.Edge(s.Edge) != nil:
		c.edge(p, pc, pc.Edge(s.Edge))
	default:
		c.piece(pc)
	}
	c.told(atSelection)
}

func (c *column) name(s string) { c.add(para(titled(s), columnInner, large, true, c.w.palette.Text)) }

// figure shows a name and a value.
func (c *column) figure(name, value string) {
	c.add(container.New(columns{112}, text(name, normal, false, c.w.palette.Faint), para(value, columnInner-112, normal, false, c.w.palette.Text)))
}

// number shows a name and a value that can be altered.
func (c *column) number(name, value string, alter func(string) error) *entry {
	e := newEntry(value, columnInner-112, func(s string, changed bool) {
		if !changed {
			return
		}
		if err := alter(s); err != nil {
			c.fail(atSelection, err)
			return
		}
		c.wrong = nil
		c.refresh()
		c.w.focusMat()
	}, c.w.backOut)
	e.tell = c.w.prompt.explain
	c.add(container.New(columns{112}, text(name, normal, false, c.w.palette.Faint), e))
	return e
}

// length alters a length by a step made of it.
func (c *column) length(s string, make func(mm float64) step.Step) error {
	mm, err := c.w.read(s)
	if err != nil {
		return err
	}
	return c.accept(make(mm))
}

// write writes a length that is only read.
func (c *column) write(mm float64) string { return unit.Tell(mm, c.w.unit) }

// read reads a length as it was typed; a plain number is in the unit she reads.
func (w *Window) read(s string) (float64, error) { return unit.ParseIn(s, w.unit) }

// exact writes a length that can be altered.
func (c *column) exact(mm float64) string { return unit.Format(mm, c.w.unit) }

func (c *column) edge(p pattern.Pattern, pc *pattern.Piece, e *pattern.Edge) {
	c.name(e.Name + " of " + pc.Name)
	c.named("Name", e.Name, step.Rename{Piece: pc.Name, Edge: e.Name}, func(to string) tool.Selection {
		return tool.Selection{Piece: pc.Name, Edge: to}
	})
	c.role(pc, e)
	c.figure("Length", c.write(e.Length()))
	if sewn, edges := p.AsSewn(pc.Name, e.Name); len(edges) > 1 {
		c.figure("Dart sewn", c.write(sewn))
		c.note("With the dart sewn these run on as one: "+strings.Join(edges, ", ")+".", c.w.palette.Faint)
	}
	c.wouldRow()
	if e.Role != pattern.Fold {
		c.w.counting(c.number("Allowance", c.exact(e.Allowance), func(s string) error {
			return c.length(s, func(mm float64) step.Step {
				width := step.Lit(mm)
				return &step.Allow{Piece: pc.Name, Edge: e.Name, Width: &width}
			})
		}))
	}
	c.seamsOf(p, pc.Name, e.Name)
	c.linesOf(p, pc.Name, e.Name)
	end := pattern.AtEnd(pc.Name, e.Name, pattern.End)
	c.layOn("this edge", render.Common{At: pattern.AtEnd(pc.Name, e.Name, pattern.Start), Along: &end})
}

// role shows what an edge is, and lets it be said anew, a fold included: the
// piece is a half then, and a pair when its fold is said to be something else. The
// sides of a dart stay what they are.
func (c *column) role(pc *pattern.Piece, e *pattern.Edge) {
	if e.Role == pattern.DartEdge {
		c.figure("Role", e.Role.Word())
		return
	}
	words, roles := edgeRoles()
	pick := newChoice(words, e.Role.Word(), func(word string) {
		if r := roles[slices.Index(words, word)]; r != e.Role {
			c.try(&step.Allow{Piece: pc.Name, Edge: e.Name, Role: r})
		}
	})
	pick.name = "role of the edge"
	c.add(container.New(columns{112}, text("Role", normal, false, c.w.palette.Faint), container.New(atWidth{columnInner - 112}, pick)))
	if e.Role == pattern.Fold {
		c.note("With another role "+pc.Name+" is not unfolded any more: it is cut as a pair, with an allowance here.", c.w.palette.Faint)
	}
}

// edgeRoles are the roles that an edge can be given, and their words.
func edgeRoles() (words []string, roles []pattern.Role) {
	for _, r := range pattern.Roles {
		if r != pattern.DartEdge {
			words, roles = append(words, r.Word()), append(roles, r)
		}
	}
	return words, roles
}

func (c *column) notch(pc *pattern.Piece, n *pattern.Notch) {
	c.name(pattern.NotchWords(n.Name) + " of " + pc.Name)
	e := pc.Edge(n.Edge)
	if e == nil {
		return
	}
	c.named("Name", n.Name, step.Rename{Piece: pc.Name, Notch: n.Name}, func(to string) tool.Selection {
		return tool.Selection{Piece: pc.Name, Notch: to}
	})
	c.figure("On", n.Edge)
	at := n.At(e.Length())
	c.w.counting(c.number("From start", c.exact(at), func(s string) error {
		return c.length(s, func(mm float64) step.Step {
			return &step.Notch{Act: step.MoveNotch, Piece: pc.Name, Name: n.Name, Edge: n.Edge, MM: step.Lit(mm)}
		})
	}))
	c.figure("From end", c.write(e.Length()-at))
	word, act := "Make it double", step.MakeDouble
	if n.Double {
		word, act = "Make it single", step.MakeSingle
	}
	const away = "Take it away"
	c.offers([]string{word, away}, func(chosen string) {
		do := act
		if chosen == away {
			do = step.DeleteNotch
		}
		c.try(&step.Notch{Act: do, Piece: pc.Name, Name: n.Name})
	})
	c.layOn("this notch", render.Common{At: pattern.AtNotch(pc.Name, n.Name)})
}

// kinds of inner lines in words.
var innerWords = map[pattern.InnerKind]string{
	pattern.Drawn: "a drawn line", pattern.OldJoint: "where pieces were taped", pattern.OldNotch: "a notch that was",
	pattern.OldArrow: "the arrow of a piece taped on", pattern.OldFold: "the fold there was",
}

func (c *column) inner(pc *pattern.Piece, in *pattern.Inner) {
	c.name("line " + in.Name + " in " + pc.Name)
	c.named("Name", in.Name, step.Rename{Piece: pc.Name, Inner: in.Name}, func(to string) tool.Selection {
		return tool.Selection{Piece: pc.Name, Inner: to}
	})
	c.figure("Is", innerWords[in.Kind])
	c.figure("Length", c.write(in.Path.Length()))
	if !in.Path.IsStraight() {
		c.figure("End to end", c.write(in.Path.Start().Dist(in.Path.End())))
	}
	c.offers([]string{"Remove this line"}, func(string) { c.try(&step.Remove{Piece: pc.Name, Inner: in.Name}) })
}

func (c *column) try(s step.Step) {
	if err := c.accept(s); err != nil {
		c.fail(atSelection, err)
	}
}

// accept adds a step and tells what is wrong since.
func (c *column) accept(s step.Step) error {
	since := c.w.since()
	err := c.w.desk.Accept(s)
	if err == nil {
		since.tell(since.kept())
	}
	return err
}

func (c *column) joint(pc *pattern.Piece, edge string) {
	i := pc.EdgeIndex(edge)
	c.name("corner of " + pc.Name)
	c.figure("Between", pc.Edges[pc.Prev(i)].Name+" and "+edge)
	c.figure("Angle", fmt.Sprintf("%.2f°", float64(pc.JointAngle(i))*180/math.Pi))
	c.layOn("this corner", render.Common{At: pattern.AtEnd(pc.Name, edge, pattern.Start)})
}

func (c *column) piece(pc *pattern.Piece) {
	c.name(pc.Name)
	c.named("Name", pc.Name, step.Rename{Piece: pc.Name}, func(to string) tool.Selection { return tool.Selection{Piece: to} })
	c.figure("Area", unit.Area(pc.Area(), c.w.unit))
	cut := fmt.Sprintf("%d", pc.Cut.Count)
	switch {
	case pc.Fold() != nil:
		cut += " on the fold"
	case pc.Cut.Pair && pc.Cut.Count == 1:
		cut += " pair"
	case pc.Cut.Pair:
		cut += " pairs"
	}
	if from := c.w.desk.Goods().CutFrom(pc); from != "" {
		cut += ", " + from
	}
	c.figure("Cut", cut)
	mark := ""
	if n := len(pc.Marks); n > 0 {
		mark = pc.Marks[n-1].Text
	}
	c.number("Mark", mark, func(s string) error { return c.marked(pc, mark, s) })
	if w, err := render.Inscribe(*pc); err == nil && len(w.Marks) > 0 {
		last := w.Marks[len(w.Marks)-1]
		tall := c.write(last.Height) + " tall"
		if last.Smaller() {
			tall += ", to fit"
		}
		c.figure("Its letters", tall)
	}
	c.wouldRow()
	for i := range pc.Edges {
		e := &pc.Edges[i]
		c.part(e.Name, e.Length(), tool.Selection{Piece: pc.Name, Edge: e.Name})
	}
	c.innerOf(pc)
	c.pieceActs(pc)
}

// atWidth gives its object a width.
type atWidth struct{ width float32 }

func (a atWidth) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }
func (a atWidth) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(a.width, o[0].MinSize().Height)
}

// part is a row that tells name and length of a part of a piece, the name in as many
// lines as it needs, and selects it.
func (c *column) part(name string, mm float64, s tool.Selection) {
	length := text(unit.Brief(unit.MM(mm), c.w.unit), normal, false, c.w.palette.Text)
	called, room := fyne.CanvasObject(text(name, normal, false, c.w.palette.Text)), columnInner-length.MinSize().Width-16
	if called.MinSize().Width > room {
		called = para(name, room, normal, false, c.w.palette.Text)
	}
	face := container.New(ends{}, called, length)
	c.add(newTouch(c.w.palette, container.New(atWidth{columnInner}, face), color.Transparent, 0, 3, func() { c.w.desk.Select(s) }))
}

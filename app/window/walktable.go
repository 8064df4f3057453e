package window

import (
	"fmt"
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/tool"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// walkTable returns the walk that is in the hand, from notch to notch.
func (w *Window) walkTable() (walk.Table, bool) {
	t, ok := w.tool().(tool.Tabler)
	if !ok || w.rehearsal != nil {
		return walk.Table{}, false
	}
	return t.Table()
}

// walkSides names the two sides of the walk in the hand.
func (w *Window) walkSides() [2]string {
	if t, ok := w.tool().(tool.Tabler); ok {
		return t.Sides()
	}
	return [2]string{}
}

// follow shows the walk anew when its table has become another.
func (c *column) follow() {
	if c.walkNow() != c.walked && !c.inNumber() { // or what is being typed would be left, and kept, half-way
		c.refresh()
	}
	c.followWould()
}

// walkNow tells the walk in the hand from others, "" while there is none.
func (c *column) walkNow() string {
	if t, ok := c.w.walkTable(); ok {
		return fmt.Sprint(t)
	}
	return ""
}

// inNumber reports whether a number of the column has the keys.
func (c *column) inNumber() bool {
	now, ok := c.w.win.Canvas().Focused().(*dial)
	return ok && slices.Contains(reachable(c.list), fyne.Focusable(now))
}

// Widths of the table in units: the names of both sides, and a figure.
const (
	walkName   = 76
	walkFigure = (columnInner - walkName) / 3
)

// walk shows the walk in the hand as a table from notch to notch; a press on a
// row walks to its end.
func (c *column) walk(t walk.Table) {
	w := c.w
	c.name(t.Seam)
	sides := w.walkSides()
	c.note(fmt.Sprintf("From notch to notch, in %s: along %s, along %s, and by how much the first is longer%s.", unitWord(w.unit), sides[0], sides[1], easeWords(t)), w.palette.Faint)
	figures := func(a, b, d float64, bold bool, ink color.Color) *fyne.Container {
		box := container.New(line{})
		for i, s := range tableLengths([]float64{a, b, d}, w.unit) {
			if i == 2 && d >= 0.005 {
				s = "+" + s
			}
			cell := text(s, 13, bold, ink)
			cell.Alignment = fyne.TextAlignTrailing
			box.Add(container.New(atWidth{walkFigure}, cell))
		}
		return box
	}
	c.add(c.walkHead(sides[0], sides[1], "differ"))
	ink := func(d float64) color.Color {
		switch w.desk.Bounds().Seam.Verdict(d) { // as the check of its notches
		case check.Broken:
			return w.palette.Poor
		case check.Look:
			return w.palette.Look
		}
		return w.palette.Text
	}
	sum := 0.0
	for i, r := range t.Rows {
		sum += r.A
		words := []fyne.CanvasObject{text(shortened(r.From+" to "+r.To, columnInner, small), small, false, w.palette.Faint)}
		row := container.New(line{}, container.New(atWidth{walkName}, text(easeOf(r.Ease, w.unit), small, false, w.palette.Faint)), figures(r.A, r.B, r.Difference, false, ink(r.Difference)))
		at := sum
		b := newTouch(w.palette, container.New(stack{}, append(words, row)...), color.Transparent, 0, 3, func() {
			w.prompt.set("walked", unit.Format(at, w.unit))
		})
		b.name = fmt.Sprint("walk row ", i)
		c.add(b)
	}
	c.add(rule(w.palette.Line))
	c.add(container.New(line{}, container.New(atWidth{walkName}, text("In all", 13, true, w.palette.Text)), figures(t.A, t.B, t.Difference, true, ink(t.Difference))))
	for _, l := range t.Unmatched {
		c.note(asSentence(fmt.Sprintf("%s of %s has no partner; it falls %s along the other side", pattern.NotchSaid(l.Notch), l.Piece, c.write(l.Other))), w.palette.Look)
	}
}

// walkHead is the head of the table: each name broken to the width of its
// figures, all ending on the same line.
func (c *column) walkHead(names ...string) fyne.CanvasObject {
	width := func(s string) float32 { return fyne.MeasureText(s, small, fyne.TextStyle{}).Width }
	lines, most := make([][]string, len(names)), 0
	for i, name := range names {
		lines[i] = broken(name, walkFigure-6, width)
		most = max(most, len(lines[i]))
	}
	head := container.New(line{}, gap(walkName, 1))
	for _, l := range lines {
		cell := container.New(stack{})
		for range most - len(l) {
			cell.Add(text("", small, false, c.w.palette.Faint))
		}
		for _, s := range l {
			t := text(shortened(s, walkFigure-6, small), small, false, c.w.palette.Faint)
			t.Alignment = fyne.TextAlignTrailing
			cell.Add(t)
		}
		head.Add(container.New(atWidth{walkFigure}, cell))
	}
	return head
}

// unitWord names the unit of the table.
func unitWord(u unit.System) string {
	if word := tableUnit("mm", u); word != "in" {
		return word
	}
	return "inches"
}

func easeWords(t walk.Table) string {
	if t.Ease == 0 {
		return ""
	}
	return ", its ease apart"
}

func easeOf(mm float64, u unit.System) string {
	if mm == 0 {
		return ""
	}
	return "ease " + tableLengths([]float64{mm}, u)[0]
}

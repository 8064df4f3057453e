package window

import (
	"fmt"
	"image/color"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"truemat/ops/unit"
)

// measure is what a number counts.
type measure int

const (
	lengths measure = iota // mm, shown in the maker's unit
	degrees
	shares // of a whole, shown in per cent
	bare
)

// write shows a number so that reading it gives it again.
func (m measure) write(v float64, c *column) string {
	switch m {
	case lengths:
		return c.exact(v)
	case degrees:
		return plainly(v) + "°"
	case shares:
		return plainly(100*v) + " %"
	}
	return plainly(v)
}

func (m measure) read(s string, u unit.System) (float64, error) {
	if m == lengths {
		return unit.ParseIn(s, u)
	}
	v, err := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-", "°", "", "%", "", " ", "").Replace(s), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is no number; write one as 4.5", s)
	}
	if m == shares {
		v /= 100
	}
	return v, nil
}

// pushes are what an arrow key adds to the number; the fine one is also what a
// drag of one unit adds.
func (d *dial) pushes() push {
	switch d.kind {
	case lengths:
		return d.c.w.pushes()
	case bare, shares:
		return push{pushes.by / 100, pushes.far / 100, pushes.fine / 100}
	}
	return pushes
}

// dial is a field for a number that can also be drawn along: by the arrow
// keys, or by dragging its name. While it moves the mat shows what it would
// do; Enter, letting go or leaving the field keeps it, Escape goes back.
type dial struct {
	entry
	c    *column
	kind measure
	show func(v float64) error // rehearses a value
	like *dial                 // another field of the same number, which follows; may be nil
}

func (c *column) newDial(kind measure, v float64, width float32, show func(v float64) error, fail func(error)) *dial {
	d := &dial{c: c, kind: kind, show: show}
	d.was, d.width, d.Text = kind.write(v, c), width, kind.write(v, c)
	d.Scroll = fyne.ScrollNone
	d.escape = func() {
		c.forgive()
		c.w.backOut()
	}
	if kind == lengths {
		c.w.counting(&d.entry)
	}
	d.submit = func(s string, changed bool) {
		if !changed {
			c.w.keepRehearsed()
			return
		}
		v, err := kind.read(s, c.w.unit)
		if err == nil {
			err = show(v)
		}
		if err != nil {
			c.w.dropRehearsed()
			fail(err)
			c.mend(d.name, s)
		} else if !c.w.keepRehearsed() {
			c.mend(d.name, s)
		}
	}
	d.ExtendBaseWidget(d)
	d.OnSubmitted = d.done
	d.OnChanged = func(s string) {
		if d.like != nil {
			d.like.Text = s
			d.like.Refresh()
		}
		if s == d.was {
			c.w.dropRehearsed()
		} else if v, err := kind.read(s, c.w.unit); err == nil && show(v) != nil {
			c.w.dropRehearsed()
		}
	}
	return d
}

// mend leaves what was typed and refused in its field, while that has the keys.
func (c *column) mend(name, typed string) {
	if d, ok := c.w.win.Canvas().Focused().(*dial); ok && d.name == name {
		d.Text, d.CursorColumn = typed, len([]rune(typed))
		d.Refresh()
	}
}

// by adds to the number that is in the field; in inches it goes to the next
// that stands on the tape.
func (d *dial) by(more float64) {
	v, err := d.kind.read(d.Text, d.c.w.unit)
	if err != nil {
		return
	}
	now := v + more
	if d.kind == lengths && d.c.w.unit == unit.InchFractions {
		const same = 0.05 // of a push: fields are rounded
		now = math.Floor(v/more+1+same) * more
	}
	d.SetText(d.kind.write(math.Round(now*1e6)/1e6, d.c))
	d.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// FocusGained brings it into view and selects what is in it.
func (d *dial) FocusGained() {
	d.Entry.FocusGained()
	d.selectUntouched()
	d.reveal(d)
}

// TypedKey draws the number along with the arrows.
func (d *dial) TypedKey(k *fyne.KeyEvent) {
	by := d.pushes().held(d.c.w.modifiers())
	switch k.Name {
	case fyne.KeyUp:
		d.by(by)
	case fyne.KeyDown:
		d.by(-by)
	default:
		d.entry.TypedKey(k)
	}
}

// TypedShortcut takes the fine arrows, which arrive as shortcuts.
func (d *dial) TypedShortcut(s fyne.Shortcut) {
	if k, ok := s.(*desktop.CustomShortcut); ok && k.Modifier == fyne.KeyModifierControl {
		fine := d.pushes().fine
		switch k.KeyName {
		case fyne.KeyUp:
			d.by(fine)
			return
		case fyne.KeyDown:
			d.by(-fine)
			return
		}
	}
	d.entry.TypedShortcut(s)
}

// grip is the name of a dial: dragged to the right the number grows, to the
// left it shrinks.
type grip struct {
	widget.BaseWidget
	d     *dial
	face  fyne.CanvasObject
	back  *canvas.Rectangle
	from  float64 // the number when the drag began
	moved float32 // since then, in units
	drags bool
}

var (
	_ fyne.Draggable     = (*grip)(nil)
	_ desktop.Hoverable  = (*grip)(nil)
	_ desktop.Cursorable = (*grip)(nil)
)

// gripWidth is that of the names beside the column's fields, besideGrip what of
// it is the sign that it can be drawn along.
const (
	gripWidth  = 112
	besideGrip = 26
)

func (c *column) newGrip(name string, d *dial) *grip {
	p := c.w.palette
	face := container.New(ends{}, text(shortened(name, gripWidth-besideGrip, normal), normal, false, p.Faint), container.New(inset{4, 0}, gap(0, 0), icon("slide", p.Faint, 14)))
	g := &grip{d: d, back: canvas.NewRectangle(color.Transparent), face: container.New(atWidth{gripWidth - 6}, face)}
	g.back.CornerRadius = 6
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer lays the name on its ground.
func (g *grip) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(inset{0, 6}, g.back, g.face))
}

// Dragged draws the number along.
func (g *grip) Dragged(e *fyne.DragEvent) {
	v, err := g.d.kind.read(g.d.Text, g.d.c.w.unit)
	if err != nil {
		return
	}
	if !g.drags {
		g.drags, g.from, g.moved = true, v, 0
		g.d.c.w.prompt.explain("") // the step is told there while it changes
	}
	g.moved += e.Dragged.DX
	fine := g.d.pushes().fine
	if g.d.c.w.modifiers()&fyne.KeyModifierShift != 0 {
		fine = g.d.pushes().by
	}
	if now := math.Round((g.from+float64(g.moved)*fine)/fine) * fine; now != v {
		g.d.SetText(g.d.kind.write(math.Round(now*1e6)/1e6, g.d.c))
	}
}

// DragEnd keeps the number.
func (g *grip) DragEnd() {
	if g.drags {
		g.drags = false
		g.d.c.w.prompt.explain("")
		if g.d.Text != g.d.was {
			g.d.done(g.d.Text)
		}
	}
}

// MouseIn says what can be done.
func (g *grip) MouseIn(*desktop.MouseEvent) {
	g.back.FillColor = g.d.c.w.palette.Raised
	g.back.Refresh()
	g.d.c.w.prompt.explain("Drag to the right or left: the number changes and the mat follows, with Shift by whole ones; letting go keeps it. In the field the arrows do the same; there Enter keeps it and Escape goes back.")
}

// MouseMoved does nothing.
func (g *grip) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends that.
func (g *grip) MouseOut() {
	g.back.FillColor = color.Transparent
	g.back.Refresh()
	g.d.c.w.prompt.explain("")
}

// Cursor shows that it can be drawn to both sides.
func (g *grip) Cursor() desktop.Cursor { return desktop.HResizeCursor }

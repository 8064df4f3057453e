package window

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"truemat/app/look"
)

// touch is whatever can be pressed: a tool of the tray, a size, a row of a
// list, a button. It can be reached with Tab and pressed with Space or Enter.
type touch struct {
	widget.BaseWidget
	revealing
	palette  look.Palette
	body     fyne.CanvasObject
	tap      func()
	hover    func(in bool)      // may be nil; also when it gets the keys
	arrows   func(fyne.KeyName) // may be nil
	digit    func(rune)         // takes digits; may be nil
	leave    func()             // what Tab does in place of going to the next; may be nil
	escape   func() bool        // whether it has a use for Escape; may be nil
	fill     color.Color
	padX     float32
	padY     float32
	ring     float32 // how far the ring of the keys stands out at both sides
	back     *canvas.Rectangle
	over     bool
	focus    bool
	disabled bool
	deed     bool                         // it does something, so that the keys never come to it by themselves
	inks     map[*canvas.Text]color.Color // of the words while it can be pressed
}

var (
	_ fyne.Tappable      = (*touch)(nil)
	_ fyne.Focusable     = (*touch)(nil)
	_ desktop.Hoverable  = (*touch)(nil)
	_ desktop.Cursorable = (*touch)(nil)
)

func newTouch(p look.Palette, body fyne.CanvasObject, fill color.Color, padX, padY float32, tap func()) *touch {
	t := &touch{palette: p, body: body, fill: fill, padX: padX, padY: padY, tap: tap}
	t.back = canvas.NewRectangle(fill)
	t.back.CornerRadius = 6
	t.ExtendBaseWidget(t)
	t.paint()
	return t
}

// CreateRenderer lays the body on its ground.
func (t *touch) CreateRenderer() fyne.WidgetRenderer {
	if t.ring > 0 {
		return widget.NewSimpleRenderer(container.New(ringed{t.ring}, t.back, t.body))
	}
	return widget.NewSimpleRenderer(container.New(inset{t.padX, t.padY}, t.back, t.body))
}

// face is what stands on it.
func (t *touch) face() fyne.CanvasObject { return t.body }

func (t *touch) paint() {
	t.back.FillColor = t.fill
	t.back.StrokeWidth, t.back.StrokeColor = 0, color.Transparent
	if t.disabled && t.inks != nil {
		t.back.FillColor = t.palette.Line
	}
	if t.over && !t.disabled {
		t.back.StrokeWidth, t.back.StrokeColor = 1, t.palette.Line
		if _, _, _, a := t.fill.RGBA(); a == 0 {
			t.back.FillColor = t.palette.Raised
		}
	}
	if t.focus {
		ring := t.palette.Accent
		if t.fill == color.Color(ring) {
			ring = t.palette.Text
		}
		t.back.StrokeWidth, t.back.StrokeColor = 2, ring
	}
	t.back.Refresh()
}

// able says whether it can be pressed, and shows it.
func (t *touch) able(can bool) {
	t.disabled = !can
	if t.inks == nil {
		t.inks = map[*canvas.Text]color.Color{}
		for _, o := range written(t.body) {
			t.inks[o] = o.Color
		}
	}
	for o, ink := range t.inks {
		if o.Color = ink; !can {
			o.Color = t.palette.Faint
		}
		o.Refresh()
	}
	t.paint()
}

// written lists what is written within an object.
func written(o fyne.CanvasObject) (all []*canvas.Text) {
	switch o := o.(type) {
	case *canvas.Text:
		return []*canvas.Text{o}
	case *fyne.Container:
		for _, c := range o.Objects {
			all = append(all, written(c)...)
		}
	}
	return all
}

// Tapped presses it, once what is typed elsewhere was left: a press does not take
// the keys from a field, and what it does must know what was typed.
func (t *touch) Tapped(*fyne.PointEvent) {
	c := fyne.CurrentApp().Driver().CanvasForObject(t)
	if c != nil && c.Overlays().Top() == nil { // a page reads its own fields
		if f, ok := c.Focused().(interface{ unkept() bool }); ok && f.unkept() {
			c.Unfocus()
		}
	}
	if !t.disabled {
		t.tap()
	}
}

// MouseIn marks it.
func (t *touch) MouseIn(*desktop.MouseEvent) {
	t.over = true
	t.paint()
	if t.hover != nil {
		t.hover(true)
	}
}

// MouseMoved does nothing.
func (t *touch) MouseMoved(*desktop.MouseEvent) {}

// MouseOut unmarks it.
func (t *touch) MouseOut() {
	t.over = false
	t.paint()
	if t.hover != nil {
		t.hover(false)
	}
}

// Cursor is a hand over what can be pressed.
func (t *touch) Cursor() desktop.Cursor {
	if t.disabled {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}

// AcceptsTab keeps Tab where one of many is left for what is beside them all.
func (t *touch) AcceptsTab() bool { return t.leave != nil }

// FocusGained shows where the keys go.
func (t *touch) FocusGained() { t.mark(true) }

// FocusLost no longer does.
func (t *touch) FocusLost() { t.mark(false) }

func (t *touch) mark(focus bool) {
	t.focus = focus
	t.paint()
	if focus {
		t.reveal(t)
	}
	if t.hover != nil && !t.over {
		t.hover(focus)
	}
}

// TypedRune hands a letter on: it takes up a tool wherever the keys are.
func (t *touch) TypedRune(r rune) {
	if t.digit != nil && '0' <= r && r <= '9' {
		t.digit(r)
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil && c.OnTypedRune() != nil && r != ' ' {
		c.OnTypedRune()(r)
	}
}

// TypedKey presses it with Space or Enter.
func (t *touch) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		t.Tapped(nil)
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		if t.arrows != nil {
			t.arrows(e.Name)
		} else if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil && c.Overlays().Top() != nil {
			handOn(t, e) // on a page that they roll; elsewhere they would push what is selected
		}
	case fyne.KeyTab:
		t.leave() // else it does not get here
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyHome, fyne.KeyEnd:
		handOn(t, e)
	case fyne.KeyEscape:
		if t.escape == nil || !t.escape() {
			handBack(t, e)
		}
	}
}

// handOn gives the window a key that what has the keys makes nothing of.
func handOn(o fyne.CanvasObject, e *fyne.KeyEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(e)
	}
}

// handBack takes the keys away from what got Escape and does nothing with it,
// and backs out: a page that lies over the window closes at once.
func handBack(o fyne.CanvasObject, e *fyne.KeyEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil {
		c.Unfocus()
		if back := c.OnTypedKey(); back != nil {
			back(e)
		}
	}
}

// inset lets the first object fill the area and lays the others within it.
type inset struct{ x, y float32 }

func (in inset) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for i, o := range objects {
		if i == 0 {
			o.Move(fyne.Position{})
			o.Resize(size)
			continue
		}
		o.Move(fyne.NewPos(in.x, in.y))
		o.Resize(size.SubtractWidthHeight(2*in.x, 2*in.y))
	}
}

func (in inset) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, o := range objects[1:] {
		m = m.Max(o.MinSize())
	}
	return fyne.NewSize(up(m.Width)+2*in.x, up(m.Height)+2*in.y)
}

// ringed lays its second object in an area that the first stands out of at
// both sides.
type ringed struct{ by float32 }

func (r ringed) Layout(o []fyne.CanvasObject, size fyne.Size) {
	lay(o[0], fyne.NewPos(-r.by, 0), size.AddWidthHeight(2*r.by, 0))
	lay(o[1], fyne.Position{}, size)
}

func (r ringed) MinSize(o []fyne.CanvasObject) fyne.Size { return o[1].MinSize() }

// fixed holds objects that were placed by hand in an area of its size.
type fixed fyne.Size

func (f fixed) Layout([]fyne.CanvasObject, fyne.Size) {}
func (f fixed) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size(f) }

// stack lays objects one below the other, full width, with a gap.
type stack struct{ gap float32 }

func (s stack) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		h := up(o.MinSize().Height)
		lay(o, fyne.NewPos(0, y), fyne.NewSize(size.Width, h))
		y += h + s.gap
	}
}

func (s stack) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, o := range objects {
		if o.Visible() {
			m.Width = max(m.Width, o.MinSize().Width)
			m.Height += up(o.MinSize().Height) + s.gap
		}
	}
	m.Height = max(m.Height-s.gap, 0)
	return m
}

// line lays objects one beside the other, centred in height, with a gap;
// what does not fit the width goes to the next line when wrap is given.
type line struct {
	gap  float32
	wrap float32 // width, 0 for one line
}

func (l line) walk(objects []fyne.CanvasObject, height float32, place func(fyne.CanvasObject, fyne.Position, fyne.Size)) fyne.Size {
	type sized struct {
		fyne.CanvasObject
		size fyne.Size // asked for once: each container asks all that it holds
	}
	var row []sized
	var m, now fyne.Size
	end := func(top, tall float32) {
		x := float32(0)
		for _, o := range row {
			place(o.CanvasObject, fyne.NewPos(x, top+down(max(tall-o.size.Height, 0)/2)), o.size)
			x += o.size.Width + l.gap
		}
		m = fyne.NewSize(max(m.Width, now.Width), top+now.Height)
		row, now = row[:0], fyne.Size{}
	}
	top := float32(0)
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		s := o.MinSize()
		s = fyne.NewSize(up(s.Width), up(s.Height))
		if l.wrap > 0 && len(row) > 0 && now.Width+l.gap+s.Width > l.wrap {
			end(top, now.Height)
			top = m.Height + l.gap
		}
		if len(row) > 0 {
			now.Width += l.gap
		}
		row, now = append(row, sized{o, s}), fyne.NewSize(now.Width+s.Width, max(now.Height, s.Height))
	}
	if l.wrap == 0 {
		end(0, height)
	} else {
		end(top, now.Height)
	}
	return m
}

func (l line) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.walk(objects, size.Height, func(o fyne.CanvasObject, p fyne.Position, s fyne.Size) { lay(o, p, s) })
}

func (l line) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return l.walk(objects, 0, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
}

// lay places an object. Text is as high as its letters ask for, wherever it
// stands: the toolkit gives it then as many rows of pixels as it drew, when it
// stands on a whole unit.
func lay(o fyne.CanvasObject, at fyne.Position, size fyne.Size) {
	if t, ok := o.(*canvas.Text); ok {
		size.Height = t.MinSize().Height
	}
	o.Move(at)
	o.Resize(size)
}

// centred lays an object in the middle of the area, on whole units.
type centred struct{}

func (centred) Layout(o []fyne.CanvasObject, size fyne.Size) {
	m := o[0].MinSize()
	lay(o[0], fyne.NewPos(down((size.Width-m.Width)/2), down((size.Height-m.Height)/2)), m)
}

func (centred) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// up and down give whole units: text that stands between two of them is
// drawn a row of pixels higher or lower than it is, and blurred.
func up(v float32) float32   { return float32(math.Ceil(float64(v))) }
func down(v float32) float32 { return float32(math.Floor(float64(v))) }

// renew fills a container anew; the keys stay with what had them, or go to what
// can have them in its place.
func (w *Window) renew(box *fyne.Container, fill func()) {
	at := -1
	now := w.win.Canvas().Focused()
	if now != nil {
		at = slices.Index(reachable(box), now)
	}
	box.RemoveAll()
	fill()
	box.Refresh()
	if at >= 0 {
		all := reachable(box)
		if i := again(all, now, at); i >= 0 {
			w.win.Canvas().Focus(all[i])
		} else {
			w.focusMat()
		}
	}
}

// reachable lists what within an object can have the keys.
func reachable(o fyne.CanvasObject) []fyne.Focusable { return reachableIn(o, true) }

// reachableIn is reachable with or without what lies in a part that rolls.
func reachableIn(o fyne.CanvasObject, rolled bool) []fyne.Focusable {
	switch o := o.(type) {
	case *fyne.Container:
		var all []fyne.Focusable
		for _, c := range o.Objects {
			all = append(all, reachableIn(c, rolled)...)
		}
		return all
	case *container.Scroll:
		if rolled {
			return reachable(o.Content)
		}
	case fyne.Focusable:
		return []fyne.Focusable{o}
	}
	return nil
}

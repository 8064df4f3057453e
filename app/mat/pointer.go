package mat

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"truemat/app/tool"
	"truemat/geom"
)

var (
	_ fyne.Widget        = (*Mat)(nil)
	_ fyne.Focusable     = (*Mat)(nil)
	_ fyne.Draggable     = (*Mat)(nil)
	_ fyne.Scrollable    = (*Mat)(nil)
	_ fyne.Tabbable      = (*Mat)(nil)
	_ desktop.Mouseable  = (*Mat)(nil)
	_ desktop.Hoverable  = (*Mat)(nil)
	_ desktop.Keyable    = (*Mat)(nil)
	_ desktop.Cursorable = (*Mat)(nil)
)

// pointerState is what pointer and keys are in the midst of.
type pointerState struct {
	now      func() time.Time
	down     bool // a press was reported, its release is due
	panning  bool
	last     fyne.Position
	pressAt  fyne.Position
	pressed  time.Time
	space    bool // held
	spaceUse bool // it was held to pan
	mods     fyne.KeyModifier
	sideways time.Time // when two fingers last moved sideways
	cursor   desktop.Cursor
	shift    geom.Point // mm, from where a sign was pressed to the spot that it stands for
}

func defaultClock() time.Time { return time.Now() }

const (
	reach       = 8.0 // units within which a thing counts as pointed at
	doubleTime  = 400 * time.Millisecond
	doubleReach = 5
	zoomStep    = 1.15 // a notch of the wheel
	wheelNotch  = 25   // what the toolkit reports for it
	widestWheel = 75   // beyond which a jump of the wheel is not followed
	gesture     = 300 * time.Millisecond
)

// modifiers returns the modifier keys that are held: drags, scrolls and hovers
// do not carry them, so the driver is asked where it can tell.
func (m *Mat) modifiers(seen fyne.KeyModifier) fyne.KeyModifier {
	if app := fyne.CurrentApp(); app != nil {
		if d, ok := app.Driver().(desktop.Driver); ok {
			return seen | d.CurrentKeyModifiers()
		}
	}
	return seen | m.pointer.mods
}

func (m *Mat) tell(act tool.Act, at fyne.Position, mods fyne.KeyModifier) {
	m.mark(at)
	m.pointer.last = at
	if m.report == nil {
		return
	}
	mods = m.modifiers(mods)
	m.report(tool.Event{
		Act: act, At: m.meant(act, at), Reach: reach / m.camera.Scale,
		Shift: mods&fyne.KeyModifierShift != 0,
		Ctrl:  mods&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0,
	})
}

// meant is the place on the mat that the pointer means: a sign stands for the
// spot that it numbers, and a drag that began on one goes on from there.
func (m *Mat) meant(act tool.Act, at fyne.Position) geom.Point {
	p := &m.pointer
	to := m.camera.ToMat(at)
	if act == tool.Press || act == tool.Double || act == tool.Hover {
		p.shift = geom.Point{}
	}
	q := geom.Pt(float64(at.X), float64(at.Y)).Mul(m.floats.px)
	for _, f := range m.floats.signs {
		if q.Dist(f.mid) > signHalf*m.floats.px {
			continue
		}
		of := m.camera.ToMat(fyne.NewPos(float32(f.of.X/m.floats.px), float32(f.of.Y/m.floats.px)))
		if act == tool.Press || act == tool.Double {
			p.shift = of.Sub(to)
		}
		return of
	}
	return to.Add(p.shift)
}

// mark shows on the rulers where the pointer is.
func (m *Mat) mark(at fyne.Position) {
	const thick = 2
	m.markX.Move(fyne.NewPos(at.X-thick/2, 0))
	m.markX.Resize(fyne.NewSize(thick, rulerWidth))
	m.markY.Move(fyne.NewPos(0, at.Y-thick/2))
	m.markY.Resize(fyne.NewSize(rulerWidth, thick))
	show := func(o fyne.CanvasObject, yes bool) {
		if yes && !o.Visible() {
			o.Show()
		} else if !yes && o.Visible() {
			o.Hide()
		}
	}
	show(m.markX, at.X > rulerWidth && at.X < m.Size().Width)
	show(m.markY, at.Y > rulerWidth && at.Y < m.Size().Height)
}

// MouseDown begins a press, or a pan with the middle button or space held.
func (m *Mat) MouseDown(e *desktop.MouseEvent) {
	if app := fyne.CurrentApp(); app != nil {
		if c := app.Driver().CanvasForObject(m); c != nil {
			c.Focus(m)
		}
	}
	p := &m.pointer
	if p.down || p.panning {
		return
	}
	switch {
	case e.Button == desktop.MouseButtonTertiary, e.Button == desktop.MouseButtonPrimary && p.space:
		p.panning, p.last = true, e.Position
		p.spaceUse = p.space
	case e.Button == desktop.MouseButtonPrimary:
		act, now := tool.Press, p.now()
		if now.Sub(p.pressed) < doubleTime && apart(e.Position, p.pressAt) < doubleReach {
			act, now = tool.Double, time.Time{}
		}
		p.pressed, p.pressAt, p.down = now, e.Position, true
		m.tell(act, e.Position, e.Modifier)
	}
}

func apart(a, b fyne.Position) float64 {
	return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
}

// MouseUp ends what MouseDown began.
func (m *Mat) MouseUp(e *desktop.MouseEvent) { m.release(e.Position, e.Modifier) }

func (m *Mat) release(at fyne.Position, mods fyne.KeyModifier) {
	p := &m.pointer
	p.panning = false
	if p.down {
		p.down = false
		m.tell(tool.Release, at, mods)
	}
}

// Dragged follows the pointer. The first event already holds a way gone
// without notice, so positions count, not differences.
func (m *Mat) Dragged(e *fyne.DragEvent) {
	p := &m.pointer
	switch {
	case p.panning:
		d := e.Position.Subtract(p.last)
		p.last = e.Position
		m.mark(e.Position)
		m.Pan(float64(d.X), float64(d.Y))
	case p.down:
		if e.Position != p.last {
			m.tell(tool.Drag, e.Position, 0)
		}
	}
}

// DragEnd ends a drag whose release did not arrive.
func (m *Mat) DragEnd() { m.release(m.pointer.last, 0) }

// MouseIn is a hover.
func (m *Mat) MouseIn(e *desktop.MouseEvent) { m.MouseMoved(e) }

// MouseMoved is a hover, or a drag before the toolkit calls it one.
func (m *Mat) MouseMoved(e *desktop.MouseEvent) {
	if !m.pointer.down && !m.pointer.panning {
		m.tell(tool.Hover, e.Position, e.Modifier)
	}
}

// MouseOut takes the marks off the rulers.
func (m *Mat) MouseOut() {
	m.markX.Hide()
	m.markY.Hide()
}

// Scrolled zooms at the pointer; with shift held, or by two fingers, it pans.
// A wheel moves in whole notches up and down; fingers do not.
func (m *Mat) Scrolled(e *fyne.ScrollEvent) {
	p := &m.pointer
	mods := m.modifiers(0)
	dx := min(max(float64(e.Scrolled.DX), -widestWheel), widestWheel)
	dy := min(max(float64(e.Scrolled.DY), -widestWheel), widestWheel)
	if dx != 0 {
		p.sideways = p.now()
	}
	fingers := p.now().Sub(p.sideways) < gesture || math.Mod(dy, wheelNotch) != 0
	switch {
	case mods&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0:
		m.zoomAt(dy, e.Position)
	case mods&fyne.KeyModifierShift != 0:
		if dx == 0 {
			dx, dy = dy, 0
		}
		m.Pan(2*dx, 2*dy)
	case fingers:
		m.Pan(2*dx, 2*dy)
	default:
		m.zoomAt(dy, e.Position)
	}
}

func (m *Mat) zoomAt(dy float64, at fyne.Position) {
	m.SetCamera(m.camera.Zoomed(m.camera.Scale*math.Pow(zoomStep, dy/wheelNotch), at))
}

// FocusGained and FocusLost tell who shows it.
func (m *Mat) FocusGained() { m.focus(true) }

// FocusLost forgets the keys that were held.
func (m *Mat) FocusLost() {
	m.pointer.space, m.pointer.mods = false, 0
	m.focus(false)
}

func (m *Mat) focus(has bool) {
	if m.OnFocus != nil {
		m.OnFocus(has)
	}
}

// AcceptsTab keeps Tab for walking through what can be chosen.
func (m *Mat) AcceptsTab() bool { return true }

// TypedKey hands a key on. Space waits until it is let go, since held it pans.
func (m *Mat) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace && m.pointer.space {
		return
	}
	m.key(e)
}

func (m *Mat) key(e *fyne.KeyEvent) {
	if m.OnKey != nil {
		m.OnKey(e)
	}
}

// TypedRune hands a character on.
func (m *Mat) TypedRune(r rune) {
	if m.OnRune != nil && r != ' ' {
		m.OnRune(r)
	}
}

// heldModifiers are the keys that KeyDown remembers for drivers that cannot be
// asked.
var heldModifiers = map[fyne.KeyName]fyne.KeyModifier{
	desktop.KeyShiftLeft: fyne.KeyModifierShift, desktop.KeyShiftRight: fyne.KeyModifierShift,
	desktop.KeyControlLeft: fyne.KeyModifierControl, desktop.KeyControlRight: fyne.KeyModifierControl,
}

// KeyDown notes space and modifiers being held.
func (m *Mat) KeyDown(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace && !m.pointer.space {
		m.pointer.space, m.pointer.spaceUse = true, false
	}
	m.pointer.mods |= heldModifiers[e.Name]
}

// KeyUp hands on a space that was not held to pan.
func (m *Mat) KeyUp(e *fyne.KeyEvent) {
	p := &m.pointer
	if e.Name == fyne.KeySpace && p.space {
		p.space = false
		if !p.spaceUse {
			m.key(e)
		}
	}
	p.mods &^= heldModifiers[e.Name]
}

// SetCursor chooses the pointer's shape over the mat.
func (m *Mat) SetCursor(c desktop.Cursor) { m.pointer.cursor = c }

// Cursor is for the toolkit.
func (m *Mat) Cursor() desktop.Cursor {
	switch {
	case m.pointer.panning:
		return desktop.PointerCursor
	case m.pointer.cursor != nil:
		return m.pointer.cursor
	}
	return desktop.DefaultCursor
}

package window

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"truemat/app/lesson"
	"truemat/app/tool"
	"truemat/ops/unit"
)

// modifiers returns the modifier keys that are held, none where the driver
// does not tell.
func (w *Window) modifiers() fyne.KeyModifier {
	if d, ok := w.app.Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// push is how far an arrow key goes: by itself, with Shift, with Ctrl.
type push struct{ by, far, fine float64 }

var (
	pushes     = push{1, 10, 0.1}                                    // mm, degrees, per cent
	inchPushes = push{unit.Inch / 16, unit.Inch / 2, unit.Inch / 64} // mm: what stands on an inch tape
)

// pushes are the ways of the arrow keys in mm.
func (w *Window) pushes() push {
	if w.unit == unit.InchFractions {
		return inchPushes
	}
	return pushes
}

// fineArrow hands on a fine arrow, which arrives as a shortcut; what take has no
// use for is left to the window.
func (w *Window) fineArrow(s fyne.Shortcut, take func(k fyne.KeyName, by float64) bool) {
	k, ok := s.(*desktop.CustomShortcut)
	if ok && k.Modifier == fyne.KeyModifierControl && take(k.KeyName, w.pushes().fine) {
		return
	}
	if c, ok := w.win.Canvas().(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

// held returns the way of an arrow key, far with Shift.
func (p push) held(m fyne.KeyModifier) float64 {
	if m&fyne.KeyModifierShift != 0 {
		return p.far
	}
	return p.by
}

var arrows = map[fyne.KeyName]tool.KeyName{
	fyne.KeyLeft: tool.Left, fyne.KeyRight: tool.Right, fyne.KeyUp: tool.Up, fyne.KeyDown: tool.Down,
	fyne.KeyDelete: tool.Delete, fyne.KeyBackspace: tool.Delete, fyne.KeySpace: tool.Choose,
}

// key takes a key that was pressed on the mat.
func (w *Window) key(e *fyne.KeyEvent) {
	if w.sheet != nil && w.sheet.rolled(e.Name) {
		return
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		switch {
		case w.sheet == nil:
			w.accept()
		case w.sheet.enter != nil:
			w.sheet.enter()
		}
		return
	case fyne.KeyEscape:
		w.backOut()
		return
	case fyne.KeyF1:
		w.keysPage()
		return
	case fyne.KeyF2:
		w.tellKeys()
		w.focusMat()
		return
	case fyne.KeyTab:
		c, back := w.win.Canvas(), w.modifiers()&fyne.KeyModifierShift != 0
		switch {
		case w.sheet == nil && w.prompt.goOn(back):
		case back:
			c.FocusPrevious()
		default:
			c.FocusNext()
		}
		return
	}
	if k, ok := arrows[e.Name]; ok {
		w.press(tool.Key{Name: k, Step: w.pushes().held(w.modifiers()), Count: pushes.held(w.modifiers())})
	}
}

func (w *Window) press(k tool.Key) {
	if w.sheet != nil {
		return
	}
	w.prompt.left = ""
	if !w.tool().Key(k) {
		if k.Name == tool.Delete && w.tool().Name() == "hand" {
			w.remove()
		}
		return
	}
	w.prompt.say(nil)
	if w.finish() {
		return
	}
	w.show()
	w.mat.SeeTold()
}

// backOut is what Escape does: it calls off what is under way, closes the
// topmost sheet, drops what was begun, selects nothing,
// in this order.
func (w *Window) backOut() {
	if w.callOff() {
		w.prompt.explain("")
		if w.sheet != nil {
			w.sheet.say(errCalledOff)
		} else {
			w.prompt.say(errCalledOff)
		}
		w.show()
		return
	}
	if w.sheet != nil {
		w.sheet.close()
		return
	}
	w.abandon()
	w.focusMat()
}

// rune takes a letter that was typed on the mat.
func (w *Window) rune(r rune) {
	if s := w.sheet; s != nil && s.larger != nil && (r == '+' || r == '=') {
		s.larger()
		return
	}
	if s := w.sheet; s != nil && s.smaller != nil && (r == '-' || r == '−') {
		s.smaller()
		return
	}
	if w.sheet != nil || w.modifiers()&(fyne.KeyModifierControl|fyne.KeyModifierAlt|fyne.KeyModifierSuper) != 0 {
		return
	}
	switch r {
	case '+', '=':
		w.mat.Zoom(zoomStep)
	case '-', '−':
		w.mat.Zoom(1 / zoomStep)
	case '0':
		w.mat.Fit()
	case '1':
		w.realSize()
	case 'n', 'N':
		w.focusMat()
		w.press(tool.Key{Name: tool.Next})
	case 'p', 'P':
		w.focusMat()
		w.press(tool.Key{Name: tool.Previous})
	case '?':
		w.keysPage()
	default:
		for i, t := range w.tools {
			if a := abouts[key(t.Name())]; a.letter != 0 && strings.EqualFold(string(a.letter), string(r)) {
				if i != w.active && w.shown.asked && w.shown.err == nil {
					w.prompt.say(fmt.Errorf("%s waits to be accepted with Enter or abandoned with Escape; then take %s", titled(w.tool().Name()), t.Name()))
					w.show()
					return
				}
				w.choose(i)
				return
			}
		}
	}
}

// zoomStep is the factor of one zoom by key.
const zoomStep = 1.25

// shortcuts makes the fine arrows known, which arrive as shortcuts, and the
// other key for taking up again.
func (w *Window) shortcuts() {
	w.win.Canvas().AddShortcut(&fyne.ShortcutRedo{}, func(fyne.Shortcut) { w.redo() })
	for name, k := range arrows {
		if k == tool.Delete || k == tool.Choose {
			continue
		}
		w.win.Canvas().AddShortcut(&desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierControl}, func(fyne.Shortcut) {
			w.press(tool.Key{Name: k, Step: w.pushes().fine, Count: pushes.fine})
		})
	}
}

// keysWide is the width of the table of keys where there is room, beside which a scroll bar of
// scrollBar stands.
const (
	keysWide  = 640
	scrollBar = 20
)

// keysPage shows what the keys do, over a page that is open.
func (w *Window) keysPage() {
	if w.keysSheet != nil && w.keysSheet.open() {
		return
	}
	wide := w.pageWide(keysWide+scrollBar) - scrollBar
	list := container.New(stack{gap: 12})
	for _, g := range lesson.Keys() {
		var rows [][2]string
		for _, k := range g.Keys {
			rows = append(rows, [2]string{k.Keys, k.Does})
		}
		list.Add(container.New(stack{gap: 6}, text(g.Title, normal, true, w.palette.Faint), w.table(rows, wide)))
	}
	list.Add(para("Up, Down and Page Up, Page Down roll a page such as this one.", wide, normal, false, w.palette.Faint))
	for g, shelf := range w.shelves() {
		var rows [][2]string
		for _, m := range shelf {
			rows = append(rows, [2]string{strings.ToUpper(string(abouts[m.word].letter)), titled(m.word)})
		}
		if len(rows) > 0 {
			list.Add(container.New(stack{gap: 6}, text("Tools: "+groups[g].name, normal, true, w.palette.Faint), w.table(rows, wide)))
		}
	}
	w.keysSheet = w.overSheet("Keys", wide+scrollBar, w.scrolled(list, wide+scrollBar))
}

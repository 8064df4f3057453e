package window

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"truemat/app/tool"
)

// Cursor is a hand.
func (v *clothBoard) Cursor() desktop.Cursor { return desktop.PointerCursor }

// MouseDown takes hold of a piece; twice on it turns it half round.
func (v *clothBoard) MouseDown(e *desktop.MouseEvent) {
	v.w.win.Canvas().Focus(v)
	if e.Button != desktop.MouseButtonPrimary || v.down {
		return
	}
	now := time.Now()
	was := v.board.Chosen()
	twice := now.Sub(v.pressed) < boardDouble && max(abs32(e.Position.X-v.pressAt.X), abs32(e.Position.Y-v.pressAt.Y)) < 5
	v.pressed, v.pressAt, v.down = now, e.Position, true
	v.board.Press(v.toBoard(e.Position))
	if twice && was >= 0 && v.board.Chosen() == was {
		v.pressed, v.down = time.Time{}, false
		v.after(v.board.Turn())
		v.keep()
		return
	}
	v.after(nil)
}

func abs32(v float32) float32 { return max(v, -v) }

// Dragged moves what is held.
func (v *clothBoard) Dragged(e *fyne.DragEvent) {
	if v.down {
		v.board.Drag(v.toBoard(e.Position))
		v.after(nil)
	}
}

// MouseUp keeps where it lies.
func (v *clothBoard) MouseUp(*desktop.MouseEvent) { v.letGo() }

// DragEnd keeps where it lies when the release did not arrive.
func (v *clothBoard) DragEnd() { v.letGo() }

func (v *clothBoard) letGo() {
	if v.down {
		v.down = false
		v.keep()
	}
}

// keep keeps how the pieces lie now, or says why it cannot be kept.
func (v *clothBoard) keep() {
	changed, err := v.board.Keep()
	v.after(nil)
	if changed || err != nil {
		v.done(err)
	}
}

// after shows what a pointer or key did.
func (v *clothBoard) after(err error) {
	v.refresh()
	v.told()
	if err != nil {
		v.done(err)
	}
}

// FocusGained shows where the keys go.
func (v *clothBoard) FocusGained() {
	v.ring.StrokeColor = v.w.palette.Accent
	v.ring.Refresh()
}

// FocusLost no longer does.
func (v *clothBoard) FocusLost() {
	v.ring.StrokeColor = color.Transparent
	v.ring.Refresh()
}

// TypedRune chooses the next piece or the one before, or takes up a tool.
func (v *clothBoard) TypedRune(r rune) {
	switch r {
	case 'n', 'N':
		v.press(tool.Key{Name: tool.Next})
	case 'p', 'P':
		v.press(tool.Key{Name: tool.Previous})
	}
}

// TypedKey moves the chosen piece; Enter keeps it there, Escape gives up.
func (v *clothBoard) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		v.keep()
	case fyne.KeyEscape:
		if v.board.Cancel() {
			v.down = false
			v.after(nil)
			return
		}
		v.w.backOut()
	default:
		v.arrow(e.Name, v.w.pushes().held(v.w.modifiers()))
	}
}

// TypedShortcut takes the fine arrows, which arrive as shortcuts, and leaves
// the others to the window.
func (v *clothBoard) TypedShortcut(s fyne.Shortcut) { v.w.fineArrow(s, v.arrow) }

// acrossArrows are the arrows on cloth that is shown with its selvedges up and
// down.
var acrossArrows = map[fyne.KeyName]tool.KeyName{
	fyne.KeyRight: tool.Up, fyne.KeyLeft: tool.Down, fyne.KeyDown: tool.Right, fyne.KeyUp: tool.Left, fyne.KeySpace: tool.Choose,
}

func (v *clothBoard) arrow(name fyne.KeyName, by float64) bool {
	k, ok := arrows[name]
	if v.cloth.Lace == nil {
		k, ok = acrossArrows[name]
	}
	if ok {
		v.press(tool.Key{Name: k, Step: by})
	}
	return ok
}

func (v *clothBoard) press(k tool.Key) {
	known, err := v.board.Key(k)
	if known {
		v.after(err)
	}
}

package window

import (
	"slices"

	"fyne.io/fyne/v2"
)

// field is what is typed into beside the mat.
type field interface {
	fyne.Focusable
	unkept() bool
	done(typed string)
}

// tabs lets Tab go on from what is typed into within an object.
func (c *column) tabs(o fyne.CanvasObject) {
	for _, f := range reachable(o) {
		switch f := f.(type) {
		case *dial:
			f.tab = func() { c.tab(f, f.Text) }
		case *entry:
			f.tab = func() { c.tab(f, f.Text) }
		}
	}
}

// tab keeps what was typed into a field, for which the column may be made anew, and
// goes on to what comes next there, with Shift to what comes before; what is refused
// stays in its field to be mended.
func (c *column) tab(from field, typed string) {
	canvas, by := c.w.win.Canvas(), 1
	if c.w.modifiers()&fyne.KeyModifierShift != 0 {
		by = -1
	}
	all := reachable(c.list)
	at := slices.Index(all, fyne.Focusable(from))
	if to := at + by; !from.unkept() || at < 0 || to < 0 || to >= len(all) {
		if by < 0 {
			canvas.FocusPrevious()
		} else {
			canvas.FocusNext()
		}
		return
	}
	next, was := all[at+by], c.wrong
	from.done(typed) // while it has the keys, which are then in its like
	if c.wrong != nil && c.wrong != was {
		return
	}
	now := reachable(c.list)
	if i := again(now, next, at+by); i >= 0 {
		canvas.Focus(now[i])
	}
}

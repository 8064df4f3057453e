package window

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// thriceWithin is the longest time between two presses that belong together.
const thriceWithin = 400 * time.Millisecond

// presses counts those that follow each other quickly. The toolkit tells the
// third from a new one only when it has seen to the second before it, which a
// busy window has not.
type presses struct {
	n  int
	at time.Time
}

// add counts a press and reports whether it is the third.
func (p *presses) add(now time.Time) bool {
	if now.Sub(p.at) > thriceWithin {
		p.n = 0
	}
	p.n, p.at = p.n+1, now
	return p.n == 3
}

// MouseDown puts the cursor where it was pressed; a third press selects all.
func (e *entry) MouseDown(m *desktop.MouseEvent) {
	e.Entry.MouseDown(m)
	if m.Button == desktop.MouseButtonPrimary && e.presses.add(time.Now()) {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// DoubleTapped selects a word, unless a third press came meanwhile.
func (e *entry) DoubleTapped(p *fyne.PointEvent) {
	e.Entry.DoubleTapped(p)
	if e.presses.n >= 3 {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

package window

import (
	"os"
	"path/filepath"

	"fyne.io/fyne/v2/container"
)

// offerLast offers beside the mat the file that was worked on last, after a
// start without one.
func (w *Window) offerLast() {
	if w.later || w.desk.Path() != "" || w.sheet != nil {
		return
	}
	if w.lastFile = w.lastWork(); w.lastFile != "" {
		w.column.refresh()
	}
}

// lastWork is the file that was worked on last before the one that is open, of
// those that are still there; "" for none.
func (w *Window) lastWork() string {
	open := w.desk.Path()
	if abs, err := filepath.Abs(open); err == nil && open != "" {
		open = abs
	}
	for _, path := range w.set.StringList(prefRecent) {
		if _, err := os.Stat(path); err == nil && path != open {
			return path
		}
	}
	return ""
}

// lastTime shows the offer until something else lies on the mat or is done there.
func (c *column) lastTime() {
	w := c.w
	if w.lastFile == "" || w.desk.Path() != "" || len(w.desk.Document().Recipe) > 0 {
		return
	}
	c.heading("Last time")
	c.note("You worked on "+filepath.Base(w.lastFile)+". What lies here now is our demo bra.", w.palette.Text)
	b := w.button("Open "+shortened(filepath.Base(w.lastFile), columnInner-90, normal), true, func() {
		path := w.lastFile
		w.leave(func() { w.openPath(path) })
	})
	b.name = "open last"
	c.add(container.New(line{}, b))
	c.note("Ctrl+Shift+O opens it too.", w.palette.Faint)
}

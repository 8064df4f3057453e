package window

import "fyne.io/fyne/v2"

// The size of the window in units as it was left.
const (
	prefWide = "window wide"
	prefTall = "window tall"
)

// Sizes in units between which a window that was left can be taken up again.
var (
	firstSize = fyne.NewSize(1280, 800)
	leastSize = fyne.NewSize(600, 400)
	mostSize  = fyne.NewSize(8000, 8000)
)

// left is the size in which the window was left, at first one for a small screen.
func (w *Window) left() fyne.Size {
	s := fyne.NewSize(float32(w.set.Float(prefWide)), float32(w.set.Float(prefTall)))
	if s.Width < leastSize.Width || s.Height < leastSize.Height || s.Width > mostSize.Width || s.Height > mostSize.Height {
		return firstSize
	}
	return s
}

// keepSize keeps the size for the next start.
func (w *Window) keepSize() {
	s := w.win.Canvas().Size()
	w.set.SetFloat(prefWide, float64(s.Width))
	w.set.SetFloat(prefTall, float64(s.Height))
}

package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// clicked is how many times farther a click of the wheel rolls a long
// column than the toolkit would, which goes less than two lines.
const clicked = 3

// roll is a column that rolls up and down.
type roll struct{ container.Scroll }

func newRoll(content fyne.CanvasObject) *roll {
	r := &roll{container.Scroll{Direction: container.ScrollVerticalOnly, Content: content}}
	r.ExtendBaseWidget(r)
	return r
}

// rollTo rolls a part to a place, and shows what is to be seen there: of this the
// toolkit tells only when the wheel or the bar was used.
func rollTo(s *container.Scroll, to fyne.Position) {
	s.ScrollToOffset(to)
	veil(s)
}

// Resize shows as much as there is room for.
func (r *roll) Resize(size fyne.Size) {
	r.Scroll.Resize(size)
	veil(&r.Scroll)
}

// Scrolled rolls by the wheel.
func (r *roll) Scrolled(e *fyne.ScrollEvent) {
	far := *e
	far.Scrolled.DY *= clicked
	r.Scroll.Scrolled(&far)
}

package window

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// optionList is the open list of a choice, over the window. It rolls along with
// the keys where it is longer than there is room for.
type optionList struct {
	widget.BaseWidget
	on    fyne.Canvas
	over  *listGround
	rows  []*optionRow
	roll  *container.Scroll
	lit   int       // -1 for none
	shows func(int) // shows what the option that is lit would do; may be nil
	takes func(int)
	gone  func() // when it closes, before what was taken is; may be nil
}

// listGround lies over the window while a list is open; a press on it closes it.
type listGround struct {
	widget.BaseWidget
	list *optionList
}

// optionRow is one option.
type optionRow struct {
	widget.BaseWidget
	list  *optionList
	i     int
	back  *canvas.Rectangle
	words *canvas.Text
}

var (
	_ fyne.Focusable    = (*optionList)(nil)
	_ fyne.Tappable     = (*listGround)(nil)
	_ fyne.Tappable     = (*optionRow)(nil)
	_ desktop.Hoverable = (*optionRow)(nil)
)

func newOptionList(on fyne.Canvas, options []string, takes func(int)) *optionList {
	l := &optionList{on: on, lit: -1, takes: takes}
	box := container.New(stack{})
	for i, o := range options {
		r := &optionRow{list: l, i: i, back: canvas.NewRectangle(color.Transparent), words: canvas.NewText(o, theme.Color(theme.ColorNameForeground))}
		r.back.CornerRadius = theme.Size(theme.SizeNameSelectionRadius)
		r.words.TextSize = normal
		r.ExtendBaseWidget(r)
		l.rows = append(l.rows, r)
		box.Add(r)
	}
	l.roll = container.NewVScroll(box)
	l.ExtendBaseWidget(l)
	l.over = &listGround{list: l}
	l.over.ExtendBaseWidget(l.over)
	return l
}

// CreateRenderer lays the options on their ground.
func (l *optionList) CreateRenderer() fyne.WidgetRenderer {
	ground := canvas.NewRectangle(theme.Color(theme.ColorNameMenuBackground))
	ground.StrokeWidth, ground.StrokeColor = 1, theme.Color(theme.ColorNameInputBorder)
	return widget.NewSimpleRenderer(container.New(layered{}, ground, l.roll))
}

// MinSize shows all options.
func (l *optionList) MinSize() fyne.Size { return l.roll.Content.MinSize() }

// show opens it.
func (l *optionList) show(at fyne.Position, size fyne.Size) {
	l.over.Resize(l.on.Size())
	l.Move(at)
	l.Resize(size)
	l.on.Overlays().Add(l.over)
	l.on.Focus(l)
}

// close leaves it and takes nothing.
func (l *optionList) close() {
	l.on.Overlays().Remove(l.over)
	if l.gone != nil {
		l.gone()
	}
}

func (l *optionList) take(i int) {
	l.close()
	l.takes(i)
}

// light marks an option, and rolls it into view.
func (l *optionList) light(i int) {
	if i == l.lit || i < 0 || i >= len(l.rows) {
		return
	}
	if l.lit >= 0 {
		l.rows[l.lit].mark(false)
	}
	l.lit = i
	r := l.rows[i]
	r.mark(true)
	top, y := r.Position().Y, l.roll.Offset.Y
	if end := top + r.Size().Height - l.roll.Size().Height; y < end {
		y = end
	}
	l.roll.ScrollToOffset(fyne.NewPos(0, min(y, top)))
}

// point lights an option and shows what it would do.
func (l *optionList) point(i int) {
	if i != l.lit {
		l.light(i)
		if l.shows != nil {
			l.shows(i)
		}
	}
}

// AcceptsTab keeps Tab, for which there is nowhere to go.
func (l *optionList) AcceptsTab() bool { return true }

// FocusGained is for the toolkit.
func (l *optionList) FocusGained() {}

// FocusLost is for the toolkit.
func (l *optionList) FocusLost() {}

// TypedRune has no use for letters.
func (l *optionList) TypedRune(rune) {}

// TypedKey goes up and down the options, takes one with Enter or Space, and
// leaves the list with Escape.
func (l *optionList) TypedKey(e *fyne.KeyEvent) {
	last := len(l.rows) - 1
	switch e.Name {
	case fyne.KeyDown:
		l.point(min(l.lit+1, last))
	case fyne.KeyUp:
		l.point(max(l.lit-1, 0))
	case fyne.KeyHome:
		l.point(0)
	case fyne.KeyEnd:
		l.point(last)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		if l.lit < 0 {
			l.close()
			return
		}
		l.take(l.lit)
	case fyne.KeyEscape:
		l.close()
	}
}

// CreateRenderer is for the toolkit.
func (g *listGround) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout(g.list))
}

// Tapped closes the list.
func (g *listGround) Tapped(*fyne.PointEvent) { g.list.close() }

// CreateRenderer lays the words on their ground.
func (r *optionRow) CreateRenderer() fyne.WidgetRenderer {
	pad := theme.Size(theme.SizeNameInnerPadding)
	return widget.NewSimpleRenderer(container.New(inset{pad, pad}, r.back, r.words))
}

func (r *optionRow) mark(lit bool) {
	if r.back.FillColor = color.Transparent; lit {
		r.back.FillColor = theme.Color(theme.ColorNameFocus)
	}
	r.back.Refresh()
}

// MouseIn lights it.
func (r *optionRow) MouseIn(*desktop.MouseEvent) { r.list.point(r.i) }

// MouseMoved is for the toolkit.
func (r *optionRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is for the toolkit: it stays lit for the keys.
func (r *optionRow) MouseOut() {}

// Tapped takes it.
func (r *optionRow) Tapped(*fyne.PointEvent) { r.list.take(r.i) }

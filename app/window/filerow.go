package window

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// fileRow is a folder or file in a list; the keys stay with the field beneath.
type fileRow struct {
	widget.BaseWidget
	page *filePage
	i    int
	back *canvas.Rectangle
	body fyne.CanvasObject
	over bool
}

var (
	_ fyne.Tappable      = (*fileRow)(nil)
	_ desktop.Hoverable  = (*fileRow)(nil)
	_ desktop.Cursorable = (*fileRow)(nil)
)

func newFileRow(p *filePage, i int, f found) *fileRow {
	sign, name, when := p.faceOf(f)
	c := p.w.palette
	wide := p.width - placesWide - 16
	whenText := text(when, small, false, c.Faint)
	room := wide - whenText.MinSize().Width - 84
	face := container.New(ends{}, container.New(line{gap: 8}, icon(sign, c.Faint, 18), text(shortened(name, room, normal), normal, false, c.Text)), whenText)
	r := &fileRow{page: p, i: i, back: canvas.NewRectangle(color.Transparent), body: face}
	r.back.CornerRadius = 4
	r.ExtendBaseWidget(r)
	r.paint()
	return r
}

// CreateRenderer lays the face on its ground.
func (r *fileRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(inset{12, 0}, r.back, r.body))
}

// MinSize is as tall as every row.
func (r *fileRow) MinSize() fyne.Size { return fyne.NewSize(r.BaseWidget.MinSize().Width, rowTall) }

func (r *fileRow) paint() {
	c := r.page.w.palette
	r.back.FillColor, r.back.StrokeWidth, r.back.StrokeColor = color.Transparent, 0, color.Transparent
	switch {
	case r.i == r.page.at:
		r.back.FillColor, r.back.StrokeWidth, r.back.StrokeColor = c.Soft, 1, c.Accent
	case r.over:
		r.back.FillColor = c.Ground
	}
	r.back.Refresh()
}

// Tapped chooses or opens it.
func (r *fileRow) Tapped(*fyne.PointEvent) { r.page.tap(r.i) }

// MouseIn marks it.
func (r *fileRow) MouseIn(*desktop.MouseEvent) { r.over = true; r.paint() }

// MouseMoved does nothing.
func (r *fileRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut unmarks it.
func (r *fileRow) MouseOut() { r.over = false; r.paint() }

// Cursor is a hand.
func (r *fileRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// nameField is where a name is typed; the keys that move in a list move in
// the list above it.
type nameField struct {
	widget.Entry
	page  *filePage
	quiet bool
}

func newNameField(p *filePage) *nameField {
	n := &nameField{page: p}
	n.ExtendBaseWidget(n)
	n.Scroll = fyne.ScrollNone
	n.OnSubmitted = func(string) { p.enough() }
	n.OnChanged = func(string) {
		if n.quiet {
			return
		}
		p.say(nil)
		if !p.saving {
			p.sift()
			return
		}
		if was := p.at; was >= 0 {
			p.at = -1
			p.list.Objects[was].(*fileRow).paint()
		}
	}
	return n
}

// put shows a name that was not typed.
func (n *nameField) put(s string) {
	n.quiet = true
	n.SetText(s)
	n.quiet = false
}

// rowsOfAPage is how far a page up or down goes.
const rowsOfAPage = 8

// TypedKey moves in the list, goes up from an empty field, and backs out.
func (n *nameField) TypedKey(k *fyne.KeyEvent) {
	p := n.page
	switch k.Name {
	case fyne.KeyUp:
		p.step(-1)
	case fyne.KeyDown:
		p.step(1)
	case fyne.KeyPageUp:
		p.step(-rowsOfAPage)
	case fyne.KeyPageDown:
		p.step(rowsOfAPage)
	case fyne.KeyEscape:
		p.w.backOut()
	case fyne.KeyBackspace:
		if n.Text == "" && !p.saving {
			p.row(0)
			return
		}
		n.Entry.TypedKey(k)
	default:
		n.Entry.TypedKey(k)
	}
}

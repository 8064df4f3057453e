package window

import (
	"errors"
	"fmt"
	"image/color"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"truemat/ops/cloth/order"
	"truemat/ops/unit"
)

const (
	actNumber = 30 // width of the number of an act
	actLetter = 22 // of the letter of its seam
	actGap    = 2
	actRim    = 12 // right of the rows, so that the ring of the keys shows
)

// actRow is an act of the order of sewing: dragged up or down, or moved by the
// arrows while it has the keys, it changes places.
type actRow struct {
	touch
	list  *actList
	at    int     // its place, from 0
	drawn float32 // how far it is dragged, in units
	drags bool
}

// actList is the order of sewing, row by row.
type actList struct {
	w    *Window
	acts []order.Act
	told []order.Told
	rows []*actRow
	box  *fyne.Container
	mark *canvas.Rectangle // where a dragged act would come to lie
	held *actRow           // by the pointer
	// Below the act that could not be moved it is told why.
	refused *actRow
	why     *fyne.Container
}

var _ fyne.Draggable = (*actRow)(nil)

func (w *Window) actList(told []order.Told, letters map[string]string) fyne.CanvasObject {
	l := &actList{w: w, told: told, mark: canvas.NewRectangle(w.palette.Accent), why: container.New(stack{})}
	l.mark.Hide()
	l.box = container.New(&actRows{l})
	for i, t := range told {
		l.acts = append(l.acts, t.Act)
		letter := ""
		if t.Kind == order.Join {
			letter = letters[t.Seam]
		}
		wide := w.cloths.wide - actRim - actNumber - actLetter - 8 - 16
		said := container.New(stack{gap: 2}, para(unit.Restate(t.Sentence, w.unit), wide, normal, false, w.palette.Text))
		for _, b := range t.Broken {
			said.Add(para(unit.Restate(b, w.unit), wide, normal, false, w.palette.Poor))
		}
		body := container.New(across{[]float32{actNumber, actLetter}, 4},
			text(fmt.Sprint(i+1), normal, true, w.palette.Faint), text(letter, normal, true, w.palette.Accent), said)
		r := &actRow{touch: touch{palette: w.palette, body: body, fill: color.Transparent, padX: 8, padY: 4, back: canvas.NewRectangle(color.Transparent)}, list: l, at: i}
		r.back.CornerRadius = 6
		r.ExtendBaseWidget(r)
		r.tap = func() { w.win.Canvas().Focus(r) }
		r.name = "act " + t.ID
		r.arrows = func(k fyne.KeyName) {
			switch k {
			case fyne.KeyUp:
				l.move(r.at, r.at-1)
			case fyne.KeyDown:
				l.move(r.at, r.at+1)
			}
		}
		r.paint()
		l.rows = append(l.rows, r)
		l.box.Add(r)
	}
	l.box.Add(l.why)
	l.box.Add(l.mark)
	return l.box
}

// FocusGained shows where the keys go.
func (r *actRow) FocusGained() {
	r.focus = true
	r.paint()
	r.reveal(r)
}

// FocusLost no longer does.
func (r *actRow) FocusLost() {
	r.focus = false
	r.paint()
}

// TypedRune does nothing.
func (r *actRow) TypedRune(rune) {}

// TypedKey moves it with the arrows; Escape leaves the page.
func (r *actRow) TypedKey(e *fyne.KeyEvent) {
	if e.Name != fyne.KeyEscape {
		r.touch.TypedKey(e)
		return
	}
	c := r.list.w.win.Canvas()
	c.Unfocus()
	if back := c.OnTypedKey(); back != nil {
		back(e)
	}
}

// Cursor shows that it can be drawn up and down.
func (r *actRow) Cursor() desktop.Cursor { return desktop.VResizeCursor }

// MouseIn marks it, unless another one is held.
func (r *actRow) MouseIn(e *desktop.MouseEvent) {
	if r.list.held == nil {
		r.touch.MouseIn(e)
	}
}

// take shows that it is held, or no longer.
func (r *actRow) take(held bool) {
	l := r.list
	l.held, r.fill = nil, color.Transparent
	if held {
		l.held, r.fill = r, r.palette.Soft
		l.tell(nil, nil)
		for _, o := range l.rows {
			o.over = false
			o.paint()
		}
	}
	r.paint()
}

// Dragged shows where the act would come to lie.
func (r *actRow) Dragged(e *fyne.DragEvent) {
	if !r.drags {
		r.take(true)
	}
	r.drags = true
	r.drawn += e.Dragged.DY
	edge := float32(0)
	to := r.list.under(r)
	switch {
	case to < r.at:
		edge = r.list.rows[to].Position().Y
	case to > r.at:
		edge = r.list.rows[to].Position().Y + r.list.rows[to].Size().Height
	default:
		r.list.mark.Hide()
		return
	}
	r.list.mark.Move(fyne.NewPos(0, edge-1))
	r.list.mark.Resize(fyne.NewSize(r.Size().Width, 2))
	r.list.mark.Show()
	r.list.mark.Refresh()
}

// DragEnd moves the act there.
func (r *actRow) DragEnd() {
	if !r.drags {
		return
	}
	to := r.list.under(r)
	r.drags, r.drawn = false, 0
	r.take(false)
	r.list.mark.Hide()
	r.list.move(r.at, to)
}

// under returns the place whose row lies under the middle of a dragged one.
func (l *actList) under(r *actRow) int {
	middle := r.Position().Y + r.Size().Height/2 + r.drawn
	best, far := r.at, float32(math.Inf(1))
	for i, o := range l.rows {
		if d := float32(math.Abs(float64(o.Position().Y + o.Size().Height/2 - middle))); d < far {
			best, far = i, d
		}
	}
	return best
}

// move puts an act to another place, as one change, and says why when it
// cannot come there.
func (l *actList) move(from, to int) {
	if to == from || to < 0 || to >= len(l.acts) {
		return
	}
	next, err := order.Moved(l.acts, l.acts[from].ID, to)
	if err != nil {
		l.tell(l.rows[from], err)
		return
	}
	l.w.sewIn(order.IDs(next), l.acts[from].ID)
}

// tell says below an act why it was not moved; with none it says nothing.
func (l *actList) tell(r *actRow, err error) {
	l.refused = r
	l.why.RemoveAll()
	if err != nil {
		said := sentence(err)
		if e, ok := errors.AsType[*order.TooEarly](err); ok {
			said = fmt.Sprintf("It stays: %s must come after %s, which it runs across or covers.", l.named(e.Act), l.named(e.Needs))
		}
		l.why.Add(container.New(inset{actNumber + actLetter + 16, 2}, gap(0, 0), para(said, l.w.cloths.wide-actRim-actNumber-actLetter-40, normal, false, l.w.palette.Poor)))
	}
	l.box.Refresh()
	l.w.cloths.part.Refresh()
	l.w.cloths.roll.Refresh()
	if r != nil {
		r.reveal(r)
		r.reveal(l.why)
	}
}

// named calls an act by its number in the list and what is done.
func (l *actList) named(a order.Act) string {
	i := slices.IndexFunc(l.told, func(t order.Told) bool { return t.ID == a.ID })
	if i < 0 {
		return a.ID
	}
	words, _, _ := strings.Cut(unit.Restate(l.told[i].Title, l.w.unit), ": ")
	return fmt.Sprintf("number %d (%s)", i+1, words)
}

// sewIn keeps the order of sewing, or with none takes hers back, and gives the
// keys to an act.
func (w *Window) sewIn(ids []string, focus string) {
	g := w.desk.Goods()
	g.Order = slices.Clone(ids)
	if err := w.desk.SetGoods(g); err != nil {
		w.cloths.say(err)
		return
	}
	w.cloths.say(nil)
	if w.cloths == nil || !w.cloths.sheet.open() {
		return
	}
	for _, f := range reachable(w.cloths.part) {
		if r, ok := f.(*actRow); ok && r.name == "act "+focus {
			w.win.Canvas().Focus(r)
		}
	}
}

// actRows lays the rows of acts below each other; the mark lies where it was put.
type actRows struct{ l *actList }

func (a *actRows) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, r := range a.l.rows {
		h := up(r.MinSize().Height)
		r.Move(fyne.NewPos(0, y))
		r.Resize(fyne.NewSize(min(size.Width, a.l.w.cloths.wide-actRim), h))
		y += h + actGap
		if r == a.l.refused {
			h := up(a.l.why.MinSize().Height)
			lay(a.l.why, fyne.NewPos(0, y), fyne.NewSize(size.Width, h))
			y += h + actGap
		}
	}
}

func (a *actRows) MinSize([]fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, r := range a.l.rows {
		s := r.MinSize()
		m = fyne.NewSize(max(m.Width, s.Width), m.Height+up(s.Height)+actGap)
	}
	if a.l.refused != nil {
		m.Height += up(a.l.why.MinSize().Height) + actGap
	}
	return m
}

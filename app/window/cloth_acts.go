package window

import (
	"fmt"
	"image/color"
	"math"
	"slices"

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
	rows []*actRow
	box  *fyne.Container
	mark *canvas.Rectangle // where a dragged act would come to lie
}

var _ fyne.Draggable = (*actRow)(nil)

func (w *Window) actList(told []order.Told, letters map[string]string) fyne.CanvasObject {
	l := &actList{w: w, mark: canvas.NewRectangle(w.palette.Accent)}
	l.mark.Hide()
	l.box = container.New(&actRows{l})
	for i, t := range told {
		l.acts = append(l.acts, t.Act)
		letter := ""
		if t.Kind == order.Join {
			letter = letters[t.Seam]
		}
		body := container.New(across{[]float32{actNumber, actLetter}, 4},
			text(fmt.Sprint(i+1), normal, true, w.palette.Faint), text(letter, normal, true, w.palette.Accent),
			para(unit.Restate(t.Sentence, w.unit), w.cloths.wide-actRim-actNumber-actLetter-8-16, normal, false, w.palette.Text))
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

// Dragged shows where the act would come to lie.
func (r *actRow) Dragged(e *fyne.DragEvent) {
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
		l.w.cloths.say(err)
		return
	}
	l.w.sewIn(order.IDs(next), l.acts[from].ID)
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
	}
}

func (a *actRows) MinSize([]fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for _, r := range a.l.rows {
		s := r.MinSize()
		m = fyne.NewSize(max(m.Width, s.Width), m.Height+up(s.Height)+actGap)
	}
	return m
}

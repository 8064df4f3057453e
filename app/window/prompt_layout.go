package window

import "fyne.io/fyne/v2"

// promptTop lays out the hint, in one line or several, and the live measure.
type promptTop struct{ p *prompt }

// hintRoom is how many lines beyond the first the hint has room for, so that the
// mat and the column do not change with every number that is typed: one while
// there are fields of an act or something waits to be accepted, and as many as it
// had since there are these fields.
type hintRoom struct {
	further, width float32
}

func (r *hintRoom) hold(busy, others bool, width, lines float32) {
	switch {
	case !busy:
		r.further = lines
	case others || width != r.width:
		r.further = max(lines, 1)
	default:
		r.further = max(r.further, lines, 1)
	}
	r.width = width
}

const (
	topHeight  = 32 // with one line
	hintHeight = 20 // of a further line
)

func (promptTop) Layout(o []fyne.CanvasObject, size fyne.Size) {
	live := o[1].MinSize()
	lay(o[0], fyne.NewPos(promptPad, 10), fyne.NewSize(size.Width-live.Width-3*promptPad, o[0].MinSize().Height))
	lay(o[1], fyne.NewPos(down(size.Width-live.Width-promptPad), 11), fyne.NewSize(live.Width, live.Height))
	for i, t := range o[2:] {
		lay(t, fyne.NewPos(promptPad, 12+hintHeight*float32(i+1)), fyne.NewSize(size.Width-2*promptPad, t.MinSize().Height))
	}
}

func (t promptTop) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(300, topHeight+hintHeight*t.p.room.further)
}

// promptRow lays out fields, what is wrong, and the acts.
type promptRow struct{ p *prompt }

const (
	rowHeight   = 48 // with one line of fields
	secondRow   = 38 // more with two
	wrongHeight = 28
	moreHeight  = 20
)

// over is the height of what is wrong, when it stands over the fields: they and
// the acts stay where they are, at the tray. It begins in lines of the hint that
// are free. Where there are neither fields nor acts it has their room.
func (p *prompt) over() float32 {
	if !p.above {
		return 0
	}
	tall := max(wrongHeight+moreHeight*filledLines(p.more)-p.unused(), 0)
	if len(p.fields.Objects) == 0 && len(p.turns.Objects) == 0 && !p.filled {
		return max(tall-rowHeight, 0)
	}
	return tall
}

// unused is the height of the lines that the hint has room for and does not fill.
func (p *prompt) unused() float32 { return hintHeight * (p.room.further - filledLines(p.hints)) }

func (r promptRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	f, wrong, turns, a := o[0].MinSize(), o[1].MinSize(), o[2].MinSize(), o[3].MinSize()
	top := r.p.over()
	centre := func(c fyne.CanvasObject, x, w, h, top float32) {
		lay(c, fyne.NewPos(down(x), top+down((size.Height-top-h)/2)), fyne.NewSize(w, h))
	}
	centre(o[0], promptPad, f.Width, f.Height, top)
	x := promptPad + f.Width
	if f.Width > 0 {
		x += promptPad
	}
	if r.p.above {
		at := 6 - r.p.unused()
		lay(o[1], fyne.NewPos(promptPad, at), wrong)
		for i, t := range o[5:] {
			lay(t, fyne.NewPos(promptPad, at+moreHeight*float32(i+1)), t.MinSize())
		}
	} else {
		centre(o[1], x, wrong.Width, wrong.Height, top)
	}
	centre(o[3], size.Width-a.Width-promptPad, a.Width, a.Height, size.Height-rowHeight)
	centre(o[2], size.Width-a.Width-turns.Width-2*promptPad, turns.Width, turns.Height, size.Height-rowHeight)
	lay(o[4], fyne.NewPos(promptPad, 4), o[4].MinSize())
}

func (r promptRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(300, max(rowHeight, o[0].MinSize().Height+12)+r.p.over())
}

package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// clothPartSuits tells whether cloths and elastics suit the pieces.
func (w *Window) clothPartSuits() fyne.CanvasObject {
	box := container.New(stack{gap: 10})
	for _, c := range w.desk.Suits() {
		box.Add(container.New(beside{}, icon(string(c.Verdict), w.column.ink(c.Verdict), 18), para(c.Text, w.cloths.wide-44, normal, false, w.palette.Text)))
	}
	if len(box.Objects) == 0 {
		box.Add(para("Nothing can be looked at before it is said which pieces are cut from which cloth.", w.cloths.wide-20, normal, false, w.palette.Text))
	}
	return box
}

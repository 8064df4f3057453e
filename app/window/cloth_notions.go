package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/unit"
)

// clothPartNotions is where elastics and notions are stated.
func (w *Window) clothPartNotions() fyne.CanvasObject {
	box := container.New(stack{gap: 6}, w.clothHead("Elastics"))
	for _, e := range w.desk.Goods().Elastics {
		cut, err := e.Cut(w.desk.Pattern())
		if err != nil {
			box.Add(para(sentence(err), w.cloths.wide-20, normal, false, w.palette.Poor))
			continue
		}
		box.Add(w.clothRow(e.Name, fmt.Sprintf("cut %s for %s of %s", unit.Format(cut.Length, w.unit), unit.Format(cut.Run, w.unit), e.Line)))
	}
	return box
}

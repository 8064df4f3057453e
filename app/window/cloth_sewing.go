package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth/order"
)

// clothPartSewing tells in which order the garment is sewn.
func (w *Window) clothPartSewing() fyne.CanvasObject {
	p, g := w.desk.Pattern(), w.desk.Goods()
	box := container.New(stack{gap: 6}, w.clothHead("In which order it is sewn"))
	acts, err := order.Sorted(order.Acts(p, g), g.Order)
	if err != nil {
		box.Add(para(sentence(err), w.cloths.wide-20, normal, false, w.palette.Poor))
		return box
	}
	for i, a := range acts {
		box.Add(container.New(beside{}, container.New(atWidth{26}, text(fmt.Sprint(i+1), normal, true, w.palette.Faint)), para(order.Sentence(p, g, a), w.cloths.wide-50, normal, false, w.palette.Text)))
	}
	return box
}

package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/unit"
)

// clothPartBuy is the list to shop from.
func (w *Window) clothPartBuy() fyne.CanvasObject {
	box := container.New(stack{gap: 6}, w.clothHead("To buy besides cloth"))
	list, err := w.desk.Goods().ShoppingList(w.desk.Pattern())
	if err != nil {
		box.Add(para(sentence(err), w.cloths.wide-20, normal, false, w.palette.Poor))
	}
	for _, b := range list {
		amount := b.Metric + " or " + b.Yards
		if b.Metric == "" {
			amount = fmt.Sprintf("%d of %s", b.Count, unit.Format(b.Length, w.unit))
		}
		box.Add(w.clothRow(amount, b.What))
	}
	return box
}

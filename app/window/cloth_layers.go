package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// clothPartLayers says which piece is cut from which cloths.
func (w *Window) clothPartLayers() fyne.CanvasObject {
	box := container.New(stack{gap: 6}, w.clothHead("Layers, the outermost first"))
	for _, m := range w.desk.Goods().Made {
		box.Add(w.clothRow(m.Piece, strings.Join(m.Cloths, ", then ")))
	}
	return box
}

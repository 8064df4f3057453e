package window

import "fyne.io/fyne/v2"

// lastOnTop is a stack whose last object stands above the others.
type lastOnTop struct{ stack }

func (l lastOnTop) Layout(o []fyne.CanvasObject, size fyne.Size) { l.stack.Layout(l.turned(o), size) }
func (l lastOnTop) MinSize(o []fyne.CanvasObject) fyne.Size      { return l.stack.MinSize(o) }

func (lastOnTop) turned(o []fyne.CanvasObject) []fyne.CanvasObject {
	return append([]fyne.CanvasObject{o[len(o)-1]}, o[:len(o)-1]...)
}

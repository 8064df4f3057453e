package window

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

func rule(c color.Color) fyne.CanvasObject {
	r := canvas.NewRectangle(c)
	r.SetMinSize(fyne.NewSize(1, 1))
	return r
}

// shell lays out the window: the bottom at its height, the column at its
// width, and the mat in what is left.
type shell struct{ w *Window }

func (s shell) Layout(o []fyne.CanvasObject, size fyne.Size) {
	bottom, side := up(o[1].MinSize().Height), o[2].MinSize().Width
	s.w.mat.Spare(s.w.prompt.spare())
	o[0].Move(fyne.Position{})
	o[0].Resize(fyne.NewSize(size.Width-side, size.Height-bottom+s.w.prompt.extra()))
	bottom = up(o[1].MinSize().Height) // another width breaks the hint into other lines
	o[1].Move(fyne.NewPos(0, size.Height-bottom))
	o[1].Resize(fyne.NewSize(size.Width, bottom))
	o[2].Move(fyne.NewPos(size.Width-side, 0))
	o[2].Resize(fyne.NewSize(side, size.Height-bottom))
}

// MinSize does not count what the line above the tray and its fields take
// beyond the usual, so that the window never grows by itself; it is less than
// 640 by 400, half of the smallest screen.
func (s shell) MinSize(o []fyne.CanvasObject) fyne.Size {
	mat := o[0].MinSize() // a clip lays out what it holds once it was asked this
	return fyne.NewSize(600, o[1].MinSize().Height-s.w.prompt.extra()+max(mat.Height, 150))
}

// overMat lays out what lies below the mat on a ground that hides the mat where
// it reaches over it; elsewhere the window has that colour of itself, and every
// picture would be filled with it twice.
type overMat struct{ prompt *prompt }

func (l overMat) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(size.Width, max(l.prompt.extra(), 0)))
	o[1].Resize(size)
}

func (overMat) MinSize(o []fyne.CanvasObject) fyne.Size { return o[1].MinSize() }

// layered lays objects over each other, without the toolkit's padding.
type layered struct{}

func (layered) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for _, c := range o {
		c.Move(fyne.Position{})
		c.Resize(size)
	}
}

func (layered) MinSize(o []fyne.CanvasObject) (m fyne.Size) {
	for _, c := range o {
		m = m.Max(c.MinSize())
	}
	return m
}

// middle centres one object in width.
type middle struct{}

func (middle) Layout(o []fyne.CanvasObject, size fyne.Size) {
	m := o[0].MinSize()
	o[0].Move(fyne.NewPos(down(max((size.Width-m.Width)/2, 0)), 0))
	o[0].Resize(m)
}

// MinSize leaves the width open: what is in the middle fits itself to it.
func (middle) MinSize(o []fyne.CanvasObject) fyne.Size { return fyne.NewSize(0, o[0].MinSize().Height) }

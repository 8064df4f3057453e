package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// veil lets the words of a part that rolls be painted only where they are in
// view or nearly so. The toolkit paints all that such a part holds, seen or not,
// and draws every word that it has not painted before. What can have the keys
// stays reachable, and everything stays where it is: only paragraphs and what
// stands on a touch are hidden.
func veil(s *container.Scroll) {
	if s == nil || s.Size().Height == 0 {
		return
	}
	least := min(s.Size().Height-s.Content.Size().Height, 0) // the toolkit has yet to see that there is less to roll
	veilIn(s.Content, max(-s.Offset.Y, least), s.Size().Height)
}

// viewed is a layout that makes what it lays out when it comes into view, which
// is from y on and so high.
type viewed interface{ view(y, high float32) }

// followed is a layout after which something is done, such as to veil anew.
type followed struct {
	as   fyne.Layout
	then func()
}

func (f followed) Layout(o []fyne.CanvasObject, size fyne.Size) {
	f.as.Layout(o, size)
	f.then()
}

func (f followed) MinSize(o []fyne.CanvasObject) fyne.Size { return f.as.MinSize(o) }

// veilIn is veil for an object that lies y below the top of what is seen, which
// is so high.
func veilIn(o fyne.CanvasObject, y, high float32) {
	switch o := o.(type) {
	case interface{ face() fyne.CanvasObject }:
		unveil(o.face(), inView(o.(fyne.CanvasObject), y, high))
	case *fyne.Container:
		if v, ok := o.Layout.(viewed); ok {
			v.view(-y, high)
			return
		}
		_, paragraph := o.Layout.(fixed)
		for _, c := range o.Objects {
			if paragraph {
				unveil(c, inView(o, y, high))
			} else {
				veilIn(c, y+c.Position().Y, high)
			}
		}
	}
}

func inView(o fyne.CanvasObject, y, high float32) bool {
	return y+o.Size().Height > -veilMargin && y < high+veilMargin
}

func unveil(o fyne.CanvasObject, seen bool) {
	switch {
	case seen && !o.Visible():
		o.Show()
	case !seen && o.Visible():
		o.Hide()
	}
}

// veilMargin is how far out of view words are painted, in units, so that they
// are there when a roll shows them.
const veilMargin = 100

package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// The field of a step that was typed into stays where it is on the screen while
// checks above it come and go.
func TestAFieldOfAStepStaysWhereItIs(t *testing.T) {
	w := open(t, true)
	moved := 0
	for _, e := range w.desk.Document().Recipe {
		w.column.open = e.ID
		w.column.refresh()
		w.column.toStep(e.ID)
		field := func(name string) *dial {
			for _, f := range reachable(w.column.list) {
				if d, ok := f.(*dial); ok && (d.name == name || name == "") {
					return d
				}
			}
			return nil
		}
		d := field("")
		if d == nil {
			continue
		}
		for _, text := range []string{"40", "3", "12"} {
			w.win.Canvas().Focus(d)
			at := fyne.CurrentApp().Driver().AbsolutePositionForObject(d)
			tall := w.column.scroll.Content.MinSize().Height
			d.SetText(text)
			d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			if d = field(d.name); w.column.scroll.Content.MinSize().Height != tall {
				moved++
			}
			is := fyne.CurrentApp().Driver().AbsolutePositionForObject(d)
			most := w.column.scroll.Content.MinSize().Height - w.column.scroll.Size().Height
			if w.column.scroll.Offset.Y < most-1 { // else the column ends there
				require.Equal(t, at.Y, is.Y, "%s %s", d.name, text)
			}
		}
	}
	require.Positive(t, moved, "something came or went above")
}

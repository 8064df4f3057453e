package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// inView reports whether an object of the column is seen whole.
func (w *Window) inView(o fyne.CanvasObject) bool {
	s := w.column.scroll
	y, there := depth(s.Content, o)
	y -= s.Offset.Y
	return there && y >= 0 && y+o.Size().Height <= s.Size().Height
}

func TestWhatHasTheKeysIsSeenAlsoWhenTheColumnIsMadeAnew(t *testing.T) {
	w := open(t, true)
	w.win.Show()
	d := w.openStep(t, "true-underarm")
	w.win.Canvas().Focus(d)
	require.True(t, w.inView(d))
	pressed(d, fyne.KeyUp, fyne.KeyUp, fyne.KeyReturn)
	now, ok := w.win.Canvas().Focused().(*dial)
	require.True(t, ok)
	require.Equal(t, d.name, now.name)
	require.True(t, w.inView(now))

	// More is said above it from now on.
	w.column.full = true
	w.column.refresh()
	now, ok = w.win.Canvas().Focused().(*dial)
	require.True(t, ok)
	require.Equal(t, d.name, now.name)
	require.True(t, w.inView(now))
}

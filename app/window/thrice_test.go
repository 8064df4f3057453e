package window

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// Three quick presses select all of a field, also where the window saw to none of
// them before the next; one later puts the cursor.
func TestThreePressesSelectAllOfAField(t *testing.T) {
	test.NewTempApp(t)
	e := newEntry("flap lining", 110, func(string, bool) {}, func() {})
	win := test.NewTempWindow(t, e)
	win.Resize(fyne.NewSize(300, 60))
	press := func() {
		m := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(60, 12)}, Button: desktop.MouseButtonPrimary}
		e.MouseDown(m)
		e.MouseUp(m)
	}
	press()
	press()
	require.NotEqual(t, "flap lining", e.SelectedText())
	press()
	require.Equal(t, "flap lining", e.SelectedText())
	e.DoubleTapped(&fyne.PointEvent{Position: fyne.NewPos(60, 12)}) // told late
	require.Equal(t, "flap lining", e.SelectedText())
	var p presses
	now := time.Now()
	require.False(t, p.add(now))
	require.False(t, p.add(now.Add(thriceWithin/2)))
	require.True(t, p.add(now.Add(thriceWithin)))
	require.False(t, p.add(now.Add(3*thriceWithin)))
	require.Equal(t, 1, p.n)
}

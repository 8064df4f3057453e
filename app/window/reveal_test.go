package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/lesson"
	"truemat/geom"
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

func TestALessonThatBeginsIsSeen(t *testing.T) {
	w := open(t, false)
	w.mat.FitBox(geom.BoxOf(geom.Pt(900, 900)).Grow(20))
	w.column.scroll.ScrollToBottom()
	w.startOn(lesson.First())
	act, _ := w.lesson.Current()
	for _, at := range act.Where(w.desk.Pattern()) {
		require.True(t, w.mat.Sees(geom.BoxOf(at)))
	}
	w.mat.FitBox(geom.BoxOf(geom.Pt(900, 900)).Grow(20))
	w.doAct()
	act, _ = w.lesson.Current()
	for _, at := range act.Where(w.desk.Pattern()) {
		require.True(t, w.mat.Sees(geom.BoxOf(at)))
	}
}

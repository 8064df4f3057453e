package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// A number that is refused in the field of a step is told beside the field, in
// her unit, and above the tray, until it is mended or Escape is pressed.
func TestARefusedNumberOfAStepIsToldBesideItsFieldUntilItIsMended(t *testing.T) {
	w := open(t, false)
	w.setUnit(unit.Centimetres)
	require.NoError(t, w.desk.Accept(&step.Draw{Piece: "band", Name: "line", Points: []geom.Point{geom.Pt(0.3, 0.5), geom.Pt(0.5, 0.6), geom.Pt(0.7, 0.5)}}))
	const why = `Point 2 of "line" would lie 66.228 cm right of band; choose a place on it.`
	line := func() string { return strings.Join(texts(w.prompt.row), " ") }
	beside := func() string { return strings.Join(strings.Fields(strings.Join(texts(w.column.list), " ")), " ") }
	refuse := func() {
		t.Helper()
		d := dialOf(t, w, "points 1 x")
		w.win.Canvas().Focus(d)
		d.SetText("80 cm")
		d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		w.show()
		require.Contains(t, line(), why)
		require.Contains(t, beside(), why)
		now, ok := w.win.Canvas().Focused().(*dial)
		require.True(t, ok)
		require.Equal(t, "80 cm", now.Text)
		field, _ := depth(w.column.scroll.Content, now)
		told, there := depth(w.column.scroll.Content, w.column.refusal)
		require.True(t, there)
		require.Less(t, told-field, now.Size().Height+20, "right below it")
		require.LessOrEqual(t, told+w.column.refusal.Size().Height, w.column.scroll.Offset.Y+w.column.scroll.Size().Height, "in view")
	}
	refuse()
	w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.NotContains(t, line(), "would lie")
	require.NotContains(t, beside(), "would lie")
	refuse()
	d := w.win.Canvas().Focused().(*dial)
	d.SetText("8 cm")
	d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.NotContains(t, line(), "would lie")
	require.NotContains(t, beside(), "would lie")
}

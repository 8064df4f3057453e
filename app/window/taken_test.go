package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/ops/unit"
)

func types(e fyne.Focusable, s string) {
	for _, r := range s {
		e.TypedRune(r)
	}
}

// While half a centimetre is typed as 1/2, it is told at once that this is half
// an inch: in the tool's field, in the column, in a form and on a page.
func TestAFractionIsToldToBeInchesWhileItIsTyped(t *testing.T) {
	w := open(t, false)
	w.unit = unit.Centimetres
	w.show()
	const said = "1/2 is taken for inches: 1/2 in = 1.27 cm; for 0.5 cm write 0.5."

	w.desk.Select(tool.Selection{Piece: "cradle"})
	w.show()
	x := w.typeIn(t, "x", "1/2")
	require.Equal(t, "1.27 cm", w.pushed(t))
	require.Contains(t, w.prompt.hint.Text+" "+w.prompt.hints[0].Text, said)
	x.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	require.NotContains(t, w.prompt.hint.Text, "inches")
	w.typeHere(fyne.KeyEscape)

	e := w.counting(newEntry("", 90, func(string, bool) {}, func() {}))
	types(e, "1/2")
	require.Equal(t, said, w.prompt.about)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	require.Empty(t, w.prompt.about)
	types(e, "2")
	e.FocusLost()
	require.Empty(t, w.prompt.about, "it ends with the field")

	w.clothPage()
	w.act(t, "Add a cloth")
	f := w.describing[""].fields["width"]
	w.win.Canvas().Focus(f)
	types(f, "1/2")
	require.Contains(t, told(container.NewStack(w.sheet.wrong)), said)
	f.FocusLost()
	require.Empty(t, told(w.sheet.wrong))
}

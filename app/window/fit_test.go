package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

func TestWiresAndMeasuresAreStatedInOneChange(t *testing.T) {
	w := open(t, false)
	before := w.written(t)
	wire, _ := w.desk.Fit()
	f := w.fitPage()
	require.Len(t, f.wires, len(wire.Wires))
	f.keep()
	require.Nil(t, w.sheet)
	require.Equal(t, before, w.written(t), "kept as it was nothing changes")
	require.False(t, w.desk.CanUndo())

	f = w.fitPage()
	told := func() string { return strings.Join(texts(f.told[0]), "; ") }
	require.Equal(t, "Wire line 203.2 mm, play 6 mm and 6 mm; Hem, closed, 592.01 mm, 8.9 % less than the body", told())
	f.wires[0].start.SetText("4 mm")
	f.closure.SetText("60 mm")
	require.Equal(t, "Wire line 203.2 mm, play 5 mm and 7 mm; Hem, closed, 602.01 mm, 7.4 % less than the body", told(), "while it is typed")
	f.wires[0].start.SetText("6 mm")
	f.closure.SetText("50 mm")
	f.addWire()
	last := len(f.wires) - 1
	f.wires[last].name.SetText("long 40")
	f.wires[last].name.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	f.wires[last].length.SetText("9 in")
	f.sizes[0].wire = last
	f.sizes[0].underbust.SetText("66 cm")
	f.reduction.SetText("12,5 %")
	f.keep()
	require.Nil(t, w.sheet)
	fit, sizes := w.desk.Fit()
	require.InDelta(t, 228.6, fit.Wire("long 40").Length, 1e-9)
	require.InDelta(t, 12.5, fit.Reduction, 1e-9)
	require.Equal(t, "long 40", sizes["65C"].Wire)
	require.InDelta(t, 660, sizes["65C"].Underbust, 1e-9)
	w.undo()
	require.Equal(t, before, w.written(t))

	f = w.fitPage()
	f.removeWire(0)
	require.Equal(t, -1, f.sizes[0].wire)
	f.wires[0].length.SetText("long")
	f.keep()
	require.NotNil(t, w.sheet, "the page stays")
	require.Contains(t, strings.Join(texts(w.sheet.wrong), " "), "long")
	w.backOut()
	require.Equal(t, before, w.written(t))
}

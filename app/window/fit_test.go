package window

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/ops/check"
	"truemat/ops/unit"
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

// A measure that no body has is asked about beside its field, and by the check
// when it is kept all the same; from there one press leads back to it.
func TestAnImplausibleBodyIsAskedAbout(t *testing.T) {
	w := open(t, true)
	w.unit = unit.Centimetres
	f := w.fitPage()
	at := slices.IndexFunc(f.sizes, func(s sizeFields) bool { return s.label == w.desk.Size() })
	f.sizes[at].underbust.SetText("6.5")
	require.Contains(t, told(f.told[at]), "Is the body really 6.5 cm round under the bust? Mostly it is between 45 cm and 160 cm.")
	f.sizes[at].underbust.SetText("65")
	require.NotContains(t, told(f.told[at]), "really")
	f.sizes[at].underbust.SetText("6.5")
	f.reduction.SetText("9 %")
	f.keep()
	var hem check.Check
	for _, c := range w.desk.Checks() {
		if c.ID == check.HemBody {
			hem = c
		}
	}
	require.Equal(t, check.Broken, hem.Verdict)
	require.Contains(t, hem.Text, "is the body really 65 mm")
	require.Contains(t, hem.Text, tableValue(hem, "")+" % of the body", "table and sentence tell one figure")
	w.column.showCheck(hem)
	said := told(w.column.list)
	require.Contains(t, said, "Edit > Wires and measures (Ctrl+M)")
	for _, o := range reachable(w.column.list) {
		if b, ok := o.(*touch); ok && strings.HasPrefix(b.name, "state ") {
			b.Tapped(nil)
			require.NotNil(t, w.sheet)
			return
		}
	}
	require.Fail(t, "no way to where it is stated")
}

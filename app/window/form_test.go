package window

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// What is told of wrong fields moves no field and nothing that can be pressed,
// and a refused form gives the keys to the first wrong field.
func TestWhatIsWrongMovesNoField(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.described = "heron lace"
	w.clothPage()
	f := w.describing["heron lace"]
	places := func() map[string]fyne.Position {
		out := map[string]fyne.Position{}
		for name, e := range f.fields {
			out[name] = fyne.CurrentApp().Driver().AbsolutePositionForObject(e)
		}
		out["act"] = fyne.CurrentApp().Driver().AbsolutePositionForObject(f.acts)
		return out
	}
	before := places()
	for name, text := range map[string]string{"width": "wide", "lace.repeat": "0", "along.under": "90"} {
		f.fill(name, text)
		require.NotEmpty(t, told(f.below[name]), name)
		require.Equal(t, w.palette.Poor, f.labels[name].Color, name)
		require.Equal(t, before, places())
	}
	f.keep()
	require.Equal(t, before, places())
	require.Same(t, f.fields["width"], w.win.Canvas().Focused())
	f.fill("width", "230")
	require.Equal(t, w.palette.Text, f.labels["width"].Color)
}

// Layers are not found fault with while the second is still to be chosen.
func TestLayersAreToldOnlyOnceThereAreTwo(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.clothPage()
	w.act(t, "Bond or sew layers")
	f := w.describing[""]
	for _, o := range reachable(w.cloths.part) {
		if c, ok := o.(*choice); ok && c.name == "field of.Outermost" {
			c.SetSelected("power net")
		}
	}
	require.Equal(t, "power net", f.of[0])
	require.Empty(t, told(f.below["of"]))
	f.fill("name", "double net")
	f.keep()
	require.Contains(t, told(f.below["of"]), "two or more")
}

// Fields nobody touched stand in the unit she reads.
func TestFieldsFollowTheUnit(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.described = "power net"
	w.clothPage()
	f := w.describing["power net"]
	f.fill("thickness", "0.5 mm")
	w.unit = unit.InchFractions
	w.cloths.again()
	require.Equal(t, w.column.exact(1500), f.fields["width"].Text)
	require.Contains(t, f.fields["width"].Text, "in")
	require.Equal(t, "0.5 mm", f.fields["thickness"].Text, "as she typed it")
	c, wrong := f.read()
	require.Empty(t, wrong)
	require.Equal(t, 1500.0, c.Width, "to the last digit")
}

// A cloth of the library that the document has is named as such.
func TestTheLibraryNamesWhatTheDocumentHas(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.library = filepath.Join(t.TempDir(), "cloths.json")
	_, err := store.KeepCloth(w.library, w.desk.Goods(), "power net")
	require.NoError(t, err)
	w.clothPage()
	require.Contains(t, told(w.cloths.part), "Your library power net in this document")
}

// What was left unsaved is told with its cloths.
func TestLeftWorkIsToldWithItsCloths(t *testing.T) {
	w := open(t, true)
	require.Equal(t, `"Tern" with 15 steps`, left(store.Lost{Document: w.desk.Document()}))
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	require.Regexp(t, `^"Tern" with 15 steps, \d cloths, \d elastics?$`, left(store.Lost{Document: w.desk.Document()}))
}

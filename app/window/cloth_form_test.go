package window

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/ops/cloth"
	"truemat/ops/cloth/shop"
	"truemat/ops/demo"
	"truemat/ops/unit"
)

func told(o fyne.CanvasObject) string { return strings.Join(texts(o), " ") }

// fill types into a field and leaves it.
func (f *form) fill(name, text string) {
	e := f.fields[name]
	e.FocusGained()
	e.SetText(text)
	e.FocusLost()
}

// act presses what a form offers.
func (w *Window) act(t *testing.T, name string) {
	t.Helper()
	for _, f := range reachable(w.cloths.part) {
		if b, ok := f.(*touch); ok && b.name == name {
			b.Tapped(nil)
			return
		}
	}
	require.Fail(t, "not offered", name)
}

// Worked pull test: 250 → 310 → 256 mm gives 24, 2.4 and 90 %, while it is
// typed; kept, it is one change.
func TestAClothIsDescribedByItsPullTest(t *testing.T) {
	w := open(t, true)
	before := w.written(t)
	w.clothPage()
	w.act(t, "Add a cloth")
	f := w.describing[""]
	require.NotNil(t, f)
	f.fill("name", "power net")
	f.fill("width", "59 1/16 in")
	f.fill("thickness", "0.45mm")
	f.fill("along.before", "250")
	f.fill("along.under", "31 cm")
	require.Contains(t, told(f.results["along"]), "stretches 24 %")
	require.NotContains(t, told(f.results["along"]), "goes back", "not measured yet")
	f.fill("along.after", "256")
	require.Equal(t, "stretches 24 % · grows 2.4 % · goes back 90 %", told(f.results["along"]))
	require.Contains(t, told(f.picture), "+24 %")
	require.Contains(t, told(f.picture), "thickness 0.45 mm", "in the unit of its field")
	f.light("along.after")
	require.Contains(t, told(f.hint), "rested without the load")
	require.Equal(t, before, w.written(t), "nothing is kept yet")
	w.act(t, "act Keep it")

	c, ok := w.desk.Goods().Cloth("power net")
	require.True(t, ok)
	require.InDelta(t, 59.0625*25.4, c.Width, 1e-9)
	require.Equal(t, cloth.Pull{Before: 250, Under: 310, After: 256}, c.Along)
	require.False(t, c.Across.Measured())
	w.undo()
	require.Equal(t, before, w.written(t), "one undo takes it back")
	require.NotContains(t, told(w.cloths.part), "power net", "and the page follows")
	w.redo()
	require.Contains(t, told(w.cloths.part), "power net")
}

func TestWhatCannotBeIsToldBesideItsField(t *testing.T) {
	for _, c := range []struct {
		fields map[string]string
		at     string
		says   string
	}{
		{map[string]string{"width": "0"}, "width", "usable width"},
		{map[string]string{"width": "wide"}, "width", "not a length"},
		{map[string]string{"width": "-4"}, "width", "width is -4 mm"},
		{map[string]string{"thickness": "80"}, "thickness", "between 0 and 50"},
		{map[string]string{"along.before": "0", "along.under": "130"}, "along.before", "100 mm is usual"},
		{map[string]string{"along.under": "90"}, "along.under", "no shorter"},
		{map[string]string{"across.after": "99"}, "across.after", "measure again"},
		{map[string]string{"lace.repeat": "0"}, "lace.repeat", "point of the motif"},
		{map[string]string{"lace.depth": "115"}, "lace.depth", "valley line"},
		{map[string]string{"name": " "}, "name", "no name"},
		{map[string]string{"name": "power net"}, "name", "another name"},
	} {
		w := open(t, true)
		require.NoError(t, w.desk.SetGoods(demo.Goods()))
		before := w.written(t)
		w.described = "heron lace"
		w.clothPage()
		f := w.describing["heron lace"]
		for name, text := range c.fields {
			f.fill(name, text)
		}
		require.Contains(t, told(f.below[c.at]), c.says, c.fields)
		f.keep()
		require.Contains(t, told(f.below[c.at]), c.says, c.fields)
		require.Equal(t, before, w.written(t), c.fields)
		f.putBack()
		require.Empty(t, told(w.describing["heron lace"].below[c.at]))
	}
}

// All that is wrong is told at once, each beside its own field.
func TestAllThatIsWrongIsTold(t *testing.T) {
	w := open(t, true)
	w.clothPage()
	w.act(t, "Add a lace")
	f := w.describing[""]
	f.fill("along.before", "100")
	f.fill("along.under", "80")
	f.keep()
	for _, at := range []string{"name", "width", "along.under", "lace.repeat", "lace.depth"} {
		require.NotEmpty(t, told(f.below[at]), at)
	}
	require.Empty(t, w.desk.Goods().Cloths)
}

// What is typed is not lost by closing the page, nor when a page of another
// part is looked at; it is told that it is not kept.
func TestWhatIsTypedStaysUntilItIsKept(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.described = "power net"
	w.clothPage()
	w.describing["power net"].fill("thickness", "0.5")
	w.backOut()
	w.clothPage()
	require.Equal(t, "0.5", w.describing["power net"].said("thickness"))
	require.Contains(t, told(w.cloths.part), "not kept yet")
	w.act(t, "act Keep the change")
	require.InDelta(t, 0.5, w.desk.Goods().Cloths[1].Thickness, 1e-12)
	require.NotContains(t, told(w.cloths.part), "not kept yet")
}

// A field that is not touched gives back its number to the last digit, also
// when it is shown in another unit.
func TestWhatIsNotTouchedStaysExact(t *testing.T) {
	w := open(t, true)
	w.unit = unit.InchFractions
	g := demo.Goods()
	g.Cloths[1].Along = cloth.Pull{Before: 100.0001, Under: 141.2345, After: 101.23}
	require.NoError(t, w.desk.SetGoods(g))
	w.described = "power net"
	w.clothPage()
	f := w.describing["power net"]
	require.False(t, f.changed())
	f.fill("name", "firm net")
	f.keep()
	next := w.desk.Goods()
	require.Equal(t, g.Cloths[1].Along, next.Cloths[1].Along)
	require.Equal(t, []string{"firm net"}, next.Made[1].Cloths, "the pieces follow the name")
}

// A cloth tells how it suits while it is described: a net that gives less is
// not stretch enough for the band.
func TestAClothTellsHowItSuitsWhileItIsDescribed(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.described = "power net"
	w.clothPage()
	f := w.describing["power net"]
	require.Contains(t, told(f.suits), "Suits")
	f.fill("across.after", "")
	f.fill("across.under", "108")
	f.fill("along.under", "105")
	require.Contains(t, told(f.suits), "stretches more")
}

func TestLayersAreChosenOneChangeEach(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	before := w.written(t)
	w.clothPage()
	w.clothTo(partLayers)
	pick := func(name, cloth string) {
		for _, o := range reachable(w.cloths.part) {
			if c, ok := o.(*choice); ok && c.name == name {
				c.SetSelected(cloth)
				return
			}
		}
		require.Fail(t, "no such choice", name)
	}
	pick("layer band 1", "heron lace")
	pick("layer band 2", "power net")
	require.Equal(t, []string{"heron lace", "power net"}, w.desk.Goods().Made[1].Cloths)
	require.Contains(t, told(w.cloths.part), "would hold it back")
	w.undo()
	require.Equal(t, []string{"heron lace"}, w.desk.Goods().Made[1].Cloths)
	w.undo()
	require.Equal(t, before, w.written(t))
	for k, name := range []string{"power net", "sheer tricot", "heron lace", "power net", "sheer tricot", "heron lace"} {
		pick(fmt.Sprintf("layer band %d", k+1), name)
	}
	require.Len(t, w.desk.Goods().Layers("band"), 6)
	for range 6 {
		pick("layer band 1", noLayer)
	}
	require.Empty(t, w.desk.Goods().Layers("band"), "nothing is said of the band")
}

// As many layers as there are can be handled as one, a choice more each time.
func TestMoreThanThreeLayersAreBonded(t *testing.T) {
	w := open(t, true)
	g := demo.Goods()
	g.Cloths = append(g.Cloths, cloth.Cloth{Name: "felt", Width: 900})
	require.NoError(t, w.desk.SetGoods(g))
	w.clothPage()
	w.act(t, "Bond or sew layers")
	want := []string{"heron lace", "sheer tricot", "power net", "felt"}
	for k, name := range []string{"Outermost", "Beneath", "And beneath", "And beneath 4"} {
		i := slices.IndexFunc(reachable(w.cloths.part), func(o fyne.Focusable) bool {
			c, ok := o.(*choice)
			return ok && c.name == "field of."+name
		})
		require.GreaterOrEqual(t, i, 0, name)
		reachable(w.cloths.part)[i].(*choice).SetSelected(want[k])
	}
	f := w.describing[""]
	f.fill("name", "four as one")
	f.keep()
	c, ok := w.desk.Goods().Cloth("four as one")
	require.True(t, ok)
	require.Equal(t, want, c.Of)
}

// A cloth goes by the library from one document into another.
func TestClothsAreKeptInALibrary(t *testing.T) {
	w := open(t, true)
	w.library = filepath.Join(t.TempDir(), "cloths.json")
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.described = "heron lace on sheer tricot"
	w.clothPage()
	w.act(t, "library link")
	require.Contains(t, told(w.cloths.part), "Take out of your library")

	o := open(t, true)
	o.library = w.library
	before := o.written(t)
	o.clothPage()
	o.act(t, "take heron lace on sheer tricot")
	require.Len(t, o.desk.Goods().Cloths, 3)
	require.Contains(t, told(o.cloths.part), "handled as one cloth")
	o.undo()
	require.Equal(t, before, o.written(t))

	o.act(t, "take heron lace")
	f := o.describing["heron lace"]
	f.fill("width", "180")
	o.act(t, "act Keep the change")
	o.act(t, "take heron lace")
	require.Contains(t, told(o.cloths.wrong), "another cloth called")
	require.InDelta(t, 180, o.desk.Goods().Cloths[0].Width, 1e-12)
}

func TestADamagedLibraryIsToldAndPutAside(t *testing.T) {
	w := open(t, true)
	w.library = filepath.Join(t.TempDir(), "cloths.json")
	require.NoError(t, os.WriteFile(w.library, []byte("{"), 0o644))
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.clothPage()
	require.Contains(t, told(w.cloths.part), "cannot be read")
	w.act(t, "library link")
	require.Contains(t, told(w.cloths.wrong), "put aside as")
	b, err := os.ReadFile(w.library + ".damaged-1")
	require.NoError(t, err)
	require.Equal(t, "{", string(b))
	require.NotContains(t, told(w.cloths.part), "cannot be read")
}

// The list to shop from names cloths by how they are sold, and follows a change.
func TestTheListToShopFromNamesTheCloths(t *testing.T) {
	w := open(t, true)
	w.clothPage()
	w.clothTo("To buy")
	require.Contains(t, told(w.cloths.part), "No piece is cut")
	g := demo.Goods()
	require.NoError(t, w.desk.SetGoods(g))
	for _, c := range shop.Cloths(g, w.desk.Pattern(), w.desk.Size()) {
		require.NoError(t, c.Err)
		require.Positive(t, c.Length)
		require.Contains(t, told(w.cloths.part), cloth.Buy(c.Length)+" "+c.Cloth.Name)
	}
	g = demo.Goods()
	g.Cloths[2].Width = 60
	require.NoError(t, w.desk.SetGoods(g))
	require.Contains(t, told(w.cloths.part), "Heron lace: ", "too narrow, told with the remedy")
}

// Whatever is typed into the forms and kept, the document stays one that can
// be saved.
func TestFormsKeepTheDocumentValidWhateverIsTyped(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.clothPage()
	typed := []string{"", "0", "-3", "1/4", "3 1/8 in", "6.35mm", "250", "310", "1e9", "NaN", "x", "12 %", "½", "999999", "heron lace", "power net"}
	rapid.Check(t, func(t *rapid.T) {
		g := w.desk.Goods()
		var f *form
		var keep func()
		if rapid.Bool().Draw(t, "cloth") && len(g.Cloths) > 0 {
			w.described = rapid.SampledFrom(g.Cloths).Draw(t, "which").Name
			w.clothTo("Cloths")
			c := w.clothFormOf(w.described)
			f, keep = c.form, c.keep
		} else {
			w.elastic = notionsTab
			if len(g.Elastics) > 0 && rapid.Bool().Draw(t, "elastic") {
				w.elastic = g.Elastics[0].Name
			}
			w.clothTo("Elastic, notions")
			if w.elastic == notionsTab {
				f, keep = w.noting.form, w.noting.keep
			} else {
				e := w.elasticFormOf(w.elastic)
				f, keep = e.form, e.keep
			}
		}
		names := slices.Sorted(maps.Keys(f.fields))
		for range rapid.IntRange(1, 4).Draw(t, "fields") {
			f.fill(rapid.SampledFrom(names).Draw(t, "field"), rapid.SampledFrom(typed).Draw(t, "text"))
		}
		keep()
		require.NoError(t, w.desk.Document().Validate())
		require.NoError(t, w.desk.Goods().Fits(w.desk.Pattern()))
		if rapid.Bool().Draw(t, "undo") {
			w.undo()
		}
	})
}

func TestOtherPartsTellWhatWaitsToBeKept(t *testing.T) {
	w := open(t, true)
	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.clothPage()
	w.describe(laceCloth)
	f := w.describing[""]
	f.fill("name", "rose lace")
	f.fill("width", "200")
	w.clothTo(partLayers)
	require.Contains(t, told(w.cloths.part), "A new cloth under Cloths: not kept yet")
	w.act(t, "to Cloths")
	require.NotContains(t, told(w.cloths.part), "What stands here", "not beside the form itself")
	w.act(t, "act Drop it")
	w.clothTo(partLayers)
	require.NotContains(t, told(w.cloths.part), "not kept yet")

	name := w.desk.Goods().Cloths[0].Name
	w.clothTo("Cloths")
	f = w.clothFormOf(name)
	f.fill("thickness", "4")
	w.clothTo("The sheet")
	require.Contains(t, told(w.cloths.part), titled(name)+" under Cloths: not kept yet")
	f.keep()
	w.clothTo("To buy")
	require.NotContains(t, told(w.cloths.part), "not kept yet")
}

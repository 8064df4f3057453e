package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/unit"
)

// Where "Keep it" stood nothing that removes stands once the cloth is kept, in
// the form of a cloth and in that of an elastic, whatever the window's unit.
func TestRemoveNeverStandsWhereKeepStood(t *testing.T) {
	w := open(t, true)
	at := func(name string) (fyne.Position, fyne.Size) {
		for _, f := range reachable(w.cloths.part) {
			if b, ok := f.(*touch); ok && b.name == name {
				return fyne.CurrentApp().Driver().AbsolutePositionForObject(b), b.Size()
			}
		}
		require.Fail(t, "not offered", name)
		return fyne.Position{}, fyne.Size{}
	}
	apart := func(kept map[string]string, keep func()) {
		for _, name := range []string{"act Keep it", "act Drop it"} {
			require.Contains(t, kept, name)
		}
		keepAt, keepBig := at("act Keep it")
		dropAt, dropBig := at("act Drop it")
		keep()
		gone, big := at("act Remove")
		for _, was := range []struct {
			at  fyne.Position
			big fyne.Size
		}{{keepAt, keepBig}, {dropAt, dropBig}} {
			require.False(t, gone.X < was.at.X+was.big.Width && was.at.X < gone.X+big.Width, "Remove lies where a press was meant to keep")
		}
	}
	both := map[string]string{"act Keep it": "", "act Drop it": ""}
	w.clothPage()
	w.act(t, "Add a cloth")
	f := w.describing[""]
	f.fill("name", "firm tulle")
	f.fill("width", "1500mm")
	apart(both, func() { f.fields["across.after"].OnSubmitted("") })
	require.Contains(t, told(w.cloths.part), "Kept as it stands")
	open, _ := at("act Remove")
	w.describing["firm tulle"].fill("thickness", "0.4")
	changed, _ := at("act Remove")
	require.Equal(t, open, changed, "it stays where it is")

	w.clothTo(partExtras)
	w.act(t, "Add an elastic")
	e := w.elastics[""]
	e.fill("width", "10mm")
	apart(both, e.keep)
}

// A thickness is in mm in every unit, as tags of shops say it, and one that is
// seldom meant is asked about beside its field and kept all the same.
func TestAThicknessIsInMillimetresAndAskedAbout(t *testing.T) {
	for _, u := range []unit.System{unit.Millimetres, unit.Centimetres, unit.InchFractions} {
		w := open(t, true)
		w.unit = u
		w.clothPage()
		w.act(t, "Add a lace")
		f := w.describing[""]
		f.fill("name", "tulle")
		f.fill("thickness", "0.4")
		require.InDelta(t, 0.4, f.now.Thickness, 1e-12, u)
		require.Empty(t, told(f.below["thickness"]), u)
		require.Contains(t, told(w.cloths.part), "Thickness, mm")
		f.fill("thickness", "4")
		require.Contains(t, told(f.below["thickness"]), "Is it really 4 mm thick?", u)
		require.Contains(t, told(f.below["thickness"]), "0.4 mm is in mm already", u)
		f.fill("thickness", "80")
		require.Contains(t, told(f.below["thickness"]), "80 mm", u)

		require.NoError(t, w.desk.SetGoods(cloth.Goods{Cloths: []cloth.Cloth{{Name: "foam", Width: 1400, Thickness: 4}}}))
		w.described = "foam"
		w.cloths.again()
		require.Equal(t, "4 mm", w.describing["foam"].said("thickness"))
		require.Contains(t, told(w.cloths.part), "really 4 mm", "still asked when it is kept")
	}
}

// Pieces that carry the name of a described cloth are offered to be cut from it,
// all by one press and as one change.
func TestPiecesAreProposedTheClothTheyName(t *testing.T) {
	w := open(t, true)
	p := w.desk.Pattern()
	var g cloth.Goods
	named := 0
	for _, pc := range p.Pieces {
		if _, known := g.Cloth(pc.Cut.Cloth); pc.Cut.Cloth != "" && !known {
			g.Cloths = append(g.Cloths, cloth.Cloth{Name: pc.Cut.Cloth, Width: 1400})
		}
		if pc.Cut.Cloth != "" {
			named++
		}
	}
	require.Positive(t, named)
	require.NoError(t, w.desk.SetGoods(g))
	w.clothPage()
	w.clothTo(partLayers)
	var shown []string
	for _, f := range reachable(w.cloths.part) {
		if c, ok := f.(*choice); ok {
			shown = append(shown, c.Selected)
		}
	}
	require.Contains(t, shown, p.Pieces[0].Cut.Cloth+" (proposed)")
	before := w.written(t)
	w.act(t, "take proposed")
	require.NotContains(t, told(w.cloths.part), "proposed")
	for _, pc := range p.Pieces {
		if pc.Cut.Cloth != "" {
			require.True(t, w.desk.Goods().Cuts(pc.Name, pc.Cut.Cloth), pc.Name)
		}
	}
	w.undo()
	require.Equal(t, before, w.written(t), "one change")

	one := p.Pieces[0]
	require.NoError(t, w.desk.SetGoods(cloth.Goods{Cloths: []cloth.Cloth{{Name: one.Cut.Cloth, Width: 1400}, {Name: "other", Width: 1000}}, Made: []cloth.Made{{Piece: one.Name, Cloths: []string{"other"}}}}))
	for _, m := range w.desk.Goods().Proposed(p) {
		require.NotEqual(t, one.Name, m.Piece, "what is said of a piece stands")
	}
}

// The list to shop from says what is not on it, and leads there.
func TestTheListTellsWhatIsNotDescribed(t *testing.T) {
	w := open(t, true)
	w.clothPage()
	w.clothTo("To buy")
	for _, said := range []string{"Not described yet", "No cloth is said for", "No elastic is described along", "Nothing is said of straps and thread"} {
		require.Contains(t, told(w.cloths.part), said)
	}
	w.act(t, "lack 1")
	require.Equal(t, partExtras, clothParts()[w.cloths.at].name)

	require.NoError(t, w.desk.SetGoods(demo.Goods()))
	w.clothTo("To buy")
	require.NotContains(t, told(w.cloths.part), "straps and thread")
}

// What is not drawn yet says so.
func TestPicturesSayThatTheyAreBeingDrawn(t *testing.T) {
	w := open(t, true)
	w.clothPage()
	picture, ways := container.New(layered{}), container.New(stack{})
	w.hang(picture, nil, wornTall)
	w.fillWays(ways, nil, nil)
	require.Contains(t, told(picture), "Being drawn")
	require.Contains(t, told(ways), "being worked out")
	w.clothTo("As worn, sewing")
	require.NotContains(t, told(w.cloths.part), "Being drawn")
	require.NotContains(t, told(w.cloths.part), "being worked out")
}

// A piece of which no cloth is said is counted among what suits and the way there
// is told; the layers show which cloth it names.
func TestPiecesWithoutAClothAreCountedWhereClothsAreJudged(t *testing.T) {
	w := open(t, false)
	g, err := cloth.Goods{Cloths: demo.Goods().Cloths}.WithLayers("band", "power net")
	require.NoError(t, err)
	require.NoError(t, w.desk.SetGoods(g))
	w.clothPage()
	w.clothTo(partSuits)
	require.Contains(t, told(w.cloths.part), "hold; 5 pieces without a cloth")
	test.Tap(findTouch(t, w.cloths.part, "Say it under Layers"))
	require.Equal(t, 1, w.cloths.at)
	said := map[string]string{}
	for _, f := range reachable(w.cloths.part) {
		if c, ok := f.(*choice); ok {
			said[c.name] = c.Selected
		}
	}
	require.Equal(t, "power net", said["layer band 1"])
	require.Equal(t, "names firm tulle", said["layer bridge 1"])
	require.Equal(t, noLayer, said["layer band 2"])
}

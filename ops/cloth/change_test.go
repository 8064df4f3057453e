package cloth_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// What spoke of a cloth or elastic follows its new name, and the goods before
// stay as they were.
func TestNamesAreFollowed(t *testing.T) {
	g := demo.Goods()
	g.Laces = []cloth.OnLace{{Cloth: "heron lace", Gap: 2}}
	g.Laid = []cloth.Laid{{Cloth: "power net"}}
	g.Order = []string{"elastic hem elastic"}
	lace, _ := g.Cloth("heron lace")
	lace.Name = "egret lace"
	next, err := g.WithCloth("heron lace", lace)
	require.NoError(t, err)
	require.Equal(t, "egret lace", next.Laces[0].Cloth)
	require.Equal(t, []string{"egret lace", "sheer tricot"}, next.Cloths[3].Of)
	require.Equal(t, "heron lace", g.Cloths[2].Name)
	require.Equal(t, []string{"heron lace", "sheer tricot"}, g.Cloths[3].Of)

	lace.Lace = nil
	next, err = g.WithCloth("heron lace", lace)
	require.NoError(t, err)
	require.Empty(t, next.Laces, "without a border nothing is laid on one")

	e := g.Elastics[0]
	e.Name = "plush"
	next, err = g.WithElastic("hem elastic", e)
	require.NoError(t, err)
	require.Equal(t, []string{"plush"}, next.Notions.Sewing[1].Elastics)
	require.Equal(t, []string{"elastic plush"}, next.Order)
	require.Equal(t, []string{"hem elastic"}, g.Notions.Sewing[1].Elastics)
	next, err = g.WithoutElastic("hem elastic")
	require.NoError(t, err)
	require.Len(t, next.Notions.Sewing, 1, "the stitch that sewed it alone goes with it")
}

func TestAClothIsTakenOutOfLayers(t *testing.T) {
	g := demo.Goods()
	_, err := g.WithoutCloth("heron lace")
	require.ErrorContains(t, err, "remove that first")
	_, err = g.WithoutCloth("tulle")
	require.ErrorContains(t, err, `no cloth "tulle"`)
	next, err := g.WithoutCloth("power net")
	require.NoError(t, err)
	require.Empty(t, next.Layers("band"))
	require.NotEmpty(t, next.Layers("frame"))
	next, err = g.WithLayers("band", "heron lace", "power net")
	require.NoError(t, err)
	require.Len(t, next.Layers("band"), 2)
	require.Len(t, g.Layers("band"), 1)
	_, err = g.WithLayers("band", "tulle")
	require.ErrorContains(t, err, "tulle")
}

// Each wrong number is named by its field, all of them at once.
func TestWrongFieldsAreNamed(t *testing.T) {
	c := cloth.Cloth{Width: -1, Thickness: 90, Along: cloth.Pull{Before: 100, Under: 120, After: 90}, Across: cloth.Pull{Under: 9},
		Lace: &cloth.Lace{Repeat: 0, Depth: 5}}
	var fields []string
	for _, w := range c.Wrongs() {
		fields = append(fields, w.Field)
		require.Error(t, w.Err)
	}
	require.Equal(t, []string{"name", "width", "thickness", "along.after", "across.before", "lace.repeat", "lace.depth"}, fields)
}

// What spoke of a piece, edge, notch, seam or line follows its new name, and back
// again; the goods before stay as they were.
func TestNamesOfThePatternAreFollowed(t *testing.T) {
	motif := 4.0
	of := func(band, hem, edge, notch, seam string) cloth.Goods {
		g := demo.Goods()
		g.Made[1].Piece = band
		g.Elastics[0].Line = hem
		g.Elastics[0].Stretches[1].Pieces = []string{band}
		g.Topstitch = []cloth.Topstitch{{Seam: seam, Class: "304"}}
		g.Notions.Sewing = []cloth.Sewing{{Class: "301", Seams: []string{seam}, Lines: []string{hem}}}
		g.Laces = []cloth.OnLace{{Cloth: "heron lace", Wishes: []cloth.Wish{
			{Piece: band, Edge: edge, Motif: &motif, Spot: &pattern.Spot{Piece: band, Edge: edge}},
			{Piece: band, Spot: &pattern.Spot{Piece: band, Notch: notch}},
		}, Places: []cloth.Place{{Piece: band}}}}
		g.Laid = []cloth.Laid{{Cloth: "power net", Pins: []cloth.Pin{{Piece: band}}}}
		g.Order = []string{"join " + seam, "elastic hem elastic", "close " + edge + " of " + band, "channel " + hem}
		return g
	}
	was := of("band", "hem", "hem", "middle", "side seam")
	now := was
	there := []cloth.Renaming{{Piece: "band", To: "back"}, {Line: "hem", To: "lower edge"}, {Piece: "back", Edge: "hem", To: "low"}, {Piece: "back", Notch: "middle", To: "centre"}, {Seam: "side seam", To: "side"}}
	for _, r := range there {
		now = now.Renamed(r)
	}
	require.Equal(t, of("back", "lower edge", "low", "centre", "side"), now)
	require.Equal(t, of("band", "hem", "hem", "middle", "side seam"), was, "untouched")
	back := []cloth.Renaming{{Seam: "side", To: "side seam"}, {Piece: "back", Notch: "centre", To: "middle"}, {Piece: "back", Edge: "low", To: "hem"}, {Line: "lower edge", To: "hem"}, {Piece: "back", To: "band"}}
	for _, r := range back {
		now = now.Renamed(r)
	}
	require.Equal(t, was, now)
}

// Two pieces that are taped are cut as the first was, and forget how they lay.
func TestJoinedPiecesAreOne(t *testing.T) {
	g := demo.Goods()
	g.Made = []cloth.Made{{Piece: "bridge", Cloths: []string{"heron lace"}}, {Piece: "cradle", Cloths: []string{"sheer tricot"}}}
	g.Elastics[0].Stretches = []cloth.Reduced{{Pieces: []string{"bridge"}, Percent: 2}, {Pieces: []string{"cradle"}, Percent: 4}}
	g.Laid = []cloth.Laid{{Cloth: "sheer tricot", Pins: []cloth.Pin{{Piece: "cradle"}}}}
	one := g.Joined("bridge", "cradle", "frame")
	require.NoError(t, one.Validate())
	require.Equal(t, []cloth.Made{{Piece: "frame", Cloths: []string{"heron lace"}}}, one.Made)
	require.Equal(t, []cloth.Reduced{{Pieces: []string{"frame"}, Percent: 2}}, one.Elastics[0].Stretches)
	require.Empty(t, one.Laid)
	g.Made, g.Elastics[0].Stretches = g.Made[1:], g.Elastics[0].Stretches[1:]
	one = g.Joined("bridge", "cradle", "frame")
	require.Equal(t, []cloth.Made{{Piece: "frame", Cloths: []string{"sheer tricot"}}}, one.Made, "of the other when the first has none")
	require.Equal(t, []cloth.Reduced{{Pieces: []string{"frame"}, Percent: 4}}, one.Elastics[0].Stretches)
}

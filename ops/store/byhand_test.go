package store_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/store"
)

// What was laid by hand is in the document and comes back as it was.
func TestPlansByHandAreKeptInTheDocument(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	g := demo.Goods().
		WithPlaces("heron lace", "75C", []cloth.Place{{Piece: "inner cup", At: 12.5}, {Piece: "inner cup", Mirrored: true, Second: true, At: 108.5}}).
		WithPins("power net", "75C", []cloth.Pin{{Piece: "band", Layer: 1, At: geom.Pt(300, 200), Half: true}})
	doc, err := store.Document{Source: run, Recipe: demo.TernInLace()}.SetGoods(g)
	require.NoError(t, err)
	path := t.TempDir() + "/tern.truemat"
	require.NoError(t, store.Save(path, doc))
	back, err := store.Load(path)
	require.NoError(t, err)
	require.Equal(t, g, back.Goods)
	lace := back.Goods.Laces[0]
	require.Len(t, lace.In("75C"), 2)
	require.Empty(t, lace.In("80C"))
	require.Empty(t, back.Goods.WithPlaces("heron lace", "75C", nil).Laces)
}

func TestWrongPlansByHandAreRefused(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	doc := store.Document{Source: run, Recipe: demo.TernInLace()}
	for _, c := range []struct {
		goods cloth.Goods
		says  string
	}{
		{demo.Goods().WithPlaces("heron lace", "99Z", []cloth.Place{{Piece: "inner cup"}}), `size "99Z"`},
		{demo.Goods().WithPlaces("heron lace", "", []cloth.Place{{Piece: "wing"}}), "no such piece"},
		{demo.Goods().WithPlaces("heron lace", "", []cloth.Place{{Piece: "inner cup", At: 1e9}}), "within"},
		{demo.Goods().WithPlaces("power net", "", []cloth.Place{{Piece: "inner cup"}}), "which has none"},
		{demo.Goods().WithPlaces("heron lace", "", []cloth.Place{{At: 3}}), "name the piece"},
		{demo.Goods().WithPins("power net", "75C", []cloth.Pin{{Piece: "wing"}}), "no such piece"},
		{demo.Goods().WithPins("power net", "75C", []cloth.Pin{{Piece: "band", Layer: -1}}), "layers count from 1"},
		{demo.Goods().WithPins("power net", "75C", []cloth.Pin{{Piece: "band", At: geom.Pt(1e9, 0)}}), "within"},
	} {
		_, err := doc.SetGoods(c.goods)
		require.ErrorContains(t, err, c.says)
	}
	b, err := json.Marshal(demo.Goods())
	require.NoError(t, err)
	_, err = store.ReadGoods(bytes.NewReader(bytes.Replace(b, []byte(`{"cloths"`), []byte(`{"laces":[{"cloth":"heron lace","places":[{"piece":"inner cup","spot":3}]}],"cloths"`), 1)))
	require.ErrorContains(t, err, "spot")
}

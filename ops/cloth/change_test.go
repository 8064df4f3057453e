package cloth_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
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

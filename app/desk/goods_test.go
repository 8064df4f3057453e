package desk

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/step"
)

// A seam that is topstitched and a piece that is cut from cloth get other names:
// the goods follow, the step taken back they go back, and so when it is taken out.
func TestGoodsFollowNames(t *testing.T) {
	d := inLace(t)
	g := demo.Goods()
	g.Topstitch = []cloth.Topstitch{{Seam: "side seam", Class: "304", Away: 2}}
	require.NoError(t, d.SetGoods(g))
	before := bytesOf(t, d)
	require.NoError(t, d.Accept(&step.Rename{Seam: "side seam", To: "side"}))
	require.NoError(t, d.Accept(&step.Rename{Piece: "band", To: "back"}))
	now := d.Goods()
	require.Equal(t, "side", now.Topstitch[0].Seam)
	require.Equal(t, "back", now.Made[1].Piece)
	require.NoError(t, now.Fits(d.Pattern()))
	after := bytesOf(t, d)
	d.Undo()
	d.Undo()
	require.Equal(t, before, bytesOf(t, d))
	d.Redo()
	d.Redo()
	require.Equal(t, after, bytesOf(t, d))
	n := len(d.Document().Recipe)
	require.NoError(t, d.Switch(d.Document().Recipe[n-2].ID, true))
	require.Equal(t, "side seam", d.Goods().Topstitch[0].Seam)
	require.Equal(t, "back", d.Goods().Made[1].Piece)
	require.NoError(t, d.Goods().Fits(d.Pattern()))
}

// What is said of bridge and cradle before they are taped is said of the frame.
func TestGoodsFollowATaping(t *testing.T) {
	d := tern(t)
	g := demo.Goods()
	g.Made[0].Piece = "bridge"
	g.Made = append(g.Made, cloth.Made{Piece: "cradle", Cloths: g.Made[0].Cloths})
	g.Elastics[0].Stretches[0].Pieces = []string{"bridge", "cradle"}
	require.NoError(t, d.SetGoods(g))
	_, err := d.OpenRecipe(demo.TernInLace(), nil)
	require.NoError(t, err)
	require.NoError(t, d.Goods().Validate())
	require.NoError(t, d.Goods().Fits(d.Pattern()))
	require.Equal(t, []string{"frame"}, d.Goods().Elastics[0].Stretches[0].Pieces)
}

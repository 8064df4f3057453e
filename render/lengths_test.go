package render

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/demo"
)

func TestALacePlanShowsScallopsPiecesAndItsLength(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p, g := demo.TernInLace().Replay(run)[0].Size.Pattern, demo.Goods()
	lace, _ := g.Cloth("heron lace")
	cuts, err := border.Cuts(p, lace, g.OnLaceOf(lace.Name, p).Wishes)
	require.NoError(t, err)
	plan, err := border.Lay(lace, cuts, 0, nil)
	require.NoError(t, err)
	s, err := BorderScene(plan, p)
	require.NoError(t, err)
	require.Len(t, ofKind(s, CutLine), len(cuts))
	require.Len(t, ofKind(s, Valley), 2)
	scallops := ofKind(s, Selvedge)
	require.Len(t, scallops, 2)
	require.InDelta(t, -lace.Lace.Depth, scallops[0].Path.Bounds().Min.Y, 1e-6)
	require.InDelta(t, lace.Width-lace.Lace.Depth, scallops[1].Path.Bounds().Max.Y, 1e-6, "the lace is as wide as it is")
	require.InDelta(t, plan.Length, ofKind(s, Extent)[0].Path.Length(), 1e-6)
	for _, f := range ofKind(s, CutLine) {
		b := f.Path.Bounds()
		require.True(t, b.Min.X >= -1e-6 && b.Max.X <= plan.Length+1e-6 && b.Min.Y >= -1e-6 && b.Max.Y <= lace.Usable()+1e-6)
	}
	require.Contains(t, texts(s), "inner cup, turned over")
	require.NoError(t, WriteSVG(&bytes.Buffer{}, "plan", s))
}

func TestALayoutShowsSelvedgesAndPieces(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p, g := demo.TernInLace().Replay(run)[0].Size.Pattern, demo.Goods()
	c, _ := g.Cloth("power net")
	l, err := cutting.Lay(p, g, c, 0, nil)
	require.NoError(t, err)
	s, err := LayoutScene(l, p)
	require.NoError(t, err)
	require.Len(t, ofKind(s, CutLine), 2)
	require.InDelta(t, c.Width, ofKind(s, Selvedge)[1].Path.Start().Y, 1e-9)

	_, err = cutting.Lay(p, g, cloth.Cloth{Name: "none"}, 0, nil)
	require.ErrorContains(t, err, "no width")
}

package render

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/demo"
	"truemat/ops/pattern"
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

// Where a spot is held on a motif point, it is drawn on one: on either border,
// however far the second is shifted.
func TestMotifPointsAreDrawnWhereSpotsAreHeld(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := demo.TernInLace().Replay(run)[0].Size.Pattern
	for _, shift := range []float64{0, 12, 30, 61.5, 95} {
		g := demo.Goods()
		lace, _ := g.Cloth("heron lace")
		if shift > 0 {
			lace.Lace.Second, lace.Lace.Shift = cloth.Shifted, shift
		}
		zero, end := 0.0, pattern.AtEnd("inner cup", "lace edge", pattern.Start)
		g = g.WithWish(lace.Name, p, cloth.Wish{Piece: "frame", Motif: &zero}).WithWish(lace.Name, p, cloth.Wish{Piece: "inner cup", Motif: &zero, Spot: &end})
		plan, err := border.Of(g, lace, p, "")
		require.NoError(t, err)
		s, err := BorderScene(plan, p)
		require.NoError(t, err)
		seconds := 0
		for _, o := range plan.Placed {
			scallops := ofKind(s, Selvedge)[0]
			if o.Second {
				scallops = ofKind(s, Selvedge)[1]
				seconds++
			}
			held := o.Motion.Apply(o.Lay.Inverse().Apply(geom.Point{}))
			nearest := math.Inf(1)
			for _, c := range scallops.Path.Segments() {
				nearest = min(nearest, c.End().Dist(held))
			}
			require.Less(t, nearest, 1e-6, "%s with a shift of %g mm", o.Name(), shift)
		}
		require.Positive(t, seconds)
	}
}

// A cloth that is not drawn in its whole width is broken off at a broken line,
// beyond which its other selvedge stands.
func TestAClothIsBrokenOffWhereItIsDrawnNoFurther(t *testing.T) {
	c := cloth.Cloth{Name: "tricot", Width: 1450}
	whole := sceneOf(ClothGround(c, c.Width, 0, 500))
	require.Len(t, ofKind(whole, Selvedge), 2)
	require.Empty(t, ofKind(whole, Break))
	short := sceneOf(ClothGround(c, 620, 0, 500))
	require.Len(t, ofKind(short, Break), 1)
	require.InDelta(t, 620, ofKind(short, Break)[0].Path.Start().Y, 1e-9)
	require.Len(t, ofKind(short, Selvedge), 2)
	require.InDelta(t, 620+BrokenOff(620), ofKind(short, Selvedge)[1].Path.Start().Y, 1e-9)
}

package render_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/cloth"
	"truemat/ops/cloth/bulk"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/render"
)

// Felt of 1 mm: what is drawn has the widths and thicknesses of the layers,
// all magnified alike, above as cut and below trimmed, and stays in its box.
func TestASectionIsDrawnInProportion(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern.Clone()
	g := cloth.Goods{Cloths: []cloth.Cloth{{Name: "felt", Width: 1000, Thickness: 1}}}
	for i := range p.Pieces {
		if e := p.Pieces[i].Edge("side seam"); e != nil {
			e.Allowance = 5 // too narrow to be folded
		}
		g.Made = append(g.Made, cloth.Made{Piece: p.Pieces[i].Name, Cloths: []string{"felt"}})
	}
	for i := range p.Seams {
		p.Seams[i].Press = pattern.PressedToA
	}
	for _, pl := range bulk.Places(p, g, bulk.Limits{Thickness: 2.5, Step: 2, Least: 3}) {
		if pl.Seam != "side seam" || pl.Across != "" {
			continue
		}
		sc := render.Section(pl, 180, unit.Millimetres)
		var strips []render.Figure
		for _, f := range sc.Layers[0].Figures {
			if f.Kind == render.LayerStrip {
				strips = append(strips, f)
			}
			require.False(t, f.Path.Empty())
			box := f.Path.Bounds()
			require.GreaterOrEqual(t, box.Min.X, -1e-9)
			require.LessOrEqual(t, box.Max.X, 180.0)
			require.GreaterOrEqual(t, box.Min.Y, -1e-9)
			require.LessOrEqual(t, box.Max.Y, sc.Box.Max.Y)
		}
		require.Len(t, strips, 2*(3+1), "three layers and a fold, twice")
		width := func(i int) float64 { return strips[i].Path.Bounds().Width() }
		m := strips[0].Path.Bounds().Height()
		require.GreaterOrEqual(t, m, 1.0)
		for _, i := range []int{0, 1, 2, 4, 5, 6} {
			require.InDelta(t, m, strips[i].Path.Bounds().Height(), 1e-9)
		}
		require.InDelta(t, 2*m, strips[3].Path.Bounds().Height(), 1e-9, "the fold holds both layers")
		require.InDelta(t, 4*m, width(1), 1e-9, "5 mm less the round of the fold")
		require.InDelta(t, 2*m, width(2)-width(6), 1e-9, "trimmed by 2 mm")
		return
	}
	require.Fail(t, "no side seam")
}

// In inches nothing on it is told in mm: allowances are fractions, and trimmed
// they step down by sixteenths.
func TestASectionSpeaksInInches(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := demo.TernInLace().Replay(run)[0].Size.Pattern
	drawn := 0
	for _, pl := range bulk.Places(p, demo.Goods(), bulk.DefaultsIn(unit.InchFractions)) {
		if pl.Section == nil {
			continue
		}
		drawn++
		all := ""
		for _, l := range render.Section(pl, 180, unit.InchFractions).Layers[0].Labels {
			all += l.Text + "\n"
			require.LessOrEqual(t, l.At.X+render.TextWidth(l.Text, l.Height, l.Bold), 180.0, l.Text)
		}
		require.NotContains(t, all, " mm")
		require.Contains(t, all, "1/4")
		require.Contains(t, all, "3/16 in")
	}
	require.Greater(t, drawn, 2)
}

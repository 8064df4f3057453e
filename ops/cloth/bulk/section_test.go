package bulk_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/ops/cloth"
	"truemat/ops/cloth/bulk"
	"truemat/ops/pattern"
)

func over(t *testing.T, press pattern.Press, width, thickness float64) bulk.Section {
	p, g := tern(t, press, width)
	pl := at(t, bulk.Places(p, g, bulk.Limits{Thickness: thickness, Step: 1, Least: 3}), "side seam", "")
	require.NotNil(t, pl.Section)
	return *pl.Section
}

// extents returns where strips begin and end, and their faces.
func extents(strips []bulk.Strip) [][4]float64 {
	var out [][4]float64
	for _, s := range strips {
		out = append(out, [4]float64{s.From, s.To, s.Out, s.In})
	}
	return out
}

// Felt of 1 mm, allowances of 5 mm: a piece, its own allowance folded back
// under it, and that of the other, which runs on beyond the seam.
func TestASectionHasTrueWidthsAndThickness(t *testing.T) {
	c := over(t, pattern.PressedToA, narrow, 2)
	require.InDelta(t, 11+1, c.Reach, 1.001)
	r := c.Reach
	require.Equal(t, [][4]float64{{0, r, 0, 1}, {0, 5, 1, 2}, {-r, 5, 2, 3}}, extents(c.Strips))
	require.Equal(t, [][4]float64{{0, r, 0, 1}, {0, 5, 1, 2}, {-r, 4, 2, 3}}, extents(c.After))
	require.Equal(t, []bulk.Bend{{Middle: 1, Inner: 0, Outer: 1}}, c.Bends)
	require.Equal(t, []bulk.Rise{{To: 5, Thickness: 3, Layers: 3}, {To: r, Thickness: 1, Layers: 1}}, c.AsCut)
	require.Equal(t, []bulk.Rise{{To: 4, Thickness: 3, Layers: 3}, {To: 5, Thickness: 2, Layers: 2}, {To: r, Thickness: 1, Layers: 1}}, c.Trimmed)
}

// Allowances of 6 mm where no lining hides them: that of side A trimmed to half,
// that of B folded around it; proposed, nothing is folded and they step down.
func TestASectionShowsFoldedEdges(t *testing.T) {
	c := over(t, pattern.PressedToA, wide, 2)
	require.True(t, c.Folded)
	r := c.Reach
	require.Equal(t, [][4]float64{{0, r, 0, 1}, {0, 3, 1, 2}, {0, 3, 2, 3}, {-r, 3, 3, 4}}, extents(c.Strips))
	require.Equal(t, [][4]float64{{0, r, 0, 1}, {0, 6, 1, 2}, {-r, 5, 2, 3}}, extents(c.After))
	require.Equal(t, []bulk.Bend{{Middle: 1.5, Inner: 0.5, Outer: 1.5}, {At: 3, Middle: 2.5, Inner: 0.5, Outer: 1.5}}, c.Bends)
	require.Equal(t, []bulk.Bend{{Middle: 1, Inner: 0, Outer: 1}}, c.AfterBends)
	require.Equal(t, 4, c.AsCut[0].Layers)
	require.Equal(t, 3, c.Trimmed[0].Layers)

	c = over(t, pattern.PressedOpen, wide, 2)
	require.True(t, c.Open)
	require.Equal(t, [][4]float64{{0, r, 0, 1}, {0, 3, 1, 2}, {0, 3, 2, 3}}, extents(c.Strips[:3]))
	require.Equal(t, []bulk.Bend{{Middle: 1.5, Inner: 0.5, Outer: 1.5}, {At: 3, Middle: 2, Inner: 0, Outer: 1}}, c.Bends[:2])
}

func TestASeamPressedOpenHasBothSides(t *testing.T) {
	c := over(t, pattern.PressedOpen, narrow, 1)
	require.Len(t, c.Strips, 4)
	require.InDelta(t, 5, c.Strips[1].To, 1e-9)
	require.InDelta(t, -5, c.Strips[3].To, 1e-9)
	require.Len(t, c.Bends, 2)
	require.Equal(t, []int{2, 1}, []int{c.AsCut[0].Layers, c.AsCut[1].Layers})
}

// Layers of their own on both sides, of any thickness: the layers lie on each
// other without room, those folded back the other way round; at the seam it is
// as thick as the place, and at every distance as the layers that reach there;
// trimming never adds, and steps by step as wide as asked.
func TestASectionAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		press := rapid.SampledFrom(pattern.Presses).Draw(t, "press")
		p, g := tern(t, press, rapid.SampledFrom([]float64{narrow, wide, 10}).Draw(t, "width"))
		g.Cloths = nil
		var names []string
		for i := range rapid.IntRange(1, 4).Draw(t, "layers") {
			c := cloth.Cloth{Name: string(rune('a' + i)), Width: 1000, Thickness: rapid.Float64Range(0.1, 3).Draw(t, "thickness")}
			g.Cloths, names = append(g.Cloths, c), append(names, c.Name)
		}
		sewn := names // in seams of their own
		if len(names) > 1 && rapid.Bool().Draw(t, "as one") {
			g.Cloths = append(g.Cloths, cloth.Cloth{Name: "all", Of: names})
			sewn = []string{"all"}
		}
		for i := range g.Made {
			g.Made[i].Cloths = sewn
		}
		limits := bulk.Limits{Thickness: 0.01, Step: rapid.Float64Range(0.5, 3).Draw(t, "step"), Least: 2}
		for _, pl := range bulk.Places(p, g, limits) {
			c := pl.Section
			require.NotNil(t, c)
			depth := 0.0
			for i, s := range c.Strips[:len(pl.Stack)] {
				require.InDelta(t, depth, s.Out, 1e-9)
				depth = s.In
				require.Equal(t, pl.Stack[i].Cloth, s.Cloth)
			}
			for _, s := range c.After {
				require.False(t, s.Folded)
				if s.Allowance {
					require.LessOrEqual(t, math.Abs(s.To), s.Cut)
					require.GreaterOrEqual(t, math.Abs(s.To), min(limits.Least, s.Cut)-1e-9)
				}
			}
			require.InDelta(t, pl.Thickness, depth, 1e-9)
			require.InDelta(t, pl.Thickness, c.AsCut[0].Thickness, 1e-9)
			require.Equal(t, pl.Layers, c.AsCut[0].Layers)
			for k, r := range c.Trimmed {
				if k > 0 {
					require.Less(t, r.Thickness, c.Trimmed[k-1].Thickness)
				}
			}
			for i, n := 0, len(names); i < n && pl.Across == "" && len(sewn) == 1 && !c.Folded; i++ {
				require.Equal(t, c.Strips[i].Cloth, c.Strips[2*n-1-i].Cloth, "folded back the other way round")
				require.InDelta(t, c.Strips[2*n-1-i].In-c.Strips[i].Out, 2*c.Bends[n-1-i].Outer, 1e-9)
			}
			require.Equal(t, pl.Edge == "" && c.Folded, slices.ContainsFunc(c.Strips, func(s bulk.Strip) bool { return s.Folded }))
		}
	})
}

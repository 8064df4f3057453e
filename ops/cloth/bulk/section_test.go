package bulk_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/ops/cloth"
	"truemat/ops/cloth/bulk"
	"truemat/ops/pattern"
)

func over(t *testing.T, press pattern.Press, thickness float64) (bulk.Place, bulk.Section) {
	p, g := tern(t, press)
	pl := at(t, bulk.Places(p, g, bulk.Limits{Thickness: thickness, Step: 2, Least: 3}), "side seam", "")
	require.NotNil(t, pl.Section)
	return pl, *pl.Section
}

// Felt of 1 mm, allowances of 6.35 mm: a piece, its own allowance folded back
// under it, and that of the other, which runs on beyond the seam.
func TestASectionHasTrueWidthsAndThickness(t *testing.T) {
	_, c := over(t, pattern.PressedToA, 2)
	require.InDelta(t, 12.35, c.Reach, 1e-9)
	type strip struct{ from, to, trimmed, out, in float64 }
	var got []strip
	for _, s := range c.Strips {
		got = append(got, strip{s.From, s.To, s.Trimmed, s.Out, s.In})
	}
	require.InDeltaSlice(t, []float64{0, 12.35, 12.35, 0, 1}, []float64{got[0].from, got[0].to, got[0].trimmed, got[0].out, got[0].in}, 1e-9)
	require.InDeltaSlice(t, []float64{0, 6.35, 6.35, 1, 2}, []float64{got[1].from, got[1].to, got[1].trimmed, got[1].out, got[1].in}, 1e-9)
	require.InDeltaSlice(t, []float64{-12.35, 6.35, 4.35, 2, 3}, []float64{got[2].from, got[2].to, got[2].trimmed, got[2].out, got[2].in}, 1e-9)
	require.Equal(t, []bulk.Bend{{Middle: 1, Inner: 0, Outer: 1}}, c.Bends)
	require.Equal(t, []bulk.Rise{{To: 6.35, Thickness: 3, Layers: 3}, {To: c.Reach, Thickness: 1, Layers: 1}}, c.AsCut)
	require.Equal(t, []int{3, 2, 1}, []int{c.Trimmed[0].Layers, c.Trimmed[1].Layers, c.Trimmed[2].Layers})
	require.InDelta(t, 4.35, c.Trimmed[0].To, 1e-9)
	require.InDelta(t, 6.35, c.Trimmed[1].To, 1e-9)
}

func TestASeamPressedOpenHasBothSides(t *testing.T) {
	_, c := over(t, pattern.PressedOpen, 1)
	require.Len(t, c.Strips, 4)
	require.InDelta(t, 6.35, c.Strips[1].To, 1e-9)
	require.InDelta(t, -6.35, c.Strips[3].To, 1e-9)
	require.Len(t, c.Bends, 2)
	require.Equal(t, []int{2, 1}, []int{c.AsCut[0].Layers, c.AsCut[1].Layers})
}

// Layers of their own on both sides, of any thickness: the layers lie on each
// other without room, those folded back the other way round; at the seam it is
// as thick as the place, and at every distance as the layers that reach there;
// trimming never adds, and steps by step as wide as asked.
func TestASectionAddsUp(t *testing.T) {
	p, g := tern(t, pattern.PressedToA)
	rapid.Check(t, func(t *rapid.T) {
		g.Cloths = nil
		var names []string
		for i := range rapid.IntRange(1, 4).Draw(t, "layers") {
			c := cloth.Cloth{Name: string(rune('a' + i)), Width: 1000, Thickness: rapid.Float64Range(0.1, 3).Draw(t, "thickness")}
			g.Cloths, names = append(g.Cloths, c), append(names, c.Name)
		}
		for i := range g.Made {
			g.Made[i].Cloths = names
		}
		limits := bulk.Limits{Thickness: 0.01, Step: rapid.Float64Range(0.5, 3).Draw(t, "step"), Least: 2}
		for _, pl := range bulk.Places(p, g, limits) {
			c := pl.Section
			require.NotNil(t, c)
			depth := 0.0
			for i, s := range c.Strips {
				require.InDelta(t, depth, s.Out, 1e-9)
				depth = s.In
				require.Equal(t, pl.Stack[i].Cloth, s.Cloth)
				require.LessOrEqual(t, s.Trimmed, s.To)
				if s.Allowance {
					require.GreaterOrEqual(t, s.Trimmed, min(limits.Least, s.To)-1e-9)
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
			for i, n := 0, len(names); i < n && pl.Across == ""; i++ {
				require.Equal(t, c.Strips[i].Cloth, c.Strips[2*n-1-i].Cloth, "folded back the other way round")
				require.InDelta(t, c.Strips[2*n-1-i].In-c.Strips[i].Out, 2*c.Bends[i].Outer, 1e-9)
			}
		}
	})
}

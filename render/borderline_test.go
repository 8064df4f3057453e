package render

import (
	"bytes"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// bordered is a print of the altered demo with the border on its tiles.
func bordered(t *testing.T, whole bool, change func(*cloth.Cloth)) (Print, border.Plan, pattern.Pattern) {
	run, err := demo.Tern()
	require.NoError(t, err)
	r := demo.TernInLace().Replay(run)[2]
	p, g := r.Size.Pattern, demo.Goods()
	lace, _ := g.Cloth("heron lace")
	if change != nil {
		change(&lace)
	}
	motif := 30.0
	g = g.WithWish(lace.Name, p, cloth.Wish{Piece: "inner cup", Motif: &motif, Depth: 4})
	plan, err := border.Of(g, lace, p, r.Size.Label)
	require.NoError(t, err)
	job := Print{Pattern: "Tern", Paper: A4, FoldWhole: whole, Sizes: []SizePieces{{r.Size.Label, p.Pieces}}, Laces: map[string][]border.Plan{r.Size.Label: {plan}}}
	return job, plan, p
}

// The border lies on the tiles at true size: the valley line a depth inside the
// lace edge, scallops of the lace's repeat and depth outside it, a motif point
// where the plan has one.
func TestTheBorderIsDrawnOnTheTilesAtTrueSize(t *testing.T) {
	for _, whole := range []bool{false, true} {
		job, laid, p := bordered(t, whole, nil)
		plan, err := PlanTiles(job)
		require.NoError(t, err)
		_, sizes, err := plan.drawn(job)
		require.NoError(t, err)
		s := Scene{Layers: sizes}
		valleys, scallops := ofKind(s, Valley), ofKind(s, Selvedge)
		require.Len(t, valleys, 2, "frame and inner cup")
		require.Len(t, scallops, 2)
		at := map[string]geom.Motion{}
		for _, pl := range plan.Pieces {
			at[pl.Name] = pl.Move
		}
		seen := 0
		for _, o := range laid.Placed {
			if o.Hand == border.Mirrored {
				continue
			}
			edge := cloth.LaceEdge(p.Piece(o.Piece))
			long := edge.Length()
			if o.Hand == border.Whole && whole {
				long *= 2
			}
			depth := 0.0
			if o.Piece == "inner cup" {
				depth = 4
			}
			for i, v := range valleys {
				line, err := geom.NewLine(v.Path.Start(), v.Path.End())
				require.NoError(t, err)
				mid := at[o.Piece].Apply(edge.Path.At(edge.Length() / 2))
				if math.Abs(line.Distance(mid)) > depth+0.01 {
					continue
				}
				seen++
				require.InDelta(t, depth, math.Abs(line.Distance(mid)), 1e-6)
				require.InDelta(t, long, v.Path.Length(), 1e-3)
				deepest := 0.0
				outward := math.Copysign(1, line.Distance(mid))
				for _, q := range scallops[i].Path.Flatten(0.001) {
					deepest = max(deepest, math.Abs(line.Distance(q)))
					if depth > 0 {
						require.GreaterOrEqual(t, outward*line.Distance(q), -1e-6, "on the side of the edge")
					}
				}
				require.InDelta(t, laid.Lace.Lace.Depth, deepest, 0.01)
				// A motif point lies 30 mm from the spot that is held.
				held := at[o.Piece].Apply(o.Lay.Inverse().Apply(geom.Point{}))
				u := at[o.Piece].Vector(o.Lay.Inverse().Vector(geom.Pt(1, 0)))
				for x := -o.Motif - 96; x < 200; x += 96 {
					cusp := held.Add(u.Mul(x))
					if x > -long/3 && x < long/3 && o.Hand != border.Whole {
						near := scallops[i].Path.Nearest(cusp)
						require.Less(t, near.Point.Dist(cusp), 1e-3, "%v", x)
					}
				}
			}
		}
		require.Equal(t, 2, seen)
		var b bytes.Buffer
		require.NoError(t, Tile(&b, job))
		job.Laces = nil
		bare, err := PlanTiles(job)
		require.NoError(t, err)
		_, sizes, err = bare.drawn(job)
		require.NoError(t, err)
		require.Empty(t, ofKind(Scene{Layers: sizes}, Valley))
	}
}

// No scallop is lost between the tiles.
func TestEveryScallopLiesOnAPage(t *testing.T) {
	job, _, _ := bordered(t, true, func(c *cloth.Cloth) { c.Lace.Depth = 30 })
	plan, err := PlanTiles(job)
	require.NoError(t, err)
	_, sizes, err := plan.drawn(job)
	require.NoError(t, err)
	for _, f := range ofKind(Scene{Layers: sizes}, Selvedge) {
		for _, q := range walkPoints(f.Path, 1) {
			on := false
			for _, tile := range plan.Tiles {
				on = on || tile.Area.Contains(q)
			}
			require.True(t, on, "%v lies on no page", q)
		}
	}
}

package cutting_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/clothtest"
	"truemat/ops/cloth/cutting"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

func box(name string, long, high float64, pair bool) pattern.Piece {
	pc := pattern.Piece{Name: name, Cut: pattern.Cut{Count: 1, Pair: pair}, Pose: geom.Identity(), Arrow: pattern.Arrow{Kind: pattern.Grain, From: geom.Pt(1, 1), To: geom.Pt(2, 1)}}
	corners := []geom.Point{geom.Pt(0, 0), geom.Pt(long, 0), geom.Pt(long, high), geom.Pt(0, high)}
	for i := range corners {
		pc.Edges = append(pc.Edges, pattern.Edge{Name: fmt.Sprint("side ", i), Role: pattern.SeamEdge, Free: true, Path: geom.Must(geom.Polyline(corners[i], corners[(i+1)%4]))})
	}
	return pc
}

func of(name string, pieces ...pattern.Piece) (pattern.Pattern, cloth.Goods) {
	g := cloth.Goods{Cloths: []cloth.Cloth{{Name: name, Width: 100}}}
	for _, pc := range pieces {
		g.Made = append(g.Made, cloth.Made{Piece: pc.Name, Cloths: []string{name}})
	}
	return pattern.Pattern{Pieces: pieces}, g
}

// Boxes that fill the width exactly take the length of their columns.
func TestBoxesFillTheWidth(t *testing.T) {
	a := box("a", 60, 50, true)
	a.Cut.Count = 3
	p, g := of("net", a)
	l, err := cutting.Lay(p, g, g.Cloths[0], 0, nil)
	require.NoError(t, err)
	require.Len(t, l.Placed, 6)
	require.InDelta(t, 180, l.Length, 1e-6, "three columns of two")

	l, err = cutting.Lay(p, g, g.Cloths[0], 10, nil)
	require.NoError(t, err)
	require.InDelta(t, 6*60+5*10, l.Length, 1e-6, "no two beside each other with a gap")
}

// overlap returns the greatest area that two pieces of a layout share.
func overlap(l cutting.Layout) float64 {
	var outlines []geom.Path
	for _, o := range l.Placed {
		outlines = append(outlines, o.Outline)
	}
	return clothtest.Overlap(outlines)
}

// Every piece of the Tern lies within its cloth, its arrow where it belongs,
// the left and the right hand turned over, nothing on anything else.
func TestTheTernIsLaidOnItsCloths(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, r := range demo.TernInLace().Replay(run) {
		p, g := r.Size.Pattern, demo.Goods()
		for _, name := range []string{"sheer tricot", "power net"} {
			c, _ := g.Cloth(name)
			l, err := cutting.Lay(p, g, c, 3, nil)
			require.NoError(t, err)
			require.NotEmpty(t, l.Placed)
			require.Less(t, overlap(l), 1e-3)
			turned := map[string]int{}
			for _, o := range l.Placed {
				b := o.Outline.Bounds()
				require.True(t, b.Min.X >= -1e-6 && b.Min.Y >= -1e-6 && b.Max.Y <= c.Width+1e-6 && b.Max.X <= l.Length+1e-6)
				pc := p.Piece(o.Piece)
				require.Equal(t, o.Turned, o.Motion.Mirrors())
				if pc.Cut.Pair {
					turned[o.Piece] += map[bool]int{true: 1, false: -1}[o.Turned]
				}
				arrow := o.Motion.Vector(pc.Arrow.To.Sub(pc.Arrow.From)).Unit()
				along, across := g.Stretch(c)
				onSelvedge := pc.Arrow.Kind == pattern.Grain || (pc.Arrow.Kind == pattern.MostStretch) == (along >= across)
				if onSelvedge {
					require.InDelta(t, 0, arrow.Y, 1e-9, o.Piece)
				} else {
					require.InDelta(t, 0, arrow.X, 1e-9, o.Piece)
				}
			}
			for piece, n := range turned {
				require.Zero(t, n, "as many left as right of %s", piece)
			}
		}
	}
}

// Random boxes: nothing overlaps, nothing is left out, and it is never longer
// than laying them one behind the other.
func TestBoxesAreLaidApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pieces []pattern.Piece
		inRow := 0.0
		gap := rapid.Float64Range(0, 5).Draw(t, "gap")
		for i := range rapid.IntRange(1, 8).Draw(t, "pieces") {
			long := rapid.Float64Range(10, 120).Draw(t, "long")
			pieces = append(pieces, box(fmt.Sprint("box ", i), long, rapid.Float64Range(10, 100).Draw(t, "high"), false))
			inRow += long + gap
		}
		p, g := of("net", pieces...)
		l, err := cutting.Lay(p, g, g.Cloths[0], gap, nil)
		require.NoError(t, err)
		require.Len(t, l.Placed, len(pieces))
		require.LessOrEqual(t, l.Length, inRow+1e-6)
		for i, a := range l.Placed {
			for _, b := range l.Placed[:i] {
				x, y := a.Outline.Bounds(), b.Outline.Bounds()
				require.True(t, x.Min.X >= y.Max.X+gap-1e-6 || y.Min.X >= x.Max.X+gap-1e-6 || x.Min.Y >= y.Max.Y+gap-1e-6 || y.Min.Y >= x.Max.Y+gap-1e-6)
			}
		}
	})
}

func TestPinnedPiecesStay(t *testing.T) {
	p, g := of("net", box("a", 60, 50, false), box("b", 40, 40, false))
	l, err := cutting.Lay(p, g, g.Cloths[0], 0, []cloth.Pin{{Piece: "b", At: geom.Pt(120, 50)}})
	require.NoError(t, err)
	require.Equal(t, "b", l.Placed[0].Piece)
	require.True(t, l.Placed[0].Pinned)
	require.InDelta(t, 140, l.Length, 1e-6)

	for _, c := range []struct {
		pins []cloth.Pin
		says string
	}{
		{[]cloth.Pin{{Piece: "c"}}, "no such piece"},
		{[]cloth.Pin{{Piece: "a", At: geom.Pt(10, 10)}}, "beyond the edge"},
		{[]cloth.Pin{{Piece: "a", At: geom.Pt(40, 40)}, {Piece: "b", At: geom.Pt(50, 50)}}, "over each other"},
	} {
		_, err := cutting.Lay(p, g, g.Cloths[0], 0, c.pins)
		require.ErrorContains(t, err, c.says)
	}
}

func TestWhatIsTooWideIsRefused(t *testing.T) {
	p, g := of("net", box("a", 60, 101, false))
	_, err := cutting.Lay(p, g, g.Cloths[0], 0, nil)
	require.ErrorContains(t, err, "wider")
	_, err = cutting.Lay(p, g, g.Cloths[0], -1, nil)
	require.ErrorContains(t, err, "gap")
}

func TestTheListCountsEveryLayer(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := demo.TernInLace().Replay(run)[0].Size.Pattern
	count := map[string]int{}
	for _, e := range cutting.List(p, demo.Goods()) {
		count[e.Cloth+"/"+e.Piece] += e.Count
		require.NotEmpty(t, e.Way)
	}
	require.Equal(t, map[string]int{
		"heron lace/frame": 1, "sheer tricot/frame": 1, "power net/band": 2,
		"heron lace/inner cup": 2, "sheer tricot/inner cup": 2, "sheer tricot/upper outer cup": 2, "sheer tricot/lower outer cup": 2,
	}, count)
}

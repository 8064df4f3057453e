package cutting_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/cutting"
	"truemat/ops/pattern"
)

// ring returns a piece along the corners.
func ring(name string, corners ...geom.Point) pattern.Piece {
	pc := box(name, 1, 1, false)
	pc.Edges = nil
	for i := range corners {
		pc.Edges = append(pc.Edges, pattern.Edge{Name: fmt.Sprint("side ", i), Role: pattern.SeamEdge, Free: true, Path: geom.Must(geom.Polyline(corners[i], corners[(i+1)%len(corners)]))})
	}
	return pc
}

// A bar lies in the hollow of a piece that is open to one end of the cloth.
func TestAPieceLiesInTheHollowOfAnother(t *testing.T) {
	fork := ring("fork", geom.Pt(0, 0), geom.Pt(150, 0), geom.Pt(150, 35), geom.Pt(30, 35), geom.Pt(30, 65), geom.Pt(150, 65), geom.Pt(150, 100), geom.Pt(0, 100))
	p, g := of("net", fork, box("bar", 100, 30, false))
	l, err := cutting.Lay(p, g, g.Cloths[0], 0, nil)
	require.NoError(t, err)
	require.InDelta(t, 150, l.Length, 1e-6)
	require.Less(t, overlap(l), 1e-6)
	l, err = cutting.Lay(p, g, g.Cloths[0], 1, nil)
	require.NoError(t, err)
	require.InDelta(t, 251, l.Length, 1e-6, "with a gap the hollow is too narrow")
}

// Hollow pieces never lie over each other, as an independent clipping of
// polygons tells, however they are pinned; pins that overlap or reach over an
// edge are refused, the others kept.
func TestPinsAreKeptUnlessTheyOverlap(t *testing.T) {
	kept, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		var pieces []pattern.Piece
		for i := range rapid.IntRange(2, 4).Draw(t, "pieces") {
			w, h := rapid.Float64Range(20, 70).Draw(t, "long"), rapid.Float64Range(20, 60).Draw(t, "high")
			x, y := rapid.Float64Range(0.1, 0.9).Draw(t, "x")*w, rapid.Float64Range(0.1, 0.9).Draw(t, "y")*h
			pc := ring(fmt.Sprint("piece ", i), geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(x, y), geom.Pt(w, h), geom.Pt(0, h))
			pc.Cut.Pair = rapid.Bool().Draw(t, "pair")
			pieces = append(pieces, pc)
		}
		p, g := of("net", pieces...)
		c := g.Cloths[0]
		l, err := cutting.Lay(p, g, c, 0, nil)
		require.NoError(t, err)
		require.Less(t, overlap(l), 1e-3)
		for range rapid.IntRange(1, 2).Draw(t, "moves") {
			i := rapid.IntRange(0, len(l.Placed)-1).Draw(t, "piece")
			at := geom.Pt(rapid.Float64Range(0, 2*l.Length).Draw(t, "to x"), rapid.Float64Range(0, c.Width).Draw(t, "to y"))
			arrow := l.Placed[i].Motion.Vector(geom.Pt(1, 0))
			turned := rapid.Bool().Draw(t, "half")
			was := l.Placed[i].Half
			l = l.Moved(i, l.Within(i, at), turned)
			now := l.Placed[i].Motion.Vector(geom.Pt(1, 0))
			if turned != was {
				now = now.Mul(-1)
			}
			require.InDelta(t, 0, now.Dist(arrow), 1e-9, "the arrow is kept")
			require.False(t, l.Beyond(i))
		}
		pins := l.Pins(nil)
		again, err := cutting.Lay(p, g, c, 0, pins)
		if l.Wrong() != nil {
			refused++
			require.ErrorContains(t, err, "over each other")
			return
		}
		kept++
		require.NoError(t, err)
		require.Less(t, overlap(l), 1e-3)
		require.InDelta(t, l.Length, again.Length, 1e-9)
		for i, o := range again.Placed {
			require.Equal(t, l.Placed[i].Pinned, o.Pinned, "but the moved ones are not pinned")
			require.InDelta(t, 0, o.Middle().Dist(l.Placed[i].Middle()), 1e-9)
		}
		held := slices.IndexFunc(l.Placed, func(o cutting.Placed) bool { return o.Pinned })
		one := l.Pins(func(i int) bool { return i != held })
		require.Len(t, one, 1)
		around, err := cutting.Lay(p, g, c, 0, one)
		require.NoError(t, err)
		require.Less(t, overlap(around), 1e-3, "the rest lies around what is pinned")
		require.Len(t, around.Placed, len(l.Placed))
	})
	require.Greater(t, kept, 5)
	require.Greater(t, refused, 5)
}

func TestPinsHoldForTheirSize(t *testing.T) {
	p, g := of("net", box("a", 60, 50, false))
	g = g.WithPins("net", "75C", []cloth.Pin{{Piece: "a", At: geom.Pt(100, 50)}})
	require.NoError(t, g.Validate())
	pinned, err := cutting.Of(g, g.Cloths[0], p, "75C")
	require.NoError(t, err)
	require.InDelta(t, 130, pinned.Length, 1e-9)
	other, err := cutting.Of(g, g.Cloths[0], p, "80C")
	require.NoError(t, err)
	require.InDelta(t, 60, other.Length, 1e-9)
	require.Empty(t, g.WithPins("net", "75C", nil).Laid)

	g.Cloths[0].OneWay = true
	_, err = cutting.Lay(p, g, g.Cloths[0], 0, []cloth.Pin{{Piece: "a", At: geom.Pt(100, 50), Half: true}})
	require.ErrorContains(t, err, "up and a down")
}

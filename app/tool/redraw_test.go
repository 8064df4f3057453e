package tool_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/store"
)

// The frame is made ready for lace by hand, from the taping on: each act with
// the tool for it, and every length in every size as in the demo.
func TestFrameIsRedrawnByHand(t *testing.T) {
	d := tern(t, 7)
	spot := func(piece, edge string, end pattern.EndName) geom.Point {
		return spotAt(t, d, pattern.AtEnd(piece, edge, end))
	}

	hem := func(piece string) {
		ruler := tool.NewRuler(d)
		press(ruler, spot(piece, "hem", pattern.Start))
		drag(ruler, spot(piece, "hem", pattern.Start).Lerp(spot(piece, "hem", pattern.End), 0.5))
		drag(ruler, spot(piece, "hem", pattern.End))
		release(ruler, spot(piece, "hem", pattern.End))
		require.NoError(t, ruler.Set("role", "lace-edge"))
		accept(t, d, ruler)
	}
	hem("frame")

	smooth := tool.NewSmooth(d)
	l, k := d.Pattern().Piece("frame").Edge("wire").Length(), wireKink(t, d)
	on := func(s float64) geom.Point { return midEdge(t, d, "frame", "wire", s/l) }
	press(smooth, on(k))
	release(smooth, on(k))
	press(smooth, on(k-25))
	drag(smooth, on(k-0.16*l))
	release(smooth, on(k-0.16*l))
	accept(t, d, smooth)

	hem("band")

	add := tool.NewAdd(d)
	require.NoError(t, add.Set("share", field(t, add, "share").Options[1]))
	press(add, midEdge(t, d, "frame", "side seam", 0.2))
	press(add, midEdge(t, d, "band", "side seam", 0.8))
	accept(t, d, add)

	truing := tool.NewTrue(d)
	press(truing, spot("band", "hem", pattern.Start))
	accept(t, d, truing)
	press(truing, spot("band", "top", pattern.End))
	require.NoError(t, truing.Set("reach a", "14"))
	require.NoError(t, truing.Set("reach b", "40"))
	accept(t, d, truing)

	shears := tool.NewShears(d)
	press(shears, spotAt(t, d, aboveApex))
	press(shears, spotAt(t, d, neckCorner))
	for f, v := range map[string]string{"name": "lace edge", "role": "lace-edge"} {
		require.NoError(t, shears.Set(f, v))
	}
	require.NoError(t, shears.Set("rest", "turned edge"))
	require.NoError(t, shears.Set("notch", "above apex"))
	accept(t, d, shears)
	sameAs(t, d, 14)
}

// What is begun and abandoned leaves no trace, wherever the hand went.
func TestRedrawingAbandonedLeavesNothing(t *testing.T) {
	run := two(t)
	lace := demo.TernInLace()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SampledFrom([]int{7, 8, 10, 13}).Draw(t, "steps")
		d, err := desk.New(store.Document{Source: run, Recipe: lace[:n]}, "")
		require.NoError(t, err)
		begin := rapid.SampledFrom([]func(tool.Table) tool.Tool{tool.NewRuler, tool.NewSmooth, tool.NewAdd, tool.NewShears, tool.NewTrue}).Draw(t, "tool")
		tl := begin(d)
		for range 30 {
			if rapid.IntRange(0, 4).Draw(t, "what") == 0 {
				setJunk(t, tl)
			} else {
				tl.Pointer(tool.Event{
					Act:   rapid.SampledFrom([]tool.Act{tool.Press, tool.Press, tool.Drag, tool.Drag, tool.Release, tool.Hover}).Draw(t, "act"),
					At:    anywhere(t, d.Pattern()),
					Reach: rapid.SampledFrom([]float64{3, 10, math.NaN()}).Draw(t, "reach"),
				})
			}
			look(t, tl)
			if steps := tl.Proposal(); steps != nil && rapid.IntRange(0, 3).Draw(t, "try") == 0 {
				if res, err := d.Try(steps...); err == nil {
					require.NoError(t, res.Size.Pattern.Validate())
				}
			}
		}
		tl.Reset()
		require.Empty(t, tl.Proposal())
		require.Len(t, d.Document().Recipe, n)
	})
}

// BenchmarkSmoothFrame is all that a tool does for one frame of a drag.
func BenchmarkSmoothFrame(b *testing.B) {
	d := tern(b, 8)
	l, k := d.Pattern().Piece("frame").Edge("wire").Length(), wireKink(b, d)
	on := func(s float64) geom.Point { return midEdge(b, d, "frame", "wire", s/l) }
	tl := tool.NewSmooth(d)
	press(tl, on(k))
	release(tl, on(k))
	press(tl, on(k+25))
	for i := 0; b.Loop(); i++ {
		drag(tl, on(k+15+float64(i%200)*0.1))
		frame(d, tl)
	}
}

// BenchmarkAddFrame is the same for adding at an edge's end.
func BenchmarkAddFrame(b *testing.B) {
	d := tern(b, 10)
	tl := tool.NewAdd(d)
	at := midEdge(b, d, "band", "side seam", 0.9)
	press(tl, at)
	for i := 0; b.Loop(); i++ {
		drag(tl, at.Add(geom.Pt(0, -float64(1+i%60)*0.1)))
		frame(d, tl)
	}
}

// BenchmarkCutFrame is the same for the shears while an end is pulled.
func BenchmarkCutFrame(b *testing.B) {
	d := tern(b, 14)
	tl := tool.NewShears(d)
	press(tl, spotAt(b, d, neckCorner))
	for i := 0; b.Loop(); i++ {
		drag(tl, midEdge(b, d, "inner cup", "vertical seam", 0.6+float64(i%100)*0.002))
		frame(d, tl)
	}
}

package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func TestAddFollowsTheHand(t *testing.T) {
	d := tern(t, 10)
	tl := tool.NewAdd(d)
	at := midEdge(t, d, "band", "side seam", 0.9)
	press(tl, at)
	drag(tl, at.Add(geom.Pt(0, -1)))
	drag(tl, at.Add(geom.Pt(0, -4)))
	release(tl, at)
	s, ok := tl.Proposal()[0].(*step.Add)
	require.True(t, ok)
	assert.Equal(t, step.EdgeEnd{Piece: "band", Edge: "side seam", End: pattern.End}, s.EdgeEnd)
	v, err := s.Amount.In(step.Input{})
	require.NoError(t, err)
	p := d.Pattern().Piece("band")
	e := p.Edges[p.Next(p.EdgeIndex("side seam"))]
	dir := p.Pose.Vector(e.Path.TangentAt(0).Mul(-1))
	assert.InDelta(t, geom.Pt(0, -4).Dot(dir), v, 0.0501)

	require.NoError(t, tl.Set("amount", "1/4"))
	assert.Contains(t, notes(tl), "+6.35 mm")
	res, err := d.Try(tl.Proposal()...)
	require.NoError(t, err)
	now, err := res.Size.Pattern.Find(s.Spot())
	require.NoError(t, err)
	assert.InDelta(t, 6.35, now.Mat.Dist(spotAt(t, d, s.Spot())), 1e-6)
	assert.Contains(t, tl.Hint(), "side seam differ by")

	require.True(t, tl.Key(tool.Key{Name: tool.Down, Step: 0.1}))
	assert.Equal(t, "6.25 mm", field(t, tl, "amount").Text)
	require.NoError(t, tl.Set("evenly", "yes"))
	assert.True(t, tl.Proposal()[0].(*step.Add).Evenly)
	for f, junk := range map[string]string{"amount": "a lot", "evenly": "x", "end": "middle", "end 2": "start", "share": "all", "": ""} {
		require.Error(t, tl.Set(f, junk), f)
	}
	require.Error(t, tl.Set("amount", "1e4"))
	require.True(t, tl.Reset())
	assert.Empty(t, tl.Proposal())
	assert.Empty(t, tl.Overlay())
	assert.False(t, tl.Reset())
}

func TestAddSharesTheOverlapOut(t *testing.T) {
	byHand := tern(t, 10)
	want := reported(t, byHand, demo.TernInLace()[10].Step)
	tl := tool.NewAdd(byHand)
	share := field(t, tl, "share")
	require.Len(t, share.Options, 2)
	require.NoError(t, tl.Set("share", share.Options[1]))
	press(tl, midEdge(t, byHand, "frame", "side seam", 0.1))
	require.Empty(t, tl.Proposal())
	assert.Contains(t, tl.Hint(), "side seam of band")
	press(tl, midEdge(t, byHand, "band", "side seam", 0.9))
	got := reported(t, byHand, tl.Proposal()...)
	assert.InDelta(t, want.Figures["given_back"], got.Figures["given_back"], 1e-9)
	accept(t, byHand, tl)
	sameAs(t, byHand, 11)

	byKeys := tern(t, 10)
	tl = tool.NewAdd(byKeys)
	require.NoError(t, tl.Set("share", field(t, tl, "share").Options[1]))
	choose(t, tl, "frame", "side seam of frame")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	require.NoError(t, tl.Set("end 2", "side seam of band, at the hem"))
	require.NoError(t, tl.Set("end", "side seam of frame, at the hem"))
	accept(t, byKeys, tl)
	sameAs(t, byKeys, 11)

	byEdges := tern(t, 10)
	tl = tool.NewAdd(byEdges)
	require.NoError(t, tl.Set("share", field(t, tl, "share").Options[1]))
	choose(t, tl, "frame", "side seam of frame")
	choose(t, tl, "band", "side seam of band")
	require.Equal(t, "side seam of band, at the hem", field(t, tl, "end 2").Text, "the end that is sewn to the first")

	again := tool.NewAdd(tern(t, 10))
	overlap := field(t, again, "share").Options[1]
	require.NoError(t, again.Set("share", overlap))
	choose(t, again, "frame", "side seam of frame")
	require.True(t, tool.Abandon(again))
	assert.Equal(t, overlap, field(t, again, "share").Text, "what is shared out is still said, the edges are not")
	assert.Len(t, again.Fields(), 1)
	require.True(t, tool.Abandon(again))
	assert.Equal(t, "no", field(t, again, "share").Text)
	require.False(t, tool.Abandon(again))

	none := tool.NewAdd(tern(t, 0))
	require.Error(t, none.Set("share", "tape.overlap"))
	assert.Empty(t, none.Fields())
}

// N goes over both ends of every edge, and P back; the space bar takes the one told.
func TestAddByKeysGoesOverBothEndsOfAnEdge(t *testing.T) {
	d := tern(t, 0)
	tl := tool.NewAdd(d)
	walkTo(t, tl, "band")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	pc := d.Pattern().Piece("band")
	seen := map[string]int{}
	var way []string
	for range 2 * len(pc.Edges) {
		way = append(way, notes(tl))
		seen[notes(tl)]++
		require.True(t, tl.Key(tool.Key{Name: tool.Next}))
	}
	require.Len(t, seen, 2*len(pc.Edges), "each once: %v", way)
	require.Equal(t, way[0], notes(tl), "and round again")
	for i := len(way) - 1; i >= 0; i-- {
		require.True(t, tl.Key(tool.Key{Name: tool.Previous}))
		require.Equal(t, way[i], notes(tl), "P goes the same way back")
	}

	tl = tool.NewAdd(d)
	walkTo(t, tl, "band")
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	walkTo(t, tl, "side seam of band")
	require.Contains(t, tl.Hint(), "moves out at the top; N goes to its other end, at the hem.")
	require.True(t, tl.Key(tool.Key{Name: tool.Next}))
	require.Contains(t, notes(tl), "moves out at the hem")
	require.Contains(t, tl.Hint(), "moves out at the hem.")
	require.True(t, tl.Key(tool.Key{Name: tool.Previous}))
	require.Contains(t, notes(tl), "moves out at the top")
	require.True(t, tl.Key(tool.Key{Name: tool.Next}))
	require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	require.Equal(t, "side seam of band, at the hem", field(t, tl, "end").Text)
}

// Before the space bar takes an edge it is told and shown which of its ends moves.
func TestAddByKeysNamesTheEndBeforeItIsTaken(t *testing.T) {
	for piece, where := range map[string]string{"cradle": "at the hem", "band": "at the top"} {
		d := tern(t, 0)
		tl := tool.NewAdd(d)
		walkTo(t, tl, piece)
		require.NotContains(t, tl.Hint(), "moves out")
		require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
		walkTo(t, tl, "side seam of "+piece)
		require.Contains(t, tl.Hint(), "side seam of "+piece+", which moves out "+where)
		require.Contains(t, notes(tl), "moves out "+where)
		require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
		require.Equal(t, "side seam of "+piece+", "+where, field(t, tl, "end").Text, "as was said")
		require.NotContains(t, notes(tl), "moves out")
	}
}

package tool_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// wireKink returns where the taped wire line turns, mm from its start.
func wireKink(t testing.TB, d *desk.Desk) float64 {
	t.Helper()
	at := d.Pattern().Piece("frame").Edge("wire").Path.Corners(pattern.SmoothTurn)
	require.Len(t, at, 1)
	return at[0]
}

func TestSmoothByItsHandles(t *testing.T) {
	d := tern(t, 8)
	want := reported(t, d, demo.TernInLace()[8].Step)
	l := d.Pattern().Piece("frame").Edge("wire").Length()
	k := wireKink(t, d)
	on := func(s float64) geom.Point { return midEdge(t, d, "frame", "wire", s/l) }
	tl := tool.NewSmooth(d)
	require.NotEmpty(t, tl.Overlay().Dots, "the kink is shown")
	press(tl, on(k+1.5))
	release(tl, on(k+1.5))
	require.Len(t, tl.Proposal(), 1)
	assert.Equal(t, "yes", field(t, tl, "keep").Text, "it is sewn")
	assert.Contains(t, notes(tl), "length kept")

	press(tl, on(k+25))
	drag(tl, on(k+20))
	drag(tl, on(k+0.16*l))
	release(tl, on(k+0.16*l))
	got := reported(t, d, tl.Proposal()...)
	for name, v := range want.Figures {
		assert.InDelta(t, v, got.Figures[name], 1e-6, name)
	}
	accept(t, d, tl)
	sameAs(t, d, 9)
}

func TestSmoothByKeysAlone(t *testing.T) {
	d := tern(t, 8)
	k := wireKink(t, d)
	tl := tool.NewSmooth(d)
	choose(t, tl, "frame", "wire of frame")
	at := func() (float64, float64) {
		s := tl.Proposal()[0].(*step.Smooth)
		reach, err := s.Reach.In(step.Input{})
		require.NoError(t, err)
		return s.At.At(d.Pattern().Piece("frame").Edge(s.Edge).Length()), reach
	}
	s, reach := at()
	assert.InDelta(t, k, s, 1e-9)
	assert.Equal(t, 25.0, reach)
	require.True(t, tl.Key(tool.Key{Name: tool.Right, Step: 1}))
	require.True(t, tl.Key(tool.Key{Name: tool.Up, Step: 10}))
	s, reach = at()
	assert.InDelta(t, k+1, s, 1e-9)
	assert.Equal(t, 35.0, reach)
	require.NoError(t, tl.Set("at", geomText(k)))
	require.NoError(t, tl.Set("reach", "1 1/2 in"))
	_, reach = at()
	assert.InDelta(t, 38.1, reach, 1e-9)
	require.NoError(t, tl.Set("keep", "no"))
	require.NoError(t, tl.Set("after", "30"))
	require.Equal(t, "38.1 mm", field(t, tl, "before").Text)
	sm := tl.Proposal()[0].(*step.Smooth)
	assert.Nil(t, sm.Reach)
	assert.Empty(t, sm.Keep)
	wire := d.Pattern().Piece("frame").Edge("wire").Length()
	assert.InDelta(t, k-38.1, sm.From.At(wire), 1e-5)
	assert.InDelta(t, k+30, sm.To.At(wire), 1e-5)
	require.NoError(t, d.Accept(sm))
	assert.Empty(t, d.Pattern().Piece("frame").Edge("wire").Path.Corners(pattern.SmoothTurn))

	for f, junk := range map[string]string{"reach": "0", "before": "x", "after": "-2", "keep": "maybe", "at": "1e4", "z": "1"} {
		require.Error(t, tl.Set(f, junk), f)
	}
	require.True(t, tl.Reset())
	assert.Empty(t, tl.Proposal())
	assert.False(t, tl.Reset())
}

// Where a line runs over a joint both edges are smoothed; a corner is left alone.
func TestSmoothOverAJoint(t *testing.T) {
	run := two(t)
	p := run.Sizes[0].Pattern
	band := p.Piece("band")
	top := band.EdgeIndex("top")
	before := band.Edges[band.Prev(top)].Name
	at := pattern.AtEnd("band", "top", pattern.Start)

	d := tern(t, 0)
	tl := tool.NewSmooth(d)
	press(tl, spotAt(t, d, at))
	require.Empty(t, tl.Proposal(), "the straight edge beside the corner is smooth")
	assert.NotEqual(t, "0 mm", field(t, tl, "at").Text, "beside the corner, not on it")
	tl.Reset()

	require.NoError(t, d.Accept(&step.Sew{Line: &step.SewLine{Name: "round the back", Kind: pattern.LineHem,
		Parts: []pattern.Part{pattern.Whole("band", before), pattern.Whole("band", "top")}}}))
	press(tl, spotAt(t, d, at))
	require.NoError(t, tl.Set("keep", "no"))
	s := tl.Proposal()[0].(*step.Smooth)
	got := reported(t, d, s)
	assert.Positive(t, got.Figures["moved"])
	require.NoError(t, tl.Set("before", "12"))
	s = tl.Proposal()[0].(*step.Smooth)
	assert.Equal(t, "top", s.Then)
	assert.Equal(t, before, s.Edge)
	res, err := d.Try(s)
	require.NoError(t, err)
	pc := res.Size.Pattern.Piece("band")
	assert.True(t, pc.Smooth(pc.EdgeIndex("top")))
}

func TestSmoothTellsWhereNothingWouldMove(t *testing.T) {
	d := tern(t, len(demo.TernInLace()))
	tl := tool.NewSmooth(d)
	press(tl, midEdge(t, d, "frame", "hem", 0.5))
	require.Contains(t, tl.Hint(), "smooth already")
	require.Empty(t, tl.Proposal(), "and there is nothing to accept")
}

// The space bar takes the kink at once; N leads to the piece and the edge that
// have it, wherever something else is selected.
func TestKeysOfSmoothLeadToTheKink(t *testing.T) {
	d := tern(t, 8)
	k := wireKink(t, d)
	d.Select(tool.Selection{Piece: "band"})
	for _, keys := range [][]tool.KeyName{{tool.Choose}, {tool.Next, tool.Choose, tool.Choose}} {
		tl := tool.NewSmooth(d)
		require.Contains(t, tl.Hint(), "The space bar takes the kink in wire of frame.")
		for _, name := range keys {
			require.True(t, tl.Key(tool.Key{Name: name}))
		}
		s := tl.Proposal()[0].(*step.Smooth)
		assert.InDelta(t, k, s.At.At(d.Pattern().Piece("frame").Edge("wire").Length()), 1e-9)
	}
}

// A kink that is only there while a dart lies open is none to be smoothed: the
// space bar offers another, or none.
func TestSmoothOffersNoKinkThatADartMakes(t *testing.T) {
	d := tern(t, 0)
	hinge := pattern.AtNotch("lower outer cup", "cross")
	open, short := step.Lit(12), step.Lit(15)
	require.NoError(t, d.Accept(&step.Spread{
		Piece:   "lower outer cup",
		Slashes: []step.Slash{{From: pattern.Spot{Piece: "lower outer cup", Edge: "wire", Along: pattern.Along{Share: 0.5}}}},
		Hinge:   &step.Hinge{Spot: &hinge}, Amount: &open, Dart: &step.NewDart{Name: "dart", Short: &short},
	}))
	require.Greater(t, sharpestTurn(d, "lower outer cup", "cross seam"), 5.0, "there is a kink")
	require.NotContains(t, tool.NewSmooth(d).Hint(), "lower outer cup")
}

// sharpestTurn is the sharpest turn of an edge within itself, in degrees.
func sharpestTurn(d *desk.Desk, piece, edge string) (most float64) {
	path := d.Pattern().Piece(piece).Edge(edge).Path
	for _, at := range path.Corners(pattern.SmoothTurn) {
		most = max(most, math.Abs(geom.Between(path.TangentBefore(at), path.TangentAt(at)).Degrees()))
	}
	return most
}

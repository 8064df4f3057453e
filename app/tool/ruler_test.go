package tool_test

import (
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

// reported is what trying steps reports of the last one.
func reported(t testing.TB, d *desk.Desk, s ...step.Step) step.Report {
	t.Helper()
	require.NotEmpty(t, s)
	res, err := d.Try(s...)
	require.NoError(t, err)
	return res.Reports[len(res.Reports)-1]
}

func choose(t testing.TB, tl tool.Tool, wants ...string) {
	t.Helper()
	for _, want := range wants {
		walkTo(t, tl, want)
		require.True(t, tl.Key(tool.Key{Name: tool.Choose}))
	}
}

var frameHem = [2]pattern.Spot{pattern.AtEnd("frame", "hem", pattern.Start), pattern.AtEnd("frame", "hem", pattern.End)}

func TestRulerStraightensTheHemEitherWayRound(t *testing.T) {
	for _, turned := range []bool{false, true} {
		d := tern(t, 7)
		want := reported(t, d, demo.TernInLace()[7].Step)
		a, b := spotAt(t, d, frameHem[0]), spotAt(t, d, frameHem[1])
		if turned {
			a, b = b, a
		}
		tl := tool.NewRuler(d)
		press(tl, a.Add(geom.Pt(1, 0.5)))
		release(tl, a)
		assert.Contains(t, tl.Hint(), "where the straight line is to end")
		assert.Empty(t, tl.Proposal())
		press(tl, b.Add(geom.Pt(0.5, 1)))
		release(tl, b)
		require.NoError(t, tl.Set("role", "lace-edge"))
		assert.Equal(t, "hem", field(t, tl, "name").Text)
		assert.Equal(t, "0 mm", field(t, tl, "allowance").Text)
		got := reported(t, d, tl.Proposal()...)
		for k, v := range want.Figures {
			assert.InDelta(t, v, got.Figures[k], 1e-6, k)
		}
		assert.Regexp(t, `, up to [\d.]+ mm (outside|inside)`, notes(tl))
		accept(t, d, tl)
		sameAs(t, d, 8)
	}
}

func TestRulerIsPulledFromSpotToSpot(t *testing.T) {
	d := tern(t, 7)
	a, b := spotAt(t, d, frameHem[0]), spotAt(t, d, frameHem[1])
	tl := tool.NewRuler(d)
	press(tl, a)
	drag(tl, a.Lerp(b, 0.4).Add(geom.Pt(0, -30)))
	require.Empty(t, tl.Proposal())
	require.NotEmpty(t, tl.Overlay().Strokes, "a line follows the hand")
	drag(tl, b)
	release(tl, b)
	require.Len(t, tl.Proposal(), 1)
	// and an end is pulled on
	press(tl, b)
	mid := midEdge(t, d, "frame", "hem", 0.6)
	drag(tl, mid)
	release(tl, mid)
	s, ok := tl.Proposal()[0].(*step.Straighten)
	require.True(t, ok)
	assert.Equal(t, "straight hem", s.Name)
	got := reported(t, d, s)
	assert.InDelta(t, a.Dist(mid), got.Figures["length"], 1e-6)

	assert.True(t, tl.Reset())
	assert.Empty(t, tl.Proposal())
	assert.Empty(t, tl.Overlay())
	assert.False(t, tl.Reset())
}

func TestRulerByKeysAlone(t *testing.T) {
	d := tern(t, 7)
	tl := tool.NewRuler(d)
	choose(t, tl, "frame", "hem of frame")
	p := d.Pattern().Piece("frame").Edge("hem").Length() / 2
	for range 3 {
		require.True(t, tl.Key(tool.Key{Name: tool.Left, Step: 10}))
	}
	choose(t, tl, "hem of frame")
	require.True(t, tl.Key(tool.Key{Name: tool.Right, Step: 1}))
	s, ok := tl.Proposal()[0].(*step.Straighten)
	require.True(t, ok)
	from, err := d.Pattern().Find(s.From)
	require.NoError(t, err)
	to, err := d.Pattern().Find(s.To)
	require.NoError(t, err)
	assert.InDelta(t, p-30, from.S, 1e-9)
	assert.InDelta(t, p+1, to.S, 1e-9)

	require.NoError(t, tl.Set("from", "0"))
	require.NoError(t, tl.Set("to", "3 1/8 in"))
	s, _ = tl.Proposal()[0].(*step.Straighten)
	assert.Equal(t, frameHem[0], s.From)
	assert.InDelta(t, 79.375, s.To.MM, 1e-9)
	for f, junk := range map[string]string{"from": "2 m?", "to": "900", "name": "wire", "role": "door", "allowance": "-1", "run": "up", "x": "1"} {
		require.Error(t, tl.Set(f, junk), f)
	}
	require.Error(t, tl.Set("to", "0"), "both at one place")
	require.NoError(t, tl.Set("allowance", "1/4"))
	s, _ = tl.Proposal()[0].(*step.Straighten)
	res, err := d.Try(s)
	require.NoError(t, err)
	assert.InDelta(t, 6.35, res.Size.Pattern.Piece("frame").Edge("straight hem").Allowance, 1e-9)
	require.NoError(t, tl.Set("run", "the longer way"))
	assert.NotEmpty(t, tl.Hint())
}

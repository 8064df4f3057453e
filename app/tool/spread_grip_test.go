package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/step"
)

// fanned is the band slashed three times from its top to its hem.
func fanned(t *testing.T) (*desk.Desk, tool.Tool) {
	t.Helper()
	d := tern(t, 0)
	tl := tool.NewSpread(d)
	for _, share := range []float64{0.3, 0.5, 0.7} {
		for _, at := range []geom.Point{midEdge(t, d, "band", "top", share), midEdge(t, d, "band", "hem", 1-share)} {
			press(tl, at)
			release(tl, at)
		}
	}
	return d, tl
}

// handles are where the slashes are pulled, in their order.
func handles(tl tool.Tool) []geom.Point {
	var at []geom.Point
	for _, d := range tl.Overlay().Dots {
		if d.Style == tool.Handle {
			at = append(at, d.At)
		}
	}
	return at
}

func opened(t *testing.T, d *desk.Desk, tl tool.Tool) []float64 {
	t.Helper()
	mouths, err := tl.Proposal()[0].(*step.Spread).Mouths(step.Input{Pattern: d.Pattern(), Size: d.Size(), Figures: d.Figures()})
	require.NoError(t, err)
	var out []float64
	for _, m := range mouths {
		out = append(out, m.Opened)
	}
	return out
}

func TestEverySlashHasItsHandles(t *testing.T) {
	d, tl := fanned(t)
	at := handles(tl)
	require.Len(t, at, 3)

	// The last handle, turned by all slashes before it, follows the pointer.
	to := at[2].Add(geom.Pt(-14, -3))
	press(tl, at[2])
	drag(tl, to)
	release(tl, to)
	each := opened(t, d, tl)
	require.Greater(t, each[0], 1.0)
	assert.InDelta(t, each[0], each[2], 1e-9, "all open alike")
	near := handles(tl)[2].Dist(to)
	for _, by := range []float64{-1, 1} {
		require.NoError(t, tl.Set("amount", geomText(3*each[0]+by)))
		assert.Less(t, near, handles(tl)[2].Dist(to), "no other amount brings it nearer")
	}
	require.NoError(t, tl.Set("amount", geomText(6)))

	// With Ctrl one opens alone.
	h := handles(tl)
	tl.Pointer(tool.Event{Act: tool.Press, At: h[1], Reach: reach, Ctrl: true})
	tl.Pointer(tool.Event{Act: tool.Drag, At: h[1].Add(geom.Pt(-4, 0)), Reach: reach, Ctrl: true})
	release(tl, h[1])
	each = opened(t, d, tl)
	assert.InDeltaSlice(t, []float64{2, 2}, []float64{each[0], each[2]}, 1e-6)
	assert.Greater(t, each[1], 4.0)
	require.NoError(t, tl.Set("own", "3"))
	assert.InDeltaSlice(t, []float64{2, 3, 2}, opened(t, d, tl), 1e-6)
	assert.Contains(t, notes(tl), "2: 3 mm")
	require.NoError(t, tl.Set("slides", "start of slash 1"))
	require.NoError(t, tl.Set("own", "0"))
	assert.InDeltaSlice(t, []float64{0, 3, 2}, opened(t, d, tl), 1e-6)
	reported(t, d, tl.Proposal()...)
	require.Error(t, tl.Set("own", "900 mm"))
	require.Error(t, tl.Set("slides", "the fourth"))
}

func TestSlashesAreSlidByDragAndByKeys(t *testing.T) {
	d, tl := fanned(t)
	top, hem := d.Pattern().Piece("band").Edge("top").Length(), d.Pattern().Piece("band").Edge("hem").Length()
	made := func() *step.Spread { return tl.Proposal()[0].(*step.Spread) }
	require.NoError(t, tl.Set("amount", "6"))
	require.NoError(t, tl.Set("slides", "start of slash 2"))
	require.True(t, tl.Key(tool.Key{Name: tool.Right, Step: 10}))
	assert.InDelta(t, 0.5*top+10, made().Slashes[1].From.At(top), 1e-6)
	require.NoError(t, tl.Set("at", geomText(0.5*top)))
	assert.InDelta(t, 0.5*top, made().Slashes[1].From.At(top), 1e-4)
	require.NoError(t, tl.Set("slides", "hinge of slash 3"))
	require.True(t, tl.Key(tool.Key{Name: tool.Left, Step: 1}))
	assert.InDelta(t, 0.3*hem-1, made().Slashes[2].Hinge.Spot.At(hem), 1e-6)

	// By the mouse: a hinge, and with Shift a start.
	was := midEdge(t, d, "band", "hem", 0.5)
	press(tl, was)
	drag(tl, midEdge(t, d, "band", "hem", 0.55))
	release(tl, was)
	assert.InDelta(t, 0.55, made().Slashes[1].Hinge.Spot.Share, 1e-3)
	require.NoError(t, tl.Set("amount", "0"))
	to := midEdge(t, d, "band", "top", 0.25)
	tl.Pointer(tool.Event{Act: tool.Press, At: handles(tl)[0], Reach: reach, Shift: true})
	tl.Pointer(tool.Event{Act: tool.Drag, At: to, Reach: reach, Shift: true})
	release(tl, to)
	require.NoError(t, tl.Set("amount", "6"))
	assert.InDelta(t, 0.25, made().Slashes[0].From.Share, 1e-3)
	accept(t, d, tl)
}

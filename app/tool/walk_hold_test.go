package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/pattern"
)

// A walked place that is typed is kept in every size from where it was typed
// from, one that is dragged from the nearer end; both are told before they are
// accepted, and can be had otherwise.
func TestAWalkedPlaceIsKeptFromTheEndItWasTypedFrom(t *testing.T) {
	d := tern(t, 0)
	begun := func() tool.Tool {
		w := tool.NewWalk(d)
		require.NoError(t, w.Set("seam", "vertical seam"))
		return w
	}
	// fromStart is how far from the wire the notch lies on the inner cup in a size.
	fromWire := func(w tool.Tool, size string) (mm, length float64) {
		require.NoError(t, d.Accept(w.Proposal()...))
		for _, r := range d.Results() {
			if r.Size.Label != size {
				continue
			}
			p := r.Size.Pattern
			at, err := p.Find(pattern.AtNotch(innerCup, "notch 1"))
			require.NoError(t, err)
			length = p.Piece(innerCup).Edge(at.Edge).Length()
			if mm = at.S; p.Piece(innerCup).Meets(at.Edge, pattern.Start) != "wire" {
				mm = length - at.S
			}
		}
		require.True(t, d.Undo())
		return mm, length
	}
	_, here := d.Pattern().Edge(innerCup, "vertical seam")
	drop := tool.Key{Name: tool.Choose}

	w := begun()
	require.NoError(t, w.Set("walked", "80"))
	assert.Contains(t, w.Hint(), "the space bar drops one on both sides, in every size 80 mm from wire")
	require.True(t, w.Key(drop))
	assert.Contains(t, w.Hint(), "In every size the notch lies 80 mm from wire")
	mm, _ := fromWire(w, "80E")
	assert.InDelta(t, 80, mm, 1e-3, "as it was typed")
	f := field(t, w, "hold")
	assert.Equal(t, "as far from wire", f.Text)
	require.Contains(t, f.Options, "the same part of vertical seam")

	require.NoError(t, w.Set("hold", "as far from neckline"))
	assert.Equal(t, "as far from neckline", field(t, w, "hold").Text)
	mm, all := fromWire(w, "80E")
	assert.InDelta(t, here.Length()-80, all-mm, 1e-3)
	require.NoError(t, w.Set("hold", "the same part of vertical seam"))
	mm, all = fromWire(w, "80E")
	assert.InDelta(t, 80/here.Length(), mm/all, 1e-6)
	require.NoError(t, w.Set("hold", "as far from wire"))
	mm, _ = fromWire(w, "80E")
	assert.InDelta(t, 80, mm, 1e-3)

	w = begun()
	require.NoError(t, w.Set("left", "90"))
	require.True(t, w.Key(drop))
	assert.Contains(t, w.Hint(), "In every size the notch lies 90 mm from neckline", "typed from there")
	mm, all = fromWire(w, "80E")
	assert.InDelta(t, 90, all-mm, 1e-3)

	w = begun()
	require.NoError(t, w.Set("walked", "100"))
	require.True(t, w.Key(tool.Key{Name: tool.Right, Step: 1}))
	assert.Contains(t, w.Hint(), " mm from neckline", "by hand from the nearer end")
	require.NoError(t, w.Set("hold", "as far from wire"))
	require.True(t, w.Key(drop))
	mm, _ = fromWire(w, "80E")
	assert.InDelta(t, 101, mm, 1e-3)
}

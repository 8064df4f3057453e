package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/ops/store"
)

// How a place that is chosen or typed is kept in the other sizes is told
// before it is accepted; with one size there is nothing to tell.
func TestHowAPlaceIsKeptInOtherSizesIsToldBeforeItIsAccepted(t *testing.T) {
	d := tern(t, 0)
	n := tool.NewNotch(d)
	press(n, midEdge(t, d, "band", "top", 0.4))
	release(n, midEdge(t, d, "band", "top", 0.4))
	assert.Regexp(t, `In every size it lies (40|39\.9|40\.1) % along top from `, n.Hint())
	require.NoError(t, n.Set("start", "30"))
	closure := d.Pattern().Piece("band").Meets("top", "start")
	assert.Contains(t, n.Hint(), "In every size it lies 30 mm from "+closure)
	require.NoError(t, n.Set("end", "30"))
	assert.Contains(t, n.Hint(), "In every size it lies 30 mm from "+d.Pattern().Piece("band").Meets("top", "end"))

	for name, tl := range map[string]tool.Tool{"split": tool.NewSplit(d), "ruler": tool.NewRuler(d), "shears": tool.NewShears(d), "draw": tool.NewDraw(d)} {
		for _, edge := range []string{"neckline", "wire"} {
			at := midEdge(t, d, innerCup, edge, 0.4)
			press(tl, at)
			release(tl, at)
		}
		require.NoError(t, tl.Set("from", "30"), name)
		if name == "ruler" {
			continue // which cannot straighten that
		}
		assert.Regexp(t, `In every size it starts 30 mm from .* and ends 4\d(\.\d)? % along wire from `, tl.Hint(), name)
	}

	s := tool.NewSpread(d)
	for _, edge := range []string{"cross seam", "wire"} {
		at := midEdge(t, d, lowerCup, edge, 0.5)
		press(s, at)
		release(s, at)
	}
	require.NoError(t, s.Set("amount", "4"))
	assert.NotContains(t, s.Hint(), "In every size")
	require.NoError(t, s.Set("page", "the slash"))
	require.NoError(t, s.Set("slides", field(t, s, "slides").Options[0]))
	require.NoError(t, s.Set("at", "25"))
	assert.Contains(t, s.Hint(), "In every size the slash begins 25 mm from ")

	run := d.Document().Source
	run.Sizes = run.Sizes[:1]
	one, err := desk.New(store.Document{Source: run}, "")
	require.NoError(t, err)
	n = tool.NewNotch(one)
	press(n, midEdge(t, one, "band", "top", 0.4))
	assert.NotContains(t, n.Hint(), "In every size")
}

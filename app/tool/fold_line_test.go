package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// What becomes of each edge of a lining is said by pressing it and by numbers.
func TestLiningEdgeByEdge(t *testing.T) {
	d := tern(t, 0)
	const piece = "inner cup"
	f := tool.NewFold(d)
	press(f, middle(t, d, piece))
	require.NoError(t, f.Set("do", "line it"))
	assert.Equal(t, "neckline", field(t, f, "edge").Text)
	assert.Contains(t, f.Hint(), "neckline without turn-back")
	require.NoError(t, f.Set("pull", "3"))
	require.NoError(t, f.Set("turned", "1/4"))
	assert.Contains(t, f.Hint(), "neckline with an allowance of 6.35 mm")
	assert.Contains(t, notes(f), "in by 3 mm")

	press(f, midEdge(t, d, piece, "vertical seam", 0.5))
	assert.Equal(t, "vertical seam", field(t, f, "edge").Text)
	require.NoError(t, f.Set("in", "1.5 mm"))
	assert.Contains(t, notes(f), "in by 1.5 mm")
	require.True(t, f.Key(tool.Key{Name: tool.Right}))
	require.True(t, f.Key(tool.Key{Name: tool.Left}))
	assert.Equal(t, "1.5 mm", field(t, f, "in").Text)
	made := f.Proposal()[0].(*step.LineIt)
	assert.Equal(t, map[string]step.Number{"vertical seam": step.Lit(1.5)}, made.Shrink)
	assert.Nil(t, made.Finished, "the roles say so alone")
	assert.Equal(t, step.Lit(6.35), *made.Allowance)

	require.NoError(t, f.Set("edge", "wire"))
	require.NoError(t, f.Set("finished", "finished, no turn-back"))
	assert.ElementsMatch(t, []string{"neckline", "wire"}, f.Proposal()[0].(*step.LineIt).Finished)
	require.NoError(t, f.Set("finished", "as on the piece"))
	require.NoError(t, f.Set("edge", "neckline"))
	require.ErrorContains(t, f.Set("finished", "as on the piece"), "last finished edge")
	for name, junk := range map[string]string{"in": "4 %", "turned": "-1", "edge": "sleeve", "finished": "often"} {
		require.Error(t, f.Set(name, junk), name)
	}
	accept(t, d, f)
	p := d.Pattern()
	lining := p.Piece(piece + " lining")
	require.NotNil(t, lining)
	assert.InDelta(t, 6.35, lining.Edge("neckline").Allowance, 1e-9)
	seam := lining.Edge("vertical seam")
	assert.InDelta(t, 1.5, p.Piece(piece).Edge("vertical seam").Path.Nearest(seam.Path.At(seam.Length()/2)).Dist, 0.01)
	assert.Equal(t, pattern.SeamEdge, seam.Role)
}

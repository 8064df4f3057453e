package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/step"
)

// A length that is that of the other side is taken for it, so that the edge
// fits in every size; another is told to be one for all sizes.
func TestALengthOfTheOtherSideIsThatOfEverySize(t *testing.T) {
	d := tern(t, 0)
	amount := step.Lit(6)
	s := tool.NewSpread(d)
	begin := func(piece string, edges ...string) {
		for _, edge := range edges {
			at := midEdge(t, d, piece, edge, 0.5)
			press(s, at)
			release(s, at)
		}
	}
	begin(lowerCup, "cross seam", "wire")
	require.NoError(t, s.Set("amount", amount.String()))
	assert.NotContains(t, s.Hint(), "In every size")
	accept(t, d, s)

	other := d.Pattern().Piece(lowerCup).Edge("cross seam").Length()
	s = tool.NewSpread(d)
	begin("upper outer cup", "cross seam", "neckline")
	require.NoError(t, s.Set("length", step.Lit(other-1).String()))
	assert.Contains(t, s.Hint(), "In every size cross seam then has ")
	assert.Equal(t, "that length", field(t, s, "fits").Text)
	require.NoError(t, s.Set("length", step.Lit(other+0.004).Text("mm")))
	assert.Contains(t, s.Hint(), "In every size cross seam then fits "+lowerCup+" there.")
	assert.Equal(t, "to fit "+lowerCup, field(t, s, "fits").Text)
	until := s.Proposal()[0].(*step.Spread).Until
	assert.Nil(t, until.Length)
	require.NoError(t, s.Set("fits", "that length"))
	assert.NotNil(t, s.Proposal()[0].(*step.Spread).Until.Length)
	require.NoError(t, s.Set("amount", "2"))
	require.NoError(t, s.Set("fits", "to fit "+lowerCup))
	accept(t, d, s)
	for _, r := range d.Results() {
		p := r.Size.Pattern
		assert.InDelta(t, p.Piece(lowerCup).Edge("cross seam").Length(), p.Piece("upper outer cup").Edge("cross seam").Length(), 1e-6, r.Size.Label)
	}
}

package tool_test

import (
	"strings"
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

// An edge that is spread until it fits tells, before it is kept, that the notches
// of the seam miss each other still.
func TestAnEdgeThatFitsTellsThatItsNotchesMiss(t *testing.T) {
	for share, misses := range map[float64]bool{0.3: true, 0.7: false} {
		d := tern(t, 0)
		s := tool.NewSpread(d)
		begin := func(piece, edge string, share float64) {
			at := midEdge(t, d, piece, edge, share)
			press(s, at)
			release(s, at)
		}
		begin(lowerCup, "cross seam", 0.3)
		begin(lowerCup, "wire", 0.5)
		require.NoError(t, s.Set("amount", "5"))
		assert.Contains(t, s.Hint(), "Sides then differ at cross seam by ")
		accept(t, d, s)
		s = tool.NewSpread(d)
		begin("upper outer cup", "cross seam", share)
		begin("upper outer cup", "neckline", 0.5)
		require.NoError(t, s.Set("fits", "to fit "+lowerCup))
		assert.Contains(t, s.Hint(), "In every size cross seam then fits "+lowerCup)
		assert.NotContains(t, s.Hint(), "differ at")
		assert.NotContains(t, s.Hint(), "then fit,")
		assert.Equal(t, misses, strings.Contains(s.Hint(), " there, but its notches miss each other by "), s.Hint())
		t.Log(s.Hint())
	}
}

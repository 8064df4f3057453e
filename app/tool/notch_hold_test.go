package tool_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/walk"
)

// misses is by how much the notches of the cross seam miss each other, in mm, in
// each size.
func misses(d interface{ Results() []step.Result }) (all []float64) {
	for _, r := range d.Results() {
		p := r.Size.Pattern
		for _, pr := range walk.Pairs(p, *p.Seam("cross seam")) {
			all = append(all, max(pr.A-pr.B, pr.B-pr.A))
		}
	}
	return all
}

// A notch that misses its partner is told to match it, which it does in every
// size; a number takes that back.
func TestANotchIsToldToMatchTheOtherSide(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Notch{Act: step.MoveNotch, Piece: "lower outer cup", Name: "cross", Edge: "cross seam", MM: step.Lit(21)}))
	for _, miss := range misses(d) {
		require.Greater(t, miss, 1.0)
	}
	n := tool.NewNotch(d)
	p := d.Pattern()
	at, err := p.Find(pattern.AtNotch("upper outer cup", "cross"))
	require.NoError(t, err)
	press(n, p.Piece("upper outer cup").Pose.Apply(p.Piece("upper outer cup").Edge("cross seam").Path.At(at.S)))
	require.Nil(t, n.Proposal())
	assert.Contains(t, field(t, n, "hold").Options, "to match lower outer cup")
	require.NoError(t, n.Set("hold", "to match lower outer cup"))
	assert.Equal(t, "to match lower outer cup", field(t, n, "hold").Text)
	assert.Contains(t, n.Hint(), `In every size it meets notch "cross" of lower outer cup.`)

	require.NoError(t, n.Set("start", "30"))
	assert.Equal(t, []step.Step{&step.Notch{Act: step.MoveNotch, Piece: "upper outer cup", Name: "cross", Edge: "cross seam", From: pattern.Start, MM: step.Lit(30), Share: step.Lit(0)}}, n.Proposal())
	assert.Contains(t, field(t, n, "hold").Text, "as far from ")

	require.NoError(t, n.Set("hold", "to match lower outer cup"))
	require.NoError(t, d.Accept(n.Proposal()...))
	require.Len(t, misses(d), len(d.Results()))
	for _, miss := range misses(d) {
		require.InDelta(t, 0, miss, 1e-9)
	}
}

// A new notch can match one of the other side that has no partner yet; where
// there is none it is kept from either end or as a share.
func TestANewNotchMatchesOneWithoutPartner(t *testing.T) {
	d := tern(t, 0)
	require.NoError(t, d.Accept(&step.Notch{Act: step.AddNotch, Piece: "lower outer cup", Name: "mine", Edge: "cross seam", MM: step.Lit(15)}))
	n := tool.NewNotch(d)
	press(n, midEdge(t, d, "upper outer cup", "cross seam", 0.3))
	e := d.Pattern().Piece("upper outer cup").Edge("cross seam")
	for _, o := range field(t, n, "hold").Options {
		require.NoError(t, n.Set("hold", o))
		assert.Equal(t, o, field(t, n, "hold").Text)
		if o == "to match lower outer cup" {
			break
		}
		at := n.Proposal()[0].(*step.Notch)
		mm, _ := at.MM.Literal()
		share, _ := at.Share.Literal()
		assert.InDelta(t, 0.3*e.Length(), pattern.Along{From: at.From, MM: mm, Share: share}.At(e.Length()), 1e-3, o)
	}
	require.NoError(t, d.Accept(n.Proposal()...))
	require.Len(t, misses(d), 2*len(d.Results()))
	for _, miss := range misses(d) {
		require.InDelta(t, 0, miss, 1e-9)
	}
	press(n, midEdge(t, d, "band", "hem", 0.3))
	assert.Len(t, field(t, n, "hold").Options, 3, "a hem is sewn to nothing")
}

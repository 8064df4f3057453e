package desk

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// spreadCross slashes an outer cup from the middle of its cross seam to its
// other edge.
func spreadCross(piece, to string, until float64) *step.Spread {
	length := step.Lit(until)
	middle := func(edge string) pattern.Spot {
		return pattern.Spot{Piece: piece, Edge: edge, Along: pattern.Along{From: pattern.Start, Share: 0.5}}
	}
	hinge := middle(to)
	return &step.Spread{Piece: piece, Slashes: []step.Slash{{From: middle("cross seam"), Hinge: &step.Hinge{Spot: &hinge}}},
		Until: &step.ToLength{Edge: "cross seam", Length: &length}}
}

// A length that opens the piece in the size shown and pinches it in a large
// one is told, with the size in which it is worst; what is alike is not.
func TestWhatAChangeDoesInOtherSizesIsTold(t *testing.T) {
	ctx := context.Background()
	d := tern(t)
	require.NoError(t, d.SetSize("65C"))
	length := func(size, piece string) float64 {
		for _, r := range d.Results() {
			if r.Size.Label == size {
				return r.Size.Pattern.Piece(piece).Edge("cross seam").Length()
			}
		}
		return 0
	}
	until := length("65C", "lower outer cup") + 6
	e := d.Elsewhere(spreadCross("lower outer cup", "wire", until))(ctx)
	require.NotNil(t, e.Check, e.String())
	assert.Equal(t, check.SeamLength, e.Check.ID)
	assert.Equal(t, "cross seam", e.Check.Seam)
	worst := 0.0
	for _, s := range d.Document().Source.Labels() {
		worst = max(worst, length(s, "lower outer cup")-until)
	}
	assert.InDelta(t, worst, max(e.Check.Measured, -e.Check.Measured), 1e-6, "that of the size in which it is worst")
	assert.InDelta(t, length(e.Size, "lower outer cup")-until, worst, 1e-6)
	assert.Contains(t, e.String(), "In "+e.Size+" this would be broken: cross seam: ")
	assert.NotContains(t, e.String(), "level the seam")
	t.Log(e)

	open := step.Lit(6.0)
	same := spreadCross("lower outer cup", "wire", 0)
	same.Until, same.Amount = nil, &open
	assert.Empty(t, d.Elsewhere(same)(ctx).String(), "as much in every size is alike")

	require.NoError(t, d.Accept(same))
	mend := spreadCross("upper outer cup", "neckline", length("65C", "lower outer cup"))
	e = d.Elsewhere(mend)(ctx)
	require.NotNil(t, e.Check, e.String())
	assert.Contains(t, e.State, "would ", "what was broken by as much everywhere is mended here alone")
	t.Log(e)
	d.SetOnly(true)
	assert.Empty(t, d.Elsewhere(mend)(ctx).String())
	d.SetOnly(false)

	off, end := context.WithCancel(ctx)
	end()
	assert.Empty(t, d.Elsewhere(mend)(off).String())
	entry := d.Document().Recipe[0]
	entry.Step = spreadCross("lower outer cup", "wire", until)
	again := d.RehearseElsewhere(entry)(ctx)
	require.NotNil(t, again.Check)
	assert.Equal(t, "cross seam", again.Check.Seam)
	t.Log(again)
}

// The whole of the demo's alteration does alike in every size.
func TestNothingIsToldOfWhatIsAlikeInEverySize(t *testing.T) {
	doc := tern(t).Document()
	for i, e := range demo.TernInLace() {
		doc.Recipe = demo.TernInLace()[:i]
		d, err := New(doc, "")
		require.NoError(t, err)
		for _, size := range []string{"65C", "80E"} {
			require.NoError(t, d.SetSize(size))
			assert.Empty(t, d.Elsewhere(e.Step)(context.Background()).String(), e.ID)
		}
	}
}

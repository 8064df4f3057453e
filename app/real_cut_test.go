package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// The neckline becomes a lace edge to the notch in one go, with the mouse; the
// partner is shortened with it, and one undo takes both back.
func TestNecklineToANotchByMouse(t *testing.T) {
	r := newReal(t)
	first := r.fresh()
	r.take("e", "shears")
	r.press(r.at(pattern.AtEnd("inner cup", "wire", pattern.Start)))
	r.press(r.at(pattern.AtNotch("inner cup", "above apex")))
	r.pick("role", pattern.LaceEdge.Word())
	r.fill("name", "lace edge")
	// By the handle in its middle the cut bows; typed, it is straight again.
	mid := r.handle(0)
	to := mid.Lerp(r.at(pattern.AtEnd("inner cup", "wire", pattern.End)), 0.08)
	r.hold(mid)
	r.drag(mid, to)
	r.letGo(to)
	require.NotNil(t, r.tool.Proposal()[0].(*step.CutOff).Bulge)
	r.fill("bulge", "0")
	r.accept()

	want := r.byCommand("neckline")
	cut := *want.Recipe[0].Step.(*step.CutOff)
	cut.Partner.Notch, cut.Partner.Rest = "", ""
	want.Recipe[0].Step = &cut
	r.sameLengths(want, r.save(1))
	seam := r.desk.Pattern().Seam("vertical seam")
	a, b := r.desk.Pattern().SeamLengths(*seam)
	assert.InDelta(t, 0, a-b-seam.Ease, 1e-9)
	r.backAndForth(first)
}

// The upper outer cup is split by keys alone, curved and with two notches.
func TestSplitByKeysAlone(t *testing.T) {
	r := newReal(t)
	first := r.fresh()
	r.take("v", "split")
	r.walkInto("upper outer cup", "cross seam")
	r.walkTo("neckline of upper outer cup")
	r.fill("other", "side cup")
	r.fill("seam", "strap seam")
	r.pick("notches", "at thirds")
	r.fill("lean from", "square")
	r.accept()
	doc := r.save(1)
	for _, res := range doc.Results() {
		require.False(t, res.Behind(), res.Size.Label)
		p := res.Size.Pattern
		require.NotNil(t, p.Piece("side cup"))
		a, b := p.SeamLengths(*p.Seam("strap seam"))
		assert.InDelta(t, 0, a-b, 1e-9)
		assert.NotNil(t, p.Piece("side cup").Notch("strap seam 2"))
		assert.InDelta(t, res.Before.Piece("upper outer cup").Area(), p.Piece("upper outer cup").Area()+p.Piece("side cup").Area(), 1e-6)
	}
	r.backAndForth(first)
}

// handle returns where a handle of the cut lies: its middle, and those beside.
func (r *real) handle(i int) geom.Point {
	r.t.Helper()
	var at []geom.Point
	for _, d := range r.tool.Overlay().Dots {
		if d.Style == tool.Handle {
			at = append(at, d.At)
		}
	}
	require.Greater(r.t, len(at), i+2)
	return at[len(at)-3+i]
}

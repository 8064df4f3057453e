package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

// A seam is bent on one side and levelled, pressed, a half unfolded and folded
// again, a line drawn and a piece lined, with mouse and keys in one sitting;
// what is saved says so in every size.
func TestLevelPressFoldDrawAndLine(t *testing.T) {
	r := newReal(t)
	first := r.fresh()
	const inner, lower, seam = "inner cup", "lower outer cup", "vertical seam"
	every := func(doc store.Document, holds func(was, is pattern.Pattern)) {
		for _, res := range doc.Results() {
			require.False(t, res.Behind(), res.Reason())
			holds(res.Before, res.Size.Pattern)
		}
	}
	length := func(p pattern.Pattern, piece, edge string) float64 {
		_, e := p.Edge(piece, edge)
		require.NotNil(t, e, "%s of %s", edge, piece)
		return e.Length()
	}

	// The seam of the inner cup is drawn fuller by the mouse; level bends it
	// back, all of it on that side, by the handle.
	r.take("b", "reshape")
	r.press(r.along(inner, seam, 0.5))
	grip := r.dot(tool.Chosen)
	r.hold(grip)
	r.drag(grip, grip.Add(geom.Pt(3, 0)))
	r.letGo(grip.Add(geom.Pt(3, 0)))
	r.accept()
	r.take("l", "level")
	r.press(r.along(inner, seam, 0.2))
	handle := r.dot(tool.Handle)
	side := handle.Add(r.along(inner, seam, 0.5).Sub(handle).Unit().Mul(40)) // beyond the end of its way
	r.hold(handle)
	r.drag(handle, side)
	r.letGo(side)
	r.accept()
	doc := r.save(2)
	level, ok := doc.Recipe[1].Step.(*step.Level)
	require.True(t, ok)
	require.Equal(t, "a", level.Bend, "all of it on the inner cup")
	every(doc, func(was, is pattern.Pattern) {
		a, b := is.SeamLengths(*is.Seam(seam))
		assert.InDelta(t, 0, a-b-is.Seam(seam).Ease, 1e-6)
		assert.InDelta(t, length(was, lower, seam), length(is, lower, seam), 1e-9, "the other side stays")
	})

	// The same seam is pressed to a side, by keys.
	r.take("w", "allowance")
	r.walkInto(inner, seam)
	r.pick("press", "to "+inner)
	r.accept()
	doc = r.save(3)
	pressed, ok := doc.Recipe[2].Step.(*step.Allow)
	require.True(t, ok)
	require.Equal(t, pattern.PressedToA, pressed.Press)
	every(doc, func(was, is pattern.Pattern) {
		assert.Equal(t, pattern.PressedToA, is.Seam(seam).Press)
		assert.InDelta(t, length(was, lower, seam), length(is, lower, seam), 1e-9)
	})

	// The bridge is unfolded by the mouse and folded again by keys.
	hem := length(r.desk.Pattern(), "bridge", "hem")
	r.take("f", "fold")
	r.press(r.along("bridge", "hem", 0.5).Add(geom.Pt(0, 20)))
	r.accept()
	every(r.save(4), func(was, is pattern.Pattern) {
		assert.Nil(t, is.Piece("bridge").Fold())
		assert.InDelta(t, 2*was.Piece("bridge").Area(), is.Piece("bridge").Area(), 1e-6)
	})
	r.walkTo("bridge")
	require.IsType(t, &step.Fold{}, r.tool.Proposal()[0])
	r.accept()
	r.save(5)
	assert.InDelta(t, hem, length(r.desk.Pattern(), "bridge", "hem"), 1e-9)

	// A line is drawn across the lower cup by the mouse.
	r.take("g", "draw")
	from, to := r.along(lower, "wire", 0.4), r.along(lower, "cross seam", 0.5)
	r.press(from)
	r.press(to)
	r.fill("name", "stay line")
	r.accept()
	r.save(6)
	drawn := r.desk.Pattern().Piece(lower).Inner
	require.NotEmpty(t, drawn)
	assert.Equal(t, "stay line", drawn[len(drawn)-1].Name)
	assert.InDelta(t, from.Dist(to), drawn[len(drawn)-1].Path.Length(), 1, "as near as the mouse comes")

	// The inner cup is lined by keys, one edge smaller by a typed length.
	r.take("f", "fold")
	r.walkTo(inner)
	r.pick("do", "line it")
	r.fill("pull", "3 mm")
	r.pick("edge", "wire")
	r.fill("in", "1.5 mm")
	r.accept()
	doc = r.save(7)
	lined, ok := doc.Recipe[6].Step.(*step.LineIt)
	require.True(t, ok)
	require.Equal(t, map[string]step.Number{"wire": step.Lit(1.5)}, lined.Shrink)
	every(doc, func(was, is pattern.Pattern) {
		lining := is.Piece(inner + " lining")
		require.NotNil(t, lining)
		assert.Zero(t, lining.Edge("neckline").Allowance)
		wire := lining.Edge("wire").Path
		assert.InDelta(t, 1.5, was.Piece(inner).Edge("wire").Path.Nearest(wire.At(wire.Length()/2)).Dist, 0.01)
	})
	r.backAndForth(first)
}

// dot returns where the tool shows the first dot of a style.
func (r *real) dot(style tool.Style) geom.Point {
	r.t.Helper()
	for _, d := range r.tool.Overlay().Dots {
		if d.Style == style {
			return d.At
		}
	}
	require.FailNow(r.t, "no such dot", r.tool.Name())
	return geom.Point{}
}

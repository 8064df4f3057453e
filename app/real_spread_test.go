package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
)

// Fullness is given to the lower outer cup and the neckline is drawn anew, with
// the mouse, and both are undone.
func TestSpreadAndReshapeByMouse(t *testing.T) {
	r := newReal(t)
	first := r.fresh()
	const lower = "lower outer cup"
	from, apex := r.along(lower, "wire", 0.5), r.at(pattern.AtEnd(lower, "cross seam", pattern.End))
	r.take("d", "spread")
	r.press(from)
	r.press(apex)
	to := geom.Turn(6*geom.Degree, apex).Apply(from)
	r.hold(from)
	r.drag(from, to)
	r.letGo(to)
	r.accept()
	r.save(1)
	wire := r.desk.Document().Results()[0].Size.Pattern.Piece(lower).Edge("wire").Length()
	was := r.desk.Document().Source.Sizes[0].Pattern.Piece(lower).Edge("wire").Length()
	assert.InDelta(t, 0.1047*from.Dist(apex), wire-was, 1, "the arc of 6 degrees")

	r.take("b", "reshape")
	at := r.along("inner cup", "neckline", 0.5)
	r.press(at)
	var grip geom.Point
	for _, d := range r.tool.Overlay().Dots {
		if d.Style == tool.Chosen {
			grip = d.At
		}
	}
	r.pick("start", "free")
	to = grip.Add(geom.Pt(5, 12))
	r.hold(grip)
	r.drag(grip, to)
	r.letGo(to)
	r.accept()
	r.save(2)
	assert.False(t, r.desk.Document().Results()[0].Behind())
	r.backAndForth(first)
}

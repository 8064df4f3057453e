package pattern_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	. "truemat/ops/pattern"
)

func TestMeasureSize(t *testing.T) {
	pc := shape([]float64{12, 6, 5, 0}, geom.Pt(0, 0), geom.Pt(100, 0), geom.Pt(100, 50), geom.Pt(0, 50))
	pc.Notches = []Notch{{Name: "n", Edge: "b", Along: Along{From: End, MM: 20}}}
	m, err := MeasureSize(Size{Label: "75B", Pattern: Pattern{
		Pieces: []Piece{*pc},
		Seams:  []Seam{{Name: "s", A: Side{Whole("shape", "a")}, B: Side{Whole("shape", "b"), Whole("shape", "d").Backwards()}, Ease: 1.5}},
		Lines:  []Line{{Name: "l", Kind: LineHem, Parts: []Part{Whole("shape", "a"), {Piece: "shape", Edge: "b", From: 0.5, To: 0}}}},
	}})
	require.NoError(t, err)
	got, err := json.Marshal(m)
	require.NoError(t, err)
	assert.JSONEq(t, `{
		"size": "75B",
		"pieces": [{
			"name": "shape", "area_mm2": 5000, "cut_area_mm2": 7102,
			"edges": [
				{"name": "a", "role": "seam", "length_mm": 100, "allowance_mm": 12, "straight": true},
				{"name": "b", "role": "seam", "length_mm": 50, "allowance_mm": 6, "straight": true},
				{"name": "c", "role": "seam", "length_mm": 100, "allowance_mm": 5, "straight": true},
				{"name": "d", "role": "seam", "length_mm": 50, "allowance_mm": 0, "straight": true}],
			"notches": [{"name": "n", "edge": "b", "at_mm": 30}]}],
		"seams": [{"name": "s", "a_mm": 100, "b_mm": 100, "ease_mm": 1.5, "difference_mm": -1.5}],
		"lines": [{"name": "l", "kind": "hem", "length_mm": 125}]}`, string(got))

	empty, err := MeasureSize(Size{Label: "M"})
	require.NoError(t, err)
	got, err = json.Marshal(empty)
	require.NoError(t, err)
	assert.JSONEq(t, `{"size": "M", "pieces": [], "seams": [], "lines": []}`, string(got), "lists are never null")
}

func TestJointAngles(t *testing.T) {
	pc := shape(make([]float64, 6), geom.Pt(0, 0), geom.Pt(50, 0), geom.Pt(100, 0), geom.Pt(100, 100), geom.Pt(50, 50), geom.Pt(0, 100))
	for i, want := range []float64{90, 180, 90, 45, 270, 45} {
		assert.InDelta(t, want, pc.JointAngle(i).Degrees(), 1e-9)
		assert.Equal(t, want == 180, pc.Smooth(i))
	}
	assert.InDelta(t, -90, pc.JointTurn(4).Degrees(), 1e-9)
}

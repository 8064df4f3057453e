package demo

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// A dart of 10 mm in the lower outer cup bends the vertical seam where its slash
// is hinged; the corner is smoothed over any reach with the seam as long as it
// was, wherever the hinge lies.
func TestTheCornerBehindADartIsSmoothed(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	const lowerCup, seam = "lower outer cup", "vertical seam"
	for _, i := range []int{0, 6, 11} {
		for _, share := range []float64{0.17, 0.3, 0.5, 0.7, 0.83} {
			amount, short := step.Lit(10), step.Lit(12)
			hinge := pattern.Spot{Edge: seam, Along: pattern.Along{Share: share}}
			out, err := (&step.Spread{Piece: lowerCup, Slashes: []step.Slash{{From: pattern.Spot{Edge: "wire", Along: pattern.Along{Share: 0.5}}, Hinge: &step.Hinge{Spot: &hinge}}},
				Amount: &amount, Dart: &step.NewDart{Name: "dart", Short: &short}}).Apply(step.Input{Pattern: run.Sizes[i].Pattern})
			require.NoError(t, err)
			e := out.Pattern.Piece(lowerCup).Edge(seam)
			corner := e.Path.Corners(pattern.SmoothTurn)
			require.Len(t, corner, 1)
			for _, mm := range []float64{5, 10, 20, 30, 40} {
				reach := step.Lit(mm)
				made, err := (&step.Smooth{Piece: lowerCup, Edge: seam, At: &pattern.Along{MM: corner[0]}, Reach: &reach, Keep: "length"}).Apply(step.Input{Pattern: out.Pattern})
				if !assert.NoError(t, err, "size %d, hinge at %g, reach %g", i, share, mm) {
					continue
				}
				now := made.Pattern.Piece(lowerCup).Edge(seam)
				assert.InDelta(t, e.Length(), now.Length(), 1e-9)
				assert.Empty(t, now.Path.Corners(pattern.SmoothTurn))
			}
		}
	}
}

// A slash hinged on the cup's wire edge bends that one, which the wire line of
// the frame does not show; a check of its own does.
func TestACornerInTheWireEdgeOfACupIsFound(t *testing.T) {
	run, err := Tern()
	require.NoError(t, err)
	const cup = "lower outer cup"
	amount, before := step.Lit(5), run.Sizes[0].Pattern
	hinge := pattern.Spot{Edge: "wire", Along: pattern.Along{Share: 0.5}}
	out, err := (&step.Spread{Piece: cup, Slashes: []step.Slash{{From: pattern.Spot{Edge: "cross seam", Along: pattern.Along{Share: 0.5}}, Hinge: &step.Hinge{Spot: &hinge}}}, Amount: &amount}).Apply(step.Input{Pattern: before})
	require.NoError(t, err)
	found := 0
	for _, c := range check.Run(before, out.Pattern, check.Defaults()) {
		if c.ID == check.LineCorner && c.Piece == cup && c.Edge == "wire" {
			found++
			assert.Equal(t, check.Look, c.Verdict)
			assert.InDelta(t, out.Figures["hinge_turn_deg"], c.Measured, 1e-9)
			assert.Contains(t, c.Text, "has come into wire of lower outer cup")
		}
	}
	assert.Equal(t, 1, found)
}

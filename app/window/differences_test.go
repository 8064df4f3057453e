package window

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func TestASplitEdgeIsNotToldAsALoss(t *testing.T) {
	w := open(t, false)
	half := func(edge string) pattern.Spot {
		return pattern.Spot{Edge: edge, Along: pattern.Along{Share: 0.5}}
	}
	res, err := w.desk.Try(&step.Split{Piece: "band", Right: "wing", Name: "joint", From: half("top"), To: half("hem")})
	require.NoError(t, err)
	told := w.differences(res.Size.Pattern, res.Reports[len(res.Reports)-1:])
	require.NotContains(t, told, "−", "its edges are in two parts and as long as they were: %s", told)
}

// The line is told from where to where, beside the edge of the piece as the list
// beside the mat tells it: both are of half the garment.
func TestALineIsToldFromFoldToClosure(t *testing.T) {
	w := open(t, false)
	res, err := w.desk.Try(&step.Add{EdgeEnd: step.EdgeEnd{Piece: "cradle", Edge: "side seam", End: pattern.Start}, Amount: step.Lit(3)})
	require.NoError(t, err)
	told := w.differences(res.Size.Pattern, res.Reports[len(res.Reports)-1:])
	require.Regexp(t, `^hem from fold to closure [\d.]+ mm \(\+3 mm\)   hem of cradle [\d.]+ mm \(\+3 mm\)`, told)
}

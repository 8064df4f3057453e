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

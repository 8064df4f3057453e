package desk

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/step"
	"truemat/ops/walk"
)

// A notch kept at a length from the wire lies on the upper cup in one size and
// on the lower one in others, which is told before it is kept.
func TestANotchThatChangesPieceFromSizeToSizeIsTold(t *testing.T) {
	d := tern(t)
	require.NoError(t, d.SetSize("65C"))
	at := func(mm float64) *step.Walk {
		n := step.Lit(mm)
		return &step.Walk{Seam: "vertical seam", Drop: []step.Drop{{On: walk.A, Name: "mine", MM: &n}, {On: walk.B, Name: "mine", MM: &n}}}
	}
	e := d.Elsewhere(at(80))(context.Background())
	require.Contains(t, e.String(), `In 11 other sizes notch "mine" lies on lower outer cup, not on upper outer cup as here.`)
	require.Len(t, e.Astray, 1)
	for _, r := range d.Results() {
		low := r.Size.Pattern.Piece("lower outer cup").Edge("vertical seam").Length()
		require.Equal(t, low >= 80, r.Size.Label != "65C", r.Size.Label)
	}
	e = d.Elsewhere(at(30))(context.Background())
	require.Empty(t, e.Astray)
	require.NoError(t, d.SetSize("65E"))
	e = d.Elsewhere(at(80))(context.Background())
	require.Contains(t, e.String(), `In 65C notch "mine" lies on upper outer cup, not on lower outer cup as here.`)
}

package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A fraction without a unit means inches also where lengths are read in cm or mm,
// and that is told; nothing is told of what means what it seems to mean.
func TestAFractionTellsWhatItIsTakenFor(t *testing.T) {
	require.Equal(t, "1/2 is taken for inches: 1/2 in = 1.27 cm; for 0.5 cm write 0.5.", Taken(" 1/2", Centimetres))
	require.Equal(t, "3 1/8 is taken for inches: 3 1/8 in = 79.38 mm; for 3.125 mm write 3.125.", Taken("3 1/8", Millimetres))
	require.Equal(t, "½ is taken for inches: ½ in = 1.27 cm; for 0.5 cm write 0.5.", Taken("½", Centimetres))
	for _, s := range []string{"", "1/", "0.5", "1/2 in", "1/2 cm", `1/2"`, "1/0", "half", "12"} {
		require.Empty(t, Taken(s, Centimetres), s)
	}
	require.Empty(t, Taken("1/2", InchFractions))
}

package render

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSizesAreNamedWithoutPromisingThoseBetween(t *testing.T) {
	for want, labels := range map[string][]string{
		"":                   {""},
		"size 75C":           {"75C"},
		"sizes 75C, 80C":     {"75C", "80C"},
		"5 sizes, 65C … 80E": {"65C", "70C", "75C", "80C", "80E"},
	} {
		require.Equal(t, want, sizesText(labels))
	}
	require.Empty(t, sizesText(nil))
}

package walk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"truemat/ops/pattern"
)

func TestSidesAreNamedByTheirPieces(t *testing.T) {
	for want, pieces := range map[string][]string{
		"inner cup":                        {"inner cup"},
		"lower and upper outer cup":        {"lower outer cup", "upper outer cup", "lower outer cup"},
		"inner, lower outer and strap cup": {"inner cup", "lower outer cup", "strap cup"},
		"bridge and cradle":                {"bridge", "cradle"},
		"cup and lower cup":                {"cup", "lower cup"},
		"left front, left back and gore":   {"left front", "left back", "gore"},
	} {
		var side pattern.Side
		for _, name := range pieces {
			side = append(side, pattern.Whole(name, "seam"))
		}
		assert.Equal(t, want, PieceWords(side))
	}
}

package window

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A line that breaks holds a number to its unit.
func TestNoLineEndsBetweenANumberAndItsUnit(t *testing.T) {
	s := "The wire line is 10.399 in (about 10 13/32 in) long, 12.5 mm more than 8.79 sq in of cloth can take."
	for width := range 60 {
		for _, l := range broken(s, float32(width), func(s string) float32 { return float32(len([]rune(s))) }) {
			require.NotRegexp(t, `\d$`, l, "%q ends a line", l)
			require.NotRegexp(t, `^(in|mm|sq)\b`, l)
		}
	}
}

package pattern

import "strings"

// OneSize is the label of the only size of a pattern that names none.
const OneSize = "one size"

// SizeWords names sizes as they are spoken: "size 75C", "size 75C, 80C", or "one
// size" where the pattern names none.
func SizeWords(labels ...string) string {
	if len(labels) == 1 && labels[0] == OneSize {
		return OneSize
	}
	return "size " + strings.Join(labels, ", ")
}

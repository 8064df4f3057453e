package walk

import (
	"slices"
	"strings"

	"truemat/ops/pattern"
)

// PieceWords names the pieces of a side once each, what they are called alike
// at the end only once: "lower and upper outer cup".
func PieceWords(side []pattern.Part) string {
	var names [][]string
	for _, pt := range side {
		if name := strings.Fields(pt.Piece); !slices.ContainsFunc(names, func(n []string) bool { return slices.Equal(n, name) }) {
			names = append(names, name)
		}
	}
	var alike []string
	for len(names) > 1 {
		first := names[0]
		last := first[len(first)-1]
		if slices.ContainsFunc(names, func(n []string) bool { return len(n) < 2 || n[len(n)-1] != last }) {
			break
		}
		alike = append([]string{last}, alike...)
		for i, n := range names {
			names[i] = n[:len(n)-1]
		}
	}
	list := make([]string, len(names))
	for i, n := range names {
		list[i] = strings.Join(n, " ")
	}
	text := list[len(list)-1]
	if len(list) > 1 {
		text = strings.Join(list[:len(list)-1], ", ") + " and " + text
	}
	return strings.Join(append([]string{text}, alike...), " ")
}

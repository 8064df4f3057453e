package window

import (
	"cmp"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// endWords puts what is met at the ends of an edge or a seam in the place of
// "start" and "end", and returns the label.
func (f *picker) endWords(m map[string]any, key string, at, words []string) string {
	if !slices.Equal(words, wordsOf["end"]) {
		return label(at)
	}
	edge, named := f.edgeOf(m, at)
	start, end := step.SeamEnds(f.step, f.pattern)
	if pc := f.pattern.Piece(f.pieceOf(m)); pc != nil && named {
		start, end = pc.Meets(edge, pattern.Start), pc.Meets(edge, pattern.End)
	}
	words[0], words[1] = cmp.Or(start, words[0]), cmp.Or(end, words[1])
	if key == "from" && named && len(at) == 1 {
		return "Counted from"
	}
	return label(at)
}

// edgeOf is the edge of which a part of a step means an end; false when it means
// something else's.
func (f *picker) edgeOf(m map[string]any, at []string) (string, bool) {
	if edge, ok := m["edge"].(string); ok {
		return edge, true
	}
	if m["inner"] != nil {
		return "", false
	}
	if at[0] == "to" && f.then != "" {
		return f.then, true
	}
	return f.edge, f.edge != ""
}

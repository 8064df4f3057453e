package step

import (
	"strings"

	"truemat/ops/pattern"
)

// Placed tells the ends of edges in a sentence of a step by what they meet
// there, "the hem end of side seam of band", since nothing shows where an edge
// starts. Edges that are not in the pattern stay as they are.
func Placed(sentence string, p pattern.Pattern) string {
	const mark = "the "
	out, rest := "", sentence
	for {
		i := strings.Index(rest, mark)
		if i < 0 {
			return out + rest
		}
		out, rest = out+rest[:i], rest[i:]
		said, taken := endIn(rest, sentence, p)
		if taken == 0 {
			said, taken = mark, len(mark)
		}
		out, rest = out+said, rest[taken:]
	}
}

// endIn reads "the start of E of P" at the beginning of a text, or "the start
// of E" of the piece that is laid, and returns how it is told, and how many
// bytes that takes the place of; 0 when it is none.
func endIn(text, sentence string, p pattern.Pattern) (said string, taken int) {
	for _, end := range []pattern.EndName{pattern.Start, pattern.End} {
		of := "the " + string(end) + " of "
		if !strings.HasPrefix(text, of) {
			continue
		}
		after := text[len(of):]
		for i := range p.Pieces {
			pc := &p.Pieces[i]
			laid := strings.HasPrefix(sentence, "Lay "+pc.Name+" with ")
			for k := range pc.Edges {
				edge := pc.Edges[k].Name
				if !strings.HasPrefix(after, edge) {
					continue
				}
				whole, tail := len(of)+len(edge), after[len(edge):]
				named := " of " + pc.Name
				switch {
				case strings.HasPrefix(tail, named) && !continues(tail[len(named):]):
					whole += len(named)
				case laid && strings.HasPrefix(tail, " on "):
					named = ""
				default:
					continue
				}
				meets := pc.Meets(edge, end)
				if meets != "" && whole > taken {
					said, taken = "the "+meets+" end of "+edge+named, whole
				}
			}
		}
	}
	return said, taken
}

// continues reports whether a name goes on in what follows it.
func continues(s string) bool {
	return s != "" && !strings.ContainsAny(s[:1], " ,.;:\"()")
}

package pattern

import (
	"sort"
	"strconv"
	"strings"
)

func (p Pattern) pieceNames() []string {
	names := make([]string, len(p.Pieces))
	for i, pc := range p.Pieces {
		names[i] = pc.Name
	}
	return names
}

func (p Pattern) seamNames() []string {
	names := make([]string, len(p.Seams))
	for i, s := range p.Seams {
		names[i] = s.Name
	}
	return names
}

func (p Pattern) lineNames() []string {
	names := make([]string, len(p.Lines))
	for i, l := range p.Lines {
		names[i] = l.Name
	}
	return names
}

func (pc *Piece) edgeNames() []string {
	names := make([]string, len(pc.Edges))
	for i, e := range pc.Edges {
		names[i] = e.Name
	}
	return names
}

func (pc *Piece) notchNames() []string {
	names := make([]string, len(pc.Notches))
	for i, n := range pc.Notches {
		names[i] = n.Name
	}
	return names
}

func (pc *Piece) innerNames() []string {
	names := make([]string, len(pc.Inner))
	for i, in := range pc.Inner {
		names[i] = in.Name
	}
	return names
}

// joinWords returns "a", "a and b" or "a, b and c".
func joinWords(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

func quoted(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = strconv.Quote(n)
	}
	return strings.Join(q, ", ")
}

// quotedAll is quoted for words of another string type.
func quotedAll[S ~string](words []S) string {
	names := make([]string, len(words))
	for i, w := range words {
		names[i] = string(w)
	}
	return quoted(names)
}

func sortByAt(n []SeamNotch) {
	sort.SliceStable(n, func(i, j int) bool { return n[i].At < n[j].At })
}

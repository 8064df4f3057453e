package recipe

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// track follows the names through the steps of a recipe: what earlier steps
// made, and from which pieces each piece came.
type track struct {
	names Map
	made  map[step.Name]string   // and what it is called in the other pattern
	from  map[string][]string    // of a piece that can hold what was on others
	could map[step.NameKind]bool // what earlier steps can have made
	own   map[step.Name]bool     // what was spoken of before any step could have made it
	words []string               // that earlier steps put behind the names of another hand
	puts  bool                   // an earlier step can have put a name together

	sources map[string]*source // what pieces are made of that earlier steps made
	pattern *pattern.Pattern   // the other one, nil when it is not known
}

// newTrack begins before the first step of a recipe that is opened on a
// pattern of which the results in every size are known; they may be nil.
func newTrack(m Map, known []step.Result) *track {
	t := &track{names: m, made: map[step.Name]string{}, from: map[string][]string{}, could: map[step.NameKind]bool{}, own: map[step.Name]bool{}, sources: map[string]*source{}}
	if len(known) > 0 {
		t.pattern = &known[0].Size.Pattern
	}
	return t
}

// origins returns the pieces on which what is on a piece now may have been.
func (t *track) origins(piece string) []string {
	if from, ok := t.from[piece]; ok {
		return from
	}
	return []string{piece}
}

// makes reports whether an earlier step made that name, on that piece or on
// one that it found itself.
func (t *track) makes(n step.Name) bool {
	_, here := t.made[n]
	_, somewhere := t.made[step.Name{Kind: n.Kind, Name: n.Name}]
	return here || somewhere
}

// pass goes past a step, whose mentions are given.
func (t *track) pass(e step.Entry, mentions []step.Mention) {
	var pieces []string
	for _, m := range mentions {
		if m.Kind == step.NamePiece && !m.Makes {
			for _, p := range t.origins(m.Name.Name) {
				if !slices.Contains(pieces, p) {
					pieces = append(pieces, p)
				}
			}
		}
	}
	joins := e.CanMake(step.NamePiece)
	made := map[step.Name]string{}
	for _, m := range mentions {
		if m.Makes {
			made[m.Name] = t.called(m)
		}
	}
	maps.Copy(t.made, made)
	for _, m := range mentions {
		if _, moved := t.from[m.Piece]; !m.Makes && !moved && !t.puts {
			t.own[m.Name] = true
		}
	}
	if word := step.OtherWord(e.Step); word != "" {
		t.words, t.puts = append(t.words, word), true
	}
	for _, kind := range []step.NameKind{step.NamePiece, step.NameEdge, step.NameNotch, step.NameSeam} {
		t.puts = t.puts || e.CanMake(kind)
	}
	for _, kind := range kindWords {
		t.could[kind] = t.could[kind] || e.CanMake(kind)
	}
	if joins {
		t.join(e, mentions)
	}
	for _, m := range mentions {
		if joins && m.Kind == step.NamePiece {
			t.from[m.Name.Name] = pieces
		}
	}
}

// called returns what the name of a mention is called in the other pattern.
func (t *track) called(m step.Mention) string {
	if !m.Anywhere {
		return t.translated(m.Name)
	}
	// It stays what it is called on the one other piece that has it.
	calls := map[string]bool{}
	for n, now := range t.names {
		if n.Kind == m.Kind && n.Name == m.Name.Name && !slices.Contains(t.origins(m.NotOn), n.Piece) {
			calls[now] = true
		}
	}
	for now := range calls {
		if len(calls) == 1 {
			return now
		}
	}
	return m.Name.Name
}

// translated returns what a name is called in the other pattern.
func (t *track) translated(n step.Name) string {
	if now, ok := t.made[n]; ok {
		return now
	}
	if now, ok := t.names[n]; ok {
		return now
	}
	if now, ok := t.made[step.Name{Kind: n.Kind, Name: n.Name}]; ok || !n.Kind.OnPiece() {
		if !ok {
			now = n.Name
		}
		return now
	}
	if s := t.sourceOf(n.Piece); len(s.parts) > 0 && n.Kind != step.NameInner {
		if m := t.find(n.Kind, s, n.Name); m.there {
			return m.now
		}
	}
	for _, q := range t.origins(n.Piece) {
		if now, ok := t.names[step.Name{Kind: n.Kind, Piece: q, Name: n.Name}]; ok {
			return now
		}
	}
	if base, rest, ok := t.derived(n); ok {
		return base + rest
	}
	if n.Kind == step.NameInner {
		return t.joined(n)
	}
	return n.Name
}

// joined returns what an inner line is called that taping named by the pieces
// joined: their names in it, each between blanks or at its end, are those here.
func (t *track) joined(n step.Name) string {
	var pairs []string
	for _, q := range t.origins(n.Piece) {
		pairs = append(pairs, " "+q+" ", " "+t.names.of(step.Name{Kind: step.NamePiece, Name: q})+" ")
	}
	return strings.TrimSuffix(strings.NewReplacer(pairs...).Replace(n.Name+" "), " ")
}

// derived returns the parts of a name that a step put together: the new name
// of what it begins with, and the words behind that. Steps call what they make
// by the name of what it was made from, with words behind it ("hem rest") or,
// where pieces were joined and that is ambiguous, the piece in front ("cradle
// top"). A name that no step can have put together is one word, whatever it
// begins with.
func (t *track) derived(n step.Name) (base, rest string, ok bool) {
	origins := t.origins(n.Piece)
	if !t.puts || slices.ContainsFunc(origins, func(q string) bool { return t.own[step.Name{Kind: n.Kind, Piece: q, Name: n.Name}] }) {
		return "", "", false
	}
	for i := len(n.Name) - 1; i > 0; i-- {
		if n.Name[i] != ' ' {
			continue
		}
		head, tail := n.Name[:i], n.Name[i:]
		for _, q := range origins {
			for _, kind := range []step.NameKind{n.Kind, step.NameEdge, step.NameNotch} {
				if now, ok := t.names[step.Name{Kind: kind, Piece: q, Name: head}]; ok && t.follows(tail[1:]) {
					return now, tail, true
				}
			}
			if q == head && len(origins) > 1 {
				of := step.Name{Kind: n.Kind, Piece: q, Name: tail[1:]}
				return t.names.of(step.Name{Kind: step.NamePiece, Name: q}), " " + t.names.of(of), true
			}
		}
		if now, ok := t.made[step.Name{Kind: step.NameSeam, Name: head}]; ok {
			return now, tail, true
		}
	}
	return "", "", false
}

// follows reports whether a step puts such words behind the name of what it
// made something from.
func (t *track) follows(words string) bool {
	first, _, more := strings.Cut(words, " ")
	switch first {
	case "rest", "end", "before":
		return true
	case "after", "part", "with":
		return more
	}
	if _, err := strconv.Atoi(words); err == nil {
		return true
	}
	return slices.Contains(t.words, words)
}

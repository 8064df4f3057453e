package recipe

import (
	"strings"

	"truemat/ops/step"
)

// source is what a piece is made of: itself, or those that were taped
// together, the one whose names stay first.
type source struct {
	piece  string // its name in the recipe when it came in
	parts  []*source
	called string // its name when it was taped,
	taped  string // and its edge that this took away
}

// sourceOf returns what a piece is made of now.
func (t *track) sourceOf(piece string) *source {
	if s, ok := t.sources[piece]; ok {
		return s
	}
	return &source{piece: piece}
}

// join notes what the pieces are made of that a step makes.
func (t *track) join(e step.Entry, mentions []step.Mention) {
	if tape, ok := e.Step.(*step.Tape); ok {
		a, b := *t.sourceOf(tape.A.Piece), *t.sourceOf(tape.B.Piece)
		a.called, a.taped = tape.A.Piece, tape.A.Edge
		b.called, b.taped = tape.B.Piece, tape.B.Edge
		name := tape.Name
		if name == "" {
			name = tape.A.Piece
		}
		t.sources[name] = &source{parts: []*source{&a, &b}}
		return
	}
	found := map[string]bool{}
	for _, m := range mentions {
		if m.Kind == step.NamePiece && !m.Makes {
			found[m.Name.Name] = true
		}
	}
	for piece := range found {
		for _, m := range mentions {
			if len(found) == 1 && m.Kind == step.NamePiece && m.Makes {
				t.sources[m.Name.Name] = t.sourceOf(piece)
			}
		}
	}
}

// sense is the thing on a piece that a name of the recipe means.
type sense struct {
	now   string // what it is called on the piece in the other pattern
	sure  bool   // the map or an earlier step says so, not only that it is there
	there bool
}

// find looks for what a name means on a piece, and on which of those it was
// made of that was: as taping does, the names of the first stay, and those of
// the second that the first has too get its name in front. Which names clash
// may differ between both patterns.
func (t *track) find(kind step.NameKind, s *source, name string) sense {
	if len(s.parts) == 0 {
		return t.findOn(step.Name{Kind: kind, Piece: s.piece, Name: name})
	}
	for i, part := range s.parts {
		if m := t.find(kind, part, name); m.there {
			m.now = t.inFront(kind, s.parts[:i], part, m.now)
			return m
		}
	}
	for i, part := range s.parts {
		if rest, ok := strings.CutPrefix(name, part.called+" "); ok && i > 0 {
			if m := t.find(kind, part, rest); m.there {
				m.now = t.inFront(kind, s.parts[:i], part, m.now)
				return m
			}
		}
	}
	return sense{}
}

// findOn is find on a piece of the pattern.
func (t *track) findOn(n step.Name) sense {
	if now, ok := t.made[n]; ok {
		return sense{now, true, true}
	}
	if now, ok := t.names[n]; ok {
		return sense{now, true, true}
	}
	if t.own[n] {
		return sense{n.Name, true, true}
	}
	for other, now := range t.names {
		if other.Kind == n.Kind && other.Piece == n.Piece && now == n.Name {
			return sense{} // what is called so here is something else
		}
	}
	return sense{n.Name, false, t.has(n.Kind, n.Piece, n.Name)}
}

// inFront puts the name of a part before that of a thing on it which one of the
// parts before it has as well.
func (t *track) inFront(kind step.NameKind, before []*source, part *source, name string) string {
	for _, p := range before {
		if t.holds(kind, p, name) {
			return t.translated(step.Name{Kind: step.NamePiece, Name: part.called}) + " " + name
		}
	}
	return name
}

// holds reports whether there is something of that name in the other pattern
// on what a piece is made of, but for the taped edge.
func (t *track) holds(kind step.NameKind, s *source, name string) bool {
	if kind == step.NameEdge && s.taped != "" && t.find(kind, s, s.taped).now == name {
		return false
	}
	for _, part := range s.parts {
		if t.holds(kind, part, name) {
			return true
		}
	}
	return len(s.parts) == 0 && t.has(kind, s.piece, name)
}

// has reports whether the other pattern has something of that name, as it is
// called there, on a piece of the recipe.
func (t *track) has(kind step.NameKind, piece, name string) bool {
	return t.pattern != nil && has(*t.pattern, step.Name{Kind: kind, Piece: t.translated(step.Name{Kind: step.NamePiece, Name: piece}), Name: name})
}

// doubt returns the names that a name on a joined piece may mean in the other
// pattern, where the names there are others and so do not tell which of the
// joined pieces is meant: the first has something of that name, of which the
// recipe never spoke, and the recipe spoke of that of another. It is nil when
// there is no doubt.
func (t *track) doubt(n step.Name) []string {
	s := t.sourceOf(n.Piece)
	if _, said := t.names[n]; said || len(t.names) == 0 || len(s.parts) == 0 || n.Kind == step.NameInner {
		return nil
	}
	if _, made := t.made[n]; made {
		return nil
	}
	first := t.find(n.Kind, s.parts[0], n.Name)
	if !first.there || first.sure {
		return nil
	}
	may := []string{first.now}
	for i, part := range s.parts[1:] {
		if m := t.find(n.Kind, part, n.Name); m.there && m.sure {
			may = append(may, t.inFront(n.Kind, s.parts[:i+1], part, m.now))
		}
	}
	if len(may) == 1 {
		return nil
	}
	return may
}

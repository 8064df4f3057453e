package recipe

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Lack is a name of a recipe that the pattern cannot serve, or not without doubt.
type Lack struct {
	// Name is the name in the recipe, Wanted what it is called in the pattern.
	Name   step.Name
	Wanted string
	// Taken says that the recipe makes something of that name which the pattern
	// has already; otherwise the pattern has nothing of that name.
	Taken bool
	// Doubt says that the name stands on pieces that were joined and may mean
	// several things there, which Near lists.
	Doubt bool
	From  []string // the pieces that its piece is made of, when the recipe makes that
	Steps []string // ids of the steps that speak of it
	Sizes []string // in which sizes, when not in all
	// Near are the names that the pattern has for what may be meant, the most
	// likely first: of like spelling, with the same edges, or of the role that the
	// name speaks of.
	Near []string
	// Spoken are those that cannot stand for it, since the recipe speaks of them by
	// another name or their own.
	Spoken []string
	// Sure is false when a step may have made the name in a way that only doing
	// it can tell, see [Try].
	Sure bool
}

func (l Lack) String() string {
	var b strings.Builder
	b.WriteString(l.Name.String())
	if len(l.From) > 0 {
		fmt.Fprintf(&b, ", made of %s,", quoted(l.From))
	}
	fmt.Fprintf(&b, " (%s)", steps(l.Steps))
	if l.Doubt {
		fmt.Fprintf(&b, " may be what will be called %s here; say which", strings.ReplaceAll(quoted(l.Near), ", ", " or "))
		return b.String()
	}
	if l.Wanted != l.Name.Name {
		fmt.Fprintf(&b, ", called %q here,", l.Wanted)
	}
	switch {
	case l.Taken:
		b.WriteString(" is made by the recipe, but the pattern has one already; give it another name")
	case l.Name.Kind == step.NameStep:
		b.WriteString(", whose figure is asked for, is no earlier step")
	default:
		b.WriteString(" is not there")
		switch {
		case !l.Sure:
			b.WriteString(", unless an earlier step makes it")
		case len(l.Near) == 0:
			b.WriteString(", nor anything like it; make it first, or leave that step out")
		}
	}
	if len(l.Sizes) > 0 {
		fmt.Fprintf(&b, " in size %s", strings.Join(l.Sizes, ", "))
	}
	if len(l.Near) > 0 {
		fmt.Fprintf(&b, "; there is %s", quoted(l.Near[:min(nearMost, len(l.Near))]))
	}
	return b.String()
}

func steps(ids []string) string {
	if len(ids) == 1 {
		return "step " + ids[0]
	}
	return "steps " + strings.Join(ids, ", ")
}

func quoted(names []string) string {
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(q, ", ")
}

// Lacking is the error of a recipe that speaks of what the pattern lacks.
type Lacking struct{ Lacks []Lack }

func (e *Lacking) Error() string {
	lines := make([]string, len(e.Lacks))
	for i, l := range e.Lacks {
		lines[i] = "\n  " + l.String()
	}
	text := "the pattern lacks what the steps speak of:" + strings.Join(lines, "")
	for _, l := range e.Lacks {
		if len(l.Near) > 0 && (l.Doubt || l.Near[0] != l.Name.Name) {
			return text + fmt.Sprintf("\nsay what it is called here, as %q", Pair(l.Name, l.Near[0]))
		}
	}
	return text
}

// Pair writes what a name is called as [ParsePair] reads it.
func Pair(n step.Name, now string) string {
	name := n.Name
	if n.Kind.OnPiece() {
		name = n.Piece + "/" + n.Name
	}
	if n.Kind != step.NamePiece && n.Kind != step.NameEdge {
		name = string(n.Kind) + " " + name
	}
	return name + "=" + now
}

// Lacks returns which of the names that the recipe takes from a pattern are
// not there when it is opened with that map after the steps whose results are
// known, in the order in which the recipe comes to them.
func Lacks(r step.Recipe, m Map, known []step.Result) []Lack {
	var lacks []Lack
	t := newTrack(m, known)
	find := finder{t, known}
	for _, e := range r {
		mentions := e.Mentions()
		for _, mention := range mentions {
			l, lacking := find.lack(mention, e)
			if !lacking {
				continue
			}
			if i := slices.IndexFunc(lacks, func(have Lack) bool { return have.Name == l.Name && have.Taken == l.Taken }); i >= 0 {
				if !slices.Contains(lacks[i].Steps, e.ID) {
					lacks[i].Steps = append(lacks[i].Steps, e.ID)
				}
				continue
			}
			l.Steps = []string{e.ID}
			if !l.Doubt {
				l.Near, l.Spoken = find.near(l, r)
			}
			lacks = append(lacks, l)
		}
		t.pass(e, mentions)
	}
	return lacks
}

// finder looks for names in the pattern.
type finder struct {
	*track
	known []step.Result
}

// lack looks for the name of a mention in the sizes that the entry is meant for.
func (f finder) lack(m step.Mention, e step.Entry) (Lack, bool) {
	l := Lack{Name: m.Name, Wanted: f.called(m), Sure: true}
	if m.Makes {
		if m.Kind == step.NamePiece && !f.makes(m.Name) && !f.mentionsPiece(e, m.Name.Name) {
			l.Taken = f.inAny(step.Name{Kind: step.NamePiece, Name: l.Wanted})
		}
		return l, l.Taken
	}
	switch m.Kind {
	case step.NameStep:
		return l, !f.makes(m.Name) && !slices.ContainsFunc(f.known[0].Reports, func(r step.Report) bool { return r.ID == m.Name.Name })
	case step.NameSize:
		return l, !slices.ContainsFunc(f.known, func(r step.Result) bool { return r.Size.Label == l.Wanted })
	}
	if f.makes(m.Name) {
		return l, false
	}
	if may := f.doubt(m.Name); may != nil {
		l.Doubt, l.Near = true, may
		return l, true
	}
	lacking := 0
	for _, r := range f.known {
		if !meant(e, f.names, r.Size.Label) {
			continue
		}
		if !f.found(m.Name, r.Size.Pattern) {
			l.Sizes = append(l.Sizes, r.Size.Label)
		}
		lacking++
	}
	if len(l.Sizes) == 0 {
		return l, false
	}
	if len(l.Sizes) == lacking {
		l.Sizes = nil
	}
	from, moved := f.from[m.Piece]
	if moved {
		l.From = from
	}
	// Steps give pieces no names of their own finding.
	l.Sure = !moved && (m.Kind == step.NamePiece || !f.could[m.Kind])
	return l, true
}

// meant reports whether an entry is meant for a size, by its label here.
func meant(e step.Entry, m Map, label string) bool {
	return len(e.Sizes) == 0 || slices.ContainsFunc(e.Sizes, func(s string) bool { return m.of(step.Name{Kind: step.NameSize, Name: s}) == label })
}

// mentionsPiece reports whether the entry also finds a piece of that name, and
// so keeps or changes it rather than making a second one.
func (f finder) mentionsPiece(e step.Entry, name string) bool {
	return slices.ContainsFunc(e.Mentions(), func(m step.Mention) bool {
		return m.Kind == step.NamePiece && !m.Makes && slices.Contains(append(f.origins(m.Name.Name), m.Name.Name), name)
	})
}

// here returns a name of the recipe as the pattern calls it.
func (f finder) here(n step.Name) step.Name {
	now := step.Name{Kind: n.Kind, Name: f.translated(n)}
	if n.Kind.OnPiece() {
		now.Piece = f.translated(step.Name{Kind: step.NamePiece, Name: n.Piece})
	}
	return now
}

// found reports whether a name of the recipe is in a pattern, on its piece or
// on one that this came from. What is on a piece that is not there itself is
// not asked for.
func (f finder) found(n step.Name, p pattern.Pattern) bool {
	if !n.Kind.OnPiece() {
		return has(p, f.here(n))
	}
	for _, q := range f.origins(n.Piece) {
		on := f.here(step.Name{Kind: n.Kind, Piece: q, Name: n.Name})
		if p.Piece(on.Piece) == nil || has(p, on) {
			return true
		}
	}
	return false
}

func (f finder) inAny(n step.Name) bool {
	return slices.ContainsFunc(f.known, func(r step.Result) bool { return has(r.Size.Pattern, n) })
}

// has reports whether a pattern has something of that name.
func has(p pattern.Pattern, n step.Name) bool {
	return slices.Contains(namesIn(p, n.Kind, n.Piece), n.Name)
}

// namesIn lists the names of a kind in a pattern, on that piece.
func namesIn(p pattern.Pattern, kind step.NameKind, piece string) []string {
	var names []string
	add := func(name string) { names = append(names, name) }
	pc := p.Piece(piece)
	switch {
	case kind == step.NamePiece:
		for i := range p.Pieces {
			add(p.Pieces[i].Name)
		}
	case kind == step.NameSeam:
		for _, s := range p.Seams {
			add(s.Name)
		}
	case kind == step.NameLine:
		for _, l := range p.Lines {
			add(l.Name)
		}
	case kind == step.NameFigure:
		for name := range p.Figures {
			add(name)
		}
		slices.Sort(names)
	case pc == nil:
	case kind == step.NameEdge:
		for _, e := range pc.Edges {
			add(e.Name)
		}
	case kind == step.NameNotch:
		for _, n := range pc.Notches {
			add(n.Name)
		}
	case kind == step.NameInner:
		for _, in := range pc.Inner {
			add(in.Name)
		}
	}
	return names
}

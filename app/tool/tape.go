package tool

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Tape joins two pieces along an edge of each, as they lie.
type Tape struct {
	base
	a, b *Pointing // edges; nil while not chosen
	end  pattern.EndName
	name string
	try  trial
}

// NewTape returns the tape for a table.
func NewTape(t Table) Tool { return &Tape{base: base{table: t}} }

// Name returns "tape".
func (t *Tape) Name() string { return "tape" }

func edgeOf(e step.EdgeEnd) string { return e.Edge + " of " + e.Piece }

// chosen returns the two edges as far as they are chosen and still there.
func (t *Tape) chosen() (a, b *Pointing) {
	p := t.pattern()
	for _, c := range []**Pointing{&t.a, &t.b} {
		if *c != nil {
			if _, e := p.Edge((*c).Piece, (*c).Edge); e == nil {
				*c = nil
			}
		}
	}
	if t.a == nil {
		t.a, t.b = t.b, nil
	}
	return t.a, t.b
}

// offers returns the pairs of edge ends that lie together on the mat and from
// there beside each other, with the pieces on opposite sides, those along a seam
// first. The first of a pair is
// on the piece with the fold, or else on the one that comes first.
func (t *Tape) offers() [][2]step.EdgeEnd {
	p := t.pattern()
	all := make([][]edgeEnd, len(p.Pieces))
	for i := range p.Pieces {
		all[i] = ends(&p.Pieces[i], anywhere)
	}
	var along, other [][2]step.EdgeEnd
	for i := range p.Pieces {
		for j := range i {
			first, second := j, i
			if p.Pieces[i].Fold() != nil && p.Pieces[j].Fold() == nil {
				first, second = i, j
			}
			if p.Pieces[i].Pose.Mirrors() != p.Pieces[j].Pose.Mirrors() {
				continue
			}
			for _, a := range all[first] {
				for _, b := range all[second] {
					if a.End == b.End || a.at.Dist(b.at) > pinMeets || a.along.Dot(b.along) <= 0 {
						continue
					}
					pair := [2]step.EdgeEnd{a.EdgeEnd, b.EdgeEnd}
					if sewn(p, pair[0], pair[1]) {
						along = append(along, pair)
					} else {
						other = append(other, pair)
					}
				}
			}
		}
	}
	return append(along, other...)
}

// Pointer chooses the edges.
func (t *Tape) Pointer(e Event) {
	a, b := t.chosen()
	ask := Ask{Kind: OnEdge}
	if a != nil && b == nil {
		ask.Not = a.Piece
	}
	switch e.Act {
	case Hover:
		if pt, ok := t.numbered(e); ok {
			t.over = pt
		} else {
			t.hover(e, ask)
		}
	case Press:
		t.drop()
		if pt, ok := t.numbered(e); ok {
			t.choose(pt)
		} else if pt, ok := Point(t.pattern(), e.At, e.Reach, ask); ok {
			t.choose(pt)
		}
	}
}

// numbered returns the edge whose numbered spot is pointed at: where two edges lie
// on each other it is there that either can be pressed.
func (t *Tape) numbered(at Event) (Pointing, bool) {
	a, b := t.chosen()
	if b != nil {
		return Pointing{}, false
	}
	for i, e := range t.offered(a) {
		spot, ok := t.numberAt(i, e)
		if ok && spot.Dist(at.At) <= at.Reach && (a == nil || a.Piece != e.Piece) {
			return Pointing{Kind: OnEdge, Piece: e.Piece, Edge: e.Edge, At: spot}, true
		}
	}
	return Pointing{}, false
}

// choose takes an edge: the first, the second, or the first anew.
func (t *Tape) choose(pt Pointing) {
	a, b := t.chosen()
	switch {
	case a == nil || b != nil || a.Piece == pt.Piece:
		t.a, t.b, t.end = &pt, nil, ""
	default:
		t.b = &pt
		t.pinWhereTheyMeet()
	}
	t.walk.Reset()
}

// take takes a pair that was offered.
func (t *Tape) take(pair [2]step.EdgeEnd) {
	t.a = &Pointing{Kind: OnEdge, Piece: pair[0].Piece, Edge: pair[0].Edge}
	t.b = &Pointing{Kind: OnEdge, Piece: pair[1].Piece, Edge: pair[1].Edge}
	t.end = pair[0].End
}

// pinWhereTheyMeet pins the edges at the ends that lie nearest to each other.
func (t *Tape) pinWhereTheyMeet() {
	least := math.Inf(1)
	for _, end := range []pattern.EndName{pattern.Start, pattern.End} {
		if d := t.apart(end); d < least-samePlace {
			least, t.end = d, end
		}
	}
}

// apart is how far the ends lie apart when A's edge is pinned at that end.
func (t *Tape) apart(end pattern.EndName) float64 {
	p := t.pattern()
	a, errA := p.Find(pattern.AtEnd(t.a.Piece, t.a.Edge, end))
	b, errB := p.Find(pattern.AtEnd(t.b.Piece, t.b.Edge, otherEnd(end)))
	if errA != nil || errB != nil {
		return math.Inf(1)
	}
	return a.Mat.Dist(b.Mat)
}

func otherEnd(end pattern.EndName) pattern.EndName {
	if end == pattern.Start {
		return pattern.End
	}
	return pattern.Start
}

// Key walks to the edges; Choose takes the pair offered when nothing is
// walked to.
func (t *Tape) Key(k Key) bool {
	a, b := t.chosen()
	ask := Ask{Kind: OnEdge}
	if a != nil && b == nil {
		ask.Not = a.Piece
	}
	if _, walking := t.walk.At(t.pattern()); !walking && k.Name == Choose && a == nil {
		if offers := t.offers(); len(offers) > 0 {
			t.take(offers[0])
			return true
		}
	}
	chosen, took, used := t.keyed(k, ask)
	if took {
		t.choose(chosen)
	}
	return used
}

// noPair is the choice of edges that are pressed, instead of a pair that was found.
const noPair = "those I press"

func (t *Tape) pairLabel(o [2]step.EdgeEnd) string {
	return fmt.Sprintf("%s and %s, pinned %s", edgeOf(o[0]), edgeOf(o[1]), endWords(t.pattern(), o[0]))
}

// Fields are the pair of edges, the pinned end and the name of what is joined.
func (t *Tape) Fields() []Field {
	a, b := t.chosen()
	var out []Field
	if offers := t.offers(); len(offers) > 0 {
		f := Field{Name: "pair", Label: "Tape", Text: noPair, Options: []string{noPair}}
		for _, o := range offers {
			f.Options = append(f.Options, t.pairLabel(o))
			if a != nil && b != nil && o[0] == (step.EdgeEnd{Piece: a.Piece, Edge: a.Edge, End: t.end}) && o[1].Piece == b.Piece && o[1].Edge == b.Edge {
				f.Text = t.pairLabel(o)
			}
		}
		out = append(out, f)
	}
	if a != nil && b != nil {
		out = append(out,
			Field{Name: "end", Label: "Pinned at", Text: t.endLabel(t.end), Options: []string{t.endLabel(pattern.Start), t.endLabel(pattern.End)}},
			Field{Name: "name", Label: "Name of the joined piece", Text: t.joined()})
	}
	return out
}

// endLabel names the pinned end, with its own first letter for a list.
func (t *Tape) endLabel(end pattern.EndName) string {
	return endWords(t.pattern(), step.EdgeEnd{Piece: t.a.Piece, Edge: t.a.Edge, End: end})
}

// joined is the name of the joined piece: what was written, or one that no
// piece has.
func (t *Tape) joined() string {
	if t.name != "" {
		return t.name
	}
	p := t.pattern()
	a, b := p.Piece(t.a.Piece), p.Piece(t.b.Piece)
	if a == nil || b == nil {
		return t.a.Piece
	}
	name := a.Name + " and " + b.Name
	switch {
	case (a.Fold() != nil || b.Fold() != nil) && carries(a, pattern.WireLine) && carries(b, pattern.WireLine):
		name = "frame"
	case utf8.RuneCountInString(name) > longestName-4:
		name = "joined piece"
	}
	free := name
	for n := 2; p.Piece(free) != nil; n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// carries reports whether a piece has an edge of a role.
func carries(pc *pattern.Piece, r pattern.Role) bool {
	return slices.ContainsFunc(pc.Edges, func(e pattern.Edge) bool { return e.Role == r })
}

// Set takes a pair that meets, the pinned end, or the name.
func (t *Tape) Set(field, text string) error {
	a, b := t.chosen()
	switch {
	case field == "pair":
		offers := t.offers()
		options := []string{noPair}
		for _, o := range offers {
			options = append(options, t.pairLabel(o))
		}
		o, err := picked(text, options)
		if err != nil {
			return err
		}
		t.a, t.b = nil, nil
		for _, pair := range offers {
			if t.pairLabel(pair) == o {
				t.take(pair)
				break
			}
		}
		return nil
	case a == nil || b == nil:
		return unknownField("the tape", field)
	case field == "end":
		o, err := picked(text, []string{t.endLabel(pattern.Start), t.endLabel(pattern.End)})
		if err != nil {
			return err
		}
		t.end = pattern.End
		if o == t.endLabel(pattern.Start) {
			t.end = pattern.Start
		}
		return nil
	case field == "name":
		name, err := typedName(text)
		if err != nil {
			return err
		}
		if name != a.Piece && name != b.Piece && t.pattern().Piece(name) != nil {
			return fmt.Errorf("there already is a piece %q; give the joined piece another name", name)
		}
		t.name = name
		return nil
	}
	return unknownField("the tape", field)
}

// typedName reads a name of a piece or notch.
func typedName(text string) (string, error) {
	name := strings.Join(strings.Fields(text), " ")
	switch {
	case name == "" || !utf8.ValidString(name):
		return "", errors.New("the name is blank; write a word")
	case utf8.RuneCountInString(name) > longestName:
		return "", fmt.Errorf("the name is too long; use at most %d letters", longestName)
	}
	return name, nil
}

// longestName bounds names, so that they fit beside what they name.
const longestName = 60

// Proposal is the taping, once both edges are chosen.
func (t *Tape) Proposal() []step.Step {
	a, b := t.chosen()
	if a == nil || b == nil || t.end == "" {
		return nil
	}
	s := &step.Tape{
		A: step.EdgeEnd{Piece: a.Piece, Edge: a.Edge, End: t.end},
		B: step.EdgeEnd{Piece: b.Piece, Edge: b.Edge, End: otherEnd(t.end)},
	}
	if name := t.joined(); name != a.Piece {
		s.Name = name
	}
	return []step.Step{s}
}

func (t *Tape) trial() (step.Result, error) { return t.try.of(t.table, t.Proposal()...) }

// Reset forgets the edges.
func (t *Tape) Reset() bool {
	walked := t.drop()
	was := t.a != nil || t.b != nil
	t.a, t.b, t.end, t.name = nil, nil, "", ""
	return was || walked
}

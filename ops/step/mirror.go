package step

import (
	"cmp"
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("mirror", func() Step { return &Mirror{} }) }

// Mirror turns a piece over to its other hand; its arrow keeps its direction.
// Edges, notches and inner lines keep
// their names. Seams and lines of a pair or fold piece are then those of the
// mirrored hand; those of a piece cut single stay, walked the other way.
//
// With Name the piece stays and its mirror image becomes a piece of that name
// beside it: a copy sewn to nothing yet or, with Apart, the other hand of a
// pair, so that both can be altered and sewn on their own.
type Mirror struct {
	Piece string `json:"piece"`
	Name  string `json:"name,omitempty"`
	Apart bool   `json:"apart,omitempty"`
	// Other is the word behind the names of the other hand's seams and lines
	// when a pair is set apart; "other" when empty.
	Other string `json:"other,omitempty"`
}

// Kind returns "mirror".
func (m *Mirror) Kind() string { return "mirror" }

// Sentence tells what the step does.
func (m *Mirror) Sentence() string {
	switch {
	case m.Apart:
		return sentence(fmt.Sprintf("set the two hands of %s apart, the mirrored one as %q", m.Piece, m.Name))
	case m.Name != "":
		return sentence(fmt.Sprintf("mirror %s as %q", m.Piece, m.Name))
	}
	return sentence(fmt.Sprintf("turn %s over to its other hand", m.Piece))
}

// Apply mirrors.
func (m *Mirror) Apply(in Input) (Output, error) {
	pc, err := pieceIn(in.Pattern, m.Piece)
	switch {
	case err != nil:
		return Output{}, err
	case m.Apart && m.Name == "":
		return Output{}, fmt.Errorf("the mirrored hand of %s needs a name of its own", m.Piece)
	case m.Apart && !pc.Cut.Pair:
		return Output{}, fmt.Errorf("%s is cut single, so it has no two hands to set apart; leave out \"apart\" to copy it mirrored", m.Piece)
	case m.Name != "" && in.Pattern.Piece(m.Name) != nil:
		return Output{}, fmt.Errorf("there already is a piece %q; give the mirror image of %s another name", m.Name, m.Piece)
	case m.Other != "" && !m.Apart:
		return Output{}, fmt.Errorf("the word %q is for the seams of a pair set apart; leave out \"other\"", m.Other)
	}
	over, err := m.over(pc)
	if err != nil {
		return Output{}, err
	}
	image := mirrored(pc, over)
	switch {
	case m.Apart:
		return m.apart(in.Pattern, image)
	case m.Name != "":
		return m.copied(in.Pattern, image)
	}
	return m.inPlace(in.Pattern, image, over)
}

// over returns the mirroring in the piece's coordinates: about the line through
// its middle along its arrow or square to it, whichever stands more upright on
// the mat, so that the arrow keeps its direction.
func (m *Mirror) over(pc *pattern.Piece) (geom.Motion, error) {
	o, err := pc.Outline()
	if err != nil {
		return geom.Motion{}, err
	}
	axis := pc.Arrow.To.Sub(pc.Arrow.From).Unit()
	if up := pc.Pose.Vector(axis); up.X*up.X > up.Y*up.Y {
		axis = axis.Perp()
	}
	// The middle across the axis: twice mirrored, it is the same again.
	across := axis.Perp()
	turn := geom.Turn(-across.Direction(), geom.Point{})
	box := o.Transform(turn).Bounds()
	middle := across.Mul((box.Min.X + box.Max.X) / 2)
	return geom.Mirror(middle, middle.Add(axis.Mul(axisReach)))
}

// axisReach is the distance in mm of two places that give a line of mirroring:
// as far as a piece, so that rounding does not turn it.
const axisReach = 1000

// mirrored returns the mirror image of a piece. Its list of edges runs the
// other way, and so does each of them.
func mirrored(pc *pattern.Piece, over geom.Motion) pattern.Piece {
	image := pc.Clone()
	n := len(pc.Edges)
	for i := range pc.Edges {
		e := pc.Edges[n-1-i]
		e.Path = e.Path.Transform(over).Reverse()
		e.Corner = mirroredCorner(pc.Edges[(n-i)%n].Corner)
		image.Edges[i] = e
	}
	for i := range image.Notches {
		image.Notches[i].Along = otherEnd(image.Notches[i].Along)
	}
	for i := range image.Inner {
		image.Inner[i].Path = image.Inner[i].Path.Transform(over)
	}
	for i := range image.Marks {
		image.Marks[i].At = over.Apply(image.Marks[i].At)
	}
	image.Arrow.From, image.Arrow.To = over.Apply(pc.Arrow.From), over.Apply(pc.Arrow.To)
	return image
}

func (m *Mirror) inPlace(p pattern.Pattern, image pattern.Piece, over geom.Motion) (Output, error) {
	pc := p.Piece(m.Piece)
	var to pattern.Map
	to.Move(m.Piece, m.Piece, over)
	twoHands := pc.Cut.Pair || pc.Fold() != nil
	for i := range pc.Edges {
		span := pattern.WholeSpan(m.Piece, &pc.Edges[i])
		back := span
		back.From, back.To = image.Edge(span.Edge).Length(), 0
		if !twoHands {
			to.Span(span, back)
			continue
		}
		to.HandSpan(span, pattern.ThisHand, back, pattern.MirroredHand)
		to.HandSpan(span, pattern.MirroredHand, back, pattern.ThisHand)
	}
	next := p.Clone()
	*next.Piece(m.Piece) = image
	out, carried, err := pattern.Carry(p, next, to)
	return Output{Pattern: out, Map: to, Notes: carried.Notes}, err
}

func (m *Mirror) copied(p pattern.Pattern, image pattern.Piece) (Output, error) {
	out := Output{Pattern: p.Clone()}
	image.Name = m.Name
	if err := layBeside(p, p.Piece(m.Piece), &image); err != nil {
		return Output{}, err
	}
	out.Pattern.Pieces = append(out.Pattern.Pieces, image)
	if sewnEdge(&image) {
		out.Notes = []string{fmt.Sprintf("%q is sewn to nothing yet: sew it, or declare its edges free.", m.Name)}
	}
	return out, nil
}

// sewnEdge reports whether a piece has an edge that wants a partner.
func sewnEdge(pc *pattern.Piece) bool {
	for i := range pc.Edges {
		if e := &pc.Edges[i]; e.Role.Sewn() && !e.Free {
			return true
		}
	}
	return false
}

func (m *Mirror) word() string { return cmp.Or(m.Other, otherWord) }

func (m *Mirror) apart(p pattern.Pattern, image pattern.Piece) (Output, error) {
	word := m.word()
	old, notes, err := withOtherHand(p, m.Piece, word)
	if err != nil {
		return Output{}, err
	}
	image.Name = m.Name
	if err := layBeside(p, p.Piece(m.Piece), &image); err != nil {
		return Output{}, err
	}
	image.Cut.Pair = false
	next := p.Clone()
	pc := next.Piece(m.Piece)
	pc.Cut.Pair = false
	next.Pieces = append(next.Pieces, image)
	var to pattern.Map
	for i := range pc.Edges {
		span := pattern.WholeSpan(m.Piece, &pc.Edges[i])
		to.HandSpan(span, pattern.ThisHand, span, pattern.ThisHand)
		other := pattern.Span{Piece: m.Name, Edge: span.Edge, From: image.Edge(span.Edge).Length()}
		to.HandSpan(span, pattern.MirroredHand, other, pattern.ThisHand)
	}
	out, carried, err := pattern.Carry(old, next, to)
	if err != nil {
		return Output{}, err
	}
	now := out.Piece(m.Name)
	now.Notches, now.Inner, now.Marks = image.Notches, image.Inner, image.Marks
	return Output{Pattern: out, Map: to, Notes: append(carried.Notes, notes...)}, nil
}

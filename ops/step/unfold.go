package step

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("unfold", func() Step { return &Unfold{} }) }

// Unfold opens a half piece on the fold out into the whole one.
//
// The half stays as it is. The other half gets its mirror image: edges,
// notches and inner lines of the same names with the word Other behind them,
// the same allowances and corner ends. The fold becomes an inner line of its
// name, along which the piece can be folded again. Seams and lines that stood
// for both hands of the garment are declared for each: that of the other half
// has the word behind its name too and runs over the mirrored hand of the
// pieces it joins. Arrow, marks, cut count and pose stay.
type Unfold struct {
	Piece string `json:"piece"`
	// Other is the word behind the names on the other half; "other" when empty.
	Other string `json:"other,omitempty"`
}

// Kind returns "unfold".
func (u *Unfold) Kind() string { return "unfold" }

// Sentence tells what the step does.
func (u *Unfold) Sentence() string {
	if u.Other == "" {
		return sentence(fmt.Sprintf("unfold %s", u.Piece))
	}
	return sentence(fmt.Sprintf("unfold %s; what lies on the other half is called as on this, with %q behind it", u.Piece, u.Other))
}

func (u *Unfold) word() string {
	if u.Other == "" {
		return otherWord
	}
	return u.Other
}

// Apply unfolds. It reports area_mm2, that of the whole piece.
func (u *Unfold) Apply(in Input) (Output, error) {
	pc, err := pieceIn(in.Pattern, u.Piece)
	if err != nil {
		return Output{}, err
	}
	fold := pc.Fold()
	if fold == nil {
		return Output{}, fmt.Errorf("%s is not on the fold, so there is nothing to unfold; fold it first, or mirror it", u.Piece)
	}
	over, err := geom.Mirror(fold.Path.Start(), fold.Path.End())
	if err != nil {
		return Output{}, fmt.Errorf("the fold of %s: %w", u.Piece, err)
	}
	edges, err := u.edges(pc, over)
	if err != nil {
		return Output{}, err
	}
	whole := pc.Clone()
	whole.Edges = edges
	if err := checkOutline(pc, &whole); err != nil {
		return Output{}, fmt.Errorf("unfolded, %w", err)
	}

	var m pattern.Map
	m.Gone(u.Piece, fold.Name)
	for i := range pc.Edges {
		e := &pc.Edges[i]
		if e.Role == pattern.Fold {
			continue
		}
		span := pattern.WholeSpan(u.Piece, e)
		m.HandSpan(span, pattern.ThisHand, span, pattern.ThisHand)
		other := pattern.Span{Piece: u.Piece, Edge: otherName(e.Name, u.word()), From: whole.Edge(otherName(e.Name, u.word())).Length()}
		m.HandSpan(span, pattern.MirroredHand, other, pattern.ThisHand)
	}
	old, notes, err := withOtherHand(in.Pattern, u.Piece, u.word())
	if err != nil {
		return Output{}, err
	}
	next := in.Pattern.Clone()
	*next.Piece(u.Piece) = whole
	p, carried, err := pattern.Carry(old, next, m)
	if err != nil {
		return Output{}, err
	}
	now := p.Piece(u.Piece)
	if err := u.drawOther(pc, now, over); err != nil {
		return Output{}, err
	}
	return Output{
		Pattern: p,
		Map:     m,
		Figures: map[string]float64{"area_mm2": now.Area()},
		Notes:   append(carried.Notes, notes...),
	}, nil
}

// edges returns the outline of the whole piece: the other half's edges stand
// where the fold stood.
func (u *Unfold) edges(pc *pattern.Piece, over geom.Motion) ([]pattern.Edge, error) {
	n, k := len(pc.Edges), pc.EdgeIndex(pc.Fold().Name)
	first, last := pc.Prev(k), pc.Next(k) // before the fold and after it
	other := make([]pattern.Edge, 0, n-1)
	for i := 1; i < n; i++ {
		from := &pc.Edges[(k+n-i)%n]
		e := *from
		e.Name = otherName(from.Name, u.word())
		if pc.Edge(e.Name) != nil {
			return nil, fmt.Errorf("%s has an edge %q already, by which the other half's %s would be called; give another word by \"other\"", pc.Name, e.Name, from.Name)
		}
		e.Path = from.Path.Transform(over).Reverse()
		e.Corner = mirroredCorner(pc.Edges[(k+n-i+1)%n].Corner)
		other = append(other, e)
	}
	// At the fold's ends both halves meet exactly and alike.
	var err error
	joinAt := func(e *pattern.Edge, a, b geom.Point) {
		if err == nil {
			e.Path, err = e.Path.WithEnds(a, b)
		}
	}
	o := &other[0]
	joinAt(o, pc.Edges[first].Path.End(), o.Path.End())
	o = &other[len(other)-1]
	joinAt(o, o.Path.Start(), pc.Edges[last].Path.Start())
	if err != nil {
		return nil, fmt.Errorf("the other half of %s: %w", pc.Name, err)
	}
	other[0].Corner = alikeCorner(pc.Edges[k].Corner)
	edges := slices.Clone(pc.Edges)
	edges[last].Corner = alikeCorner(edges[last].Corner)
	return slices.Replace(edges, k, k+1, other...), nil
}

// mirroredCorner returns the corner end of the mirrored joint.
func mirroredCorner(c pattern.Corner) pattern.Corner {
	switch c.Of {
	case pattern.Before:
		c.Of = pattern.After
	case pattern.After:
		c.Of = pattern.Before
	}
	return c
}

// alikeCorner returns the corner end at a joint in the middle of a piece: the
// same, unless it speaks of one side only.
func alikeCorner(c pattern.Corner) pattern.Corner {
	if c.Of != "" {
		return pattern.Corner{}
	}
	return c
}

// drawOther draws what lies on the half once more on the other, and the fold
// as an inner line.
func (u *Unfold) drawOther(half, now *pattern.Piece, over geom.Motion) error {
	fold := half.Fold()
	for _, n := range half.Notches {
		if n.Edge == fold.Name {
			continue
		}
		was := n.Name
		n.Name, n.Edge = otherName(n.Name, u.word()), otherName(n.Edge, u.word())
		if now.Notch(n.Name) != nil {
			return fmt.Errorf("%s has a notch %q already, by which the other half's %q would be called; give another word by \"other\"", u.Piece, n.Name, was)
		}
		n.Along = otherEnd(n.Along)
		now.Notches = append(now.Notches, n)
	}
	line, err := geom.NewLine(fold.Path.Start(), fold.Path.End())
	if err != nil {
		return err
	}
	for _, in := range half.Inner {
		if in.Kind == pattern.OldArrow || liesAlong(in.Path, line) {
			continue
		}
		was := in.Name
		if in.Name = otherName(in.Name, u.word()); now.InnerLine(in.Name) != nil {
			return fmt.Errorf("%s has an inner line %q already, by which the other half's %q would be called; give another word by \"other\"", u.Piece, in.Name, was)
		}
		in.Path = in.Path.Transform(over)
		now.Inner = append(now.Inner, in)
	}
	if now.InnerLine(fold.Name) != nil {
		return fmt.Errorf("%s has an inner line %q already, by which the line of its fold would be called; rename one of them first", u.Piece, fold.Name)
	}
	now.Inner = append(now.Inner, pattern.Inner{Name: fold.Name, Kind: pattern.OldFold, Path: fold.Path})
	return nil
}

// otherEnd returns the place held from the other end of a mirrored edge.
func otherEnd(a pattern.Along) pattern.Along {
	if a.From == pattern.End {
		a.From = pattern.Start
	} else {
		a.From = pattern.End
	}
	return a
}

// liesAlong reports whether a path lies on a line.
func liesAlong(path geom.Path, l geom.Line) bool {
	for i := range path.Len() {
		for _, q := range path.Seg(i).P {
			if d := l.Distance(q); d > placeSlack || d < -placeSlack {
				return false
			}
		}
	}
	return true
}

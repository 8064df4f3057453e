package step

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("split", func() Step { return &Split{} }) }

// Split cuts a piece in two from a spot to a spot and sews the two parts
// together again along the cut, with matching notches on both sides.
//
// Both parts stay where they lie. Seams and lines that ran over an edge that
// is split run over its two parts; notches, inner lines and marks go to the
// part on which they lie, an inner line that is crossed is divided. Both keep
// the direction of the arrow, the cloth and the count; an arrow that does not lie
// clear on its part moves on it. A piece on the fold that
// is split across the fold gives two on the fold, and the cut must meet the fold
// squarely; what is split off beside the fold is cut as a pair.
//
// Figures: length of the cut in mm; area_left and area_right in mm².
type Split struct {
	Piece string       `json:"piece"`
	From  pattern.Spot `json:"from"`
	To    pattern.Spot `json:"to"`
	// Bulge and Curve shape the cut as with cut-off; outward is from the left part.
	Bulge *Number `json:"bulge,omitempty"`
	Curve *Curve  `json:"curve,omitempty"`
	// Left and Right name the parts left and right of the way from From to To;
	// one that is not given keeps the name of the piece.
	Left  string `json:"left,omitempty"`
	Right string `json:"right,omitempty"`
	// Name is that of the new seam and of the edge on both sides of it.
	Name string       `json:"name"`
	Role pattern.Role `json:"role,omitempty"` // of the edge; seam when empty
	// Allowance on both sides; that of the piece's longest sewn edge when not
	// given, or of its longest edge when none is sewn.
	Allowance *Number `json:"allowance,omitempty"`
	// Notches are places along the cut, as shares of it from From, that are
	// marked on both sides; they are called like the seam, numbered when there
	// are several.
	Notches []float64 `json:"notches,omitempty"`
}

// maxNotches bounds the notches of a split.
const maxNotches = 50

// Kind returns "split".
func (s *Split) Kind() string { return "split" }

// Sentence tells in plain words what the step does.
func (s *Split) Sentence() string {
	left, right := s.names()
	text := fmt.Sprintf("Split %s %s from %s to %s into %s and %s, sewn by %s",
		s.Piece, s.line().how(), spotOn(s.From, s.Piece), spotOn(s.To, s.Piece), left, right, s.Name)
	switch n := len(s.Notches); n {
	case 0:
	case 1:
		text += " with a notch"
	default:
		text += fmt.Sprintf(" with %d notches", n)
	}
	return text + "."
}

func (s *Split) line() cutLine {
	return cutLine{piece: s.Piece, from: s.From, to: s.To, bulge: s.Bulge, curve: s.Curve}
}

func (s *Split) names() (left, right string) {
	if left, right = s.Left, s.Right; left == "" {
		left = s.Piece
	}
	if right == "" {
		right = s.Piece
	}
	return left, right
}

// Apply splits.
func (s *Split) Apply(in Input) (Output, error) {
	r := newRedraw(in.Pattern)
	o, err := r.piece(s.Piece)
	if err != nil {
		return Output{}, err
	}
	if err := s.check(in.Pattern); err != nil {
		return Output{}, err
	}
	left, right, err := s.halves(in, o)
	if err != nil {
		return Output{}, err
	}
	next, m, err := s.lay(in.Pattern, left, right)
	if err != nil {
		return Output{}, err
	}
	// Inner lines are divided here; all else is carried.
	bare := in.Pattern.Clone()
	bare.Piece(s.Piece).Inner = nil
	pat, done, err := pattern.Carry(bare, next, m)
	if err != nil {
		return Output{}, err
	}
	ln, rn := s.names()
	l, rt := pat.Piece(ln), pat.Piece(rn)
	pat.Seams = append(pat.Seams, pattern.Seam{
		Name: s.Name, A: pattern.Side{pattern.Whole(ln, s.Name)}, B: pattern.Side{pattern.Whole(rn, s.Name).Backwards()},
	})
	notes := append(done.Notes, s.divide(o.old, l, rt)...)
	notes = append(append(notes, placeArrow(l, o.old, s.Name)...), placeArrow(rt, o.old, s.Name)...)
	if err := s.notch(l, rt); err != nil {
		return Output{}, err
	}
	out := Output{Pattern: pat, Map: m, Notes: append(notes, s.carriedOver(in.Pattern, pat)...), Figures: map[string]float64{
		"length": l.Edge(s.Name).Length(), "area_left": l.Area(), "area_right": rt.Area(),
	}}
	reportSeams(in.Pattern, pat, &out)
	return out, nil
}

// check refuses names and places that cannot be.
func (s *Split) check(p pattern.Pattern) error {
	left, right := s.names()
	switch {
	case s.Name == "":
		return fmt.Errorf("the seam by which the parts of %s are sewn needs a name", s.Piece)
	case p.Seam(s.Name) != nil:
		return fmt.Errorf("there is a seam %q already; give the one that splits %s another name", s.Name, s.Piece)
	case left == right:
		return fmt.Errorf("both parts of %s would be called %q; give at least one of them another name", s.Piece, left)
	case s.Role != "" && !s.Role.Sewn():
		return fmt.Errorf("the parts of %s are sewn together, so the edge cannot be %q; let it be %q, or cut the piece off instead", s.Piece, s.Role, pattern.SeamEdge)
	case len(s.Notches) > maxNotches:
		return fmt.Errorf("%d notches along the split of %s are more than the %d that can be told apart", len(s.Notches), s.Piece, maxNotches)
	}
	for _, name := range []string{left, right} {
		if name != s.Piece && p.Piece(name) != nil {
			return fmt.Errorf("there is a piece %q already; give that part of %s another name", name, s.Piece)
		}
	}
	for i, at := range s.Notches {
		if !(at > 0 && at < 1) || slices.Contains(s.Notches[:i], at) {
			return fmt.Errorf("a notch at %g along the split of %s; give each a share of its own between 0 and 1", at, s.Piece)
		}
	}
	return nil
}

// halves returns the outlines of the two parts.
func (s *Split) halves(in Input, o *outline) (left, right *outline, err error) {
	i, n, err := o.ends(s.From, s.To)
	if err != nil {
		return nil, nil, err
	}
	path, err := s.line().lead(in, o, i, n, false)
	if err != nil {
		return nil, nil, err
	}
	e := pattern.Edge{Name: s.Name, Role: pattern.SeamEdge, Allowance: usualAllowance(o.old)}
	if err := dress(&e, in, s.Role, s.Allowance); err != nil {
		return nil, nil, err
	}
	part := func(from, runs int, path geom.Path) *outline {
		h := &outline{old: o.old, all: o.all}
		for k := range runs {
			h.runs = append(h.runs, o.runs[(from+k)%len(o.runs)])
		}
		first := &h.runs[0].edge
		first.Corner = cornerAfter(first.Corner)
		cut := run{edge: e}
		cut.edge.Path = path
		cut.edge.Corner = cornerBefore(o.runs[(from+runs)%len(o.runs)].edge.Corner)
		h.runs = append(h.runs, cut)
		h.nameRests(len(h.runs) - 1)
		return h
	}
	// The run counter-clockwise from From to To lies right of the way.
	return part((i+n)%len(o.runs), len(o.runs)-n, path), part(i, n, path.Reverse()), nil
}

// lay returns the pattern with the two parts in the place of the piece, the
// one that keeps its name first, and where its outline went.
func (s *Split) lay(p pattern.Pattern, left, right *outline) (pattern.Pattern, pattern.Map, error) {
	next := p.Clone()
	var m pattern.Map
	ln, rn := s.names()
	at := slices.IndexFunc(next.Pieces, func(pc pattern.Piece) bool { return pc.Name == s.Piece })
	old := left.old
	var parts []pattern.Piece
	for _, half := range []struct {
		o    *outline
		name string
	}{{left, ln}, {right, rn}} {
		pc := old.Clone()
		pc.Name = half.name
		edges, err := half.o.edges()
		if err != nil {
			return next, m, err
		}
		pc.Edges = edges
		if err := s.fits(old, &pc); err != nil {
			return next, m, err
		}
		if f := old.Fold(); f != nil && pc.Fold() == nil {
			// What a fold doubled is now cut twice, once mirrored; of a pair, twice that.
			if pc.Cut.Pair {
				pc.Cut.Count *= 2
			}
			pc.Cut.Pair = true
		}
		m.Move(s.Piece, pc.Name, geom.Identity())
		half.o.spans(&m, &pc)
		parts = append(parts, pc)
	}
	if rn == s.Piece {
		slices.Reverse(parts)
		slices.Reverse(m.Pieces)
	}
	next.Pieces = slices.Replace(next.Pieces, at, at+1, parts...)
	return next, m, nil
}

// spans writes where the stretches of the old outline that lie on this part went.
func (o *outline) spans(m *pattern.Map, pc *pattern.Piece) {
	for j, r := range o.runs {
		n := &pc.Edges[j]
		for _, t := range r.traces {
			m.Span(
				pattern.Span{Piece: o.old.Name, Edge: t.edge, From: t.from, To: t.to},
				pattern.Span{Piece: pc.Name, Edge: n.Name, From: t.a, To: min(t.b, n.Length())},
			)
		}
	}
}

// fits refuses a part that cannot be cut.
func (s *Split) fits(old, pc *pattern.Piece) error {
	if err := checkOutline(old, pc); err != nil {
		return err
	}
	folds := 0
	for i := range pc.Edges {
		if pc.Edges[i].Role == pattern.Fold {
			folds++
		}
	}
	if folds > 1 {
		return fmt.Errorf("%s would lie on the fold with two edges; let only one end of the split of %s lie on the fold", pc.Name, s.Piece)
	}
	if off := offSquareOf(pc, s.Name); off > foldSlack {
		return fmt.Errorf("the split of %s would meet the fold %.2g degrees off square, which gives a point in the middle of both parts; let it arrive square there, or choose the spot on the fold straight across", s.Piece, off)
	}
	return nil
}

// divide gives each part the inner lines, or stretches of them, that lie on it.
func (s *Split) divide(old, left, right *pattern.Piece) (notes []string) {
	cut := left.Edge(s.Name).Path
	o, err := left.Outline()
	if err != nil {
		return nil
	}
	for _, in := range old.Inner {
		var on [2]int
		parts := divided(in.Path, cut)
		for _, part := range parts {
			to, k := right, 1
			if o.Contains(part.At(part.Length() / 2)) {
				to, k = left, 0
			}
			addInner(to, pattern.Inner{Name: again(in.Name, on[k]), Kind: in.Kind, Path: part})
			on[k]++
		}
		if on[0] > 0 && on[1] > 0 {
			notes = append(notes, fmt.Sprintf("Inner line %q is divided between %s and %s.", in.Name, left.Name, right.Name))
		}
	}
	return notes
}

// notch marks the places along the cut on both sides.
func (s *Split) notch(left, right *pattern.Piece) error {
	for i, at := range s.Notches {
		name := s.Name
		if len(s.Notches) > 1 {
			name += " " + strconv.Itoa(i+1)
		}
		for _, side := range []struct {
			pc   *pattern.Piece
			from pattern.EndName
		}{{left, pattern.Start}, {right, pattern.End}} {
			if side.pc.Notch(name) != nil {
				return fmt.Errorf("%s has a notch %q already; give the new seam of %s another name", side.pc.Name, name, s.Piece)
			}
			side.pc.Notches = append(side.pc.Notches, pattern.Notch{Name: name, Edge: s.Name, Along: pattern.Along{From: side.from, Share: at}})
		}
	}
	return nil
}

// carriedOver tells which seams and lines now run over both parts.
func (s *Split) carriedOver(old, now pattern.Pattern) (notes []string) {
	left, right := s.names()
	over := func(parts []pattern.Part) bool {
		on := func(name string) bool {
			return slices.ContainsFunc(parts, func(pt pattern.Part) bool { return pt.Piece == name })
		}
		return on(left) && on(right)
	}
	var run []string
	for _, sm := range now.Seams {
		if old.Seam(sm.Name) != nil && (over(sm.A) || over(sm.B)) {
			run = append(run, "seam "+strconv.Quote(sm.Name))
		}
	}
	for _, l := range now.Lines {
		if over(l.Parts) {
			run = append(run, "line "+strconv.Quote(l.Name))
		}
	}
	if len(run) == 0 {
		return nil
	}
	verb := "runs"
	if len(run) > 1 {
		verb = "run"
	}
	text := strings.ToUpper(run[0][:1]) + words(run)[1:]
	return []string{fmt.Sprintf("%s now %s over both %s and %s.", text, verb, left, right)}
}

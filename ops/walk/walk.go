package walk

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Hand names one of the two sides of a seam.
type Hand string

// The sides of a seam.
const (
	A Hand = "a"
	B Hand = "b"
)

// Other returns the other side.
func (h Hand) Other() Hand {
	if h == A {
		return B
	}
	return A
}

// Way says how a seam is walked. The zero value walks from its start, side A
// rolling along side B.
type Way struct {
	// From is the end of the seam from which it is walked; from End both sides
	// are walked the other way. With a chosen start it gives the direction.
	From pattern.EndName
	// StartA and StartB are places on the sides that are laid on each other
	// instead of the ends there; both or none.
	StartA, StartB *pattern.Spot
	// Rolls is the side that rolls along the other.
	Rolls Hand
}

// Walk is a seam being walked. Lengths on its sides are in mm from where the
// walk starts, in the direction of the walk.
type Walk struct {
	A, B Run
	// Pairs are the notches of both sides that belong together, in their order.
	Pairs []Pair
	// Ease is how the stated ease is spread along the walk.
	Ease pattern.Spread

	name  string
	first string // what the start of the walk is called
	last  string
	rolls Hand
	base  string // the piece in whose coordinates the standing side is laid
}

// Run is one side as it is walked.
type Run struct {
	Parts   []pattern.Part
	Length  float64
	Notches []pattern.SeamNotch

	starts  []float64     // of the parts
	paths   []geom.Path   // of the parts, in their pieces' coordinates
	motions []geom.Motion // of the standing side: from each part's piece to the first one's
	corners []float64     // where it turns, joints between parts included
}

// Seam returns the walk of a seam of the pattern. The error says what is
// wrong, and what there is instead.
func Seam(p pattern.Pattern, name string, way Way) (*Walk, error) {
	s := p.Seam(name)
	if s == nil {
		names := make([]string, len(p.Seams))
		for i := range p.Seams {
			names[i] = strconv.Quote(p.Seams[i].Name)
		}
		return nil, fmt.Errorf("there is no seam %q; there are %s", name, strings.Join(names, ", "))
	}
	return New(p, *s, way)
}

// New returns the walk of two sides that need not be a seam of the pattern.
// They are walked from the end they share: where the first part of each starts.
// Sides without a seam's name must start at places that are stated to meet,
// unless the way says which places are laid on each other.
func New(p pattern.Pattern, s pattern.Seam, way Way) (*Walk, error) {
	if way.Rolls == "" {
		way.Rolls = A
	}
	switch {
	case way.Rolls != A && way.Rolls != B:
		return nil, fmt.Errorf("side %q or %q rolls along the other, not %q", A, B, way.Rolls)
	case way.From != "" && way.From != pattern.Start && way.From != pattern.End:
		return nil, fmt.Errorf("a seam is walked from its %q or its %q, not its %q", pattern.Start, pattern.End, way.From)
	case (way.StartA == nil) != (way.StartB == nil):
		return nil, errors.New("a walk needs a start on both sides: give a place on the other side too, or neither, to walk from the end they share")
	case slices.EqualFunc(s.A, s.B, samePart) || slices.EqualFunc(s.A, backwards(s.B), samePart):
		return nil, fmt.Errorf("%s cannot be walked along itself; choose another edge, or its mirrored hand", partNames(s.A))
	}
	w := &Walk{name: s.Name, first: string(pattern.Start), last: string(pattern.End), rolls: way.Rolls, Ease: p.Spread(s)}
	a, b := s.A, s.B
	if !w.Ease.Sewable() {
		return nil, fmt.Errorf("%s states more ease than its sides are long: %.4g mm in all; state less", w.Name(), s.Ease)
	}
	if way.From == pattern.End {
		a, b = backwards(a), backwards(b)
		w.Ease = turned(w.Ease)
		w.first, w.last = w.last, w.first
	}
	if way.StartA != nil {
		var err error
		var cut float64
		if a, cut, err = startingAt(p, a, *way.StartA); err != nil {
			return nil, err
		}
		if b, _, err = startingAt(p, b, *way.StartB); err != nil {
			return nil, err
		}
		w.Ease = shifted(w.Ease, cut)
		w.first = startName(*way.StartA)
	}
	var err error
	if w.A, err = newRun(p, a, way.Rolls != A); err != nil {
		return nil, err
	}
	if w.B, err = newRun(p, b, way.Rolls != B); err != nil {
		return nil, err
	}
	if s.Name == "" && way.StartA == nil {
		if err := w.shareStart(p); err != nil {
			return nil, err
		}
	}
	w.base = w.standing().Parts[0].Piece
	w.Pairs = pairs(w.A.Notches, w.B.Notches, w.Ease)
	return w, nil
}

// Name returns what the seam is called, or its two sides when it has no name.
func (w *Walk) Name() string {
	if w.name != "" {
		return fmt.Sprintf("seam %q", w.name)
	}
	return fmt.Sprintf("the walk of %s along %s", partNames(w.Run(w.rolls).Parts), partNames(w.standing().Parts))
}

// Run returns the side of that name.
func (w *Walk) Run(h Hand) *Run {
	if h == A {
		return &w.A
	}
	return &w.B
}

// Rolls returns the side that rolls, Base the piece that stands still and in
// whose coordinates the contact is given.
func (w *Walk) Rolls() Hand  { return w.rolls }
func (w *Walk) Base() string { return w.base }

func (w *Walk) standing() *Run { return w.Run(w.rolls.Other()) }

// On returns the length on the given side that belongs to a length on the
// other one, the stated ease taken in on the way.
func (w *Walk) On(h Hand, other float64) float64 {
	if h == A {
		return w.Ease.A(other)
	}
	return w.Ease.B(other)
}

// End returns the length on side A at which the walk ends, because one of the
// sides does, and the side that ends there; "" when both do.
func (w *Walk) End() (float64, Hand) {
	b := w.Ease.A(w.B.Length)
	switch {
	case math.Abs(b-w.A.Length) <= lengthSlack:
		return w.A.Length, ""
	case b < w.A.Length:
		return b, B
	}
	return w.A.Length, A
}

// lengthSlack is the difference in mm under which two lengths are one: far
// under what can be cut, over the rounding of shares and lengths.
const lengthSlack = 1e-6

func newRun(p pattern.Pattern, parts []pattern.Part, stands bool) (Run, error) {
	r := Run{Parts: parts, Length: p.Length(parts), Notches: p.SideNotches(parts)}
	at := 0.0
	for i, pt := range parts {
		path, err := p.PartPath(pt)
		if err != nil {
			return Run{}, err
		}
		if i > 0 {
			before := parts[i-1]
			if gap := r.paths[i-1].End().Dist(path.Start()); before.Piece == pt.Piece && before.Mirrored == pt.Mirrored && gap > lengthSlack {
				return Run{}, fmt.Errorf("%s and %s of %s do not meet (%.4g mm lie between): a run to be walked goes on from one edge to the next", before.Edge, pt.Edge, pt.Piece, gap)
			}
			r.corners = append(r.corners, at)
		}
		for _, s := range path.Corners(pattern.SmoothTurn) {
			r.corners = append(r.corners, at+s)
		}
		r.starts, r.paths = append(r.starts, at), append(r.paths, path)
		at += path.Length()
	}
	slices.Sort(r.corners)
	if stands {
		lay, err := p.LayChain(parts)
		if err != nil {
			return Run{}, err
		}
		r.motions = lay.Motions
	}
	return r, nil
}

// backwards returns a side walked from its other end.
func backwards(side pattern.Side) pattern.Side {
	out := make(pattern.Side, len(side))
	for i, pt := range side {
		out[len(side)-1-i] = pt.Backwards()
	}
	return out
}

func samePart(a, b pattern.Part) bool { return a == b }

// turned returns the spread walked from the other end.
func turned(sp pattern.Spread) pattern.Spread {
	last := sp[len(sp)-1]
	out := make(pattern.Spread, len(sp))
	for i, c := range sp {
		out[len(sp)-1-i] = pattern.SpreadCorner{A: last.A - c.A, Ease: last.Ease - c.Ease}
	}
	return out
}

// shifted returns the spread from a length on side A on.
func shifted(sp pattern.Spread, from float64) pattern.Spread {
	out := pattern.Spread{{}}
	before := sp.EaseTo(from)
	for _, c := range sp {
		if c.A > from+lengthSlack {
			out = append(out, pattern.SpreadCorner{A: c.A - from, Ease: c.Ease - before})
		}
	}
	return out
}

// startingAt returns what is left of a side from a spot on, and the length
// before it.
func startingAt(p pattern.Pattern, side pattern.Side, at pattern.Spot) (pattern.Side, float64, error) {
	place, err := p.Find(at)
	if err != nil {
		return nil, 0, err
	}
	before := 0.0
	for i, pt := range side {
		length := p.PartLength(pt)
		if into, ok := intoPart(p, pt, place); ok && into < length-lengthSlack {
			into = max(into, 0)
			pt.From += (pt.To - pt.From) * into / length
			return append(pattern.Side{pt}, side[i+1:]...), before + into, nil
		}
		before += length
	}
	return nil, 0, fmt.Errorf("%s is not on %s, or nothing is left to walk from there; choose a place on it, or the other direction", at, partNames(side))
}

func startName(at pattern.Spot) string {
	if at.Notch != "" {
		return at.Notch
	}
	return at.String()
}

func partNames(side []pattern.Part) string {
	s := ""
	for i, pt := range side {
		switch {
		case i > 0 && i == len(side)-1:
			s += " and "
		case i > 0:
			s += ", "
		}
		s += pt.Edge + " of " + pt.Piece
	}
	return s
}

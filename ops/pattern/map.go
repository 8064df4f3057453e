package pattern

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
)

// Map tells where the outline went in an alteration: which piece became
// which, and which stretch of which old edge became which stretch of which
// new edge.
//
// A piece without an entry in Pieces stayed as it was, under its name. An
// edge without an entry in Spans stayed as it was, under its name, on the
// piece that its piece became; of an edge with entries, what no entry covers
// is gone. An entry whose old stretch is empty covers nothing and serves to
// say that an edge is gone altogether (see [Map.Gone]). Where entries overlap
// the earlier one counts.
//
// What is on both hands of a piece, as seams and lines are on a pair or a fold
// piece, goes with both unless an entry speaks of one hand (see [Map.HandSpan]):
// the mirrored hand of a fold piece becomes an edge of its own when the piece
// is unfolded.
type Map struct {
	Pieces []PieceMove
	Spans  []SpanMove
}

// PieceMove says that the piece From is now the piece To, or part of it, and
// that what is drawn on it moves by Motion (in piece coordinates). To is
// empty when the piece was removed. A piece that was split has several.
type PieceMove struct {
	From, To string
	Motion   geom.Motion
}

// Span is a stretch of an edge between two distances in mm from its start.
type Span struct {
	Piece, Edge string
	From, To    float64
}

// Hand says of which hand of a piece an entry of a map speaks.
type Hand uint8

// The hands of a piece. From BothHands stands for either of them; to BothHands
// for the hand that the stretch had.
const (
	BothHands    Hand = iota
	ThisHand          // as the piece is stored
	MirroredHand      // the mirrored one of a pair, the other half of a fold piece
)

// is reports whether an entry from hand h holds for that hand.
func (h Hand) is(mirrored bool) bool { return h == BothHands || (h == MirroredHand) == mirrored }

// of returns whether a stretch that was mirrored or not, and went to hand h,
// is now.
func (h Hand) of(mirrored bool) bool {
	if h == BothHands {
		return mirrored
	}
	return h == MirroredHand
}

// SpanMove says that the stretch Old became the stretch New, in proportion;
// New.From > New.To when it is now walked the other way. From and To are the
// hands it was and is of.
type SpanMove struct {
	Old, New Span
	From, To Hand
}

// Move says that the piece old is now the piece new, or part of it, and what
// is drawn on it moves by motion.
func (m *Map) Move(old, new string, motion geom.Motion) {
	m.Pieces = append(m.Pieces, PieceMove{From: old, To: new, Motion: motion})
}

// Remove says that a piece is no more, with its edges that have no entry.
func (m *Map) Remove(piece string) {
	m.Pieces = append(m.Pieces, PieceMove{From: piece, Motion: geom.Identity()})
}

// Span says that the stretch old became the stretch new.
func (m *Map) Span(old, new Span) {
	m.Spans = append(m.Spans, SpanMove{Old: old, New: new})
}

// HandSpan says that the stretch old of the hand from became the stretch new
// of the hand to.
func (m *Map) HandSpan(old Span, from Hand, new Span, to Hand) {
	m.Spans = append(m.Spans, SpanMove{Old: old, New: new, From: from, To: to})
}

// WholeEdge says that all of the edge old became all of the edge new, walked
// the same way.
func (m *Map) WholeEdge(oldPiece string, old *Edge, newPiece string, new *Edge) {
	m.Span(WholeSpan(oldPiece, old), WholeSpan(newPiece, new))
}

// Gone says that an edge is gone, except for what other entries cover.
func (m *Map) Gone(piece, edge string) {
	m.Spans = append(m.Spans, SpanMove{Old: Span{Piece: piece, Edge: edge}})
}

// WholeSpan returns the stretch that is all of an edge.
func WholeSpan(piece string, e *Edge) Span {
	return Span{Piece: piece, Edge: e.Name, To: e.Length()}
}

// mapSlack is the distance in mm within which the ends of stretches are taken
// to be the same place: over the rounding of lengths added up and found again
// along curves (1e-9), far under anything that can be cut.
const mapSlack = 1e-6

// stretch is a SpanMove with the old distances in rising order.
type stretch struct {
	from, to       float64 // on the old edge
	oldLength      float64
	piece, edge    string // of the new pattern
	mirrored       bool
	length         float64 // of the new edge
	newFrom, newTo float64 // on the new edge
}

// at carries the distance s on the old edge to a distance on the new one; it
// gives the ends of the new edge exactly.
func (st stretch) at(s float64) float64 {
	var d float64
	switch {
	case s == st.from:
		d = st.newFrom
	case s == st.to:
		d = st.newTo
	default:
		d = st.newFrom + (st.newTo-st.newFrom)*(s-st.from)/(st.to-st.from)
	}
	switch {
	case d <= mapSlack:
		return 0
	case d >= st.length-mapSlack:
		return st.length
	}
	return d
}

func (st stretch) backwards() bool { return st.newTo < st.newFrom }

// carrier answers where the outline of old lies in next.
type carrier struct {
	old, next Pattern
	m         Map
	edges     map[handEdge][]stretch  // of old edges, sorted by from
	kept      map[handEdge]bool       // old edges that stayed as they were
	notches   map[NotchName]NotchName // what the old notches that are left are called now
	from      map[string][]string     // the old pieces that went into each new one, see sources
}

// handEdge is an old edge of one hand.
type handEdge struct {
	piece, edge string
	mirrored    bool
}

var hands = []bool{false, true} // mirrored or not

func newCarrier(old, next Pattern, m Map) (*carrier, error) {
	n := 0
	for i := range old.Pieces {
		n += len(old.Pieces[i].Edges) * len(hands)
	}
	c := &carrier{old: old, next: next, m: m, edges: make(map[handEdge][]stretch, n), kept: make(map[handEdge]bool, n), notches: map[NotchName]NotchName{}}
	for _, mv := range m.Pieces {
		if old.Piece(mv.From) == nil {
			return nil, fmt.Errorf("the map moves a piece %q that was not there", mv.From)
		}
		if mv.To != "" && next.Piece(mv.To) == nil {
			return nil, fmt.Errorf("the map moves %q to a piece %q that is not there", mv.From, mv.To)
		}
	}
	for i := range old.Pieces {
		pc := &old.Pieces[i]
		for j := range pc.Edges {
			for _, mirrored := range hands {
				if err := c.addEdge(pc.Name, &pc.Edges[j], mirrored); err != nil {
					return nil, err
				}
			}
		}
	}
	for _, sp := range m.Spans {
		if _, ok := c.edges[handEdge{piece: sp.Old.Piece, edge: sp.Old.Edge}]; !ok {
			return nil, fmt.Errorf("the map moves an edge %q of %q that was not there", sp.Old.Edge, sp.Old.Piece)
		}
	}
	return c, nil
}

func (c *carrier) addEdge(piece string, e *Edge, mirrored bool) error {
	key, length := handEdge{piece, e.Name, mirrored}, e.Length()
	var list []stretch
	mapped := false
	for _, sp := range c.m.Spans {
		if sp.Old.Piece != piece || sp.Old.Edge != e.Name {
			continue
		}
		mapped = true
		if !sp.From.is(mirrored) {
			continue
		}
		o, n := sp.Old, sp.New
		if o.From > o.To {
			o.From, o.To, n.From, n.To = o.To, o.From, n.To, n.From
		}
		if o.To-o.From <= mapSlack || math.Abs(n.To-n.From) <= mapSlack {
			continue
		}
		_, ne := c.next.Edge(n.Piece, n.Edge)
		if ne == nil {
			return fmt.Errorf("the map sends %q of %q to an edge %q of %q that is not there", e.Name, piece, n.Edge, n.Piece)
		}
		newLength := ne.Length()
		if lo, hi := min(n.From, n.To), max(n.From, n.To); !(lo >= -mapSlack && hi <= newLength+mapSlack) {
			return fmt.Errorf("the map sends %q of %q to %.6g mm … %.6g mm on %q of %q, which is %.6g mm long", e.Name, piece, lo, hi, n.Edge, n.Piece, newLength)
		}
		if !(o.From >= -mapSlack && o.To <= length+mapSlack) {
			return fmt.Errorf("the map takes %.6g mm … %.6g mm of %q of %q, which is %.6g mm long", o.From, o.To, e.Name, piece, length)
		}
		if o.From <= mapSlack {
			o.From = 0
		}
		if o.To >= length-mapSlack {
			o.To = length
		}
		list = append(list, stretch{o.From, o.To, length, n.Piece, n.Edge, sp.To.of(mirrored), newLength, n.From, n.To})
	}
	if !mapped {
		to, removed := c.becomes(piece)
		if removed {
			c.edges[key] = nil
			return nil
		}
		for _, name := range to {
			if _, ne := c.next.Edge(name, e.Name); ne != nil {
				c.edges[key] = []stretch{{0, length, length, name, e.Name, mirrored, ne.Length(), 0, ne.Length()}}
				c.kept[key] = name == piece && math.Abs(ne.Length()-length) <= geom.Coincident
				return nil
			}
		}
		return fmt.Errorf("the map does not say where %q of %q went", e.Name, piece)
	}
	c.edges[key] = exclusive(list)
	return nil
}

// exclusive cuts from each stretch what an earlier one covers and sorts them.
func exclusive(list []stretch) []stretch {
	var out []stretch
	for _, st := range list {
		parts := []stretch{st}
		for _, done := range out {
			var rest []stretch
			for _, p := range parts {
				if done.to <= p.from+mapSlack || done.from >= p.to-mapSlack {
					rest = append(rest, p)
					continue
				}
				if done.from > p.from+mapSlack {
					rest = append(rest, p.between(p.from, done.from))
				}
				if done.to < p.to-mapSlack {
					rest = append(rest, p.between(done.to, p.to))
				}
			}
			parts = rest
		}
		out = append(out, parts...)
	}
	slices.SortFunc(out, func(a, b stretch) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	return out
}

// between returns the part of st between two distances on the old edge.
func (st stretch) between(from, to float64) stretch {
	a, b := st.at(from), st.at(to)
	st.from, st.to, st.newFrom, st.newTo = from, to, a, b
	return st
}

// becomes returns the names of the pieces that an old piece became, and
// whether it was removed instead.
func (c *carrier) becomes(piece string) (to []string, removed bool) {
	for _, mv := range c.m.Pieces {
		if mv.From != piece {
			continue
		}
		if mv.To == "" {
			removed = true
		} else if !slices.Contains(to, mv.To) {
			to = append(to, mv.To)
		}
	}
	if len(to) > 0 {
		return to, false
	}
	if removed {
		return nil, true
	}
	return []string{piece}, false
}

// place carries the place at s mm on an old edge. An end of a stretch that is
// not gone belongs to it. Places are on the hand that is stored.
func (c *carrier) place(piece, edge string, s float64) (st stretch, at float64, ok bool) {
	for _, st := range c.edges[handEdge{piece: piece, edge: edge}] {
		if s >= st.from-mapSlack && s <= st.to+mapSlack {
			return st, st.at(min(max(s, st.from), st.to)), true
		}
	}
	return stretch{}, 0, false
}

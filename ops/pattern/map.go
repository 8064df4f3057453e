package pattern

import "truemat/geom"

// Map tells where the outline went in an alteration: which piece became
// which, and which stretch of which old edge became which stretch of which
// new edge. An edge without an entry in Spans stayed as it was (on the piece
// that its piece became); of an edge with entries, what no entry covers is gone.
type Map struct {
	Pieces []PieceMove
	Spans  []SpanMove
}

// PieceMove says that the piece From is now the piece To, or part of it, and
// that what is drawn on it moves by Motion (in piece coordinates). To is
// empty when the piece was removed.
type PieceMove struct {
	From, To string
	Motion   geom.Motion
}

// Span is a stretch of an edge between two distances in mm from its start.
type Span struct {
	Piece, Edge string
	From, To    float64
}

// SpanMove says that the stretch Old became the stretch New, in proportion;
// New.From > New.To when it is now walked the other way.
type SpanMove struct{ Old, New Span }

package step

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"truemat/geom"
	"truemat/ops/pattern"
)

// EdgeEnd names one end of an edge of a piece.
type EdgeEnd struct {
	Piece string          `json:"piece"`
	Edge  string          `json:"edge"`
	End   pattern.EndName `json:"end"`
}

// Spot returns the end as a spot.
func (e EdgeEnd) Spot() pattern.Spot { return pattern.AtEnd(e.Piece, e.Edge, e.End) }

func (e EdgeEnd) String() string { return fmt.Sprintf("the %s of %s of %s", e.End, e.Edge, e.Piece) }

// find returns the piece and edge, or an error that names what there is.
func (e EdgeEnd) find(p pattern.Pattern) (*pattern.Piece, *pattern.Edge, error) {
	if e.End != pattern.Start && e.End != pattern.End {
		return nil, nil, fmt.Errorf("the end of %s of %s is %q or %q, not %q", e.Edge, e.Piece, pattern.Start, pattern.End, e.End)
	}
	return edgeIn(p, e.Piece, e.Edge)
}

// point returns the end of the edge in its piece's coordinates, and the unit
// direction from there along the edge.
func (e EdgeEnd) point(edge *pattern.Edge) (at, along geom.Point) {
	if e.End == pattern.Start {
		return edge.Path.Start(), edge.Path.TangentAt(0)
	}
	return edge.Path.End(), edge.Path.TangentBefore(edge.Length()).Mul(-1)
}

// pieceIn returns the piece of that name, or an error that names those there are.
func pieceIn(p pattern.Pattern, name string) (*pattern.Piece, error) {
	if pc := p.Piece(name); pc != nil {
		return pc, nil
	}
	names := make([]string, len(p.Pieces))
	for i := range p.Pieces {
		names[i] = strconv.Quote(p.Pieces[i].Name)
	}
	return nil, fmt.Errorf("there is no piece %q; there are %s", name, strings.Join(names, ", "))
}

// edgeIn returns the edge of that name and its piece, or an error that names
// those there are.
func edgeIn(p pattern.Pattern, piece, edge string) (*pattern.Piece, *pattern.Edge, error) {
	pc, err := pieceIn(p, piece)
	if err != nil {
		return nil, nil, err
	}
	if e := pc.Edge(edge); e != nil {
		return pc, e, nil
	}
	names := make([]string, len(pc.Edges))
	for i := range pc.Edges {
		names[i] = strconv.Quote(pc.Edges[i].Name)
	}
	return nil, nil, fmt.Errorf("piece %q has no edge %q; it has %s", piece, edge, strings.Join(names, ", "))
}

// sentence begins s with a capital and ends it with a full stop.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:] + "."
}

// isNought reports whether a number is the literal 0.
func isNought(n Number) bool { return n.sizes == nil && n.figure == "" && n.value == 0 }

// words returns "a", "a and b" or "a, b and c".
func words(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

// oneOrMore returns the list, or the one, of two fields of which just one is
// to be given.
func oneOrMore(what, one string, more []string) ([]string, error) {
	switch {
	case one != "" && len(more) > 0:
		return nil, fmt.Errorf("give one %s by %q or several by %q, not both", what, what, what+"s")
	case one != "":
		return []string{one}, nil
	case len(more) == 0:
		return nil, fmt.Errorf("no %s is named; give one by %q or several by %q", what, what, what+"s")
	}
	return more, nil
}

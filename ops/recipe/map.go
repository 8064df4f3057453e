package recipe

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"truemat/ops/step"
)

// Map says what the names of a recipe are called in a pattern. A name it does
// not have stays as it is.
type Map map[step.Name]string

// kindWords are the words before a name in the text form; a bare name is a
// piece, and one with a stroke in it an edge.
var kindWords = []step.NameKind{step.NamePiece, step.NameEdge, step.NameNotch, step.NameInner, step.NameSeam, step.NameLine, step.NameFigure, step.NameSize}

// ParsePair reads "name in the recipe=name in the pattern". What stands
// before the sign is
//
//	cradle                     a piece
//	cradle/hem                 an edge of a piece
//	notch inner cup/apex       a notch of a piece
//	inner line cup/fold        an inner line of a piece
//	seam side seam             a seam, and so a line, a figure or a size
//
// and behind it the new name alone, or in the same form as before the sign.
func ParsePair(text string) (from, to step.Name, err error) {
	a, b, ok := strings.Cut(text, "=")
	if !ok {
		return from, to, fmt.Errorf("%q does not say what is called how; write \"name in the recipe=name in the pattern\"", text)
	}
	if from, err = parseName(strings.TrimSpace(a)); err != nil {
		return from, to, err
	}
	b = strings.TrimSpace(b)
	if rest, ok := strings.CutPrefix(b, string(from.Kind)+" "); ok {
		b = rest
	}
	to = step.Name{Kind: from.Kind, Name: b}
	if from.Kind.OnPiece() {
		if piece, name, ok := strings.Cut(b, "/"); ok {
			to.Piece, to.Name = piece, name
		}
	}
	if to.Name == "" {
		return from, to, fmt.Errorf("%q gives no new name", text)
	}
	return from, to, nil
}

func parseName(text string) (step.Name, error) {
	n := step.Name{Kind: step.NamePiece, Name: text}
	if strings.Contains(text, "/") {
		n.Kind = step.NameEdge
	}
	for _, k := range kindWords {
		if rest, ok := strings.CutPrefix(text, string(k)+" "); ok {
			n.Kind, n.Name = k, strings.TrimSpace(rest)
			break
		}
	}
	if n.Kind.OnPiece() {
		piece, name, ok := strings.Cut(n.Name, "/")
		if !ok {
			return n, fmt.Errorf("%q does not say on which piece; write the piece, a stroke and the %s, as \"cradle/hem\"", text, n.Kind)
		}
		n.Piece, n.Name = piece, name
	}
	if n.Name == "" || n.Kind.OnPiece() && n.Piece == "" {
		return n, fmt.Errorf("%q names nothing", text)
	}
	return n, nil
}

// ParseMap reads pairs as [ParsePair] does. It is refused when a name is given
// two new ones, or when an edge, notch or inner line is put on another piece
// than its piece becomes.
func ParseMap(pairs ...string) (Map, error) {
	m := Map{}
	pieces := map[step.Name]string{} // which piece the new name was given with
	for _, text := range pairs {
		from, to, err := ParsePair(text)
		if err != nil {
			return nil, err
		}
		if was, ok := m[from]; ok && was != to.Name {
			return nil, fmt.Errorf("%s is called both %q and %q; give it one name", from, was, to.Name)
		}
		m[from] = to.Name
		if to.Piece != "" {
			pieces[from] = to.Piece
		}
	}
	for _, from := range sorted(pieces) {
		piece := m.of(step.Name{Kind: step.NamePiece, Name: from.Piece})
		if pieces[from] != piece {
			return nil, fmt.Errorf("%s is put on the piece %q, but %q is called %q; say %q as well, or name the %s alone", from, pieces[from], from.Piece, piece, from.Piece+"="+pieces[from], from.Kind)
		}
	}
	return m, nil
}

// of returns what a name is called.
func (m Map) of(n step.Name) string {
	if now, ok := m[n]; ok {
		return now
	}
	return n.Name
}

// maxMap is the largest map file accepted, in bytes.
const maxMap = 1 << 20

// ReadMap reads a map from a file: a JSON object whose keys and values are the
// two sides of [ParsePair].
//
//	{"cradle": "front frame", "cradle/hem": "lower edge", "seam side seam": "side"}
func ReadMap(r io.Reader) (Map, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxMap+1))
	if err != nil {
		return nil, err
	}
	if len(b) > maxMap {
		return nil, fmt.Errorf("the map of names is over %d kB", maxMap>>10)
	}
	var named map[string]string
	if err := json.Unmarshal(b, &named); err != nil {
		return nil, fmt.Errorf("the map of names is an object of texts, as {\"cradle\": \"front frame\"}: %w", err)
	}
	if len(named) == 0 {
		return nil, errors.New("the map of names is empty")
	}
	var pairs []string
	for _, from := range slices.Sorted(maps.Keys(named)) {
		if strings.Contains(from, "=") {
			return nil, fmt.Errorf("%q: a name in the map cannot hold the sign =", from)
		}
		pairs = append(pairs, from+"="+named[from])
	}
	return ParseMap(pairs...)
}

// sorted returns the names in the order of their kinds, pieces and names.
func sorted[V any](m map[step.Name]V) []step.Name {
	return slices.SortedFunc(maps.Keys(m), compare)
}

func compare(a, b step.Name) int {
	if d := slices.Index(kindWords, a.Kind) - slices.Index(kindWords, b.Kind); d != 0 {
		return d
	}
	if d := strings.Compare(a.Piece, b.Piece); d != 0 {
		return d
	}
	return strings.Compare(a.Name, b.Name)
}

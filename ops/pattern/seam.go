package pattern

import (
	"fmt"

	"truemat/geom"
)

// Part is a stretch of an edge, walked from the share From to the share To of
// its length; From > To walks it backwards. Whole edges have 0 and 1.
type Part struct {
	Piece    string  `json:"piece"`
	Edge     string  `json:"edge"`
	Mirrored bool    `json:"mirrored,omitempty"` // of the mirrored hand
	From     float64 `json:"from"`
	To       float64 `json:"to"`
}

// Whole returns the part that is all of an edge, walked in its direction.
func Whole(piece, edge string) Part { return Part{Piece: piece, Edge: edge, To: 1} }

// Backwards returns the part walked the other way.
func (pt Part) Backwards() Part {
	pt.From, pt.To = pt.To, pt.From
	return pt
}

// Side is one side of a seam: parts walked one after the other.
type Side []Part

// Seam joins two sides, walked from the end they share; side A is meant to be
// longer than side B by Ease mm in all. Stretches may state how much of that
// lies between which notches; what they leave is spread evenly.
type Seam struct {
	Name string  `json:"name"`
	A    Side    `json:"a"`
	B    Side    `json:"b"`
	Ease float64 `json:"ease,omitempty"`
	// Press says where the allowances lie when the seam is finished; nothing is
	// known when empty.
	Press     Press     `json:"press,omitempty"`
	Stretches []Stretch `json:"stretches,omitempty"`
}

// Press says to which side the allowances of a seam are pressed.
type Press string

// The ways of pressing a seam.
const (
	PressedOpen Press = "open" // each allowance onto its own side
	PressedToA  Press = "a"    // both onto side A
	PressedToB  Press = "b"    // both onto side B
)

// Presses lists the ways of pressing a seam, in the order in which they are offered.
var Presses = []Press{PressedOpen, PressedToA, PressedToB}

// Line is a named chain of edges of one kind that runs on through seams.
// Where two parts of a line meet, the line is declared to run on without a
// kink when the pieces are sewn.
type Line struct {
	Name  string   `json:"name"`
	Kind  LineKind `json:"kind"`
	Parts []Part   `json:"parts"`
	Count int      `json:"count,omitempty"` // in the garment; 0 counts as 1
}

// LineKind says what a line is.
type LineKind string

// The kinds of line.
const (
	LineWire     LineKind = "wire-line"
	LineHem      LineKind = "hem"
	LineNeckline LineKind = "neckline"
	LineUnderarm LineKind = "underarm"
)

var lineKinds = []LineKind{LineWire, LineHem, LineNeckline, LineUnderarm}

// PartPath returns the sew line of a part in its piece's coordinates, in the
// direction in which it is walked.
func (p Pattern) PartPath(pt Part) (geom.Path, error) {
	_, e := p.Edge(pt.Piece, pt.Edge)
	if e == nil {
		return geom.Path{}, fmt.Errorf("there is no edge %q on a piece %q", pt.Edge, pt.Piece)
	}
	lo, hi := min(pt.From, pt.To), max(pt.From, pt.To)
	path := e.Path
	if lo > 0 || hi < 1 {
		var err error
		if path, err = path.Sub(lo*path.Length(), hi*path.Length()); err != nil {
			return geom.Path{}, fmt.Errorf("%s of %s: %w", pt.Edge, pt.Piece, err)
		}
	}
	if pt.From > pt.To {
		path = path.Reverse()
	}
	return path, nil
}

// PartLength returns the length of a part in mm, 0 when its edge is missing.
func (p Pattern) PartLength(pt Part) float64 {
	_, e := p.Edge(pt.Piece, pt.Edge)
	if e == nil {
		return 0
	}
	return max(pt.From-pt.To, pt.To-pt.From) * e.Length()
}

// Length returns the length of a chain of parts in mm.
func (p Pattern) Length(parts []Part) float64 {
	sum := 0.0
	for _, pt := range parts {
		sum += p.PartLength(pt)
	}
	return sum
}

// SeamNotch is a notch met on walking a side.
type SeamNotch struct {
	Piece string
	Notch Notch
	At    float64 // mm from the start of the side
}

// SideNotches returns the notches on a side in the order in which it is walked.
func (p Pattern) SideNotches(side []Part) []SeamNotch {
	var met []SeamNotch
	before := 0.0
	for _, pt := range side {
		pc, e := p.Edge(pt.Piece, pt.Edge)
		if e == nil {
			continue
		}
		total, length := e.Length(), p.PartLength(pt)
		start := len(met)
		for _, n := range pc.Notches {
			if n.Edge != pt.Edge {
				continue
			}
			at := n.At(total) - pt.From*total
			if pt.From > pt.To {
				at = -at
			}
			if at >= -geom.Coincident && at <= length+geom.Coincident {
				met = append(met, SeamNotch{pt.Piece, n, before + at})
			}
		}
		sortByAt(met[start:])
		before += length
	}
	return met
}

package step

import (
	"math"

	"truemat/ops/pattern"
)

// Report tells what a step did in one size.
type Report struct {
	ID       string `json:"id"`
	Kind     string `json:"do"`
	Sentence string `json:"sentence"`
	// State is how the step stands in this size.
	State   State              `json:"state"`
	Error   string             `json:"error,omitempty"` // why it is upset
	Changes []Change           `json:"changes,omitempty"`
	Figures map[string]float64 `json:"figures,omitempty"`
	Notes   []string           `json:"notes,omitempty"`
}

// State is how a step of a recipe stands in a size.
type State string

// The states of a step.
const (
	Applied State = "applied"
	Off     State = "off"   // switched off, or not meant for this size
	Upset   State = "upset" // cannot apply since an earlier step was edited
)

// Change is a measure that a step altered, in mm or mm².
type Change struct {
	What   string  `json:"what"` // "length" or "area"
	Piece  string  `json:"piece,omitempty"`
	Edge   string  `json:"edge,omitempty"`
	Line   string  `json:"line,omitempty"`
	Before float64 `json:"before"` // 0 when there was none
	After  float64 `json:"after"`  // 0 when there is none any more
	// Sewn is of an edge with a dart beside it: its length with the stretches
	// beyond its darts, as sewn.
	Sewn *Sewn `json:"sewn,omitempty"`
}

// Sewn is the length in mm of an edge across its darts, before and after.
type Sewn struct {
	// Edges are the stretches there are, in the direction of the outline, before
	// or after the darts were made, whichever are more.
	Edges  []string `json:"edges"`
	Before float64  `json:"before"` // 0 when there was none
	After  float64  `json:"after"`  // 0 when there is none any more
}

// sewn returns the length of an edge across its darts; nil where none is beside
// it, before or after. A stretch beyond a new dart was part of the edge at whose
// other side it lies.
func sewn(before, after pattern.Pattern, piece, edge string) *Sewn {
	s := &Sewn{}
	var was, is []string
	s.Before, was = before.AsSewn(piece, edge)
	s.After, is = after.AsSewn(piece, edge)
	for _, e := range is {
		if s.Before == 0 {
			s.Before, was = before.AsSewn(piece, e)
		}
	}
	for _, e := range was {
		if s.After == 0 {
			s.After, is = after.AsSewn(piece, e)
		}
	}
	if s.Edges = is; len(was) > len(is) {
		s.Edges = was
	}
	if len(s.Edges) < 2 {
		return nil
	}
	return s
}

// changeSlack is the difference in mm (or mm²) under which a measure counts
// as unaltered: far under what can be cut, over the rounding of a motion.
const changeSlack = 1e-7

// Changes compares the measures of two patterns, in the order of the pieces
// after and then of what is gone.
func Changes(before, after pattern.Pattern) []Change {
	var out []Change
	note := func(c Change) {
		if math.Abs(c.After-c.Before) > changeSlack {
			out = append(out, c)
		}
	}
	compare := func(name string) {
		b, a := before.Piece(name), after.Piece(name)
		if a != nil && b != nil && a.SameOutline(b) {
			return
		}
		note(Change{What: "area", Piece: name, Before: area(b), After: area(a)})
		if a != nil {
			for i := range a.Edges {
				e := &a.Edges[i]
				note(Change{What: "length", Piece: name, Edge: e.Name, Before: edgeLength(b, e.Name), After: e.Length(), Sewn: sewn(before, after, name, e.Name)})
			}
		}
		if b != nil {
			for i := range b.Edges {
				if e := &b.Edges[i]; a == nil || a.Edge(e.Name) == nil {
					note(Change{What: "length", Piece: name, Edge: e.Name, Before: e.Length(), Sewn: sewn(before, after, name, e.Name)})
				}
			}
		}
	}
	for _, pc := range after.Pieces {
		compare(pc.Name)
	}
	for _, pc := range before.Pieces {
		if after.Piece(pc.Name) == nil {
			compare(pc.Name)
		}
	}
	for _, l := range after.Lines {
		was := 0.0
		if b := before.Line(l.Name); b != nil {
			was = before.Length(b.Parts)
		}
		note(Change{What: "length", Line: l.Name, Before: was, After: after.Length(l.Parts)})
	}
	for _, l := range before.Lines {
		if after.Line(l.Name) == nil {
			note(Change{What: "length", Line: l.Name, Before: before.Length(l.Parts)})
		}
	}
	return out
}

func area(pc *pattern.Piece) float64 {
	if pc == nil {
		return 0
	}
	o, err := pc.Outline()
	if err != nil {
		return 0
	}
	return o.Area()
}

func edgeLength(pc *pattern.Piece, edge string) float64 {
	if pc == nil {
		return 0
	}
	if e := pc.Edge(edge); e != nil {
		return e.Length()
	}
	return 0
}

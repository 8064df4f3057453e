package pattern

import (
	"fmt"
	"math"

	"truemat/geom"
)

// Area returns the area inside the sew line in mm², 0 when there is none.
func (pc *Piece) Area() float64 {
	o, err := pc.Outline()
	if err != nil {
		return 0
	}
	return o.Area()
}

// CutArea returns the area inside the cut line in mm².
func (pc *Piece) CutArea() (float64, error) {
	c, err := pc.CutLine()
	if err != nil {
		return 0, err
	}
	return c.Area(), nil
}

// JointTurn returns the angle by which the outline turns at the joint where
// edge i starts, in (−π, π], positive to the left (an outer corner).
func (pc *Piece) JointTurn(i int) geom.Angle {
	before := &pc.Edges[pc.Prev(i)]
	return geom.Between(before.Path.TangentBefore(before.Length()), pc.Edges[i].Path.TangentAt(0))
}

// JointAngle returns the angle inside the piece at the joint where edge i
// starts, in [0, 2π): over π at an inner corner.
func (pc *Piece) JointAngle(i int) geom.Angle { return math.Pi - pc.JointTurn(i) }

// SmoothTurn is the greatest turn at a smooth joint: an angle that cannot be
// seen on paper or felt in cloth.
const SmoothTurn = 0.5 * geom.Degree

// Smooth reports whether the outline runs on without a corner at the joint
// where edge i starts.
func (pc *Piece) Smooth(i int) bool {
	t := pc.JointTurn(i)
	return t <= SmoothTurn && t >= -SmoothTurn
}

// SeamLengths returns the lengths of both sides of a seam in mm.
func (p Pattern) SeamLengths(s Seam) (a, b float64) { return p.Length(s.A), p.Length(s.B) }

// Measures holds every length and area of one size, as scripts read it.
type Measures struct {
	Size   string          `json:"size"`
	Pieces []PieceMeasures `json:"pieces"`
	Seams  []SeamMeasures  `json:"seams"`
	Lines  []LineMeasures  `json:"lines"`
}

// PieceMeasures holds the measures of a piece.
type PieceMeasures struct {
	Name    string          `json:"name"`
	Area    float64         `json:"area_mm2"`
	CutArea float64         `json:"cut_area_mm2"`
	Edges   []EdgeMeasures  `json:"edges"`
	Notches []NotchMeasures `json:"notches"`
}

// EdgeMeasures holds the measures of an edge's sew line.
type EdgeMeasures struct {
	Name      string  `json:"name"`
	Role      Role    `json:"role"`
	Length    float64 `json:"length_mm"`
	Allowance float64 `json:"allowance_mm"`
	Straight  bool    `json:"straight"`
}

// NotchMeasures tells where a notch is.
type NotchMeasures struct {
	Name string  `json:"name"`
	Edge string  `json:"edge"`
	At   float64 `json:"at_mm"` // from the start of the edge
}

// SeamMeasures compares the sides of a seam: Difference is a − b − ease.
type SeamMeasures struct {
	Name       string  `json:"name"`
	A          float64 `json:"a_mm"`
	B          float64 `json:"b_mm"`
	Ease       float64 `json:"ease_mm"`
	Difference float64 `json:"difference_mm"`
	// Stretches are those of the seam that state an ease of their own.
	Stretches []StretchMeasures `json:"stretches,omitempty"`
}

// StretchMeasures tells of a stretch that states its own ease: where it starts
// and ends on side A, in mm from the start of the side.
type StretchMeasures struct {
	Stretch
	FromMM float64 `json:"from_mm"`
	ToMM   float64 `json:"to_mm"`
}

// LineMeasures holds the length of a line, once.
type LineMeasures struct {
	Name   string   `json:"name"`
	Kind   LineKind `json:"kind"`
	Length float64  `json:"length_mm"`
}

// MeasureSize measures a size; the error names a piece without a cut line.
func MeasureSize(s Size) (Measures, error) {
	p := s.Pattern
	m := Measures{Size: s.Label, Pieces: []PieceMeasures{}, Seams: []SeamMeasures{}, Lines: []LineMeasures{}}
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		cut, err := pc.CutArea()
		if err != nil {
			return Measures{}, fmt.Errorf("piece %q: %w", pc.Name, err)
		}
		pm := PieceMeasures{Name: pc.Name, Area: pc.Area(), CutArea: cut, Edges: []EdgeMeasures{}, Notches: []NotchMeasures{}}
		for j := range pc.Edges {
			e := &pc.Edges[j]
			pm.Edges = append(pm.Edges, EdgeMeasures{e.Name, e.Role, e.Length(), e.Allowance, e.Path.IsStraight()})
		}
		for _, n := range pc.Notches {
			if e := pc.Edge(n.Edge); e != nil {
				pm.Notches = append(pm.Notches, NotchMeasures{n.Name, n.Edge, n.At(e.Length())})
			}
		}
		m.Pieces = append(m.Pieces, pm)
	}
	for _, s := range p.Seams {
		a, b := p.SeamLengths(s)
		m.Seams = append(m.Seams, SeamMeasures{s.Name, a, b, s.Ease, a - b - s.Ease, p.measureStretches(s)})
	}
	for _, l := range p.Lines {
		m.Lines = append(m.Lines, LineMeasures{l.Name, l.Kind, p.Length(l.Parts)})
	}
	return m, nil
}

func (p Pattern) measureStretches(s Seam) []StretchMeasures {
	var out []StretchMeasures
	for _, st := range s.Stretches {
		if lo, hi, err := p.StretchOn(s, st); err == nil {
			out = append(out, StretchMeasures{st, lo, hi})
		}
	}
	return out
}

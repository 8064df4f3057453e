package pattern

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/unit"
)

// Spot is a lasting reference to a place on a piece's outline: a notch by
// name, a place held along a named edge, or the crossing of a named edge with
// a datum.
type Spot struct {
	Piece string `json:"piece"`
	Notch string `json:"notch,omitempty"`
	Edge  string `json:"edge,omitempty"`
	Along
	Crosses *Datum `json:"crosses,omitempty"`
}

// AtEnd returns the spot at the named end of an edge.
func AtEnd(piece, edge string, end EndName) Spot {
	return Spot{Piece: piece, Edge: edge, Along: Along{From: end}}
}

// AtNotch returns the spot at a notch.
func AtNotch(piece, notch string) Spot { return Spot{Piece: piece, Notch: notch} }

// String names the spot as a person would, with the number that says where it is.
func (s Spot) String() string {
	from := ""
	if s.From == End {
		from = " from its end"
	}
	switch {
	case s.Notch != "":
		return NotchSaid(s.Notch) + " of " + s.Piece
	case s.Crosses != nil:
		return fmt.Sprintf("the crossing of %s of %s with %s", s.Edge, s.Piece, s.Crosses)
	case s.MM == 0 && s.Share == 0 && s.From == End:
		return fmt.Sprintf("the end of %s of %s", s.Edge, s.Piece)
	case s.MM == 0 && s.Share == 0:
		return fmt.Sprintf("the start of %s of %s", s.Edge, s.Piece)
	case s.MM != 0:
		return fmt.Sprintf("the place %s along %s of %s%s", unit.Format(s.MM, unit.Millimetres), s.Edge, s.Piece, from)
	case s.Share == 0.5:
		return fmt.Sprintf("the middle of %s of %s", s.Edge, s.Piece)
	}
	return fmt.Sprintf("the place %.3g %% along %s of %s%s", 100*s.Share, s.Edge, s.Piece, from)
}

// Place is a spot found in one size.
type Place struct {
	Piece string
	Edge  string
	S     float64    // mm from the start of the edge
	Point geom.Point // in the piece's coordinates
	Mat   geom.Point // on the mat
}

// Find returns where a spot is. The error names what is missing and what there is instead.
func (p Pattern) Find(s Spot) (Place, error) {
	pc := p.Piece(s.Piece)
	if pc == nil {
		return Place{}, fmt.Errorf("there is no piece %q; there are %s", s.Piece, quoted(p.pieceNames()))
	}
	edge, along := s.Edge, s.Along
	if s.Notch != "" {
		n := pc.Notch(s.Notch)
		if n == nil {
			return Place{}, fmt.Errorf("piece %q has no notch %q; it has %s", s.Piece, s.Notch, quoted(pc.notchNames()))
		}
		edge, along = n.Edge, n.Along
	}
	e := pc.Edge(edge)
	if e == nil {
		return Place{}, fmt.Errorf("piece %q has no edge %q; it has %s", s.Piece, edge, quoted(pc.edgeNames()))
	}
	at := along.At(e.Length())
	if s.Crosses != nil {
		l, err := p.FindDatum(*s.Crosses)
		if err != nil {
			return Place{}, err
		}
		inv := pc.Pose.Inverse()
		cs := e.Path.CrossLine(inv.Apply(l.Point), inv.Vector(l.Dir))
		if len(cs) == 0 {
			return Place{}, fmt.Errorf("%s of %s does not cross the line; choose another edge, or lay the line elsewhere", edge, s.Piece)
		}
		first := slices.MinFunc(cs, func(a, b geom.Crossing) int {
			d := math.Abs(a.S-at) - math.Abs(b.S-at)
			switch {
			case d < 0:
				return -1
			case d > 0:
				return 1
			}
			return 0
		})
		at = first.S
	}
	if !(at >= -geom.Coincident && at <= e.Length()+geom.Coincident) {
		return Place{}, fmt.Errorf("%.4g mm lies off %s of %s, which is %.4g mm long; choose a place on it", at, edge, s.Piece, e.Length())
	}
	at = min(max(at, 0), e.Length())
	pt := e.Path.At(at)
	return Place{Piece: s.Piece, Edge: edge, S: at, Point: pt, Mat: pc.Pose.Apply(pt)}, nil
}

// Datum is a straight reference on the mat, found anew in each size. Exactly
// one of X, Y and Through is given: the grid line at x or y mm; the line
// through two spots; or the line through one spot at Degrees from the arrow
// of the piece Arrow, from another datum, or from the x axis.
type Datum struct {
	X       *float64 `json:"x,omitempty"`
	Y       *float64 `json:"y,omitempty"`
	Through []Spot   `json:"through,omitempty"`
	Degrees float64  `json:"degrees,omitempty"`
	Arrow   string   `json:"arrow,omitempty"`
	To      *Datum   `json:"to,omitempty"`
}

// String names the line as a person would.
func (d *Datum) String() string {
	if d == nil {
		return "a line"
	}
	along := func(mm float64) string { return unit.Format(mm, unit.Millimetres) }
	switch {
	case d.X != nil:
		return "the upright line of the mat at " + along(*d.X)
	case d.Y != nil:
		return "the level line of the mat at " + along(*d.Y)
	case len(d.Through) == 2:
		a, b := d.Through[0], d.Through[1]
		if a.Edge != "" && a == AtEnd(a.Piece, a.Edge, Start) && b == AtEnd(a.Piece, a.Edge, End) || b == AtEnd(b.Piece, b.Edge, Start) && a == AtEnd(b.Piece, b.Edge, End) {
			return fmt.Sprintf("the line of %s of %s", a.Edge, a.Piece)
		}
		return fmt.Sprintf("the line through %s and %s", a, b)
	case len(d.Through) != 1:
		return "a line"
	}
	to := "level"
	switch {
	case d.Arrow != "":
		to = "the arrow of " + d.Arrow
	case d.To != nil:
		to = d.To.String()
	}
	switch {
	case d.Degrees == 0 && d.Arrow == "" && d.To == nil:
		return fmt.Sprintf("the level line through %s", d.Through[0])
	case d.Degrees == 0:
		return fmt.Sprintf("the line through %s along %s", d.Through[0], to)
	}
	return fmt.Sprintf("the line through %s at %.4g° to %s", d.Through[0], d.Degrees, to)
}

// LineThrough returns the datum through two spots.
func LineThrough(a, b Spot) Datum { return Datum{Through: []Spot{a, b}} }

// datumDepth bounds how many datums may refer to each other.
const datumDepth = 8

// FindDatum returns the line of a datum on the mat.
func (p Pattern) FindDatum(d Datum) (geom.Line, error) { return p.findDatum(d, 0) }

func (p Pattern) findDatum(d Datum, depth int) (geom.Line, error) {
	if depth > datumDepth {
		return geom.Line{}, fmt.Errorf("more than %d lines refer to each other", datumDepth)
	}
	given := 0
	for _, g := range []bool{d.X != nil, d.Y != nil, len(d.Through) > 0} {
		if g {
			given++
		}
	}
	if given != 1 {
		return geom.Line{}, fmt.Errorf("a datum is given by x, by y or by the spots it goes through: exactly one of them")
	}
	switch {
	case d.X != nil:
		return geom.Line{Point: geom.Pt(*d.X, 0), Dir: geom.Pt(0, 1)}, nil
	case d.Y != nil:
		return geom.Line{Point: geom.Pt(0, *d.Y), Dir: geom.Pt(1, 0)}, nil
	}
	a, err := p.Find(d.Through[0])
	if err != nil {
		return geom.Line{}, err
	}
	if len(d.Through) == 2 {
		b, err := p.Find(d.Through[1])
		if err != nil {
			return geom.Line{}, err
		}
		l, err := geom.NewLine(a.Mat, b.Mat)
		if err != nil {
			return geom.Line{}, fmt.Errorf("%s and %s lie at the same place; a line needs two", d.Through[0], d.Through[1])
		}
		return l, nil
	}
	if len(d.Through) > 2 {
		return geom.Line{}, fmt.Errorf("a datum goes through one or two spots, not %d", len(d.Through))
	}
	dir := geom.Pt(1, 0)
	switch {
	case d.Arrow != "":
		pc := p.Piece(d.Arrow)
		if pc == nil {
			return geom.Line{}, fmt.Errorf("there is no piece %q; there are %s", d.Arrow, quoted(p.pieceNames()))
		}
		dir = pc.Pose.Vector(pc.Arrow.To.Sub(pc.Arrow.From)).Unit()
	case d.To != nil:
		l, err := p.findDatum(*d.To, depth+1)
		if err != nil {
			return geom.Line{}, err
		}
		dir = l.Dir
	}
	dir = geom.Turn(geom.Angle(d.Degrees)*geom.Degree, geom.Point{}).Vector(dir)
	return geom.Line{Point: a.Mat, Dir: dir}, nil
}

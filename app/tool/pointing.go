package tool

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Kind is a set of kinds of things that lie on the mat.
type Kind int

// The kinds of things, to be combined with |.
const (
	OnPiece Kind = 1 << iota
	OnEdge
	OnNotch
	OnJoint    // an end of an edge
	OnInner    // a line inside a piece
	OnCrossing // where an edge meets the line on which a straight edge runs on

	OnSpot     = OnEdge | OnNotch | OnJoint | OnCrossing // what a spot can be taken from
	OnAnything = OnPiece | OnEdge | OnNotch | OnJoint | OnInner
)

// Pointing is a thing on the mat that is pointed at.
type Pointing struct {
	Kind  Kind // one of the kinds; 0 is nothing
	Piece string
	Edge  string // of a joint the one that starts there, or the one asked for
	Notch string
	Inner string // the name of an inner line
	// Spot is the lasting reference to the place; with OnPiece and OnInner
	// there is none.
	Spot pattern.Spot
	S    float64    // mm from the start of Edge or of the inner line
	At   geom.Point // the place on the mat
	Dist float64    // mm from where the pointer is
}

// Selection returns what is selected by choosing the thing.
func (pt Pointing) Selection() Selection {
	s := Selection{Piece: pt.Piece}
	switch pt.Kind {
	case OnEdge:
		s.Edge = pt.Edge
	case OnNotch:
		s.Notch = pt.Notch
	case OnJoint:
		s.Edge, s.Joint = pt.Edge, true
	case OnInner:
		s.Inner = pt.Inner
	}
	return s
}

// Ask says what is looked for under the pointer.
type Ask struct {
	Kind   Kind
	Only   string // this piece alone, when given
	Not    string // all but this piece
	Prefer string // of things at one place, that of this piece
	// Begin is where keys begin: at its piece, and within that at itself.
	Begin Pointing
}

func (a Ask) takes(piece string) bool { return (a.Only == "" || a.Only == piece) && piece != a.Not }

// samePlace is the distance in mm within which things count as equally near:
// under what can be pointed at, over the rounding of a pose.
const samePlace = 1e-6

// things returns what lies along the outline of a piece, in its order: each
// edge's joint, the edge itself (at its middle) and the notches on it.
func things(pc *pattern.Piece) []Pointing {
	var out []Pointing
	for i := range pc.Edges {
		e := &pc.Edges[i]
		out = append(out, EndOf(pc, e, pattern.Start), middleOf(pc, e))
		for _, n := range pc.Notches {
			if n.Edge == e.Name {
				s := n.At(e.Length())
				out = append(out, Pointing{Kind: OnNotch, Piece: pc.Name, Edge: e.Name, Notch: n.Name,
					Spot: pattern.AtNotch(pc.Name, n.Name), S: s, At: pc.Pose.Apply(e.Path.At(s))})
			}
		}
	}
	return out
}

// EndOf returns the joint at an end of an edge.
func EndOf(pc *pattern.Piece, e *pattern.Edge, end pattern.EndName) Pointing {
	pt := Pointing{Kind: OnJoint, Piece: pc.Name, Edge: e.Name, Spot: pattern.AtEnd(pc.Name, e.Name, end)}
	at := e.Path.Start()
	if end == pattern.End {
		pt.S, at = e.Length(), e.Path.End()
	}
	pt.At = pc.Pose.Apply(at)
	return pt
}

func middleOf(pc *pattern.Piece, e *pattern.Edge) Pointing {
	return onEdge(pc, e, e.Length()/2)
}

// onEdge returns the place at s mm from the start of an edge, held as a share
// of its length, so that it is there in every size.
func onEdge(pc *pattern.Piece, e *pattern.Edge, s float64) Pointing {
	pt := Pointing{Kind: OnEdge, Piece: pc.Name, Edge: e.Name, S: s, At: pc.Pose.Apply(e.Path.At(s))}
	pt.Spot = pattern.Spot{Piece: pc.Name, Edge: e.Name}
	if l := e.Length(); l > 0 {
		pt.Spot.Along = pattern.Along{Share: min(max(s/l, 0), 1)}
	}
	return pt
}

func nearestOn(pc *pattern.Piece, e *pattern.Edge, at geom.Point) Pointing {
	foot := e.Path.Nearest(pc.Pose.Inverse().Apply(at))
	pt := onEdge(pc, e, foot.S)
	pt.Dist = foot.Dist
	return pt
}

// NearEnd returns the end of an edge that lies nearer to a place on the mat,
// in the outline's order the start when both are equally near.
func NearEnd(pc *pattern.Piece, e *pattern.Edge, at geom.Point) pattern.EndName {
	q := pc.Pose.Inverse().Apply(at)
	if e.Path.End().Dist(q) < e.Path.Start().Dist(q) {
		return pattern.End
	}
	return pattern.Start
}

// Snap returns the nearest crossing of a grid with that pitch when it lies
// within reach mm of a place on the mat in both directions alone or together;
// otherwise the place itself.
func Snap(at geom.Point, pitch, reach float64) geom.Point {
	if !(pitch > 0) {
		return at
	}
	one := func(v float64) float64 {
		if g := math.Round(v/pitch) * pitch; math.Abs(g-v) <= reach {
			return g
		}
		return v
	}
	return geom.Pt(one(at.X), one(at.Y))
}

// Show adds a thing to an overlay in a style: an edge or outline as a stroke,
// a joint, notch or place as a dot.
func (o *Overlay) Show(p pattern.Pattern, pt Pointing, style Style) {
	pc := p.Piece(pt.Piece)
	if pc == nil {
		return
	}
	switch pt.Kind {
	case OnEdge:
		if e := pc.Edge(pt.Edge); e != nil {
			o.Strokes = append(o.Strokes, Stroke{e.Path.Transform(pc.Pose), style})
		}
	case OnInner:
		if in := pc.InnerLine(pt.Inner); in != nil {
			o.Strokes = append(o.Strokes, Stroke{in.Path.Transform(pc.Pose), style})
		}
	case OnPiece:
		if out, err := pc.Outline(); err == nil {
			o.Strokes = append(o.Strokes, Stroke{out.Transform(pc.Pose), style})
		}
	case OnCrossing:
		o.Dots = append(o.Dots, Dot{pt.At, style})
		if at, err := p.FindDatum(*pt.Spot.Crosses); err == nil {
			o.runsOn(p, at, pt)
		}
	default:
		o.Dots = append(o.Dots, Dot{pt.At, style})
	}
}

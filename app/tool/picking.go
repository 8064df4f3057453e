package tool

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Point returns what of the kinds asked for lies within reach mm of a place on
// the mat. Joints and notches come before crossings, these before edges and
// inner lines, and those before pieces, which are pointed at all over, their
// allowances included, and alone a little beside their paper; of equals the nearest counts, then the preferred piece,
// then the one that lies on top. Where pieces are asked for too, what lies well
// inside one is the piece: see [Ask.within]. The cut line is the edge as well,
// and the whole stroke of a notch the notch, where no other piece lies on them.
// It reports false when there is nothing.
func Point(p pattern.Pattern, at geom.Point, reach float64, ask Ask) (Pointing, bool) {
	var best Pointing
	take := func(c Pointing) {
		a, b := rank(c.Kind), rank(best.Kind)
		switch {
		case best.Kind == 0 || a < b:
		case a > b || c.Dist > best.Dist+samePlace:
			return
		case c.Dist < best.Dist-samePlace:
		case best.Piece == ask.Prefer && c.Piece != ask.Prefer:
			return
		case best.Piece == c.Piece:
			return
		}
		best = c
	}
	if !at.Finite() {
		return best, false
	}
	first := 0
	if !math.IsInf(reach, 1) {
		first = upper(p, at, ask)
	}
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		beneath := i < first && pc.Name != ask.Prefer
		if !ask.takes(pc.Name) || beneath && ask.Kind&OnPiece != 0 {
			continue
		}
		for _, c := range near(p, pc, at, ask, reach, !beneath && !math.IsInf(reach, 1)) {
			if c.Kind == OnPiece || c.Dist <= ask.within(pc, c, reach) {
				take(c)
			}
		}
	}
	return best, best.Kind != 0
}

// edgeReach is the share of the reach within which an edge is pointed at where a
// piece can be meant as well, and a piece alone from beside its paper.
const edgeReach = 5.0 / 8

// within is how far in mm from a thing it is still pointed at. Where a piece
// can be meant as well, an edge or inner line is within five eighths of the
// reach and no farther than a quarter of how wide the piece is on the whole,
// so that a narrow one can be taken by its middle; a corner or notch no farther
// than a quarter of the edges it is on, so that a short edge can.
func (a Ask) within(pc *pattern.Piece, c Pointing, reach float64) float64 {
	switch {
	case c.Kind == OnCrossing:
		return reach / 2
	case a.Kind&OnPiece == 0:
		return reach
	case c.Kind == OnEdge || c.Kind == OnInner:
		return min(edgeReach*reach, breadth(pc)/4)
	}
	i := pc.EdgeIndex(c.Edge)
	if i < 0 {
		return reach
	}
	least := pc.Edges[i].Length()
	if c.Kind == OnJoint {
		least = min(least, pc.Edges[pc.Prev(i)].Length())
	}
	return min(reach, least/4)
}

// breadth is how wide a piece is on the whole, in mm: the width of a strip of
// its area and outline.
func breadth(pc *pattern.Piece) float64 {
	around := 0.0
	for i := range pc.Edges {
		around += pc.Edges[i].Length()
	}
	return 2 * math.Abs(pc.Area()) / around
}

// upper returns which piece lies on top at a place, the preferred one if it
// lies there; what others have beneath it does not show. 0 when there is none.
func upper(p pattern.Pattern, at geom.Point, ask Ask) int {
	top := 0
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		if !ask.takes(pc.Name) || !contains(pc, at) {
			continue
		}
		top = i
		if pc.Name == ask.Prefer {
			break
		}
	}
	return top
}

func contains(pc *pattern.Piece, at geom.Point) bool {
	o, err := pc.Outline()
	return err == nil && o.Contains(pc.Pose.Inverse().Apply(at))
}

// near returns what of a piece may be pointed at from a place on the mat: its
// corners and notches, each edge and inner line at the foot, the crossings, and
// the piece itself when the place lies on its paper, or hardly beside it when
// only pieces are asked for. Cut says that cut lines
// and the strokes of notches there count, where the sew line is out of reach.
func near(p pattern.Pattern, pc *pattern.Piece, at geom.Point, ask Ask, reach float64, cut bool) []Pointing {
	var out []Pointing
	add := func(c Pointing) {
		if c.Kind&ask.Kind != 0 {
			out = append(out, c)
		}
	}
	inside := contains(pc, at)
	off := math.Inf(1) // how far outside the paper
	if inside {
		off = 0
	}
	for _, c := range things(pc) {
		c.Dist = c.At.Dist(at)
		if c.Kind == OnNotch && cut && c.Dist > reach {
			c.Dist = second(fromStroke(pc, c, at), reach)
		}
		if c.Kind != OnEdge {
			add(c)
			continue
		}
		e := pc.Edge(c.Edge)
		c = nearestOn(pc, e, at)
		if sewn := c.Dist; !inside {
			off = min(off, max(sewn-e.Allowance, 0))
			switch fromCut := math.Abs(sewn - e.Allowance); {
			case !cut:
			case ask.Kind&OnPiece != 0:
				c.Dist = min(sewn, fromCut)
			case sewn > reach:
				c.Dist = min(sewn, second(fromCut, reach))
			}
		}
		add(c)
		if ask.Kind&OnCrossing != 0 {
			for _, x := range crossings(p, pc, e) {
				x.Dist = x.At.Dist(at)
				add(x)
			}
		}
	}
	if ask.Kind&OnInner != 0 {
		for i := range pc.Inner {
			in := &pc.Inner[i]
			foot := in.Path.Nearest(pc.Pose.Inverse().Apply(at))
			c := onInner(pc, in, foot.S)
			c.Dist = foot.Dist
			add(c)
		}
	}
	if off == 0 || ask.Kind == OnPiece && cut && off <= edgeReach*reach {
		add(Pointing{Kind: OnPiece, Piece: pc.Name, At: at, Dist: off})
	}
	return out
}

// second lets what is within reach at second hand, as by its cut line, come
// after what is within reach itself.
func second(d, reach float64) float64 { return reach + (d-reach)/1000 }

// fromStroke is how far a place is from the stroke of a notch, from the sew
// line to the cut line, in mm.
func fromStroke(pc *pattern.Piece, c Pointing, at geom.Point) float64 {
	e := pc.Edge(c.Edge)
	out := pc.Pose.Vector(e.Path.TangentAt(c.S).Perp().Mul(-1)).Unit()
	along := min(max(at.Sub(c.At).Dot(out), 0), e.Allowance)
	return at.Dist(c.At.Add(out.Mul(along)))
}

func rank(k Kind) int {
	switch k {
	case OnJoint, OnNotch:
		return 0
	case OnCrossing:
		return 1
	case OnEdge, OnInner:
		return 2
	}
	return 3
}

// runsOnBy is how far in mm beyond its ends a straight edge of another piece is
// followed.
const runsOnBy = 80

// crossings returns where an edge meets the lines on which straight edges run
// on: those of its own piece wherever they lead, those of others in their
// neighbourhood.
func crossings(p pattern.Pattern, pc *pattern.Piece, e *pattern.Edge) []Pointing {
	var out []Pointing
	inv := pc.Pose.Inverse()
	for i := range p.Pieces {
		other := &p.Pieces[i]
		for j := range other.Edges {
			line := &other.Edges[j]
			if !line.Path.IsStraight() || other.Name == pc.Name && line.Name == e.Name {
				continue
			}
			a, b := other.Pose.Apply(line.Path.Start()), other.Pose.Apply(line.Path.End())
			dir := b.Sub(a)
			for _, c := range e.Path.CrossLine(inv.Apply(a), inv.Vector(dir)) {
				if c.S <= samePlace || c.S >= e.Length()-samePlace {
					continue // a corner
				}
				x := onEdge(pc, e, c.S)
				if along := x.At.Sub(a).Dot(dir.Unit()); other.Name != pc.Name && (along < -runsOnBy || along > dir.Norm()+runsOnBy) {
					continue
				}
				d := pattern.LineThrough(pattern.AtEnd(other.Name, line.Name, pattern.Start), pattern.AtEnd(other.Name, line.Name, pattern.End))
				x.Kind, x.Spot.Crosses = OnCrossing, &d
				out = append(out, x)
			}
		}
	}
	return out
}

// onInner returns the place at s mm from the start of an inner line.
func onInner(pc *pattern.Piece, in *pattern.Inner, s float64) Pointing {
	return Pointing{Kind: OnInner, Piece: pc.Name, Inner: in.Name, S: s, At: pc.Pose.Apply(in.Path.At(s))}
}

// runsOn shows how the straight edge of a crossing runs on to it.
func (o *Overlay) runsOn(p pattern.Pattern, line geom.Line, pt Pointing) {
	from := pt.Spot.Crosses.Through[0]
	_, e := p.Edge(from.Piece, from.Edge)
	if e == nil {
		return
	}
	end := line.Point
	if far := line.At(e.Length()); far.Dist(pt.At) < end.Dist(pt.At) {
		end = far
	}
	if run, err := geom.Polyline(end, pt.At); err == nil {
		o.Strokes = append(o.Strokes, Stroke{run, Guide})
	}
}

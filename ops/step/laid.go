package step

import (
	"fmt"

	"truemat/geom"
	"truemat/ops/pattern"
)

// across is an edge that runs across the end of a seam on one side.
type across struct {
	piece, edge string          // the edge across
	at          pattern.EndName // its end at the seam
	role        pattern.Role
	path        geom.Path // towards the seam, in the piece's coordinates

	seamEdge string          // the edge sewn
	seamAt   pattern.EndName // its end there
	joint    geom.Point
	into     geom.Point // unit direction from there into the seam
}

func (c *across) String() string { return c.edge + " of " + c.piece }

func (c *across) lace() bool { return c.role == pattern.LaceEdge }

// part returns the edge walked towards the seam.
func (c *across) part(mirrored bool) pattern.Part {
	pt := pattern.Whole(c.piece, c.edge)
	if c.at == pattern.Start {
		pt = pt.Backwards()
	}
	pt.Mirrored = mirrored
	return pt
}

// atFold reports whether the far end of the edge lies on the fold.
func (c *across) atFold(p pattern.Pattern) bool {
	pc := p.Piece(c.piece)
	i := pc.EdgeIndex(c.edge)
	far := pc.Next(i)
	if c.at == pattern.End {
		far = pc.Prev(i)
	}
	return pc.Edges[far].Role == pattern.Fold
}

// laid is a pair of pieces laid seam to seam at an end of a seam.
type laid struct {
	a, b *across
	// over takes side B's piece to where it lies, in the coordinates of side A's.
	over geom.Motion
	// own says that both sides are the same edge, sewn to its mirror image.
	own bool
}

// layAt lays the pieces of a seam beside each other at the named end as
// [pattern.Pattern.LaySewn] does. A piece sewn to itself is laid with the
// directions of the sew lines at that end on each other; a mirrored hand is
// turned over.
func layAt(p pattern.Pattern, name string, end pattern.EndName) (laid, error) {
	s := p.Seam(name)
	if s == nil {
		names := make([]string, len(p.Seams))
		for i, other := range p.Seams {
			names[i] = other.Name
		}
		return laid{}, fmt.Errorf("there is no seam %q; there are %s", name, quotedList(names))
	}
	if end != pattern.Start && end != pattern.End {
		return laid{}, fmt.Errorf("the end of seam %q is %q or %q, not %q", name, pattern.Start, pattern.End, end)
	}
	pa, pb := s.A[len(s.A)-1], s.B[len(s.B)-1]
	if end == pattern.Start {
		pa, pb = s.A[0].Backwards(), s.B[0].Backwards()
	}
	a, err := acrossAt(p, pa)
	if err != nil {
		return laid{}, fmt.Errorf("at the %s of seam %q: %w", end, name, err)
	}
	b, err := acrossAt(p, pb)
	if err != nil {
		return laid{}, fmt.Errorf("at the %s of seam %q: %w", end, name, err)
	}
	if a.piece == b.piece && (a.edge == b.seamEdge || b.edge == a.seamEdge) {
		return laid{}, fmt.Errorf("at the %s of seam %q its two sides meet on %s; no edge runs across there", end, name, a.piece)
	}
	own := a.piece == b.piece && a.seamEdge == b.seamEdge && a.seamAt == b.seamAt
	if !own && a.piece == b.piece && a.edge == b.edge {
		return laid{}, fmt.Errorf("at the %s of seam %q both ends of %s run across; split that edge first", end, name, a)
	}
	l := laid{a: a, b: b, over: geom.Identity(), own: own}
	if a.piece != b.piece {
		l.over, _, err = p.LaySewn(a.part(pa.Mirrored), b.part(pb.Mirrored).Backwards())
		return l, err
	}
	if pa.Mirrored != pb.Mirrored {
		if l.over, err = geom.Mirror(b.joint, b.joint.Add(b.into)); err != nil {
			return laid{}, err
		}
	}
	side, err := geom.Carry(b.joint, b.joint.Add(b.into), a.joint, a.joint.Add(a.into))
	if err != nil {
		return laid{}, err
	}
	l.over = l.over.Then(side)
	return l, nil
}

// acrossAt finds the edge across the end at which a part is walked out.
func acrossAt(p pattern.Pattern, pt pattern.Part) (*across, error) {
	pc, e, err := edgeIn(p, pt.Piece, pt.Edge)
	if err != nil {
		return nil, err
	}
	length, i := e.Length(), pc.EdgeIndex(pt.Edge)
	c := &across{piece: pt.Piece, seamEdge: pt.Edge}
	var on *pattern.Edge
	switch {
	case pt.To*length >= length-placeSlack:
		c.seamAt, c.joint = pattern.End, e.Path.End()
		c.into = e.Path.TangentBefore(length).Mul(-1)
		on = &pc.Edges[pc.Next(i)]
		c.at, c.path = pattern.Start, on.Path.Reverse()
	case pt.To*length <= placeSlack:
		c.seamAt, c.joint = pattern.Start, e.Path.Start()
		c.into = e.Path.TangentAt(0)
		on = &pc.Edges[pc.Prev(i)]
		c.at, c.path = pattern.End, on.Path
	default:
		return nil, fmt.Errorf("the seam ends inside %s of %s, where no edge runs across; let it end at a joint", pt.Edge, pt.Piece)
	}
	if on.Role == pattern.Fold {
		return nil, fmt.Errorf("%s of %s lies on the fold, which keeps its line; unfold the piece first, or choose the other end", on.Name, pt.Piece)
	}
	c.edge, c.role = on.Name, on.Role
	return c, nil
}

// laidB returns side B's edge, away from the seam, as it lies.
func (l laid) laidB() geom.Path { return l.b.path.Reverse().Transform(l.over) }

// kink returns the angle in degrees by which the edge turns at the seam,
// counter-clockwise in side A's coordinates.
func (l laid) kink() float64 {
	return geom.Between(l.a.path.TangentBefore(l.a.path.Length()), l.laidB().TangentAt(0)).Degrees()
}

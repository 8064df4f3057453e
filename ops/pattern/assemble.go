package pattern

import (
	"fmt"
	"math"

	"truemat/geom"
)

// Layout is a chain of parts as it runs when the pieces are sewn, flat, in
// the coordinates of the first part's piece.
type Layout struct {
	Paths     []geom.Path   // one for each part, in the direction walked
	Motions   []geom.Motion // from each part's piece to the first part's piece
	Junctions []Junction    // one between each part and the next
}

// Junction is the place where one part of a chain runs on into the next.
type Junction struct {
	Seam          string // that joins the two; empty within a piece, over a fold, or when none does
	Before, After Part
	Kink          geom.Angle // by which the direction turns there
	Gap           float64    // mm between the end of one and the start of the other
}

const (
	// seamGrip is the length of seam in mm that is laid together: about what a
	// maker pins to see how an edge runs across. Longer is steadier, shorter
	// bends less where the two sides are curved differently.
	seamGrip = 20
	// gripPoints is the number of places compared on it.
	gripPoints = 16
	// seamReach is how far in mm the ends of a chain's parts may be from the
	// end of a seam that is still taken to join them.
	seamReach = 25
)

// LayChain lays the pieces of a chain of parts seam to seam. Each piece is
// laid to the one before it as [Pattern.LaySewn] says; where no seam joins
// them, their poses on the mat are used.
func (p Pattern) LayChain(parts []Part) (Layout, error) {
	var lay Layout
	motion := geom.Identity()
	for i, pt := range parts {
		path, err := p.PartPath(pt)
		if err != nil {
			return Layout{}, err
		}
		seam := ""
		if i > 0 {
			var step geom.Motion
			if step, seam, err = p.LaySewn(parts[i-1], pt); err != nil {
				return Layout{}, err
			}
			motion = step.Then(motion)
		}
		path = path.Transform(motion)
		if i > 0 {
			before := lay.Paths[i-1]
			lay.Junctions = append(lay.Junctions, Junction{
				Seam:   seam,
				Before: parts[i-1],
				After:  pt,
				Kink:   geom.Between(before.TangentBefore(before.Length()), path.TangentAt(0)),
				Gap:    before.End().Dist(path.Start()),
			})
		}
		lay.Paths = append(lay.Paths, path)
		lay.Motions = append(lay.Motions, motion)
	}
	if len(parts) == 0 {
		return Layout{}, fmt.Errorf("a chain needs at least one part")
	}
	return lay, nil
}

// LaySewn returns the motion that lays the piece of the part after beside the
// piece of the part before, in that piece's coordinates, as they lie when
// sewn flat where before runs on into after, and the name of the seam that
// joins them.
//
// The ends of the seam's sides are put together, and its first 20 mm (or the
// shorter side) are laid on each other by least squares, both measured from
// that end. Two parts of one piece stay together, but over the mouth of a dart,
// which is laid closed; from a fold piece to its
// mirrored hand the motion is the mirroring across the fold. Where no seam
// joins the two, their poses on the mat are used and the name is empty.
func (p Pattern) LaySewn(before, after Part) (geom.Motion, string, error) {
	a, b := p.Piece(before.Piece), p.Piece(after.Piece)
	if a == nil || b == nil {
		return geom.Motion{}, "", fmt.Errorf("there is no piece %q or %q; there are %s", before.Piece, after.Piece, quoted(p.pieceNames()))
	}
	turned := before.Mirrored != after.Mirrored
	end, err := p.PartPath(before)
	if err != nil {
		return geom.Motion{}, "", err
	}
	start, err := p.PartPath(after)
	if err != nil {
		return geom.Motion{}, "", err
	}
	if a == b && !turned {
		if g, ok := p.findGrip(before, after, end.End(), start.Start()); ok && g.resting.Start().Dist(g.moved.Start()) > mapSlack &&
			max(g.resting.Start().Dist(end.End()), g.moved.Start().Dist(start.Start())) <= mapSlack {
			return g.motion(false), g.seam, nil // over the mouth of a dart
		}
		return geom.Identity(), "", nil
	}
	if a == b && a.Fold() != nil {
		f := a.Fold().Path
		m, err := geom.Mirror(f.Start(), f.End())
		return m, "", err
	}
	g, ok := p.findGrip(before, after, end.End(), start.Start())
	switch {
	case ok:
		return g.motion(turned), g.seam, nil
	case turned:
		return geom.Motion{}, "", fmt.Errorf("no seam joins %s of %s to the mirrored hand of %s", before.Edge, before.Piece, after.Piece)
	}
	return b.Pose.Then(a.Pose.Inverse()), "", nil
}

// grip is an end of a seam: both sides walked away from it.
type grip struct {
	seam           string
	resting, moved geom.Path
}

// findGrip returns the end of a seam that lies nearest to the ends of two
// parts, among the seams that join their pieces in those hands.
func (p Pattern) findGrip(before, after Part, end, start geom.Point) (grip, bool) {
	var best grip
	nearest := math.Inf(1)
	for _, s := range p.Seams {
		for _, atEnd := range []bool{false, true} {
			a, b := s.A.from(atEnd), s.B.from(atEnd)
			for _, pair := range [][2]Part{{a, b}, {b, a}} {
				rest, move := pair[0], pair[1]
				if rest.Piece != before.Piece || move.Piece != after.Piece ||
					(rest.Mirrored != move.Mirrored) != (before.Mirrored != after.Mirrored) {
					continue
				}
				rp, err1 := p.PartPath(rest)
				mp, err2 := p.PartPath(move)
				if err1 != nil || err2 != nil {
					continue
				}
				if d := max(rp.Start().Dist(end), mp.Start().Dist(start)); d < nearest {
					nearest, best = d, grip{s.Name, rp, mp}
				}
			}
		}
	}
	return best, nearest <= seamReach
}

// from returns the first part of the side, or the last walked backwards.
func (s Side) from(end bool) Part {
	switch {
	case len(s) == 0:
		return Part{}
	case end:
		return s[len(s)-1].Backwards()
	}
	return s[0]
}

// motion puts the moved side onto the resting one, mirrored first when asked:
// the turn about their common end that makes the sum of squared distances
// between places at equal lengths least (the plane case of the orthogonal
// Procrustes problem, Schönemann 1966).
func (g grip) motion(mirrored bool) geom.Motion {
	first := geom.Identity()
	if mirrored {
		first, _ = geom.Mirror(geom.Pt(0, 0), geom.Pt(0, 1)) // two different points: no error
	}
	moved := g.moved.Transform(first)
	reach := min(seamGrip, g.resting.Length(), moved.Length())
	o, q := g.resting.Start(), moved.Start()
	cross, dot := 0.0, 0.0
	for i := 1; i <= gripPoints; i++ {
		s := reach * float64(i) / gripPoints
		u, v := moved.At(s).Sub(q), g.resting.At(s).Sub(o)
		cross += u.Cross(v)
		dot += u.Dot(v)
	}
	return first.Then(geom.Turn(geom.Angle(math.Atan2(cross, dot)), q)).Then(geom.Shift(o.Sub(q)))
}

package pattern

import (
	"errors"
	"fmt"
	"math"

	"truemat/geom"
)

// CutLine returns the closed line that the shears follow: each edge's sew
// line moved outwards by its allowance, the corners made as the edges'
// Corner says. On edges without allowance, and on the fold, it is the sew
// line. Over a dart's mouth it goes straight. It is within 0.01 mm of the true
// one.
//
// Allowances that run into each other across the piece, not at a joint, are
// not resolved: the line then crosses itself, which a check reports.
func (pc *Piece) CutLine() (geom.Path, error) {
	over, _ := overDarts(pc.Edges)
	rims, err := rimsOf(over)
	if err != nil {
		return geom.Path{}, err
	}
	return joinRims(rims)
}

// NoCutLine tells beside which edge the cut line of a piece cannot be made.
type NoCutLine struct {
	Edge string
	Err  error
}

func (n *NoCutLine) Error() string { return fmt.Sprintf("the allowance of edge %q: %v", n.Edge, n.Err) }

// Unwrap returns why it cannot.
func (n *NoCutLine) Unwrap() error { return n.Err }

// rim is the cut line along an edge. Corners shorten it at its head and
// tail, or lengthen it there by a cap: the square way from the end of the
// allowance back to the joint.
type rim struct {
	run    geom.Path // the sew line
	path   geom.Path // beside it
	width  float64   // to its right; to its left when negative
	corner Corner    // where the run starts
	guide  geom.Path // what the corner follows, away from the piece it is on; may be empty

	fadeHead, fadeTail bool
	capHead, capTail   bool
	head, tail         float64 // mm taken off, of the path with its caps
}

// swallowed is the length, in widths of its allowance, up to which a hollow
// edge may lie wholly within the allowances of its neighbours: half a circle
// of that radius.
const swallowed = math.Pi

// rimsOf returns the rims of the edges of an outline in their order; nil for
// an edge so short and hollow that nothing lies beside it.
func rimsOf(edges []Edge) ([]*rim, error) {
	rims := make([]*rim, len(edges))
	for i, e := range edges {
		next := edges[(i+1)%len(edges)].Corner
		r := &rim{run: e.Path, width: e.Allowance, corner: e.Corner, guide: e.follows}
		r.fadeHead = e.Corner == Corner{FadesOut, After}
		r.fadeTail = next == Corner{FadesOut, Before}
		var err error
		if r.path, err = r.beside(); err == nil {
			rims[i] = r
		} else if e.Length() > swallowed*e.Allowance {
			return nil, &NoCutLine{e.Name, err}
		}
	}
	return rims, nil
}

// beside returns the run moved to its right by its width, with fades.
func (r *rim) beside() (geom.Path, error) {
	if r.width == 0 {
		return r.run, nil
	}
	if !r.fadeHead && !r.fadeTail {
		return parallel(r.run, -r.width)
	}
	length := r.run.Length()
	fade := fadeLength * math.Abs(r.width)
	if r.width < 0 { // a cut line that fades is longer than its sew line
		fade *= math.Sqrt(1 + 1.0/(fadeLength*fadeLength))
	}
	fade = min(fade, length/2)
	from, to := 0.0, length
	var segs []geom.Cubic
	if r.fadeHead {
		from = fade
		segs = r.faded(segs, 0, from, 0, r.width)
	}
	if r.fadeTail {
		to = length - fade
	}
	if to-from > geom.Coincident {
		middle, err := r.run.Sub(from, to)
		if err != nil {
			return geom.Path{}, err
		}
		if middle, err = parallel(middle, -r.width); err != nil {
			return geom.Path{}, err
		}
		segs = chain(segs, middle.Segments()...)
	}
	if r.fadeTail {
		segs = r.faded(segs, to, length, r.width, 0)
	}
	return geom.NewPath(segs...)
}

// parallel returns the parallel of a run. One that does not hold together at
// the tolerance, since its parts meet at too small an angle, is drawn more
// coarsely, within what a cut line may be off.
func parallel(run geom.Path, width float64) (p geom.Path, err error) {
	for tol := lineTolerance; tol <= coarseTolerance; tol *= 2 {
		if p, err = run.Parallel(width, tol); err == nil {
			return p, nil
		}
	}
	return p, err
}

// coarseTolerance is the greatest tolerance in mm at which a cut line is tried.
const coarseTolerance = 0.008

// lineTolerance is how far in mm a cut line or a sew line found beside the
// other may be from the true one: well under what a cutter can follow.
const lineTolerance = 0.002

const (
	// fadeLength is the stretch over which an allowance fades out, in widths:
	// long enough to sew it down flat, short enough to keep the rest whole.
	fadeLength = 4
	// fadePieces is the number of cubics on it; by Hermite's interpolation
	// each is off by less than a thousandth of its sagitta.
	fadePieces = 8
)

// faded appends the line beside the run from length a to b whose distance
// goes evenly from width wa to wb. When the run is a cut line (and the widths
// are negative) the distance is square to the sew line to be found, which
// leans against the cut line.
func (r *rim) faded(segs []geom.Cubic, a, b, wa, wb float64) []geom.Cubic {
	slope, step := (wb-wa)/(b-a), (b-a)/fadePieces
	at := func(k int) (place, way geom.Point) {
		s := a + step*float64(k)
		w := wa + slope*step*float64(k)
		tangent := r.run.TangentAt(s)
		if k == fadePieces {
			tangent = r.run.TangentBefore(s)
		}
		stretch := 1 + w*r.run.CurvatureAt(s)
		if r.width < 0 {
			tangent = geom.Turn(geom.Angle(math.Asin(-slope)), geom.Point{}).Vector(tangent)
			out := tangent.Perp().Mul(-1)
			return r.run.At(s).Add(out.Mul(w)), tangent.Mul(stretch * math.Sqrt(1-slope*slope) * step / 3)
		}
		out := tangent.Perp().Mul(-1)
		place = r.run.At(s).Add(out.Mul(w))
		way = tangent.Mul(stretch).Add(out.Mul(slope))
		return place, way.Mul(step / 3)
	}
	p, v := at(0)
	for k := 1; k <= fadePieces; k++ {
		q, u := at(k)
		segs = chain(segs, geom.Curve(p, p.Add(v), q.Sub(u), q))
		p, v = q, u
	}
	return segs
}

// trimmed returns the rim's path with its caps, less what corners took. It is
// empty when nothing is left.
func (r *rim) trimmed() []geom.Cubic {
	var segs []geom.Cubic
	if r.capHead {
		segs = append(segs, geom.Straight(r.run.Start(), r.path.Start()))
	}
	segs = chain(segs, r.path.Segments()...)
	if r.capTail {
		segs = chain(segs, geom.Straight(r.run.End(), r.run.End()))
	}
	if r.head == 0 && r.tail == 0 {
		return segs
	}
	whole, err := geom.NewPath(segs...)
	if err != nil {
		return nil
	}
	rest, err := whole.Sub(r.head, whole.Length()-r.tail)
	if err != nil {
		return nil // the corners took it all
	}
	return rest.Segments()
}

// joinRims makes the corners and connects all into one closed path.
func joinRims(rims []*rim) (geom.Path, error) {
	var segs []geom.Cubic
	links := makeCorners(rims)
	for i, r := range rims {
		if r != nil {
			segs = chain(segs, links[i]...)
			segs = chain(segs, r.trimmed()...)
		}
	}
	if len(segs) == 0 {
		return geom.Path{}, errors.New("nothing is left of the cut line")
	}
	segs = chain(segs, point(segs[0].Start()))
	return geom.NewClosed(segs...)
}

// makeCorners returns what connects each rim to the one before it.
func makeCorners(rims []*rim) [][]geom.Cubic {
	links := make([][]geom.Cubic, len(rims))
	for i, r := range rims {
		if r == nil {
			continue
		}
		if before := rims[(i+len(rims)-1)%len(rims)]; before != nil {
			links[i] = makeCorner(before, r)
			continue
		}
		for back := 2; back <= len(rims); back++ {
			if before := rims[(i+2*len(rims)-back)%len(rims)]; before != nil {
				links[i] = makeCornerAcross(before, r)
				break
			}
		}
	}
	return links
}

// CutEdges returns the cut line in open stretches, one for each edge, each
// starting where the one before it ends: where the cut lines of two edges
// meet, or in the middle of what connects them. A stretch is empty when the
// allowances of the neighbours take all of it. The way over a dart's mouth is
// that of the dart's first edge.
func (pc *Piece) CutEdges() ([]geom.Path, error) {
	over, of := overDarts(pc.Edges)
	rims, err := rimsOf(over)
	if err != nil {
		return nil, err
	}
	links := makeCorners(rims)
	joints := make([]geom.Point, len(rims))
	for i, r := range rims {
		switch n := len(links[i]); {
		case r == nil:
		case n > 0:
			joints[i] = links[i][n/2].Start()
		default:
			joints[i] = r.run.Start()
			if segs := r.trimmed(); len(segs) > 0 {
				joints[i] = segs[0].Start()
			}
		}
	}
	paths := make([]geom.Path, len(pc.Edges))
	for i, r := range rims {
		if r == nil {
			continue
		}
		next := (i + 1) % len(rims)
		for rims[next] == nil {
			next = (next + 1) % len(rims)
		}
		part := []geom.Cubic{point(joints[i])}
		if n := len(links[i]); n > 0 {
			part = chain(part, links[i][n/2:]...)
		}
		part = chain(part, r.trimmed()...)
		part = chain(part, links[next][:len(links[next])/2]...)
		part = chain(part, point(joints[next]))
		// No path at all is what an edge without a stretch has.
		paths[of[i]], _ = geom.NewPath(part...)
	}
	return paths, nil
}

// weld is the gap in mm that is closed by moving an end instead of by a
// segment of its own.
const weld = 1e-6

// chain appends segments, each connected to what is there by a straight one
// where it does not start there. Segments without extent only say where to
// go; straight ones that run on straight become one.
func chain(segs []geom.Cubic, more ...geom.Cubic) []geom.Cubic {
	for _, c := range more {
		if len(segs) > 0 {
			switch last := &segs[len(segs)-1]; {
			case last.End().Dist(c.Start()) > weld:
				segs = appendStraight(segs, c.Start())
			case c.Start() == c.End():
				*last = last.WithEnds(last.Start(), c.Start())
			default:
				c = c.WithEnds(last.End(), c.End())
			}
		}
		switch {
		case len(segs) == 0:
			segs = append(segs, c)
		case c.Start() == c.End():
		case c.IsStraight():
			segs = appendStraight(segs, c.End())
		default:
			segs = append(segs, c)
		}
	}
	return segs
}

// appendStraight leads on straight to a point.
func appendStraight(segs []geom.Cubic, to geom.Point) []geom.Cubic {
	last := &segs[len(segs)-1]
	if last.IsStraight() {
		way := to.Sub(last.Start())
		if off := way.Unit().Cross(last.End().Sub(last.Start())); way.Dot(last.End().Sub(last.Start())) >= 0 &&
			math.Abs(off) <= geom.Coincident && last.Start().Dist(last.End()) <= way.Norm() {
			*last = geom.Straight(last.Start(), to)
			return segs
		}
	}
	return append(segs, geom.Straight(last.End(), to))
}

// point is a place on the way of a chain.
func point(p geom.Point) geom.Cubic { return geom.Straight(p, p) }

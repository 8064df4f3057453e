package geom

import (
	"errors"
	"fmt"
	"math"
)

// parallelMitre is how far a mitred corner of a parallel may reach, in widths
// from the corner of the source: a turn of 151°, sharper than any corner that
// is sewn. Beyond it the corner is cut blunt, square to its bisector at one
// width.
const parallelMitre = 4

// Parallel returns the run at the signed distance width from the open path p,
// to the left of the direction of travel when positive, as cubics within
// tol mm of the true parallel (0.005 suits cloth and paper). Straight segments
// stay straight. At a corner with the parallel on its outer side the sides are
// extended until they meet, or cut blunt beyond four widths; on the inner side
// they are trimmed where they cross. What lies nearer to any part of p than
// width is left out, so the loops and cusps inside tight curves are gone and
// the result is one simple run; where the ends of p are in the way it is
// shorter than p. It is refused when nothing remains, or when what remains is
// in several runs.
//
// Method: the curve is cut where its radius of curvature equals the width; on
// what runs forward cubics with the true end directions are fitted by least
// squares of the distances, as in [FitCurve], and judged at 23 places each
// (compare R. Levien, "Parallel curves of cubic Béziers", 2022, which fits area and
// moment). Trimming keeps, between all crossings of what was fitted, the parts
// whose true parallel is clear of p.
func (p Path) Parallel(width float64, tol float64) (Path, error) {
	switch {
	case p.Empty():
		return Path{}, errors.New("an empty path has no parallel")
	case p.closed:
		return Path{}, errors.New("a parallel is made of an open run; cut the closed path first")
	case !(math.Abs(width) <= Reach):
		return Path{}, fmt.Errorf("the width %g of a parallel is not within %g mm", width, Reach)
	case !(tol > 0) || math.IsInf(tol, 0):
		return Path{}, errors.New("a parallel needs a tolerance above 0 mm")
	case math.Abs(width) <= Coincident:
		return p, nil
	}
	// What is much coarser than the width could not be trimmed.
	r := parallelRun{d: width, tol: min(tol, max(math.Abs(width)/8, 1e-5)), source: p}
	for i := range p.segs {
		if err := r.segment(i, &p.segs[i], 0); err != nil {
			return Path{}, err
		}
	}
	if len(r.pieces) == 0 {
		return Path{}, errParallelNothing(width)
	}
	if r.simple() {
		return NewPath(r.cubics()...)
	}
	return r.trimmed()
}

func errParallelNothing(width float64) error {
	return fmt.Errorf("nothing of the path has a parallel at %.4g mm: it bends too tightly or is too short; use a smaller width", width)
}

// parallelRun collects the pieces of a parallel, in order.
type parallelRun struct {
	d, tol float64
	source Path
	pieces []parallelPiece
	broken bool // something was left out or extended at a corner

	// The last place of the source: its direction and its place on the
	// parallel; ok when the parallel runs forward up to there.
	begun bool
	ok    bool
	dir   Point
}

// parallelPiece is a cubic of the parallel.
type parallelPiece struct {
	c      Cubic
	seg    int  // the segment of the source that it runs along, −1 for none
	joined bool // starts where the piece before ends
	link   bool // extends a side to the tip of its corner

	// Where the source is a curve: that curve, the part of it, and whether
	// other parts of it may be nearer.
	curved  bool
	of      Cubic
	t0, t1  float64
	crooked bool
}

// parallelCuts bounds how often a segment is cut where it stands still. Only
// one that runs to and fro on a straight line does so twice.
const parallelCuts = 3

// segment adds the parallel of segment i of the source, or of the part c of it
// after some cuts.
func (r *parallelRun) segment(i int, c *Cubic, cuts int) error {
	if c.straight {
		off := c.P[3].Sub(c.P[0]).Unit().Perp().Mul(r.d)
		r.corner(c.P[0], c.Tangent(0))
		r.add(parallelPiece{c: Straight(c.P[0].Add(off), c.P[3].Add(off)), seg: i})
		r.leave(c.Tangent(1), true)
		return nil
	}
	s := newParallelSource(c, r.d)
	if t, ok := s.still(); ok && cuts < parallelCuts {
		a, b := c.Split(t)
		if err := r.segment(i, &a, cuts+1); err != nil {
			return err
		}
		return r.segment(i, &b, cuts+1)
	}
	stops, forward := s.stretches(r.tol / 20)
	crooked := cuts > 0 || len(forward) > 1 || !parallelGraph(c)
	r.corner(c.P[0], c.Tangent(0))
	for k, on := range forward {
		if !on {
			r.broken = true
			r.leave(c.Tangent(stops[k+1]), false)
			continue
		}
		if k > 0 {
			r.ok = false
		}
		err := fitAlong(s.see, stops[k], stops[k+1], 0.95*r.tol, func(q Cubic, t0, t1 float64) {
			if q.extent() > Coincident {
				r.add(parallelPiece{c: q, seg: i, curved: true, of: s.c, t0: t0, t1: t1, crooked: crooked})
			}
		})
		if err != nil {
			return fmt.Errorf("a parallel at %.4g mm: %w", r.d, err)
		}
		r.leave(c.Tangent(stops[k+1]), k == len(forward)-1)
	}
	return nil
}

// add appends a piece, joined to the one before when the parallel has run
// forward until here.
func (r *parallelRun) add(piece parallelPiece) {
	if piece.joined = r.ok && len(r.pieces) > 0; piece.joined {
		last := &r.pieces[len(r.pieces)-1]
		if last.link && !piece.curved && !piece.link {
			last.c, last.seg, last.link = Straight(last.c.P[0], piece.c.P[3]), piece.seg, false
			return
		}
		piece.c = piece.c.WithEnds(last.c.End(), piece.c.End())
	}
	r.pieces = append(r.pieces, piece)
	r.ok = true
}

// leave notes the direction in which the source is left, and whether the
// parallel runs forward there.
func (r *parallelRun) leave(dir Point, forward bool) {
	r.begun, r.dir, r.ok = true, dir, forward && len(r.pieces) > 0
}

// corner connects the parallel across the joint at q, where the source goes on
// in the direction dir.
func (r *parallelRun) corner(q Point, dir Point) {
	if !r.begun {
		return
	}
	turn := float64(Between(r.dir, dir))
	if !r.ok {
		// It ran backward up to here; on the outer side it goes on round the
		// corner and is trimmed where that crosses what came before.
		if turn*r.d > -r.tol/10 {
			return
		}
		at := q.Add(r.dir.Perp().Mul(r.d))
		r.add(parallelPiece{c: Straight(at, at.Add(r.dir.Mul(Coincident))), seg: -1})
	}
	last := &r.pieces[len(r.pieces)-1]
	from, to := q.Add(r.dir.Perp().Mul(r.d)), q.Add(dir.Perp().Mul(r.d))
	switch {
	case math.Abs(turn*r.d) <= r.tol/10,
		// Too slight for trimming, which could not tell that the sides cross:
		// beyond their crossing they come nearer by less than rounding.
		math.Abs(turn*r.d) <= 2*r.tol && math.Abs(r.d)*(1-math.Cos(turn)) <= 4*parallelNear:
		last.c = last.c.WithEnds(last.c.Start(), from.Lerp(to, 0.5))
	case turn*r.d > 0 && math.Abs(turn) < math.Pi-1e-9: // the inner side: to be trimmed
		r.ok, r.broken = false, true
	case math.Cos(turn/2) >= 1.0/parallelMitre:
		reach := math.Abs(r.d) * math.Tan(math.Abs(turn)/2)
		tip := from.Add(r.dir.Mul(reach))
		r.extend(tip)
		r.add(parallelPiece{c: Straight(tip, to), seg: -1, link: true})
	default:
		reach := math.Abs(r.d) * math.Tan(math.Abs(turn)/4)
		a, b := from.Add(r.dir.Mul(reach)), to.Sub(dir.Mul(reach))
		r.extend(a)
		r.add(parallelPiece{c: Straight(a, b), seg: -1})
		r.add(parallelPiece{c: Straight(b, to), seg: -1, link: true})
	}
}

// extend runs on straight to tip.
func (r *parallelRun) extend(tip Point) {
	r.broken = true
	last := &r.pieces[len(r.pieces)-1]
	if last.c.straight {
		last.c = Straight(last.c.P[0], tip)
		return
	}
	r.add(parallelPiece{c: Straight(last.c.End(), tip), seg: -1})
}

// simple reports whether nothing needs trimming: the parallel runs forward
// throughout without corners, and the directions of the source stay within
// half a turn. Then the source is the graph of a function, and a disc of the
// given radius that rolls along it touches in one place only: where it touched
// in two, the curve between them would have to bend more tightly than it.
func (r *parallelRun) simple() bool {
	if r.broken {
		return false
	}
	dir, at, lo, hi := r.source.segs[0].Tangent(0), 0.0, 0.0, 0.0
	for i := range r.source.segs {
		c := &r.source.segs[i]
		for k := range 3 {
			leg := c.P[k+1].Sub(c.P[k])
			if leg == (Point{}) {
				continue
			}
			at += float64(Between(dir, leg))
			lo, hi, dir = min(lo, at), max(hi, at), leg
		}
	}
	return hi-lo < math.Pi-1e-6
}

func (r *parallelRun) cubics() []Cubic {
	segs := make([]Cubic, len(r.pieces))
	for i, piece := range r.pieces {
		segs[i] = piece.c
	}
	return segs
}

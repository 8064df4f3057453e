package geom

import (
	"fmt"
	"math"
	"slices"
)

// parallelNear is how much nearer than the width, in mm, the true parallel
// may seem to come to the source through rounding.
const parallelNear = 1e-7

// parallelMeet is the distance in mm within which two ends of parts are one
// crossing.
const parallelMeet = 1e-6

// parallelPart is a part of a piece between two crossings.
type parallelPart struct {
	piece    int
	from, to float64
	clear    bool // its true parallel is as far from the source as it should be
	used     bool
}

// trimmed returns what of the pieces is clear of the source.
func (r *parallelRun) trimmed() (Path, error) {
	parts := r.parts(r.cuts())
	var best []Cubic
	var rest float64
	longest := 0.0
	for i := range parts {
		if !parts[i].clear || parts[i].used {
			continue
		}
		run, length := r.follow(parts, i)
		if length > longest {
			run, best = best, run
			length, longest = longest, length
		}
		rest = max(rest, length)
	}
	if longest <= r.tol {
		return Path{}, errParallelNothing(r.d)
	}
	if rest > 4*r.tol || !r.keeps(best) {
		return Path{}, fmt.Errorf("the parallel at %.4g mm falls apart where the path comes too close to itself; use a smaller width or a part of the path", r.d)
	}
	return NewPath(best...)
}

// keeps looks once more at the ends and the middle of what remains, because
// next to crossings it was not judged, and sees that no place is passed twice.
func (r *parallelRun) keeps(run []Cubic) bool {
	for i := range run {
		for j := i + 1; j < len(run); j++ {
			if run[i].P[0].Near(run[j].P[0], parallelMeet) || (i > 0 && run[i].P[0].Near(run[j].P[3], parallelMeet)) {
				return false
			}
		}
		for _, u := range [3]float64{0, 0.5, 1} {
			q := run[i].At(u)
			for k := range r.source.segs {
				c := &r.source.segs[k]
				if least := math.Abs(r.d) - r.tol; c.hull().dist2(q) < least*least {
					if _, dist := c.nearest(q); dist < least {
						return false
					}
				}
			}
		}
	}
	return true
}

// cuts returns the ends of every piece and the places between where it meets
// other pieces, in order.
func (r *parallelRun) cuts() [][]float64 {
	cuts := make([][]float64, len(r.pieces))
	boxes := make([]Box, len(r.pieces))
	for i := range r.pieces {
		cuts[i] = []float64{0, 1}
		boxes[i] = r.pieces[i].c.hull()
	}
	for i := range r.pieces {
		for j := i + 1; j < len(r.pieces); j++ {
			if !boxes[i].Overlaps(boxes[j]) || (j == i+1 && r.runsOn(i)) {
				continue
			}
			hits, _ := meet(&r.pieces[i].c, &r.pieces[j].c)
			for _, h := range hits {
				if j == i+1 && r.pieces[j].joined && r.pieces[j].c.At(h.u).Near(r.pieces[j].c.P[0], parallelMeet) {
					continue // the joint between them
				}
				cuts[i], cuts[j] = append(cuts[i], h.t), append(cuts[j], h.u)
			}
		}
	}
	for i := range cuts {
		slices.Sort(cuts[i])
	}
	return cuts
}

// runsOn reports whether piece i and the next one meet at their joint only:
// parts of the parallel of one graph, or one of these and a straight piece that
// continues it, or the two sides of a mitre.
func (r *parallelRun) runsOn(i int) bool {
	p, q := &r.pieces[i], &r.pieces[i+1]
	if !q.joined || p.crooked || q.crooked {
		return false
	}
	return (p.curved && q.curved && p.seg == q.seg) || p.c.straight || q.c.straight
}

// parts cuts the pieces and judges what is between the cuts.
func (r *parallelRun) parts(cuts [][]float64) []parallelPart {
	var parts []parallelPart
	for i := range r.pieces {
		least := parallelMeet / 2 / r.pieces[i].c.extent()
		from := 0.0
		for _, to := range cuts[i][1:] {
			if to-from > least {
				parts = r.judge(parts, parallelPart{piece: i, from: from, to: to})
				from = to
			}
		}
	}
	return parts
}

// parallelMostLooks bounds the places at which one part is judged.
const parallelMostLooks = 400

// judge appends the part, in pieces when it is only partly clear of the
// source, as happens where an end of the source is in the way. From one place
// it steps to where the verdict can first be another one, but at least half a
// width. It keeps off crossings, where the fitted and the true parallel may
// disagree; the ends of a piece are exact.
func (r *parallelRun) judge(parts []parallelPart, part parallelPart) []parallelPart {
	c := &r.pieces[part.piece].c
	size, speed := part.to-part.from, 0.0
	for k := range 3 {
		speed = max(speed, 3*math.Sqrt(dist2(c.P[k], c.P[k+1])))
	}
	width := math.Abs(r.d)
	off := min(size/2, 2*r.tol/speed)
	least := max(width/2/speed, size/parallelMostLooks)
	u, end := part.from+off, part.to-off
	if part.from == 0 {
		u = 1e-3 * size
	}
	if part.to == 1 {
		end = 1 - 1e-3*size
	}
	last := u
	for first := true; ; first = false {
		clear, margin := r.clear(part.piece, u)
		if !first && clear != part.clear {
			lo, hi := last, u
			for range 40 {
				m := (lo + hi) / 2
				if same, _ := r.clear(part.piece, m); same == clear {
					hi = m
				} else {
					lo = m
				}
			}
			rest := part
			part.to, rest.from = lo, lo
			parts, part = append(parts, part), rest
		}
		part.clear, last = clear, u
		if u >= end {
			return append(parts, part)
		}
		u = min(end, u+max(least, margin/speed))
	}
}

// clear reports whether the true parallel at the place u of a piece is as far
// from the whole source as it should be, and how far along the parallel the
// answer is sure to stay the same.
func (r *parallelRun) clear(piece int, u float64) (clear bool, margin float64) {
	p := &r.pieces[piece]
	q := p.c.At(u)
	if p.curved {
		q = r.onTrue(p, q, u)
	}
	width := math.Abs(r.d) - parallelNear
	margin = math.Inf(1)
	for i := range r.source.segs {
		if i == p.seg && !p.crooked {
			continue // at its distance all along
		}
		c := &r.source.segs[i]
		dist := math.Sqrt(c.hull().dist2(q))
		if dist-width < width/2 {
			if _, dist = c.nearest(q); dist < width {
				return false, width - dist
			}
		}
		if i == p.seg {
			dist = width
		}
		margin = min(margin, dist-width)
	}
	return true, margin
}

// onTrue returns the place of the true parallel next to q, the place u of p.
func (r *parallelRun) onTrue(p *parallelPiece, q Point, u float64) Point {
	lo, hi := p.t0, p.t1
	t := lo + (hi-lo)*u
	for range 50 { // the source has q on its normal: Newton, kept in its bracket
		b, d, dd := fitEval(&p.of, t)
		away := q.Sub(b)
		ahead := away.Dot(d)
		if ahead > 0 {
			lo = t
		} else {
			hi = t
		}
		next := t + ahead/(d.Dot(d)-away.Dot(dd))
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-t) < 1e-9 {
			break
		}
		t = next
	}
	return p.of.At(t).Add(p.of.Tangent(t).Perp().Mul(r.d))
}

// follow collects the run that starts with part i: on to the next part while
// that is clear, else across to the part that leaves the crossing.
func (r *parallelRun) follow(parts []parallelPart, i int) (run []Cubic, length float64) {
	for i >= 0 {
		part := &parts[i]
		part.used = true
		c := r.pieces[part.piece].c
		if part.from > 0 || part.to < 1 {
			c = c.Sub(part.from, part.to)
		}
		if len(run) > 0 {
			c = c.WithEnds(run[len(run)-1].End(), c.End())
		}
		run = append(run, c)
		length += c.P[0].Dist(c.P[3])
		i = r.next(parts, i)
	}
	return run, length
}

// next returns the part that goes on from part i, −1 when there is none. Where
// the source turns so little that the part beyond the crossing seems clear as
// well, that one is too short to be judged, and the longest is right.
func (r *parallelRun) next(parts []parallelPart, i int) int {
	here := &parts[i]
	end := r.pieces[here.piece].c.At(here.to)
	goesOn := func(k int) bool {
		part := &parts[k]
		return part.clear && !part.used && r.pieces[part.piece].c.At(part.from).Near(end, parallelMeet)
	}
	best, longest := -1, 0.0
	for k := range parts {
		if !goesOn(k) {
			continue
		}
		if l := r.size(&parts[k]); l > longest || (l == longest && k == i+1) {
			best, longest = k, l
		}
	}
	return best
}

// size is about the length of a part in mm.
func (r *parallelRun) size(part *parallelPart) float64 {
	c := &r.pieces[part.piece].c
	return c.At(part.from).Dist(c.At((part.from+part.to)/2)) + c.At((part.from+part.to)/2).Dist(c.At(part.to))
}

package geom

import (
	"errors"
	"fmt"
	"math"
)

// Bend carries an open path so that it starts at a and ends at b. Every place
// is displaced by a mixture of the two displacements of the ends in proportion
// to its arc length: an end that rests fades the move of the other one out to
// nothing. A straight path stays straight, equal displacements are a shift, a
// smooth joint stays smooth; directions turn by the slope of the displacement,
// also at an end that rests. Joints lie exactly where that puts them; between
// them the handles follow the displaced derivative. It is refused when the ends
// would move against each other by as much as the path is long.
func (p Path) Bend(a, b Point) (Path, error) {
	switch {
	case p.Empty() || p.closed:
		return Path{}, errors.New("only an open run of a path can be bent")
	case !a.Finite() || !b.Finite():
		return Path{}, fmt.Errorf("the ends of a bent path must lie within %g mm", Reach)
	}
	first, last := a.Sub(p.Start()), b.Sub(p.End())
	slope := last.Sub(first).Mul(1 / p.Length())
	if !(slope.Norm() < 1) {
		return Path{}, fmt.Errorf("the ends would move against each other by %.4g mm, more than a run of %.4g mm can follow", last.Sub(first).Norm(), p.Length())
	}
	move := func(i int) Point { // of the joint before segment i
		if i == len(p.segs) {
			return last
		}
		return first.Add(slope.Mul(p.cum[i]))
	}
	segs := make([]Cubic, len(p.segs))
	for i, c := range p.segs {
		from, to := c.P[0].Add(move(i)), c.P[3].Add(move(i+1))
		if i == 0 {
			from = a
		}
		if i == len(p.segs)-1 {
			to = b
		}
		if c.straight {
			segs[i] = Straight(from, to)
			continue
		}
		out, in := c.P[1].Sub(c.P[0]), c.P[3].Sub(c.P[2])
		segs[i] = Curve(from, from.Add(out).Add(slope.Mul(out.Norm())), to.Sub(in).Sub(slope.Mul(in.Norm())), to)
	}
	return NewPath(segs...)
}

// The least and the greatest factor by which [Path.BendToLength] changes how
// far a path bulges from its chord. Beyond them it is another shape.
const (
	bendLeast = 0.1
	bendMost  = 4
)

// BendToLength is [Path.Bend] followed by making the path bulge more or less
// from the chord between its ends until it has the length, within 1e-9 mm. All
// distances from the chord grow or shrink by one factor, from 0.1 to 4, so no
// inflection comes or goes, smooth joints stay smooth and straight parts
// straight. Lengths that need another factor are refused with the range that
// can be reached; a straight path has only one.
func (p Path) BendToLength(a, b Point, length float64) (Path, error) {
	if math.IsNaN(length) || math.IsInf(length, 0) {
		return Path{}, errors.New("bending to a length needs a finite length")
	}
	q, err := p.Bend(a, b)
	if err != nil {
		return Path{}, err
	}
	chord, err := NewLine(a, b)
	if err != nil {
		return Path{}, errors.New("bending to a length needs two ends that are apart")
	}
	if math.Abs(q.Length()-length) <= Coincident {
		return q, nil
	}
	lo, hi := bendLeast, float64(bendMost)
	least, most := bendBulged(q, chord, lo), bendBulged(q, chord, hi)
	if shortest, longest := fairLength(least), fairLength(most); !(shortest < length && length < longest) {
		return Path{}, fmt.Errorf("the path between these ends can be %.5g mm to %.5g mm long, not %.5g mm", shortest, longest, length)
	}
	for range 100 {
		k := (lo + hi) / 2
		if fairLength(bendBulged(q, chord, k)) > length {
			hi = k
		} else {
			lo = k
		}
		if hi-lo <= 1e-16 {
			break
		}
	}
	return NewPath(bendBulged(q, chord, (lo+hi)/2)...)
}

// Bulge returns how far the path lies from the chord between its ends at most,
// in mm; 0 where the ends meet.
func (p Path) Bulge() float64 {
	chord, err := NewLine(p.Start(), p.End())
	if err != nil {
		return 0
	}
	most := 0.0
	for i := range p.segs {
		for k := range bulgeLooks + 1 {
			most = math.Max(most, math.Abs(chord.Distance(p.segs[i].At(float64(k)/bulgeLooks))))
		}
	}
	return most
}

// bulgeLooks is the number of stretches of a cubic between places looked at;
// the greatest distance is then missed by under a thousandth.
const bulgeLooks = 32

// Fuller changes all distances from the chord between the ends by one factor,
// so that the path bulges by mm more, or less when mm is negative; no
// inflection comes or goes and straight parts stay straight. Factors are kept
// from 0.1 to 4, as by [Path.BendToLength].
func (p Path) Fuller(mm float64) (Path, error) {
	chord, err := NewLine(p.Start(), p.End())
	bulge := p.Bulge()
	if p.Empty() || p.closed || err != nil || !(bulge > straightBulge) {
		return Path{}, errors.New("only an open run that bulges from the chord between its ends can be made fuller")
	}
	k := 1 + mm/bulge
	if !(k >= bendLeast && k <= bendMost) {
		return Path{}, fmt.Errorf("a path that bulges by %.3g mm cannot be made to bulge by %.3g mm", bulge, bulge+mm)
	}
	return NewPath(bendBulged(p, chord, k)...)
}

// bendBulged returns the segments with all distances from the chord times k.
func bendBulged(p Path, chord Line, k float64) []Cubic {
	move := func(q Point) Point { return q.Add(chord.Dir.Perp().Mul((k - 1) * chord.Distance(q))) }
	segs := make([]Cubic, len(p.segs))
	for i, c := range p.segs {
		if c.straight {
			segs[i] = Straight(move(c.P[0]), move(c.P[3]))
			continue
		}
		segs[i] = Curve(move(c.P[0]), move(c.P[1]), move(c.P[2]), move(c.P[3]))
	}
	return segs
}

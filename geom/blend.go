package geom

import (
	"errors"
	"fmt"
	"math"
)

// Blend replaces the stretch of p between the arc lengths s0 and s1 by a fair
// curve that leaves and meets the rest in its directions there (see
// [FairCurve]); what lies outside is kept as it is. On a closed path s1 may be
// less than s0: then the stretch runs over the start, and the result starts at
// s1. Nothing is changed, with an error, where there is no such stretch.
func (p Path) Blend(s0, s1 float64) (Path, error) {
	q, _, err := p.blend(s0, s1, math.NaN())
	return q, err
}

// BlendLength is like [Path.Blend] with the whole result of the given length,
// within 1e-9 mm, and the least bending for it. Where both ends of the stretch
// bend the same way it has no inflection as long as the length allows that;
// else it may swing out to both sides, and inflects tells so. Lengths that
// would need handles of next to no length, loops or sharp bends are refused
// with the range that can be reached; every length in that range can.
func (p Path) BlendLength(s0, s1, length float64) (q Path, inflects bool, err error) {
	if math.IsNaN(length) || math.IsInf(length, 0) {
		return Path{}, false, errors.New("a blend needs a finite length")
	}
	q, middle, err := p.blend(s0, s1, length)
	if err != nil {
		return Path{}, false, err
	}
	return q, len(middle.Inflections()) > 0, nil
}

// BlendEnd replaces what lies beyond the arc length s of an open path by a
// fair curve to its end, where it arrives in the direction dir (see
// [FairCurve]).
func (p Path) BlendEnd(s float64, dir Point) (Path, error) {
	switch {
	case p.Empty() || p.closed:
		return Path{}, errors.New("only an open run has an end to blend")
	case !(s >= -Coincident && s <= p.Length()-Coincident):
		return Path{}, fmt.Errorf("a blend of the end from %.4g mm does not lie on a path of %.4g mm", s, p.Length())
	}
	from := p.TangentAt(0)
	if s > Coincident {
		from = p.TangentBefore(s)
	}
	fair, err := FairCurve(p.At(max(s, 0)), from, p.End(), dir)
	if err != nil || s <= Coincident {
		return fair, err
	}
	kept, err := p.Sub(0, s)
	if err != nil {
		return fair, nil // there is nothing to keep
	}
	return Join(kept, fair)
}

// blend returns the blended path and the fair curve in it.
func (p Path) blend(s0, s1, length float64) (blended, fair Path, err error) {
	if p.Empty() {
		return Path{}, Path{}, errors.New("an empty path has nothing to blend")
	}
	whole := p.Length()
	over := p.closed && s1 < s0
	if math.IsNaN(s0) || math.IsNaN(s1) || min(s0, s1) < -Coincident || max(s0, s1) > whole+Coincident {
		return Path{}, Path{}, fmt.Errorf("a blend from %.4g mm to %.4g mm does not lie on a path of %.4g mm", s0, s1, whole)
	}
	if s0, s1 = clamp(s0, 0, whole), clamp(s1, 0, whole); !over && s1-s0 <= Coincident {
		return Path{}, Path{}, fmt.Errorf("a blend needs a stretch from %.4g mm to a greater length than %.4g mm", s0, s1)
	}
	var before, after []Cubic
	var kept float64
	keep := func(from, to float64) []Cubic {
		part, err := p.Sub(from, to)
		if err != nil {
			return nil // there is nothing to keep
		}
		kept += part.Length()
		return part.segs
	}
	if over {
		before = keep(s1, s0)
	} else {
		before, after = keep(0, s0), keep(s1, whole)
	}
	f := newFair(p.At(s0), p.TangentBefore(s0), p.At(s1), p.TangentAt(s1))
	if s1 == whole {
		f.db = p.TangentBefore(s1)
		f.prepare()
	}
	if s0 == 0 {
		f.da = p.TangentAt(s0)
		f.prepare()
	}
	f.kept = kept
	middle, err := f.solve(length - kept)
	if err != nil {
		return Path{}, Path{}, err
	}
	segs := append(append(append([]Cubic(nil), before...), middle...), after...)
	if blended, err = build(segs, p.closed); err != nil {
		return Path{}, Path{}, err
	}
	fair, err = NewPath(middle...)
	return blended, fair, err
}

// FairCurve returns the fair curve from a in the direction da to b, where it
// arrives in the direction db: one cubic, or two where it turns by more than
// 100°. Its shape has the least bending for its size, that is, the least of
// length times ∫κ² ds, which an arc reaches where it fits. Where both ends
// bend the same way it has no inflection. Both directions need some length and
// the ends must be apart.
//
// Method: the cubics' handles (and the place and direction where two of them
// meet) are varied by J. A. Nelder & R. Mead's simplex (1965) within bounds that
// keep handles positive and control polygons convex. Among minimum energy
// curves this is the scale-free one (compare J.-H. Yong & F. Cheng, "Geometric
// Hermite curves with minimum strain energy", 2004).
func FairCurve(a Point, da Point, b Point, db Point) (Path, error) {
	segs, err := newFair(a, da, b, db).solve(math.NaN())
	if err != nil {
		return Path{}, err
	}
	return NewPath(segs...)
}

// fairSplit is the turn beyond which a fair curve is made of two cubics.
const fairSplit = 100 * Degree

// fair is the search for a fair curve.
type fair struct {
	a, da, b, db Point

	chord   float64
	out, in Angle // turns from da to the chord and from the chord to db
	two     bool
	kept    float64 // mm of the path that is no part of the curve, counted in what is told
}

func newFair(a, da, b, db Point) *fair {
	f := &fair{a: a, da: da.Unit(), b: b, db: db.Unit()}
	f.prepare()
	return f
}

func (f *fair) prepare() {
	d := f.b.Sub(f.a)
	f.chord = d.Norm()
	f.out, f.in = Between(f.da, d), Between(d, f.db)
	f.two = math.Abs(float64(f.out+f.in)) > float64(fairSplit) || max(math.Abs(float64(f.out)), math.Abs(float64(f.in))) > float64(fairSplit)
}

// solve returns the cubics, of the given length unless that is NaN.
func (f *fair) solve(length float64) ([]Cubic, error) {
	for _, v := range [4]Point{f.a, f.b, f.da, f.db} {
		if !v.Finite() {
			return nil, errors.New("a fair curve needs finite ends and directions")
		}
	}
	switch {
	case f.chord <= 1e3*Coincident:
		return nil, errors.New("a fair curve needs two ends that are apart")
	case f.da == (Point{}) || f.db == (Point{}):
		return nil, errors.New("a fair curve needs a direction at either end")
	}
	const straight = 1e-9
	flat := math.Abs(float64(f.out)) < straight && math.Abs(float64(f.in)) < straight
	switch {
	case !math.IsNaN(length) && flat && math.Abs(length-f.chord) > Coincident:
		return nil, fmt.Errorf("a fair curve here is straight, which makes %.6g mm in all, not %.6g mm; blend a stretch that bends", f.kept+f.chord, f.kept+length)
	case flat:
		return []Cubic{Straight(f.a, f.b)}, nil
	case math.IsNaN(length):
		return f.finite(f.cubics(f.best()))
	}
	return f.solveLength(length)
}

// finite refuses cubics that leave the plane we work in.
func (f *fair) finite(segs []Cubic) ([]Cubic, error) {
	for _, c := range segs {
		if err := c.check(); err != nil {
			return nil, fmt.Errorf("no fair curve fits these ends: %w", err)
		}
	}
	if len(segs) == 0 {
		return nil, errors.New("no fair curve fits these ends: they turn too far for their distance")
	}
	return segs, nil
}

func fairLength(segs []Cubic) (sum float64) {
	for _, c := range segs {
		sum += c.Length()
	}
	return sum
}

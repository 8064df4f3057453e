package step

import (
	"math"

	"truemat/geom"
)

// swellShare is how far a smoothed stretch may swell at most, in shares of its
// length (our own bound: beyond it the stretch is another shape).
const swellShare = 0.08

// blendKeeping is [geom.Path.BlendLength] of the path's own length. Where no
// fair curve has that length, since cutting a corner takes some and the curve
// has none to give, the fair curve swells in its middle until it has.
func blendKeeping(was geom.Path, from, to float64) (geom.Path, error) {
	now, _, err := was.BlendLength(from, to, was.Length())
	if err == nil {
		return now, nil
	}
	blended, blendErr := was.Blend(from, to)
	if blendErr != nil {
		return geom.Path{}, err
	}
	short := was.Length() - blended.Length()
	fair, subErr := blended.Sub(from, to-short)
	if subErr != nil {
		return geom.Path{}, err
	}
	want := fair.Length() + short
	best, least := geom.Path{}, math.Inf(1)
	for _, side := range []float64{1, -1} {
		if full, h, ok := swollen(fair, side*swellShare*fair.Length(), want); ok && math.Abs(h) < least {
			best, least = full, math.Abs(h)
		}
	}
	if best.Empty() {
		return geom.Path{}, err
	}
	return replaced(blended, from, to-short, best)
}

// swollen returns a path swollen to a length, and by how much, at most h, which
// has the sign of the side to which it swells.
func swollen(p geom.Path, h, want float64) (geom.Path, float64, bool) {
	most, err := p.Swell(h)
	if err != nil || most.Length() < want || p.Length() > want {
		return geom.Path{}, 0, false
	}
	lo, hi := 0.0, h
	for range 100 {
		m := (lo + hi) / 2
		q, err := p.Swell(m)
		if err != nil {
			return geom.Path{}, 0, false
		}
		if q.Length() < want {
			lo = m
		} else {
			most, hi = q, m
		}
		if math.Abs(most.Length()-want) <= 1e-12*want {
			break
		}
	}
	return most, hi, math.Abs(most.Length()-want) <= 1e-9
}

// replaced puts another run in the place of a stretch of an open path.
func replaced(p geom.Path, from, to float64, by geom.Path) (geom.Path, error) {
	if from > placeSlack {
		before, err := p.Sub(0, from)
		if err != nil {
			return p, err
		}
		if by, err = geom.Join(before, by); err != nil {
			return p, err
		}
	}
	if to >= p.Length()-placeSlack {
		return by, nil
	}
	after, err := p.Sub(to, p.Length())
	if err != nil {
		return p, err
	}
	return geom.Join(by, after)
}

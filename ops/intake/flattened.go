package intake

import (
	"math"

	"truemat/geom"
)

// Drawing programs and converters that know no curves write them as many
// short straight bits. A run of them is taken for the curve it stands for.
const (
	flatLeast = 6   // bits in a run
	flatStep  = 10  // longest bit, in mm
	flatTurn  = 10  // greatest turn from bit to bit, in degrees
	flatFit   = .01 // distance of the corners from the curve, in mm
)

// unflattened puts smooth curves in the place of runs of short straight bits
// and returns how many bits it replaced. segs are of a closed path that
// starts at its sharpest corner.
func unflattened(segs []geom.Cubic) ([]geom.Cubic, int, error) {
	short := func(c geom.Cubic) bool { return c.IsStraight() && c.Length() <= flatStep }
	var out []geom.Cubic
	replaced := 0
	for i := 0; i < len(segs); {
		j := i + 1
		if short(segs[i]) {
			for j < len(segs) && short(segs[j]) && math.Abs(turnAt(segs, j).Degrees()) <= flatTurn {
				j++
			}
		}
		if j-i < flatLeast {
			out = append(out, segs[i])
			i++
			continue
		}
		pts := []geom.Point{segs[i].Start()}
		for _, c := range segs[i:j] {
			pts = append(pts, c.End())
		}
		fit, err := geom.Fit(pts, flatFit, defaultCorner)
		if err != nil {
			return nil, 0, err
		}
		out = append(out, fit.Segments()...)
		replaced += j - i
		i = j
	}
	return out, replaced, nil
}

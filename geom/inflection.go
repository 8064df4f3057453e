package geom

import "math"

// Inflections returns the arc lengths where the curvature changes sign,
// rising. A joint is one when the path bends to different sides before and
// after it; where a straight stretch lies between, its middle is. A stretch
// that bulges by less than 1e-6 mm counts as straight. Corners do not bend:
// see [Path.Corners].
func (p Path) Inflections() []float64 {
	bends := p.bends()
	var out []float64
	for i := 1; i < len(bends); i++ {
		if a, b := bends[i-1], bends[i]; a.left != b.left {
			out = append(out, (a.s1+b.s0)/2)
		}
	}
	if n := len(bends); p.closed && n > 1 && bends[0].left != bends[n-1].left {
		l := p.Length()
		if s := (bends[n-1].s1 + bends[0].s0 + l) / 2; s < l {
			out = append(out, s)
		} else {
			out = append([]float64{s - l}, out...)
		}
	}
	return out
}

// bend is a stretch that bends to one side.
type bend struct {
	s0, s1 float64
	left   bool
}

// bends returns the stretches of the path that bend, straight ones left out.
func (p Path) bends() (out []bend) {
	for i := range p.segs {
		c := &p.segs[i]
		if c.straight {
			continue
		}
		g := c.bending()
		flips := quadratic(g[2], g[1], g[0])
		from := 0.0
		for _, to := range append(flips.all(), 1) {
			if to <= from {
				continue
			}
			if part := c.Sub(from, to); !part.liesStraight(straightBulge) {
				mid := (from + to) / 2
				out = append(out, bend{p.LengthTo(i, from), p.LengthTo(i, to), g[0]+mid*(g[1]+mid*g[2]) > 0})
			}
			from = to
		}
	}
	return out
}

// Corners returns the arc lengths of the joints, rising, where the direction
// turns by more than least. The joint of a closed path's end and start is at 0.
func (p Path) Corners(least Angle) []float64 {
	var out []float64
	for i := range p.segs {
		before := i - 1
		if i == 0 {
			if !p.closed {
				continue
			}
			before = len(p.segs) - 1
		}
		turn := Between(p.segs[before].Tangent(1), p.segs[i].Tangent(0))
		if math.Abs(float64(turn)) > float64(least) {
			out = append(out, p.cum[i])
		}
	}
	return out
}

package intake

import (
	"fmt"
	"math"

	"truemat/geom"
)

const (
	// sliver is the length in mm of a segment that no one meant to draw.
	sliver = 0.02
	// straightWithin is how far in mm a line may be off straight and still
	// be taken as one straight segment.
	straightWithin = 0.003
)

// outlined is a piece's outline, counter-clockwise, starting at its sharpest
// corner, and the other lines.
type outlined struct {
	path geom.Path
	gap  float64 // the widest gap that was closed, mm
	bits int     // short straight bits replaced by curves
	rest []stroke
}

// outlineOf picks the largest closed line of what was drawn of a piece.
func outlineOf(m material) (outlined, error) {
	if len(m.strokes) > maxStrokes {
		return outlined{}, fmt.Errorf("it has %d lines, more than %d", len(m.strokes), maxStrokes)
	}
	var best geom.Path
	var members []int
	gap, area := 0.0, 0.0
	take := func(p geom.Path, g float64, used []int) {
		if a := room(p); a > area {
			best, gap, area, members = p, g, a, used
		}
	}
	for i, s := range m.strokes {
		if s.path.Closed() {
			take(s.path, 0, []int{i})
		}
	}
	all := chains(m.strokes)
	nearest := math.Inf(1)
	for _, c := range all {
		if c.closed {
			take(c.path, c.gap, c.members)
		} else if c.ends < c.path.Length()/4 {
			nearest = min(nearest, c.ends)
		}
	}
	switch {
	case len(m.strokes) == 0:
		return outlined{}, fmt.Errorf("there are no lines in it that can be used")
	case !(area > minArea) && !math.IsInf(nearest, 1):
		return outlined{}, fmt.Errorf("it has no closed outline: the ends of its lines are %.2f mm apart, and at most %g mm are closed; join them in the drawing", nearest, chainGap)
	case !(area > minArea):
		return outlined{}, fmt.Errorf("it has no closed outline of more than %g mm²", minArea)
	}
	o := outlined{gap: gap}
	var err error
	if best.Area() < 0 {
		best = best.Reverse()
	}
	if o.path, o.bits, err = tidy(best); err != nil {
		return o, err
	}
	if n := o.path.Len(); n > maxSegments {
		return o, fmt.Errorf("its outline has %d segments, more than %d; simplify it in the drawing program", n, maxSegments)
	}
	if cross := o.path.SelfCrossings(); len(cross) > 0 {
		return o, crossed{cross[0].Point}
	}
	used := map[int]bool{}
	for _, i := range members {
		used[i] = true
	}
	for i, s := range m.strokes {
		if !used[i] && !o.repeats(s.path) {
			o.rest = append(o.rest, s)
		}
	}
	return o, nil
}

// maxSegments is the greatest number of segments of an outline.
const maxSegments = 2000

// minArea is the smallest room of an outline taken for a piece, in mm².
const minArea = 5.0

// room is the area of the box around a line in mm²; unlike the line's own it
// is large for a figure of eight too, which is then refused for crossing itself.
func room(p geom.Path) float64 {
	b := p.Bounds()
	return b.Width() * b.Height()
}

// crossed is the error of an outline that crosses itself.
type crossed struct{ at geom.Point }

func (c crossed) Error() string {
	return fmt.Sprintf("its outline crosses itself, first at (%.1f, %.1f) mm from the upper left corner of the drawing; mend it in the drawing", c.at.X, -c.at.Y)
}

// repeats reports whether a line only traces a part of the outline again.
func (o outlined) repeats(p geom.Path) bool {
	if !o.path.Bounds().Grow(sliver).Overlaps(p.Bounds()) {
		return false
	}
	const places = 24
	for i := range places + 1 {
		if o.path.Nearest(p.At(p.Length()*float64(i)/places)).Dist > sliver {
			return false
		}
	}
	return true
}

// tidy takes from a closed line what the drawing program put in: segments of
// next to no length, curves that are straight, straight runs in several
// pieces, curves in many straight bits, whose number is returned. The result
// starts at the sharpest corner.
func tidy(p geom.Path) (geom.Path, int, error) {
	var segs []geom.Cubic
	for _, c := range p.Segments() {
		if c.Length() >= sliver {
			segs = append(segs, straightened(c))
		}
	}
	n := len(segs)
	if n == 0 {
		return geom.Path{}, 0, fmt.Errorf("its outline has next to no length")
	}
	// Where segments of no length were left out their neighbours meet halfway.
	for i := range segs {
		j := (i + 1) % n
		m := segs[i].End().Lerp(segs[j].Start(), 0.5)
		if i == j {
			break
		}
		segs[i] = segs[i].WithEnds(segs[i].Start(), m)
		segs[j] = segs[j].WithEnds(m, segs[j].End())
	}
	sharpest, most := 0, -1.0
	for i := range segs {
		if t := math.Abs(float64(turnAt(segs, i))); t > most {
			sharpest, most = i, t
		}
	}
	segs = append(append([]geom.Cubic(nil), segs[sharpest:]...), segs[:sharpest]...)
	segs, bits, err := unflattened(segs)
	if err != nil {
		return geom.Path{}, 0, err
	}
	tidied, err := geom.NewClosed(smoothed(merged(segs))...)
	return tidied, bits, err
}

// turnAt returns the turn where segment i starts.
func turnAt(segs []geom.Cubic, i int) geom.Angle {
	before := segs[(i+len(segs)-1)%len(segs)]
	return geom.Between(before.Tangent(1), segs[i].Tangent(0))
}

const (
	// roundingTurn is the greatest turn at a joint that was smooth before the
	// drawing program rounded its coordinates.
	roundingTurn = 0.5 * geom.Degree
	// roundingShift is how far in mm a handle may be moved to undo that; the
	// curve itself moves by less than half of it.
	roundingShift = 0.005
	// bendable is the longest straight segment in mm that may be bent for it.
	bendable = 5
)

// smoothed makes joints smooth that are so but for the rounding of
// coordinates, by turning the handles there: a long one less than a short
// one, whose direction rounding upset more.
func smoothed(segs []geom.Cubic) []geom.Cubic {
	n := len(segs)
	for j := range segs {
		i := (j + n - 1) % n
		a, b := segs[i], segs[j]
		turn := turnAt(segs, j)
		if i == j || turn == 0 || turn > roundingTurn || turn < -roundingTurn || a.IsStraight() && b.IsStraight() {
			continue
		}
		u, v := a.Tangent(1), b.Tangent(0)
		ha, hb := a.P[3].Dist(a.P[2]), b.P[1].Dist(b.P[0])
		way := u.Mul(ha).Add(v.Mul(hb)).Unit()
		switch {
		case a.IsStraight() && a.Length() > bendable:
			way = u
		case b.IsStraight() && b.Length() > bendable:
			way = v
		}
		pa, pb := a.P[3].Sub(way.Mul(ha)), b.P[0].Add(way.Mul(hb))
		if ha == 0 || hb == 0 || pa.Dist(a.P[2]) > roundingShift || pb.Dist(b.P[1]) > roundingShift {
			continue
		}
		if way != u {
			segs[i] = geom.Curve(a.P[0], a.P[1], pa, a.P[3])
		}
		if way != v {
			segs[j] = geom.Curve(b.P[0], pb, b.P[2], b.P[3])
		}
	}
	return segs
}

// straightened returns the straight segment for a curve that does not leave
// it and does not double back.
func straightened(c geom.Cubic) geom.Cubic {
	l, err := geom.NewLine(c.Start(), c.End())
	if c.IsStraight() || err != nil {
		return c
	}
	length := c.Start().Dist(c.End())
	for _, p := range c.P[1:3] {
		if s := l.Along(p); math.Abs(l.Distance(p)) > straightWithin || s < -straightWithin || s > length+straightWithin {
			return c
		}
	}
	return geom.Straight(c.Start(), c.End())
}

// merged makes one segment of straight ones in line.
func merged(segs []geom.Cubic) []geom.Cubic {
	var out []geom.Cubic
	var through []geom.Point // joints inside the last straight segment of out
	for _, c := range segs {
		if n := len(out); n > 0 && c.IsStraight() && out[n-1].IsStraight() {
			if l, err := geom.NewLine(out[n-1].Start(), c.End()); err == nil {
				inLine := true
				last := 0.0
				for _, q := range append(through, c.Start()) {
					s := l.Along(q)
					inLine = inLine && math.Abs(l.Distance(q)) <= straightWithin && s > last
					last = s
				}
				if inLine && l.Along(c.End()) > last {
					through = append(through, c.Start())
					out[n-1] = geom.Straight(out[n-1].Start(), c.End())
					continue
				}
			}
		}
		through = through[:0]
		out = append(out, c)
	}
	return out
}

package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

const (
	// arrowClear is how far in mm an arrow stays off a sew line or a dart's leg
	// that is made beside it: its signs reach 2 mm to its sides, and a ruler is
	// laid along it (our own bound).
	arrowClear = 6.0
	// arrowAmple is the distance in mm beyond which more is of no use.
	arrowAmple = 15.0
	// arrowShorter is the share of its length that an arrow keeps when it finds
	// no room, again and again.
	arrowShorter = 0.9
	// arrowShort is the length in mm that it keeps for its two heads to be drawn,
	// and arrowLeast that on a part too small for them.
	arrowShort = 8.2
	arrowLeast = 1.0
	// arrowFlat is how far in mm the lines by which room is measured stray.
	arrowFlat = 0.05
	// arrowTries is in how many places across and along the piece room is sought.
	arrowTries = 32
)

// arrowRooms are the distances off the outline in mm that an arrow is content
// with, in this order, and for each the share of its length and the length in
// mm that it keeps: a long arrow nearer to the sew line is easier to lay by than
// a stub far off it.
var arrowRooms = []struct{ clear, share, least float64 }{
	{arrowClear, 0.6, arrowShort},
	{arrowClear / 2, 0.4, arrowShort},
	{arrowClear / 4, 0, arrowShort},
	{arrowClear / 12, 0, arrowShort},
	{arrowClear / 12, 0, arrowLeast},
}

// placeArrow lays an arrow clear on its piece, as it became from old by new
// edges. One that lies well stays: it is at least arrowClear off the new edges
// and off the others as far as that or as it was. Another moves parallel to
// itself, to the middle of the piece or where there is most room near it, and
// is shortened only when it does not fit.
func placeArrow(pc, old *pattern.Piece, fresh ...string) (notes []string) {
	o, err := pc.Outline()
	if err != nil {
		return nil
	}
	was, err := old.Outline()
	if err != nil {
		return nil
	}
	a := pc.Arrow
	rim := o.Flatten(arrowFlat)
	lies := 0.0
	if o.Contains(a.From) {
		lies = arrowGap(rim, a.From, a.To)
	}
	well := lies > 0 && lies > min(arrowClear, arrowGap(was.Flatten(arrowFlat), old.Arrow.From, old.Arrow.To))-2*arrowFlat
	for _, name := range fresh {
		e := pc.Edge(name)
		well = well && (e == nil || arrowGap(e.Path.Flatten(arrowFlat), a.From, a.To) >= arrowClear)
	}
	if well {
		return nil
	}
	length, room := a.From.Dist(a.To), roomFor(o, rim, a.To.Sub(a.From).Unit())
	for _, want := range arrowRooms {
		if lies >= want.clear {
			return nil
		}
		least := min(length, max(want.least, want.share*length))
		for l := length; ; l = max(l*arrowShorter, least) {
			mid, gap := room(l)
			if gap < want.clear {
				if l <= least {
					break
				}
				continue
			}
			half := a.To.Sub(a.From).Mul(l / length / 2)
			pc.Arrow.From, pc.Arrow.To = mid.Sub(half), mid.Add(half)
			how := ""
			if l < length {
				how = ", shortened"
			}
			return []string{fmt.Sprintf("The arrow of %s is drawn anew on it, in its direction%s.", pc.Name, how)}
		}
	}
	return nil
}

// roomFor returns what finds the best place for the middle of an arrow of a
// length along dir, and how far it lies off the outline there: the middle of
// the piece when that is far enough, else where there is most room near it.
func roomFor(o geom.Path, rim []geom.Point, dir geom.Point) func(length float64) (geom.Point, float64) {
	type place struct {
		at  geom.Point
		gap float64
	}
	found := map[float64]place{}
	centre := middle(o)
	across := geom.Line{Point: centre, Dir: dir.Perp()}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range rim {
		s := across.Along(q)
		lo, hi = min(lo, s), max(hi, s)
	}
	// inside returns the stretches of a line along dir that lie on the piece.
	inside := func(l geom.Line) (runs [][2]float64) {
		var at []float64
		for _, x := range o.CrossLine(l.Point, l.Dir) {
			at = append(at, l.Along(x.Point))
		}
		slices.Sort(at)
		for i := 1; i < len(at); i++ {
			if o.Contains(l.At((at[i-1] + at[i]) / 2)) {
				runs = append(runs, [2]float64{at[i-1], at[i]})
			}
		}
		return runs
	}
	return func(length float64) (geom.Point, float64) {
		if p, ok := found[length]; ok {
			return p.at, p.gap
		}
		best, most := place{}, math.Inf(-1)
		try := func(at geom.Point) {
			half := dir.Mul(length / 2)
			gap := arrowGap(rim, at.Sub(half), at.Add(half))
			if v := min(gap, arrowAmple) - at.Dist(centre)/100; gap > 0 && v > most {
				best, most = place{at, gap}, v
			}
		}
		through := geom.Line{Point: centre, Dir: dir}
		for _, r := range inside(through) {
			if r[0] < 0 && r[1] > 0 && r[1]-r[0] > length {
				try(through.At((r[0] + r[1]) / 2))
			}
		}
		if best.gap < arrowClear {
			for i := range arrowTries {
				l := geom.Line{Point: across.At(lo + (hi-lo)*(float64(i)+0.5)/arrowTries), Dir: dir}
				for _, r := range inside(l) {
					free := r[1] - r[0] - length
					for k := 0; free > 0 && k < arrowTries; k++ {
						try(l.At(r[0] + length/2 + free*(float64(k)+0.5)/arrowTries))
					}
				}
			}
		}
		found[length] = best
		return best.at, best.gap
	}
}

// arrowGap returns how far the straight way from a to b lies off a polyline;
// 0 when they cross.
func arrowGap(rim []geom.Point, a, b geom.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(rim); i++ {
		p, q := rim[i-1], rim[i]
		if b.Sub(a).Cross(p.Sub(a))*b.Sub(a).Cross(q.Sub(a)) <= 0 && q.Sub(p).Cross(a.Sub(p))*q.Sub(p).Cross(b.Sub(p)) <= 0 {
			return 0
		}
		least = min(least, offWay(p, a, b), offWay(q, a, b), offWay(a, p, q), offWay(b, p, q))
	}
	return least
}

// offWay returns how far q lies off the straight way from a to b.
func offWay(q, a, b geom.Point) float64 {
	d := b.Sub(a)
	if d.Dot(d) == 0 {
		return q.Dist(a)
	}
	return q.Dist(a.Lerp(b, min(max(q.Sub(a).Dot(d)/d.Dot(d), 0), 1)))
}

package intake

import (
	"math"
	"slices"

	"truemat/geom"
)

// chainGap is the greatest distance, in mm, between the ends of two lines
// that are taken to meet: what snapping in a drawing program leaves, far
// under the width of a pencil line.
const chainGap = 0.05

// chainOf is several open lines drawn one after the other.
type chainOf struct {
	name    string
	members []int // of the strokes
	path    geom.Path
	closed  bool
	gap     float64 // the widest gap closed, mm
	ends    float64 // distance between its ends when it is not closed, mm
}

// chains connects open lines end to end, the longest first. Every line is
// used once; a chain goes on with the nearest end, and the longer line where
// two are as near, so that notch strokes do not lead it astray.
func chains(strokes []stroke) []chainOf {
	var open []int
	for i, s := range strokes {
		if !s.path.Closed() {
			open = append(open, i)
		}
	}
	slices.SortStableFunc(open, func(a, b int) int {
		switch la, lb := strokes[a].path.Length(), strokes[b].path.Length(); {
		case la > lb:
			return -1
		case la < lb:
			return 1
		}
		return 0
	})
	used := map[int]bool{}
	var out []chainOf
	for _, first := range open {
		if used[first] {
			continue
		}
		used[first] = true
		c := chainOf{name: strokes[first].name, members: []int{first}}
		run := []geom.Path{strokes[first].path}
		for side := 0; side < 2 && !c.closed; side++ {
			for !c.closed {
				end := run[len(run)-1].End()
				// Going round to the start counts like any other next line.
				toStart := end.Dist(run[0].Start())
				next, back, gap := nextOf(strokes, open, used, end)
				if toStart <= chainGap && (next < 0 || toStart <= gap) && loopLength(run) > 4*chainGap {
					c.closed, c.gap = true, max(c.gap, toStart)
					break
				}
				if next < 0 {
					break
				}
				used[next] = true
				p := strokes[next].path
				if back {
					p = p.Reverse()
				}
				c.members, c.gap = append(c.members, next), max(c.gap, gap)
				run = append(run, p)
			}
			if !c.closed { // go on from the other end
				slices.Reverse(run)
				for i := range run {
					run[i] = run[i].Reverse()
				}
			}
		}
		c.ends = run[len(run)-1].End().Dist(run[0].Start())
		var err error
		if c.path, err = connect(run, c.closed); err == nil {
			out = append(out, c)
		}
	}
	return out
}

func loopLength(run []geom.Path) float64 {
	sum := 0.0
	for _, p := range run {
		sum += p.Length()
	}
	return sum
}

// nextOf returns the unused line with an end nearest to a place, within
// chainGap, and whether it is to be walked backwards; −1 when there is none.
func nextOf(strokes []stroke, open []int, used map[int]bool, at geom.Point) (next int, back bool, gap float64) {
	next, gap = -1, math.Inf(1)
	for _, i := range open { // longest first
		if used[i] {
			continue
		}
		p := strokes[i].path
		ds, de := at.Dist(p.Start()), at.Dist(p.End())
		if d := min(ds, de); d <= chainGap && d < gap-1e-6 {
			next, back, gap = i, de < ds, d
		}
	}
	return next, back, gap
}

// connect joins paths whose ends are near each other, meeting halfway.
func connect(run []geom.Path, closed bool) (geom.Path, error) {
	n := len(run)
	starts, ends := make([]geom.Point, n), make([]geom.Point, n)
	for i, p := range run {
		starts[i], ends[i] = p.Start(), p.End()
	}
	for i := range n {
		j := (i + 1) % n
		if j == 0 && !closed {
			break
		}
		m := ends[i].Lerp(starts[j], 0.5)
		ends[i], starts[j] = m, m
	}
	var segs []geom.Cubic
	for i, p := range run {
		q, err := p.WithEnds(starts[i], ends[i])
		if err != nil {
			return geom.Path{}, err
		}
		segs = append(segs, q.Segments()...)
	}
	if closed {
		return geom.NewClosed(segs...)
	}
	return geom.NewPath(segs...)
}

package geom

import (
	"errors"
	"fmt"
	"sort"
)

// Path is a run of connected cubics, open or closed. It is immutable: every
// method returns a new value. The zero Path is empty; all others come from a
// constructor and are finite, connected and longer than [Coincident]. Places and
// directions on the empty path are the zero Point, its lengths 0.
type Path struct {
	segs   []Cubic
	cum    []float64 // cum[i] is the length before segment i; len(segs)+1 values
	closed bool
}

// NewPath connects the segments into an open path. Segments without extent
// are left out. It is refused when a coordinate is not finite, when a segment
// does not start within [Coincident] of the end before it, or when nothing is
// left.
func NewPath(segs ...Cubic) (Path, error) { return build(segs, false) }

// NewClosed is like [NewPath] for a closed path; the last segment must end
// where the first starts.
func NewClosed(segs ...Cubic) (Path, error) { return build(segs, true) }

// Polyline returns the open path of straight segments through the points.
func Polyline(pts ...Point) (Path, error) {
	if len(pts) < 2 {
		return Path{}, errors.New("a path needs at least two points")
	}
	segs := make([]Cubic, 0, len(pts)-1)
	for i := 1; i < len(pts); i++ {
		segs = append(segs, Straight(pts[i-1], pts[i]))
	}
	return NewPath(segs...)
}

// Must returns p and panics on an error; for paths known to be right.
func Must(p Path, err error) Path {
	if err != nil {
		panic(err)
	}
	return p
}

func build(in []Cubic, closed bool) (Path, error) { return buildKeeping(in, closed, Coincident) }

var errNoLength = errors.New("a path needs a segment with some length")

// buildKeeping is build that keeps every segment with more extent than least.
// Written paths are read back with a smaller least than built ones, because
// the rounding of a motion may have shortened a segment that just passed.
func buildKeeping(in []Cubic, closed bool, least float64) (Path, error) {
	segs := make([]Cubic, 0, len(in))
	for i, c := range in {
		if err := c.check(); err != nil {
			return Path{}, fmt.Errorf("segment %d: %w", i+1, err)
		}
		if len(segs) > 0 {
			end := segs[len(segs)-1].End()
			if gap := end.Dist(c.Start()); gap > Coincident {
				return Path{}, fmt.Errorf("segment %d starts %.3g mm from the end of the one before", i+1, gap)
			}
			c = c.WithEnds(end, c.End())
		}
		if c.extent() <= least {
			continue
		}
		segs = append(segs, c)
	}
	if len(segs) == 0 {
		return Path{}, errNoLength
	}
	if closed {
		if gap := segs[len(segs)-1].End().Dist(segs[0].Start()); gap > Coincident {
			return Path{}, fmt.Errorf("a closed path must end where it starts; the gap is %.3g mm", gap)
		}
	}
	for closed {
		last := &segs[len(segs)-1]
		*last = last.WithEnds(last.Start(), segs[0].Start())
		if last.extent() > least {
			break
		}
		if len(segs) == 1 {
			return Path{}, errNoLength
		}
		segs = segs[:len(segs)-1] // closing shortened it to nothing, so the one before closes
	}
	p := Path{segs: segs, closed: closed, cum: make([]float64, len(segs)+1)}
	for i, c := range segs {
		p.cum[i+1] = p.cum[i] + c.Length()
	}
	return p, nil
}

// Join connects open paths end to start into one open path.
func Join(paths ...Path) (Path, error) { return NewPath(gather(paths)...) }

// JoinClosed connects open paths end to start and closes the last onto the first.
func JoinClosed(paths ...Path) (Path, error) { return NewClosed(gather(paths)...) }

func gather(paths []Path) []Cubic {
	var segs []Cubic
	for _, p := range paths {
		segs = append(segs, p.segs...)
	}
	return segs
}

// Empty reports whether p is the zero Path.
func (p Path) Empty() bool { return len(p.segs) == 0 }

// Closed reports whether p is closed.
func (p Path) Closed() bool { return p.closed }

// Same reports whether p is q itself, handed on and not drawn anew, which takes
// no look at its segments. Paths that only run alike are not the same.
func (p Path) Same(q Path) bool {
	return p.closed == q.closed && len(p.segs) == len(q.segs) && (len(p.segs) == 0 || &p.segs[0] == &q.segs[0])
}

// Len returns the number of segments.
func (p Path) Len() int { return len(p.segs) }

// Seg returns segment i, counted from 0.
func (p Path) Seg(i int) Cubic { return p.segs[i] }

// Segments returns a copy of the segments.
func (p Path) Segments() []Cubic { return append([]Cubic(nil), p.segs...) }

// Start returns the first point, the origin for the empty path.
func (p Path) Start() Point {
	if p.Empty() {
		return Point{}
	}
	return p.segs[0].Start()
}

// End returns the last point, the origin for the empty path.
func (p Path) End() Point {
	if p.Empty() {
		return Point{}
	}
	return p.segs[len(p.segs)-1].End()
}

// IsStraight reports whether p is one straight segment.
func (p Path) IsStraight() bool { return len(p.segs) == 1 && p.segs[0].straight }

// Length returns the arc length in mm.
func (p Path) Length() float64 {
	if p.Empty() {
		return 0
	}
	return p.cum[len(p.segs)]
}

// Locate returns the segment and its parameter at arc length s from the
// start, s clamped to the path.
func (p Path) Locate(s float64) (seg int, t float64) {
	n := len(p.segs)
	if n == 0 || !(s > 0) {
		return 0, 0
	}
	if s >= p.cum[n] {
		return n - 1, 1
	}
	seg = sort.SearchFloat64s(p.cum[1:], s)
	if p.cum[seg+1] == s && seg+1 < n {
		return seg + 1, 0
	}
	return seg, p.segs[seg].paramAt(s-p.cum[seg], p.cum[seg+1]-p.cum[seg])
}

// LengthTo returns the arc length from the start to parameter t of segment seg.
func (p Path) LengthTo(seg int, t float64) float64 {
	if p.Empty() {
		return 0
	}
	if !(t > 0) {
		return p.cum[seg]
	}
	if t >= 1 {
		return p.cum[seg+1]
	}
	return p.cum[seg] + p.segs[seg].LengthTo(t)
}

// At returns the point at arc length s from the start.
func (p Path) At(s float64) Point {
	if p.Empty() {
		return Point{}
	}
	i, t := p.Locate(s)
	return p.segs[i].At(t)
}

// TangentAt returns the unit direction of travel at arc length s; at a joint
// between two segments it is the direction leaving it.
func (p Path) TangentAt(s float64) Point {
	if p.Empty() {
		return Point{}
	}
	i, t := p.Locate(s)
	return p.segs[i].Tangent(t)
}

// TangentBefore is like [Path.TangentAt] but at a joint gives the direction
// arriving there.
func (p Path) TangentBefore(s float64) Point {
	if p.Empty() {
		return Point{}
	}
	i, t := p.Locate(s)
	switch {
	case t > 0:
		return p.segs[i].Tangent(t)
	case i > 0:
		return p.segs[i-1].Tangent(1)
	case p.closed:
		return p.segs[len(p.segs)-1].Tangent(1)
	}
	return p.segs[0].Tangent(0)
}

// CurvatureAt returns the signed curvature at arc length s in 1/mm.
func (p Path) CurvatureAt(s float64) float64 {
	if p.Empty() {
		return 0
	}
	i, t := p.Locate(s)
	return p.segs[i].Curvature(t)
}

// Sub returns the open path between the arc lengths s0 < s1, both clamped to
// the path; an error when nothing lies between them.
func (p Path) Sub(s0, s1 float64) (Path, error) {
	if p.Empty() {
		return Path{}, errNoLength
	}
	if !(s1-s0 > Coincident) {
		return Path{}, fmt.Errorf("no path lies between %.4g mm and %.4g mm", s0, s1)
	}
	i, t0 := p.Locate(s0)
	j, t1 := p.Locate(s1)
	if j > i && t1 == 0 {
		j, t1 = j-1, 1
	}
	if i == j {
		return NewPath(p.segs[i].Sub(t0, t1))
	}
	segs := make([]Cubic, 0, j-i+1)
	segs = append(segs, p.segs[i].Sub(t0, 1))
	segs = append(segs, p.segs[i+1:j]...)
	segs = append(segs, p.segs[j].Sub(0, t1))
	return NewPath(segs...)
}

// Split cuts an open path at arc length s, which must lie inside it.
func (p Path) Split(s float64) (Path, Path, error) {
	a, err := p.Sub(0, s)
	if err != nil {
		return Path{}, Path{}, err
	}
	b, err := p.Sub(s, p.Length())
	return a, b, err
}

// Reverse returns the path traced the other way.
func (p Path) Reverse() Path {
	if p.Empty() {
		return p
	}
	n := len(p.segs)
	r := Path{segs: make([]Cubic, n), cum: make([]float64, n+1), closed: p.closed}
	for i, c := range p.segs {
		r.segs[n-1-i] = c.Reverse()
	}
	for i := range p.cum {
		r.cum[i] = p.cum[n] - p.cum[n-i]
	}
	return r
}

// Transform returns the path moved by m; its lengths are kept as they are.
func (p Path) Transform(m Motion) Path {
	r := Path{segs: make([]Cubic, len(p.segs)), cum: p.cum, closed: p.closed}
	for i, c := range p.segs {
		r.segs[i] = c.Transform(m)
		if i > 0 {
			r.segs[i].P[0] = r.segs[i-1].P[3]
		}
	}
	if p.closed && len(r.segs) > 0 {
		r.segs[len(r.segs)-1].P[3] = r.segs[0].P[0]
	}
	return r
}

// WithEnds returns an open path with its ends set to a and b, the end handles
// moving along; meant for closing gaps of rounding size.
func (p Path) WithEnds(a, b Point) (Path, error) {
	if p.Empty() {
		return Path{}, errNoLength
	}
	segs := p.Segments()
	segs[0] = segs[0].WithEnds(a, segs[0].End())
	last := len(segs) - 1
	segs[last] = segs[last].WithEnds(segs[last].Start(), b)
	return NewPath(segs...)
}

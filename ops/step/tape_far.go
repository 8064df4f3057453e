package step

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"truemat/geom"
)

// touching is the distance in mm within which places on outlines laid
// together count as one: over the slack with which crossings are found (1e-8),
// far under what can be cut.
const touching = 1e-7

// speck is the length in mm along an outline that is too short to matter: over
// it outlines that cross at less than a thousandth of a degree lie within the
// slack of each other, and beside the pin a sharp corner may cover that much.
const speck = 0.05

// farEnd says how the joined outline runs from the chain of the right piece to
// that of the left one at the end away from the pin.
type farEnd struct {
	rightTo  float64 // mm along the chain of the right piece where it is left
	leftFrom float64 // and along that of the left piece where it goes on
	kind     fillerKind
	filler   geom.Path // between them; empty when they meet
}

// fillerKind says what the outline runs along between both chains.
type fillerKind int

const (
	meets      fillerKind = iota // nothing: the chains meet
	alongRight                   // the taped edge of the right piece
	alongLeft                    // the taped edge of the left piece
	bridged                      // straight over a gap
)

// farEnd finds where the outline goes over from one piece to the other. Each
// chain is followed from the pin to where the other piece begins to cover it.
func (j *joint) farEnd() (farEnd, error) {
	l, r := &j.left, &j.right
	leftFrom, err := j.uncovered(l, r)
	if err != nil {
		return farEnd{}, err
	}
	rightTo, err := j.uncovered(r, l)
	if err != nil {
		return farEnd{}, err
	}
	f := farEnd{rightTo: rightTo, leftFrom: leftFrom}
	from, to := r.chain.At(rightTo), l.chain.At(leftFrom)
	onRight, onLeft := r.taped.Path.Nearest(to), l.taped.Path.Nearest(from)
	rightWhole, leftWhole := rightTo == r.chain.Length(), leftFrom == 0
	switch {
	case from.Dist(to) <= touching:
	case rightWhole && onRight.Dist <= touching && onRight.S > touching:
		// The corner of the left piece lies over the right one, whose taped
		// edge stays on the outline up to there.
		f.kind = alongRight
		f.filler, err = r.taped.Path.Sub(0, onRight.S)
	case leftWhole && onLeft.Dist <= touching && onLeft.S < l.taped.Length()-touching:
		f.kind = alongLeft
		f.filler, err = l.taped.Path.Sub(onLeft.S, l.taped.Length())
	case rightWhole && leftWhole:
		f.kind = bridged
		f.filler, err = geom.Polyline(from, to)
	case from.Dist(to) <= speck && l.chain.Nearest(from).Dist <= touching:
		// The outlines cross so flatly that within the slack each begins to be
		// covered at a place of its own.
		f.leftFrom = l.chain.Nearest(from).S
	default:
		err = fmt.Errorf("the outlines of %s and %s cross more than once at the far end, so that it is not plain where to cut; straighten one of the edges there or turn %s a little", j.a.old.Name, j.b.old.Name, j.b.old.Name)
	}
	return f, err
}

// uncovered returns the place on the chain of h, in mm, that is the farthest
// from the pin up to which the other piece covers nothing of it. Along a
// stretch that both outlines share, B counts as covered.
func (j *joint) uncovered(h, other *half) (float64, error) {
	outline, err := other.outline()
	if err != nil {
		return 0, err
	}
	length := h.chain.Length()
	at := []float64{0, length}
	var shared []geom.Overlap
	for _, path := range []geom.Path{other.chain, other.taped.Path} {
		met := geom.Cross(h.chain, path)
		for _, x := range met.Crossings {
			at = append(at, x.S)
		}
		for _, o := range met.Overlaps {
			at = append(at, o.S0, o.S1)
		}
		shared = append(shared, met.Overlaps...)
	}
	for _, corner := range []geom.Point{other.chain.Start(), other.chain.End()} {
		if foot := h.chain.Nearest(corner); foot.Dist <= touching {
			at = append(at, foot.S)
		}
	}
	slices.Sort(at)
	covers := func(from, to float64) bool {
		m := (from + to) / 2
		if slices.ContainsFunc(shared, func(o geom.Overlap) bool { return o.S0 < m && m < o.S1 }) {
			return h == j.b
		}
		return outline.Contains(h.chain.At(m))
	}
	// Walk from the pin, where the chain of the left piece ends and that of the
	// right one starts.
	step, start := 1, 0
	if h == &j.left {
		step, start = -1, len(at)-1
	}
	for i := start; i+step >= 0 && i+step < len(at); i += step {
		from, to := at[i], at[i+step]
		if (to-from)*float64(step) <= touching || (to-at[start])*float64(step) <= speck || !covers(from, to) {
			continue
		}
		if (from-at[start])*float64(step) <= speck {
			return 0, fmt.Errorf("%s covers %s beside the pin too; turn or place them so that they meet only along the taped edges", other.old.Name, h.old.Name)
		}
		// A cut beyond the edge beside the joint would take that edge away, in
		// this size and perhaps not in others.
		e, clear := h.rest[0], from < h.rest[0].Length()-touching
		if h == &j.right {
			e = h.rest[len(h.rest)-1]
			clear = from > length-e.Length()+touching
		}
		if !clear {
			return 0, fmt.Errorf("%s covers all of %s of %s; place or turn it so that less overlaps", other.old.Name, e.Name, h.old.Name)
		}
		return from, nil
	}
	if h == &j.left {
		return 0, nil
	}
	return length, nil
}

// areas returns how much of the pieces lies under the other one and how much
// gap became paper, in mm². The way round the wedge between the taped edges
// falls apart into loops: those that run counter-clockwise lie under, the
// others are gaps. That both account for the area of the outline is checked.
func (j *joint) areas(f farEnd, outline geom.Path) (under, paper float64, err error) {
	l, r := &j.left, &j.right
	rightTaped, leftTaped := 0.0, l.taped.Length()
	bridge := geom.Path{}
	switch f.kind {
	case alongRight:
		rightTaped = f.filler.Length()
	case alongLeft:
		leftTaped -= f.filler.Length()
	case bridged:
		bridge = f.filler.Reverse()
	}
	way, err := wayRound(
		stretchOf(r.chain, f.rightTo, r.chain.Length()),
		stretchOf(r.taped.Path, rightTaped, r.taped.Length()),
		stretchOf(l.taped.Path, 0, leftTaped),
		stretchOf(l.chain, 0, f.leftFrom),
		bridge,
	)
	if err != nil {
		return 0, 0, err
	}
	for _, a := range loops(way) {
		under += max(a, 0)
		paper += max(-a, 0)
	}
	lo, err := l.outline()
	if err != nil {
		return 0, 0, err
	}
	ro, err := r.outline()
	if err != nil {
		return 0, 0, err
	}
	want := lo.Area() + ro.Area() + paper - under
	if got := outline.Area(); math.Abs(got-want) > areaSlack*(lo.Area()+ro.Area()) {
		return 0, 0, fmt.Errorf("the joined outline of %s and %s encloses %.6g mm² where %.6g mm² are accounted for; place them so that they meet only along the taped edges", j.a.old.Name, j.b.old.Name, got, want)
	}
	return under, paper, nil
}

// areaSlack is the share of the area up to which areas found in two ways may
// differ; ends that touch within a millionth of a millimetre make less.
const areaSlack = 1e-7

// stretchOf returns the path between two lengths, empty when nothing is there.
func stretchOf(p geom.Path, from, to float64) geom.Path {
	if to-from <= touching {
		return geom.Path{}
	}
	s, err := p.Sub(from, to)
	if err != nil {
		return geom.Path{}
	}
	return s
}

// wayRound closes a chain of paths, straight across gaps.
func wayRound(paths ...geom.Path) (geom.Path, error) {
	var segs []geom.Cubic
	for _, p := range paths {
		if p.Empty() {
			continue
		}
		if len(segs) > 0 {
			segs = append(segs, geom.Straight(segs[len(segs)-1].End(), p.Start()))
		}
		segs = append(segs, p.Segments()...)
	}
	segs = append(segs, geom.Straight(segs[len(segs)-1].End(), segs[0].Start()))
	return geom.NewClosed(segs...)
}

// loops returns the signed areas of the loops into which a closed way falls
// apart where it crosses itself. Of crossings that interlace only the tighter
// ones count; two edges that leave one pin cross in nested pairs.
func loops(way geom.Path) []float64 {
	type bight struct{ from, to, area float64 }
	crossings := way.SelfCrossings()
	slices.SortFunc(crossings, func(a, b geom.Crossing) int { return cmp.Compare(a.T-a.S, b.T-b.S) })
	var areas []float64
	var outer []bight // those found that lie in no other
	for _, x := range crossings {
		path := stretchOf(way, x.S, x.T)
		if path.Empty() {
			continue
		}
		loop := bight{x.S, x.T, path.Area()}
		own := loop.area
		rest := []bight{loop}
		interlaced := false
		for _, o := range outer {
			switch {
			case o.from >= x.S && o.to <= x.T:
				own -= o.area
			case o.to <= x.S || o.from >= x.T:
				rest = append(rest, o)
			default:
				interlaced = true
			}
		}
		if !interlaced {
			areas, outer = append(areas, own), rest
		}
	}
	remaining := way.Area()
	for _, o := range outer {
		remaining -= o.area
	}
	return append(areas, remaining)
}

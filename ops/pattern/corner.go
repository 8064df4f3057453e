package pattern

import (
	"math"
	"slices"

	"truemat/geom"
)

// mitreLimit is how far cut lines that run on may meet from their joint, in
// widths of the wider allowance. A sharper corner (under 29° when both are
// equal) is cut off square at that distance: its point is no use in a seam.
const mitreLimit = 4

// trimLimit is how much of a cut line may be taken off, in widths of the wider
// allowance, so that a line running on meets it. Where it takes more, the
// joint is nearly smooth (under 34° when one allowance is 0) and a long sliver
// of the allowance would go.
const trimLimit = 1.5

// smoothSine is the sine of a turn below which the sew lines run on without a
// corner: over the rounding of their directions.
const smoothSine = 1e-9

// arm is one of the two cut lines at a corner, seen from it.
type arm struct {
	path  geom.Path  // towards the corner
	end   geom.Point // of the path
	way   geom.Point // direction in which the path runs on there
	out   geom.Point // direction in which the sew line runs on at the joint
	side  geom.Point // square to out, towards the path
	width float64
	trim  float64 // mm taken off the end of the path
	caps  bool    // the path now goes on to the joint
}

func newArm(path geom.Path, out, side geom.Point, width float64) *arm {
	return &arm{path: path, end: path.End(), way: path.TangentBefore(path.Length()), out: out, side: side, width: width}
}

// armsOf returns the arms of the corner between two rims.
func armsOf(before, after *rim) (x, y *arm) {
	u := before.run.TangentBefore(before.run.Length())
	v := after.run.TangentAt(0)
	x = newArm(before.path, u, u.Perp().Mul(-1), before.width)
	y = newArm(after.path.Reverse(), v.Mul(-1), v.Perp().Mul(-1), after.width)
	return x, y
}

// makeCorner shortens the two rims at a joint as needed and returns what
// connects the end of the one to the start of the other.
//
// At an outer corner the rims are made as the corner of the later one says.
// At an inner corner they overlap, so both are trimmed where they cross,
// whatever the corner says. Cut lines that cannot meet near the joint, since
// it is nearly smooth and the allowances differ, do not run on: the wider
// allowance ends square to its edge.
func makeCorner(before, after *rim) []geom.Cubic {
	joint := after.run.Start()
	x, y := armsOf(before, after)
	var link []geom.Cubic
	switch {
	case x.end.Dist(y.end) <= weld:
	case x.out.Cross(y.out) > smoothSine: // the sew lines turn right
		link = trimBoth(joint, x, y)
	case after.corner.Of == After:
		link = reversed(outerCorner(joint, y, x, after))
	default:
		link = outerCorner(joint, x, y, after)
	}
	before.tail, before.capTail = x.trim, x.caps
	after.head, after.capHead = y.trim, y.caps
	return link
}

// makeCornerAcross is makeCorner for rims between which an edge is swallowed.
func makeCornerAcross(before, after *rim) []geom.Cubic {
	x, y := armsOf(before, after)
	at := x.joinTo(y)
	before.tail, after.head = x.trim, y.trim
	return []geom.Cubic{point(at)}
}

// outerCorner connects the arm x, of which the corner of the rim speaks, to y.
func outerCorner(joint geom.Point, x, y *arm, rim *rim) []geom.Cubic {
	switch rim.corner.End {
	case Blunt, FadesOut: // the faded arm ends at the joint
		return nil
	case Square:
		return squareTo(joint, x, y)
	case FoldsBack:
		return foldsBack(joint, x, y)
	case Follows:
		return follows(joint, x, y, rim.guide)
	}
	return runsOn(joint, x, y)
}

// meet returns how far along each of two rays, in mm, their lines meet.
func meet(p, u, q, v geom.Point) (t, s float64, ok bool) {
	den := u.Cross(v)
	if math.Abs(den) < 1e-12 { // directions within rounding of parallel
		return 0, 0, false
	}
	d := q.Sub(p)
	return d.Cross(v) / den, d.Cross(u) / den, true
}

func runsOn(joint geom.Point, x, y *arm) []geom.Cubic {
	widest := max(x.width, y.width)
	t, s, ok := meet(x.end, x.way, y.end, y.way)
	switch {
	case !ok && x.way.Dot(y.way) < 0: // a smooth joint
		return nil
	case !ok:
		return cutOff(joint, x.way, x, y)
	case t < -weld:
		return runUnder(joint, x, y, t)
	case s < -weld:
		return reversed(runUnder(joint, y, x, s))
	}
	at := x.end.Add(x.way.Mul(t))
	if at.Dist(joint) > mitreLimit*widest {
		return cutOff(joint, at.Sub(joint).Unit(), x, y)
	}
	return []geom.Cubic{point(at)}
}

// cutOff ends a sharp corner square to the direction m from its joint.
func cutOff(joint, m geom.Point, x, y *arm) []geom.Cubic {
	reach := mitreLimit * max(x.width, y.width)
	on := func(a *arm) geom.Cubic {
		run := 0.0
		if d := m.Dot(a.way); d > 0 {
			run = max(0, (reach-m.Dot(a.end.Sub(joint)))/d)
		}
		return point(a.end.Add(a.way.Mul(run)))
	}
	return []geom.Cubic{on(x), on(y)}
}

// runUnder connects x to the narrower y whose line, run on, meets x before
// its end, −t mm back: x is trimmed there, unless that takes too much of it;
// then x ends square to its edge.
func runUnder(joint geom.Point, x, y *arm, t float64) []geom.Cubic {
	if limit := trimLimit * max(x.width, y.width); -t <= limit {
		if s, ok := x.lastOn(geom.Line{Point: y.end, Dir: y.way}, limit+weld); ok {
			x.trim = x.path.Length() - s
			return []geom.Cubic{point(x.path.At(s))}
		}
	}
	if _, s, ok := meet(joint, x.side, y.end, y.way); ok && s >= 0 {
		return []geom.Cubic{point(y.end.Add(y.way.Mul(s)))}
	}
	return nil
}

// lastOn returns the length along the arm's path where it crosses the ray
// nearest to the corner, not farther than reach from its end.
func (a *arm) lastOn(ray geom.Line, reach float64) (float64, bool) {
	found, best := false, a.path.Length()-reach
	for _, c := range a.path.CrossLine(ray.Point, ray.Dir) {
		if c.S >= best && c.T >= -weld {
			found, best = true, c.S
		}
	}
	return best, found
}

// sewMeets returns where the sew line of x, run on from the joint, meets the
// cut line of y: behind the end of its path, run on, or else on the path at
// length s. It fails when that is beyond the limits.
func sewMeets(joint geom.Point, x, y *arm) (at geom.Point, s float64, ok bool) {
	widest, length := max(x.width, y.width), y.path.Length()
	t, past, ok := meet(joint, x.out, y.end, y.way)
	switch {
	case !ok:
		return geom.Point{}, 0, false
	case past >= -weld:
		at, s = joint.Add(x.out.Mul(t)), length
	default:
		if s, ok = y.lastOn(geom.Line{Point: joint, Dir: x.out}, trimLimit*widest); !ok {
			return geom.Point{}, 0, false
		}
		at = y.path.At(s)
	}
	return at, s, at.Dist(joint) <= mitreLimit*widest
}

// squareTo ends the allowance of x square to it where its sew line, run on,
// meets the cut line of y.
func squareTo(joint geom.Point, x, y *arm) []geom.Cubic {
	at, s, ok := sewMeets(joint, x, y)
	if !ok {
		return runsOn(joint, x, y)
	}
	y.trim = y.path.Length() - s
	return []geom.Cubic{point(at.Add(x.side.Mul(x.width))), point(at)}
}

// foldsBack shapes the allowance of y beyond the hem x as the mirror image,
// about the hem's sew line run on, of the cut line of y inside of it. Where y
// is too short to reach across the hem's allowance it ends square instead.
func foldsBack(joint geom.Point, x, y *arm) []geom.Cubic {
	at, s, ok := sewMeets(joint, x, y)
	if !ok {
		return runsOn(joint, x, y)
	}
	inside := y.path.Reverse().Segments()
	if s < y.path.Length() {
		rest, err := y.path.Sub(0, s)
		if err != nil {
			return squareTo(joint, x, y)
		}
		inside = rest.Reverse().Segments()
	}
	mirror, err := geom.Mirror(joint, joint.Add(x.out))
	if err != nil {
		return squareTo(joint, x, y)
	}
	image, err := geom.NewPath(chain([]geom.Cubic{point(at)}, inside...)...)
	if err != nil {
		return squareTo(joint, x, y)
	}
	return x.shaped(y, at, s, image.Transform(mirror))
}

// follows shapes the allowance of x along the guide, from where its sew line,
// run on, meets it; at a joint too blunt for that from where it runs on from
// the cut line of y. Where there is no guide, or it is not near, the cut lines
// run on.
func follows(joint geom.Point, x, y *arm, guide geom.Path) []geom.Cubic {
	if guide.Empty() {
		return runsOn(joint, x, y)
	}
	at, s, ok := sewMeets(joint, x, y)
	if !ok {
		near := guide.Nearest(y.end)
		rest, err := guide.Sub(near.S, guide.Length())
		if err != nil || near.Dist > max(x.width, y.width) {
			return runsOn(joint, x, y)
		}
		image, err := geom.NewPath(chain([]geom.Cubic{point(y.end)}, rest.Segments()...)...)
		if err != nil {
			return runsOn(joint, x, y)
		}
		return x.shaped(y, y.end, y.path.Length(), image)
	}
	line := geom.Line{Point: joint, Dir: x.out}
	from, reach := math.Inf(1), mitreLimit*max(x.width, y.width)
	for _, c := range guide.CrossLine(line.Point, line.Dir) {
		if math.Abs(c.T) <= reach && c.S < from {
			from = c.S
		}
	}
	part := []geom.Cubic{point(at)}
	switch t, _, ok := meet(guide.Start(), guide.TangentAt(0), joint, x.out); {
	case !math.IsInf(from, 1):
		rest, err := guide.Sub(from, guide.Length())
		if err != nil {
			return runsOn(joint, x, y)
		}
		part = chain(part, rest.Segments()...)
	case ok && t <= 0 && -t <= reach: // run on backwards to the line
		part = chain(part, geom.Straight(guide.Start().Add(guide.TangentAt(0).Mul(t)), guide.Start()))
		part = chain(part, guide.Segments()...)
	default:
		return runsOn(joint, x, y)
	}
	image, err := geom.NewPath(part...)
	if err != nil {
		return runsOn(joint, x, y)
	}
	return x.shaped(y, at, s, image)
}

// shaped ends the allowance of x along the image, which leads away from where
// its sew line meets the cut line of y, at length s of that one's path. Where
// the image does not reach across the allowance it ends square instead.
func (x *arm) shaped(y *arm, at geom.Point, s float64, image geom.Path) []geom.Cubic {
	from, to, ok := firstMeeting(image, x)
	y.trim = y.path.Length() - s
	if !ok {
		return []geom.Cubic{point(at.Add(x.side.Mul(x.width))), point(at)}
	}
	x.trim = from
	if to <= geom.Coincident { // no allowance on the edge
		return []geom.Cubic{point(at)}
	}
	image, err := image.Sub(0, to)
	if err != nil {
		return []geom.Cubic{point(at)}
	}
	return image.Reverse().Segments()
}

// firstMeeting returns where the image first meets the cut line of x or its
// running on: the length to take off x (0 when it runs on) and the length
// along the image.
func firstMeeting(image geom.Path, x *arm) (trim, to float64, ok bool) {
	to = math.Inf(1)
	for _, c := range image.CrossLine(x.end, x.way) {
		if c.T >= -weld && c.S < to {
			trim, to, ok = 0, c.S, true
		}
	}
	for _, c := range geom.Cross(x.path, image).Crossings {
		if c.T < to-weld {
			trim, to, ok = x.path.Length()-c.S, c.T, true
		}
	}
	return trim, to, ok
}

// trimBoth trims the arms of an inner corner where they, each with a cap back
// to the joint, cross nearest to it.
func trimBoth(joint geom.Point, x, y *arm) []geom.Cubic {
	a, okA := x.capped(joint)
	b, okB := y.capped(joint)
	if !okA || !okB {
		return []geom.Cubic{point(joint)}
	}
	best := math.Inf(1)
	for _, c := range geom.Cross(a, b).Crossings {
		backA, backB := a.Length()-c.S, b.Length()-c.T
		if backA <= weld && backB <= weld {
			continue // the joint itself
		}
		if back := backA + backB; back < best {
			best = back
			x.trim, y.trim = backA, backB
		}
	}
	if math.IsInf(best, 1) {
		return []geom.Cubic{point(joint)}
	}
	x.caps, y.caps = x.end.Dist(joint) > weld, y.end.Dist(joint) > weld
	return nil
}

// capped returns the arm's path led on to the joint.
func (a *arm) capped(joint geom.Point) (geom.Path, bool) {
	if a.end.Dist(joint) <= weld {
		return a.path, true
	}
	p, err := geom.NewPath(append(a.path.Segments(), geom.Straight(a.end, joint))...)
	return p, err == nil
}

func reversed(segs []geom.Cubic) []geom.Cubic {
	out := slices.Clone(segs)
	slices.Reverse(out)
	for i := range out {
		out[i] = out[i].Reverse()
	}
	return out
}

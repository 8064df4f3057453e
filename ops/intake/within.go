package intake

import (
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

const (
	// arrowShare is how much of the room around its middle half an arrow takes.
	arrowShare = 0.8
	// arrowLeast is the length in mm from which a straight line is taken for one.
	arrowLeast = 8
)

// calledArrow returns the name of a straight line within the outline that
// someone called arrow or grain, "" when there is none.
func calledArrow(rest []stroke, outline geom.Path) string {
	for _, s := range rest {
		if s.path.Closed() || s.path.Length() < arrowLeast || s.path.Start().Dist(s.path.End()) < 0.999*s.path.Length() || !outline.Contains(s.path.At(s.path.Length()/2)) {
			continue
		}
		for _, name := range s.names {
			if low := strings.ToLower(name); strings.Contains(low, "arrow") || strings.Contains(low, "grain") {
				return name
			}
		}
	}
	return ""
}

// roomiest returns the point within an outline that is farthest from it, to
// about a twentieth of its box, and how far in mm.
func roomiest(outline geom.Path) (geom.Point, float64) {
	const fine = 20
	box := outline.Bounds()
	best, most := box.Center(), 0.0
	for i := 1; i < fine; i++ {
		for j := 1; j < fine; j++ {
			p := geom.Pt(box.Min.X+box.Width()*float64(i)/fine, box.Min.Y+box.Height()*float64(j)/fine)
			if d := outline.Nearest(p).Dist; d > most && outline.Contains(p) {
				best, most = p, d
			}
		}
	}
	return best, most
}

const (
	// evenWithin is how far in mm the distance between parallel lines may vary.
	evenWithin = 0.3
	// evenShare is the least share of it that must run so where the two lines
	// lie apart, and apartShare that of the line where they do: allowances may
	// be wider at a hem, and there is none on the fold.
	evenShare, apartShare = 0.5, 0.3
	// longShare is the least share of the outline's length for a line that is open.
	longShare = 0.4
	// widestInside is the widest allowance in mm that is looked for.
	widestInside = 40
)

// inside returns how far inside the outline a second line runs along most of
// it, with that line, 0 when none does. On the fold, where it lies on the
// outline, it may be open.
func inside(o outlined) (float64, geom.Path) {
	lines := closedOf(o.rest)
	for _, c := range chains(o.rest) {
		if !c.closed && c.path.Length() > o.path.Length()*longShare {
			lines = append(lines, stroke{path: c.path})
		}
	}
	for _, s := range lines {
		if s.path.Closed() && math.Abs(s.path.Area()) < math.Abs(o.path.Area())/4 {
			continue
		}
		if d := evenly(s.path, o.path); d > 0 {
			return d, s.path
		}
	}
	return 0, geom.Path{}
}

// drawnWidth returns the distance in mm at which most of an edge of a drawn sew
// line lies inside the drawn cut line, 0 where it lies on it.
func drawnWidth(edge, cut geom.Path) float64 {
	const places = 25
	var far []float64
	for i := range places {
		far = append(far, cut.Nearest(edge.At(edge.Length()*(0.5+float64(i))/places)).Dist)
	}
	slices.Sort(far)
	if d := far[places/2]; d > ownSlack {
		return math.Round(d*100) / 100
	}
	return 0
}

// apartBy returns how far, in mm, a drawn cut line and that which the allowances
// of a piece make are apart at most, and where.
func apartBy(pc *pattern.Piece, drawn geom.Path) (float64, geom.Point) {
	cut, err := pc.CutLine()
	if err != nil {
		return 0, geom.Point{}
	}
	there, s := drawn.Farthest(cut)
	back, t := cut.Farthest(drawn)
	if back > there {
		return back, cut.At(t)
	}
	return there, drawn.At(s)
}

// evenly returns the distance in mm at which most of one line runs along
// another, 0 when it does not.
func evenly(p, along geom.Path) float64 {
	const places = 96
	var far []float64
	for i := range places {
		q := p.At(p.Length() * float64(i) / places)
		d := along.Nearest(q).Dist
		if d > ownSlack && !along.Contains(q) {
			return 0
		}
		if d > ownSlack {
			far = append(far, d)
		}
	}
	slices.Sort(far)
	if float64(len(far)) < places*apartShare {
		return 0
	}
	best, most := 0.0, 0
	for i, d := range far {
		n := 0
		for _, e := range far[i:] {
			if e-d > evenWithin {
				break
			}
			n++
		}
		if n > most {
			best, most = far[i+n/2], n
		}
	}
	if best < 1 || best > widestInside || float64(most) < evenShare*float64(len(far)) {
		return 0
	}
	return math.Round(best*100) / 100
}

// sewDrawn returns a drawn sew line as an outline, and the strokes without
// those that draw it.
func sewDrawn(sew geom.Path, rest []stroke) (geom.Path, []stroke, error) {
	if sew.Area() < 0 {
		sew = sew.Reverse()
	}
	path, _, err := tidy(sew)
	if err != nil {
		return path, rest, err
	}
	o := outlined{path: path}
	return path, slices.DeleteFunc(slices.Clone(rest), func(s stroke) bool { return o.repeats(s.path) }), nil
}

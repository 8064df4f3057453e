package step

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// foldSlack is how far in degrees an edge may be off square to the fold
// before the whole piece shows a point in its middle (common practice).
const foldSlack = 0.5

// leastPaper is the area in mm² up to which there is no paper: what a place
// off by placeSlack makes along the longest edge of a garment.
const leastPaper = 1e-3

// parallelSlack is the angle in degrees up to which two directions computed
// in different ways count as the same.
const parallelSlack = 1e-6

// checkOutline refuses an outline that was simple and would not be any more.
func checkOutline(old, now *pattern.Piece) error {
	o, err := now.Outline()
	if err != nil {
		return fmt.Errorf("piece %q: %w", now.Name, err)
	}
	if !(o.Area() > leastPaper) {
		return fmt.Errorf("piece %q would have nothing left, or be turned over; are the two ends named in the direction of the outline, which runs counter-clockwise?", now.Name)
	}
	cross := o.SelfCrossings()
	if len(cross) == 0 {
		return nil
	}
	if was, err := old.Outline(); err == nil && len(was.SelfCrossings()) > 0 {
		return nil
	}
	e, f := edgeAt(now, cross[0].S), edgeAt(now, cross[0].T)
	if e == f {
		return mendable{fmt.Sprintf("%s of %s would cross itself", e, now.Name), smallerAmount}
	}
	return mendable{fmt.Sprintf("%s and %s of %s would cross", e, f, now.Name), smallerAmount}
}

const smallerAmount = "use a smaller amount or other places"

// edgeAt names the edge at s mm along the outline.
func edgeAt(pc *pattern.Piece, s float64) string {
	for i := range pc.Edges {
		if s -= pc.Edges[i].Length(); s <= 0 {
			return pc.Edges[i].Name
		}
	}
	return pc.Edges[len(pc.Edges)-1].Name
}

// checkFold refuses an alteration that takes the fold away, bends it or turns
// it; it may become longer or shorter or move as a whole.
func checkFold(old, now *pattern.Piece) error {
	was, is := old.Fold(), now.Fold()
	switch {
	case was == nil:
		return nil
	case is == nil:
		return fmt.Errorf("%s of %s lies on the fold and would be lost; unfold the piece first", was.Name, now.Name)
	case !is.Path.IsStraight():
		return fmt.Errorf("%s of %s lies on the fold and must stay straight; unfold the piece first", is.Name, now.Name)
	}
	turned := geom.Between(was.Path.TangentAt(0), is.Path.TangentAt(0)).Degrees()
	if math.Abs(turned) > parallelSlack {
		return mendable{fmt.Sprintf("%s of %s lies on the fold and would turn by %.3g degrees, while the fold keeps its direction", is.Name, now.Name, turned), "alter both its ends evenly, or unfold the piece first"}
	}
	return nil
}

// checkSquare refuses an alteration after which an edge that met the fold
// squarely does so no more; the remedy is the step's own.
func checkSquare(old, now *pattern.Piece, remedy string) error {
	was, is := offSquare(old), offSquare(now)
	if was == nil || is == nil {
		return nil
	}
	for k, end := range []string{"start", "end"} {
		if is[k] > max(foldSlack, was[k]+parallelSlack) {
			return mendable{fmt.Sprintf("at the %s of %s the edge would be %.2g degrees off square (it was %.2g), which gives a point in the middle of the whole piece", end, foldOf(now), is[k], was[k]), remedy}
		}
	}
	return nil
}

// foldOf names the fold of a piece, once if that is what it is called.
func foldOf(pc *pattern.Piece) string {
	if name := pc.Fold().Name; name != string(pattern.Fold) {
		return fmt.Sprintf("the fold %s of %s", name, pc.Name)
	}
	return "the fold of " + pc.Name
}

// offSquare returns by how many degrees the edges at the start and the end of
// the fold miss the right angle; nil without a fold.
func offSquare(pc *pattern.Piece) []float64 {
	f := pc.Fold()
	if f == nil {
		return nil
	}
	i := pc.EdgeIndex(f.Name)
	before, after := pc.Edges[pc.Prev(i)].Path, pc.Edges[pc.Next(i)].Path
	dir := f.Path.TangentAt(0)
	off := func(d geom.Point) float64 { return math.Abs(math.Abs(geom.Between(dir, d).Degrees()) - 90) }
	return []float64{off(before.TangentBefore(before.Length())), off(after.TangentAt(0))}
}

// seamDifference returns how much longer side A of a seam is than side B and
// the ease together, in mm.
func seamDifference(p pattern.Pattern, s *pattern.Seam) float64 {
	return p.Length(s.A) - p.Length(s.B) - s.Ease
}

// reportSeams adds to the figures and notes the seams whose sides no longer
// differ as they did: "partner_difference.<seam>" in mm, side A less side B
// and the ease. Seams of which the step speaks itself are left out.
func reportSeams(old, next pattern.Pattern, out *Output, but ...string) {
	for i := range next.Seams {
		s := &next.Seams[i]
		if slices.Contains(but, s.Name) {
			continue
		}
		was := 0.0
		if b := old.Seam(s.Name); b != nil {
			was = seamDifference(old, b)
		}
		is := seamDifference(next, s)
		if math.Abs(is-was) <= changeSlack {
			continue
		}
		out.Figures["partner_difference."+s.Name] = is
		longer := s.A
		if is < 0 {
			longer = s.B
		}
		after, before := fmt.Sprintf("its sides differ by %s, the longer one is %s", unit.MM(math.Abs(is)), sideName(longer)), "they differed by "+unit.MM(math.Abs(was))
		if math.Abs(is) < toldDifference {
			after = "its sides fit"
		}
		if math.Abs(was) < toldDifference {
			before = "they fitted"
		}
		out.Notes = append(out.Notes, fmt.Sprintf("Seam %q: after this step %s; before it, %s.", s.Name, after, before))
	}
}

// toldDifference is the difference of two lengths in mm from which it is told.
const toldDifference = 0.005

func sideName(side pattern.Side) string {
	var names []string
	for _, pt := range side {
		names = append(names, pt.Edge+" of "+pt.Piece)
	}
	return strings.Join(names, " with ")
}

func quotedList(names []string) string {
	q := make([]string, len(names))
	for i, n := range names {
		q[i] = strconv.Quote(n)
	}
	return strings.Join(q, ", ")
}

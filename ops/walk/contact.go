package walk

import (
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Contact is where the two sides touch at a walked length.
type Contact struct {
	A, B float64 // walked on each side, in mm
	Ease float64 // stated ease taken in so far, in mm
	// Difference is by how much the notch of side A passed last lies further
	// along than its partner on side B, ease apart; 0 before the first, that of
	// the whole sides at the end.
	Difference float64
	Standing   string // the piece that is touched, as it is laid
	Rolling    string // the piece that touches it
	// Point is the place of contact and Pose takes the rolling piece to where it
	// lies, both in the coordinates of the piece Base.
	Point geom.Point
	Pose  geom.Motion
}

// At returns the contact at a length walked on side A, clamped to the walk.
// Where a side has a corner, or goes on on another piece, the rolling piece
// pivots: pivoted says how much of that turn is done, from 0 on arriving to 1
// on leaving.
func (w *Walk) At(a, pivoted float64) Contact {
	end, _ := w.End()
	a = min(max(a, 0), end)
	c := Contact{A: a, B: w.Ease.B(a), Ease: w.Ease.EaseTo(a), Difference: w.difference(a)}
	stood, rolled := c.B, c.A
	if w.rolls == B {
		stood, rolled = c.A, c.B
	}
	before, after := w.touch(stood, rolled, true), w.touch(stood, rolled, false)
	t := after
	if pivoted < 1 {
		t = before
		if pivoted > 0 && w.same(before, after) {
			t.pose = before.pose.Then(geom.Turn(geom.Angle(pivoted)*before.pivot(after), before.point))
		}
	}
	c.Standing, c.Rolling = w.standing().Parts[t.standing].Piece, w.Run(w.rolls).Parts[t.rolling].Piece
	c.Point, c.Pose = t.point, t.pose
	return c
}

// Pivot returns the angle by which the rolling piece turns about the contact
// at a length on side A, positive counter-clockwise; 0 where it rolls on, or
// where the walk goes on on another piece.
func (w *Walk) Pivot(a float64) geom.Angle {
	stood, rolled := w.Ease.B(a), a
	if w.rolls == B {
		stood, rolled = rolled, stood
	}
	before, after := w.touch(stood, rolled, true), w.touch(stood, rolled, false)
	if !w.same(before, after) {
		return 0
	}
	return before.pivot(after)
}

// touch is a contact of two parts.
type touch struct {
	standing, rolling int // parts
	point             geom.Point
	pose              geom.Motion
}

// same reports whether one piece, lying on one face, touches in both.
func (w *Walk) same(before, after touch) bool {
	parts := w.Run(w.rolls).Parts
	return parts[before.rolling].Piece == parts[after.rolling].Piece && before.pose.Mirrors() == after.pose.Mirrors()
}

func (t touch) pivot(next touch) geom.Angle {
	a, _, _ := t.pose.Parts()
	b, _, _ := next.pose.Parts()
	return (b - a).Normalized()
}

// touch puts the place at rolled mm of the rolling side onto the one at stood
// mm of the standing side, its piece on the other side of the sew line.
func (w *Walk) touch(stood, rolled float64, arriving bool) touch {
	s, r := w.standing(), w.Run(w.rolls)
	i, f := s.locate(stood, arriving)
	j, m := r.locate(rolled, arriving)
	roll := geom.Roll{Fixed: s.paths[i].Transform(s.motions[i]), Moving: r.paths[j]}
	// The inside of a piece is to the left of its edges.
	left := (s.Parts[i].From < s.Parts[i].To) != s.motions[i].Mirrors()
	roll.Mirror = left == (r.Parts[j].From < r.Parts[j].To)
	t := touch{standing: i, rolling: j, point: roll.Fixed.At(f)}
	if arriving {
		t.pose = roll.Arriving(f, m)
	} else {
		t.pose = roll.Leaving(f, m)
	}
	return t
}

// locate returns the part that holds a length of the side and the length on
// it; at a joint the one that ends there on arriving, else the one that starts.
// A length that all but meets a corner is taken to be it.
func (r *Run) locate(at float64, arriving bool) (int, float64) {
	for _, c := range r.corners {
		if math.Abs(c-at) <= lengthSlack {
			at = c
		}
	}
	i, exact := slices.BinarySearch(r.starts, at)
	if i > 0 && (!exact || arriving || i == len(r.starts)) {
		i--
	}
	return i, at - r.starts[i]
}

// difference is the running difference at a length on side A: that of the
// notches passed last.
func (w *Walk) difference(a float64) float64 {
	end, _ := w.End()
	d := 0.0
	for _, pr := range append(slices.Clone(w.Pairs), Pair{A: w.A.Length, B: w.B.Length}) {
		if a < min(pr.A, end)-lengthSlack {
			break
		}
		d = w.Ease.B(pr.A) - pr.B
	}
	return d
}

// Laid returns the pieces of the standing side and the motions that lay them
// beside each other in the coordinates of the piece Base, each once.
func (w *Walk) Laid() (pieces []string, motions []geom.Motion) {
	s := w.standing()
	for i, pt := range s.Parts {
		if !slices.Contains(pieces, pt.Piece) {
			pieces, motions = append(pieces, pt.Piece), append(motions, s.motions[i])
		}
	}
	return pieces, motions
}

// Nearest returns the length on side A at which the contact is nearest to a
// place, in the coordinates of the piece Base.
func (w *Walk) Nearest(q geom.Point) float64 {
	s := w.standing()
	best, at := math.Inf(1), 0.0
	for i, path := range s.paths {
		if f := path.Transform(s.motions[i]).Nearest(q); f.Dist < best {
			best, at = f.Dist, s.starts[i]+f.S
		}
	}
	if w.rolls == A {
		at = w.Ease.A(at)
	}
	end, _ := w.End()
	return min(max(at, 0), end)
}

// Joint returns the spot at which a side goes on on its next edge at a length,
// if it does there.
func (w *Walk) Joint(h Hand, at float64) (pattern.Spot, bool) {
	r := w.Run(h)
	for i, from := range r.starts {
		if i > 0 && math.Abs(from-at) <= lengthSlack {
			pt := r.Parts[i-1]
			end := pattern.End
			if pt.From > pt.To {
				end = pattern.Start
			}
			return pattern.AtEnd(pt.Piece, pt.Edge, end), true
		}
	}
	return pattern.Spot{}, false
}

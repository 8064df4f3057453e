package walk

import (
	"errors"
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// ErrNoSharedStart is why two runs of her own cannot be walked as they are.
var ErrNoSharedStart = errors.New("has no shared start")

// meetSlack is the distance in mm within which two places are one.
const meetSlack = 0.5

// mark is a place on a piece.
type mark struct {
	piece string
	at    geom.Point
}

func (m mark) same(o mark) bool { return m.piece == o.piece && m.at.Near(o.at, meetSlack) }

// shareStart refuses two runs of her own that do not start at places that are
// stated to meet: a corner of one piece; places that seams lay on each other
// or that a line joins, over one piece or several; or places that lie on each
// other on the mat.
func (w *Walk) shareStart(p pattern.Pattern) error {
	meet := meetings(p)
	if w.meet(p, meet, pattern.Start, pattern.Start) {
		return nil
	}
	for _, ends := range [][2]pattern.EndName{{pattern.End, pattern.End}, {pattern.Start, pattern.End}, {pattern.End, pattern.Start}} {
		if w.meet(p, meet, ends[0], ends[1]) {
			return fmt.Errorf("%s starts at %s and %s, which do not meet; the runs meet at %s and %s: start from there, walking backwards what ends there",
				w.Name(), w.A.endWord(pattern.Start), w.B.endWord(pattern.Start), w.A.endWord(ends[0]), w.B.endWord(ends[1]))
		}
	}
	return fmt.Errorf("%s %w: no seam or line joins %s to %s, nor do they lie on each other on the mat; sew the two edges together first, or lay the one end on the other",
		w.Name(), ErrNoSharedStart, w.A.endWord(pattern.Start), w.B.endWord(pattern.Start))
}

// meet reports whether those ends of the two runs are stated to meet.
func (w *Walk) meet(p pattern.Pattern, meet [][2]mark, onA, onB pattern.EndName) bool {
	a, b := w.A.end(onA), w.B.end(onB)
	reached := []mark{a}
	for i := 0; i < len(reached); i++ {
		if reached[i].same(b) {
			return true
		}
		for _, pair := range meet {
			for k, m := range pair {
				if m.same(reached[i]) && !slices.ContainsFunc(reached, pair[1-k].same) {
					reached = append(reached, pair[1-k])
				}
			}
		}
	}
	pa, pb := w.A.last(onA), w.B.last(onB)
	if pa.Mirrored || pb.Mirrored {
		return false // only the stored hand lies on the mat
	}
	return p.Piece(a.piece).Pose.Apply(a.at).Near(p.Piece(b.piece).Pose.Apply(b.at), meetSlack)
}

// last returns the part of the run at an end.
func (r *Run) last(end pattern.EndName) pattern.Part {
	if end == pattern.End {
		return r.Parts[len(r.Parts)-1]
	}
	return r.Parts[0]
}

// end returns the place at which the run starts or ends.
func (r *Run) end(end pattern.EndName) mark {
	if end == pattern.End {
		last := len(r.Parts) - 1
		return mark{r.Parts[last].Piece, r.paths[last].End()}
	}
	return mark{r.Parts[0].Piece, r.paths[0].Start()}
}

// endWord names that place.
func (r *Run) endWord(end pattern.EndName) string {
	pt := r.last(end)
	share := pt.From
	if end == pattern.End {
		share = pt.To
	}
	switch spot := pattern.AtEnd(pt.Piece, pt.Edge, pattern.Start); share {
	case 0:
		return spot.String()
	case 1:
		spot.From = pattern.End
		return spot.String()
	default:
		spot.Share = share
		return spot.String()
	}
}

// meetings returns the pairs of places that the pattern states to meet: the
// ends of seams, the joints within their sides with what lies across, and
// where lines run on.
func meetings(p pattern.Pattern) [][2]mark {
	var out [][2]mark
	joint := func(a, b pattern.Part) {
		pa, errA := p.PartPath(a)
		pb, errB := p.PartPath(b)
		if errA == nil && errB == nil {
			out = append(out, [2]mark{{a.Piece, pa.End()}, {b.Piece, pb.Start()}})
		}
	}
	for _, s := range p.Seams {
		if len(s.A) == 0 || len(s.B) == 0 {
			continue
		}
		joint(s.A[0].Backwards(), s.B[0])
		joint(s.A[len(s.A)-1], s.B[len(s.B)-1].Backwards())
		spread := p.Spread(s)
		for _, side := range []struct {
			parts, over pattern.Side
			across      func(float64) float64
		}{{s.A, s.B, spread.B}, {s.B, s.A, spread.A}} {
			at := 0.0
			for i, pt := range side.parts[:len(side.parts)-1] {
				at += p.PartLength(pt)
				joint(pt, side.parts[i+1])
				if path, err := p.PartPath(pt); err == nil && spread.Sewable() {
					if m, ok := placeOn(p, side.over, side.across(at)); ok {
						out = append(out, [2]mark{{pt.Piece, path.End()}, m})
					}
				}
			}
		}
	}
	for _, l := range p.Lines {
		for i := range l.Parts[:max(len(l.Parts)-1, 0)] {
			joint(l.Parts[i], l.Parts[i+1])
		}
	}
	return out
}

// placeOn returns the place at a length of a side.
func placeOn(p pattern.Pattern, side pattern.Side, at float64) (mark, bool) {
	for _, pt := range side {
		length := p.PartLength(pt)
		if path, err := p.PartPath(pt); err == nil && at <= length {
			return mark{pt.Piece, path.At(max(at, 0))}, true
		}
		at -= length
	}
	return mark{}, false
}

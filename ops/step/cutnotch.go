package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/walk"
)

// partnerless is a notch whose partner is gone, or ends a seam now.
type partnerless struct {
	piece, notch string
	atEnd        bool // its partner is where the sewing ends
}

// matchNotches finds the notches of the partner that have nothing to match any
// more, and how the one is cut at which what is left of the cut side ends. a
// and b are left of the sides of the seam of p.
func (s *shortened) matchNotches(p pattern.Pattern, seam pattern.Seam, a, b remains) {
	left := a // of the cut side
	onB := s.b || a.empty()
	if !onB {
		left = b
	}
	end := math.NaN() // of what is left, where it was cut
	if len(left.list) == 1 {
		if end = left.list[0][1]; left.list[0][0] > placeSlack {
			end = left.list[0][0]
		}
	}
	for _, pr := range walk.Pairs(p, seam) {
		at, own, otherAt, other := pr.A, pr.NotchA, pr.B, pr.NotchB
		if !onB {
			at, own, otherAt, other = otherAt, other, at, own
		}
		freed := holds(s.freed, otherAt)
		switch {
		case math.Abs(at-end) <= placeSlack:
			s.double = s.double || own.Notch.Double
			if freed || s.notch != nil {
				s.old = append(s.old, partnerless{other.Piece, other.Notch.Name, s.notch != nil})
			}
		case freed && !holds(left.list, at):
			s.old = append(s.old, partnerless{other.Piece, other.Notch.Name, false})
		}
	}
}

// holds reports whether a place lies on one of the stretches.
func holds(stretches [][2]float64, at float64) bool {
	return slices.ContainsFunc(stretches, func(st [2]float64) bool { return at >= st[0]-placeSlack && at <= st[1]+placeSlack })
}

// takeOld takes those notches away and returns a sentence for each.
func (s shortened) takeOld(out *Output) (notes []string) {
	for _, o := range s.old {
		pc := out.Pattern.Piece(o.piece)
		if pc == nil || pc.Notch(o.notch) == nil {
			continue
		}
		pc.Notches = slices.DeleteFunc(pc.Notches, func(n pattern.Notch) bool { return n.Name == o.notch })
		why := "what it met is cut off"
		if o.atEnd {
			why = "the new one comes in its place"
		}
		notes = append(notes, fmt.Sprintf("The old %s of %s is taken away: %s.", pattern.NotchSaid(o.notch), o.piece, why))
	}
	return notes
}

package worn

import (
	"math"

	"truemat/ops/pattern"
)

// span is a part of a side from one distance along the seam to another, both
// as shares of the side.
type span struct {
	part     pattern.Part
	from, to float64
}

func spans(p pattern.Pattern, side pattern.Side) []span {
	var out []span
	all, s := p.Length(side), 0.0
	if all == 0 {
		return nil
	}
	for _, pt := range side {
		n := p.PartLength(pt)
		out = append(out, span{pt, s / all, (s + n) / all})
		s += n
	}
	return out
}

// meets returns the stretches of a seam along which one piece is sewn to one
// other.
func (l *layer) meets(s pattern.Seam) []Meet {
	var out []Meet
	a, b := l.p.Length(s.A), l.p.Length(s.B)
	for _, u := range spans(l.p, s.A) {
		for _, v := range spans(l.p, s.B) {
			from, to := math.Max(u.from, v.from), math.Min(u.to, v.to)
			if (to-from)*max(a, b) < meetsLeast {
				continue
			}
			middle := (from + to) / 2
			p, okA := at(l.p, s.A, middle*a)
			q, okB := at(l.p, s.B, middle*b)
			if !okA || !okB {
				continue
			}
			i, j := l.index(p.part.Piece), l.index(q.part.Piece)
			m := Meet{Seam: s.Name, A: l.at[i].Apply(p.point), B: l.at[j].Apply(q.point), On: [2]int{i, j}}
			if m.Mirrored = [2]bool{p.part.Mirrored, q.part.Mirrored}; p.part.Mirrored {
				m.A = over(m.A)
			}
			if q.part.Mirrored {
				m.B = over(m.B)
			}
			out = append(out, m)
		}
	}
	return out
}

// meetsLeast is the length in mm below which pieces do not count as sewn to
// each other: where corners come together by a hair.
const meetsLeast = 3.0

package worn

import (
	"truemat/geom"
	"truemat/ops/pattern"
)

// hand says in which half of the garment a piece lies.
type hand int

const (
	both  hand = iota // of a pair, on the fold, or across centre front
	left              // on the wearer's left only
	right             // on her right only
)

// over reflects across centre front.
func over(q geom.Point) geom.Point { return geom.Pt(-q.X, q.Y) }

// overMotion is over as a motion.
func overMotion() geom.Motion {
	m, err := geom.Mirror(geom.Point{}, geom.Pt(0, 1))
	if err != nil {
		return geom.Identity() // the line has two points
	}
	return m
}

// hands tells of each piece in which half it lies. One that is cut once is of
// the half to which its seams join it; one that is joined to both lies across.
func hands(p pattern.Pattern) []hand {
	index := map[string]int{}
	for i := range p.Pieces {
		index[p.Pieces[i].Name] = i
	}
	single := func(i int) bool { return p.Pieces[i].Fold() == nil && !p.Pieces[i].Cut.Pair }
	joined := make([][3]bool, len(p.Pieces))
	out := make([]hand, len(p.Pieces))
	for range p.Pieces { // as far as single pieces are joined to single ones
		for _, s := range p.Seams {
			for _, u := range spans(p, s.A) {
				for _, v := range spans(p, s.B) {
					if min(u.to, v.to)-max(u.from, v.from) <= 0 {
						continue
					}
					for _, w := range [][2]pattern.Part{{u.part, v.part}, {v.part, u.part}} {
						i, j := index[w[0].Piece], index[w[1].Piece]
						if !single(i) || i == j {
							continue
						}
						switch {
						case !single(j) && w[1].Mirrored:
							joined[i][right] = true
						case !single(j):
							joined[i][left] = true
						case single(j) && out[j] != both:
							joined[i][out[j]] = true
						}
					}
				}
			}
		}
		for i := range out {
			out[i] = both
			if joined[i][left] != joined[i][right] {
				out[i] = left
				if joined[i][right] {
					out[i] = right
				}
			}
		}
	}
	return out
}

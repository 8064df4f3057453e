package pattern

import "math"

// Partnered is a sewn edge that is to have a partner, and how many mm of it no
// seam covers.
type Partnered struct {
	Piece, Edge string
	Bare        float64
}

// PartnerSlack is how much of a sewn edge, in mm, may be left over by rounding.
const PartnerSlack = 0.05

// Partnered lists the sewn edges that are not declared free, in the order of
// the pieces and their edges.
func (p Pattern) Partnered() []Partnered {
	type key struct{ piece, edge string }
	covered := map[key]float64{}
	for _, seam := range p.Seams {
		for _, side := range []Side{seam.A, seam.B} {
			for _, pt := range side {
				covered[key{pt.Piece, pt.Edge}] += math.Abs(pt.To - pt.From)
			}
		}
	}
	var out []Partnered
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for j := range pc.Edges {
			if e := &pc.Edges[j]; e.Role.Sewn() && !e.Free {
				out = append(out, Partnered{pc.Name, e.Name, e.Length() * (1 - covered[key{pc.Name, e.Name}])})
			}
		}
	}
	return out
}

package worn

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Way tells which way round a piece goes: the edges that look up, down, to
// centre front and to the side, on the wearer's left. A name is empty where no
// edge looks that way.
type Way struct {
	Piece string `json:"piece"`
	Up    string `json:"up"`
	Down  string `json:"down"`
	// Front looks to centre front, Side away from it; of a piece in the middle
	// Front is its fold.
	Front string `json:"centre_front"`
	Side  string `json:"side"`
	// Seams are those in which it is sewn.
	Seams []string `json:"seams"`
}

// Ways tells of every piece of a layout which way round it goes. The edge that
// looks a way is the one whose extent seen from there is the greatest (its
// normals summed along it), among those that look there more than elsewhere if
// there are any.
func Ways(p pattern.Pattern, l Layout) []Way {
	var out []Way
	for _, o := range l.Placed {
		pc := p.Piece(o.Piece)
		if pc == nil {
			continue
		}
		looks := func(way geom.Point) string {
			best, most, mostly := "", looksLeast, false
			for _, e := range pc.Edges {
				chord := o.Motion.Apply(e.Path.End()).Sub(o.Motion.Apply(e.Path.Start()))
				// The outline runs counter-clockwise, so outside is at its right.
				out := geom.Pt(chord.Y, -chord.X)
				seen := out.Dot(way)
				main := seen >= math.Abs(out.Cross(way))
				if seen > looksLeast && (main && !mostly || main == mostly && seen > most) {
					best, most, mostly = e.Name, seen, main
				}
			}
			return best
		}
		w := Way{Piece: o.Piece, Up: looks(geom.Pt(0, 1)), Down: looks(geom.Pt(0, -1)), Front: looks(geom.Pt(-1, 0)), Side: looks(geom.Pt(1, 0)), Seams: []string{}}
		for _, s := range p.Seams {
			for _, pt := range append(append(pattern.Side(nil), s.A...), s.B...) {
				if pt.Piece == o.Piece {
					w.Seams = append(w.Seams, s.Name)
					break
				}
			}
		}
		out = append(out, w)
	}
	return out
}

// looksLeast is the extent in mm below which an edge looks no way.
const looksLeast = 1.0

package worn

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Way tells which way round a piece goes: the edges that look up, down, to
// centre front and to the side, in the half where it lies, the longest first, with
// commas between them. Each edge looks one way; a name is empty where but a
// corner does.
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

// Ways tells of every piece of a layout which way round it goes. An edge looks
// the way nearest to its normals, summed along it; one that is short beside
// another that looks there too is left out.
func Ways(p pattern.Pattern, l Layout) []Way {
	var out []Way
	for _, o := range l.Placed {
		pc := p.Piece(o.Piece)
		if pc == nil {
			continue
		}
		looks := func(way geom.Point) string {
			seen := map[string]float64{}
			var names []string
			for _, e := range pc.Edges {
				chord := o.Motion.Apply(e.Path.End()).Sub(o.Motion.Apply(e.Path.Start()))
				// The outline runs counter-clockwise, so outside is at its right.
				out := geom.Pt(chord.Y, -chord.X)
				if s := out.Dot(way); s > looksLeast && s >= math.Abs(out.Cross(way)) {
					seen[e.Name] = s
					names = append(names, e.Name)
				}
			}
			slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(seen[b], seen[a]) })
			names = slices.DeleteFunc(names, func(n string) bool { return seen[n] < looksShare*seen[names[0]] })
			return strings.Join(names, ", ")
		}
		front := geom.Pt(-1, 0)
		if o.Right {
			front = over(front)
		}
		w := Way{Piece: o.Piece, Up: looks(geom.Pt(0, 1)), Down: looks(geom.Pt(0, -1)), Front: looks(front), Side: looks(over(front)), Seams: []string{}}
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

// Looks writes what of a piece looks a way, of a Way.
func Looks(edges string) string {
	if edges == "" {
		return "a corner"
	}
	return edges
}

const (
	looksLeast = 1.0  // mm of extent below which an edge looks no way
	looksShare = 0.25 // of the greatest extent, below which another is left out
)

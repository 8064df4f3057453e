package render

import (
	"truemat/geom"
	"truemat/ops/pattern"
)

// shapeDart is a dart whose cloth stays folded, as it is to be drawn.
type shapeDart struct{ fold, point geom.Point } // its fold runs from the mouth to the point

var dartFoldPen = Pen{Width: 0.12, Color: dark, Dash: []float64{3, 1, 0.6, 1}}

const (
	dartPoint = 0.7    // radius of the sign at a dart's point, mm
	dartName  = "dart" // of the figures of one
	dartWords = "fold and sew"
)

// dartsOf returns the darts among edges that follow each other.
func dartsOf(edges []shapeEdge) []shapeDart {
	var out []shapeDart
	for i, e := range edges {
		if e.role != pattern.DartEdge || !e.second {
			continue
		}
		for k, o := range edges {
			if k == i || o.role != pattern.DartEdge || o.second {
				continue
			}
			for _, way := range [][2]geom.Path{{o.path, e.path}, {o.path.Reverse(), e.path.Reverse()}} {
				if way[0].End().Dist(way[1].Start()) > dartMeets {
					continue
				}
				point, mouth := (pattern.FoldedDart{Mouth: [2]geom.Point{way[0].Start(), way[1].End()}, Point: way[1].Start()}).Fold()
				out = append(out, shapeDart{mouth, point})
				break
			}
		}
	}
	return out
}

// dartMeets is how near in mm the legs of a dart meet at its point.
const dartMeets = 1e-6

// dartEdges tells of each edge of a piece whether it is the second leg of a dart
// whose cloth stays folded.
func dartEdges(pc *pattern.Piece) []bool {
	n := len(pc.Edges)
	second := make([]bool, n)
	for first := range n {
		if pc.Edges[first].Role == pattern.DartEdge && pc.Edges[pc.Prev(first)].Role != pattern.DartEdge {
			for k := 0; k < n && pc.Edges[(first+k)%n].Role == pattern.DartEdge; k++ {
				second[(first+k)%n] = k%2 == 1
			}
		}
	}
	return second
}

// dartSigns draws the fold and the point of each dart.
func dartSigns(darts []shapeDart, sew Pen) []Figure {
	var out []Figure
	for _, d := range darts {
		fold := dartFoldPen
		fold.Color = sew.Color
		out = append(out,
			Figure{Kind: FoldLine, Name: dartName, Path: polyline(d.fold, d.point), Pen: fold},
			Figure{Kind: InnerLine, Name: dartName, Path: circle(d.point, dartPoint), Pen: Pen{Width: 0.2, Color: sew.Color}})
	}
	return out
}

// HasDart reports whether a piece has a dart whose cloth stays folded.
func HasDart(pc *pattern.Piece) bool {
	for _, e := range pc.Edges {
		if e.Role == pattern.DartEdge {
			return true
		}
	}
	return false
}

// DartSays tells how the darts of a plan are drawn.
const DartSays = "A dart: its legs dashed, its fold dashed and dotted to a ring at the point; fold and sew it, do not cut it."

// hasDart reports whether a piece that is printed has such a dart.
func (doc Print) hasDart() bool {
	for _, s := range doc.Sizes {
		for i := range s.Pieces {
			if HasDart(&s.Pieces[i]) {
				return true
			}
		}
	}
	return false
}

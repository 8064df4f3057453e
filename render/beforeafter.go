package render

import (
	"fmt"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Numbered is an edge with a number by which a table speaks of it.
type Numbered struct {
	Piece, Edge string
	Number      int
}

// BeforeAfter returns a picture of pieces as they lie on the mat: as they were
// faintly, as they are with cut line and sew line, their names, and numbers at
// edges.
func BeforeAfter(before, after []pattern.Piece, numbered []Numbered) Drawing {
	return func(b geom.Box) Layer {
		was, is := shapes(before), shapes(after)
		whole := geom.NoBox()
		for _, s := range append(append([]shape(nil), was...), is...) {
			whole = whole.Union(s.cut.Bounds())
		}
		b = b.Grow(-beforeAfterRim)
		if whole.Empty() || b.Empty() {
			return Layer{}
		}
		k := min(b.Width()/whole.Width(), b.Height()/whole.Height(), 1)
		shift := b.Center().Sub(whole.Center().Mul(k))
		var l Layer
		for _, s := range was {
			l.Figures = append(l.Figures, Figure{Kind: GhostLine, Path: scaled(s.cut, k, shift), Pen: Pen{Width: 0.15, Color: faint, Dash: []float64{0.8, 0.6}}})
		}
		for i, s := range is {
			cut := scaled(s.cut, k, shift)
			l.Figures = append(l.Figures, Figure{Kind: CutLine, Path: cut, Pen: Pen{Width: 0.25, Color: black}})
			for _, e := range s.edges {
				if e.beside() {
					l.Figures = append(l.Figures, Figure{Kind: SewLine, Path: scaled(e.path, k, shift), Pen: Pen{Width: 0.12, Color: grey, Dash: []float64{0.6, 0.5}}})
				}
			}
			var dots []geom.Point
			var numbers Layer
			for _, n := range numbered {
				if n.Piece == after[i].Name {
					o := numberAt(n, s, k, shift, dots)
					numbers = numbers.with(o)
					for _, t := range o.Labels {
						dots = append(dots, t.At)
					}
				}
			}
			l = l.with(pieceName(after[i].Name, cut, dots...)).with(numbers)
		}
		return l
	}
}

// beforeAfterRim is the white around the pieces in mm.
const beforeAfterRim = 2

func shapes(pieces []pattern.Piece) []shape {
	var out []shape
	for _, pc := range pieces {
		s, err := shapeOf(pc, pc.Pose)
		if err != nil {
			s = shape{} // what has no cut line is told by the checks
		}
		out = append(out, s)
	}
	return out
}

// pieceName writes a name on a small outline, in one line or a word a line,
// away from the places to avoid, or nothing where it cannot be read.
func pieceName(name string, cut geom.Path, avoid ...geom.Point) Layer {
	if cut.Empty() {
		return Layer{}
	}
	at := roomiest(cut, avoid)
	best, height := []string(nil), 0.0
	for _, lines := range [][]string{{name}, strings.Fields(name)} {
		h := nameText
		for h >= leastRead && !holds(cut, lines, h, at) {
			h *= 0.95
		}
		if h > height+0.01 && h >= leastRead {
			best, height = lines, h
		}
	}
	if best == nil && len(avoid) > 0 {
		return pieceName(name, cut) // rather over a mark than not at all
	}
	l := Layer{}
	for i, text := range best {
		l.Labels = append(l.Labels, Label{Text: text, At: nameLine(at, i, len(best), height), Height: height, Anchor: Middle, Color: black})
	}
	return l
}

// nameWhite is the white in mm that is kept between a name and an outline.
const nameWhite = 0.5

// nameText is the height of capitals of a name in mm, where there is room.
const nameText = 1.9

// nameLine returns where the baseline of a line of a name has its middle.
func nameLine(at geom.Point, i, n int, height float64) geom.Point {
	return at.Add(geom.Pt(0, (float64(n)/2-float64(i))*height*1.7-height*1.35))
}

// holds reports whether all corners of the lines of a name lie in the outline,
// with white between.
func holds(cut geom.Path, lines []string, height float64, at geom.Point) bool {
	for i, text := range lines {
		q, half := nameLine(at, i, len(lines), height), TextWidth(text, height, false)/2
		for _, x := range []float64{-half, 0, half} {
			for _, y := range []float64{0, height} {
				corner := q.Add(geom.Pt(x, y))
				if !cut.Contains(corner) || cut.Nearest(corner).Dist < nameWhite {
					return false
				}
			}
		}
	}
	return true
}

// roomiest returns the place inside an outline that is farthest from it and
// from the places to avoid, among those of a grid.
func roomiest(outline geom.Path, avoid []geom.Point) geom.Point {
	const n = 24
	b := outline.Bounds()
	best, far := outline.Centroid(), 0.0
	for i := range n {
		for j := range n {
			q := b.Min.Add(geom.Pt(b.Width()*(float64(i)+0.5)/n, b.Height()*(float64(j)+0.5)/n))
			d := outline.Nearest(q).Dist
			for _, a := range avoid {
				d = min(d, q.Dist(a)-numberDot)
			}
			if d > far && outline.Contains(q) {
				best, far = q, d
			}
		}
	}
	return best
}

// numberAt writes a number on a white dot at the middle of an edge.
func numberAt(n Numbered, s shape, k float64, shift geom.Point, taken []geom.Point) Layer {
	for _, e := range s.edges {
		if e.name != n.Edge {
			continue
		}
		along := func(share float64) geom.Point { return e.path.At(e.path.Length() * share).Mul(k).Add(shift) }
		var at geom.Point
		clear := -1.0
		for _, share := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9} {
			q := along(share)
			room := 2*numberDot + letterRim
			for _, o := range taken {
				room = min(room, q.Dist(o.Add(geom.Pt(0, numberText/2))))
			}
			if room > clear {
				at, clear = q, room
			}
		}
		return Layer{
			Figures: []Figure{{Kind: Backing, Path: circle(at, numberDot), Pen: Pen{Width: 0.15, Color: black}, Fill: white}},
			Labels:  []Label{{Text: fmt.Sprint(n.Number), At: at.Sub(geom.Pt(0, numberText/2)), Height: numberText, Anchor: Middle, Color: black, Bold: true}},
		}
	}
	return Layer{}
}

const (
	numberDot  = 1.9 // radius, mm
	numberText = 1.5
)

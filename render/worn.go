package render

import (
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/cloth/worn"
)

// Worn returns a picture of the pieces laid out as in the finished garment,
// both halves, seen from outside. A seam's letter stands on
// each piece that is sewn in it, wherever it meets another, and once beside a
// dart, which is drawn as the line that is seen of it; seams without one are not
// lettered. The name of a piece that has no room beside its letters stands on the
// other half.
func Worn(l worn.Layout, letters map[string]string) Drawing {
	return func(b geom.Box) Layer {
		over, err := geom.Mirror(geom.Point{}, geom.Pt(0, 1))
		if err != nil {
			return Layer{}
		}
		whole := geom.NoBox()
		for _, o := range l.Placed {
			whole = whole.Union(o.Outline.Bounds()).Union(o.Outline.Transform(over).Bounds())
		}
		b = b.Grow(-beforeAfterRim)
		if whole.Empty() || b.Empty() {
			return Layer{}
		}
		k := min(b.Width()/whole.Width(), b.Height()/whole.Height(), 1)
		shift := b.Center().Sub(whole.Center().Mul(k))
		at := func(q geom.Point) geom.Point { return q.Mul(k).Add(shift) }
		var d Layer
		front := polyline(at(geom.Pt(0, whole.Min.Y)), at(geom.Pt(0, whole.Max.Y)))
		d.Figures = append(d.Figures, Figure{Kind: FoldLine, Path: front, Pen: Pen{Width: 0.12, Color: faint, Dash: []float64{2, 0.8, 0.4, 0.8}}})
		var cuts, others []geom.Path
		for _, o := range l.Placed {
			cut := scaled(o.Outline, k, shift)
			other := scaled(o.Outline.Transform(over), k, shift)
			cuts, others = append(cuts, cut), append(others, other)
			d.Figures = append(d.Figures, Figure{Kind: CutLine, Path: cut, Pen: Pen{Width: 0.25, Color: black}})
			if !o.Middle {
				d.Figures = append(d.Figures, Figure{Kind: GhostLine, Path: other, Pen: Pen{Width: 0.2, Color: grey}})
			}
		}
		var dots []geom.Point
		var marks Layer
		letter := func(text string, q geom.Point) {
			marks.Figures = append(marks.Figures, Figure{Kind: Backing, Path: circle(q, numberDot), Pen: Pen{Width: 0.15, Color: black}, Fill: white})
			marks.Labels = append(marks.Labels, Label{Text: text, At: q.Sub(geom.Pt(0, numberText/2)), Height: numberText, Anchor: Middle, Color: black, Bold: true})
		}
		darts := make([][]geom.Path, len(cuts))   // of each piece
		ghosts := make([][]geom.Point, len(cuts)) // places on them in the other half
		for _, s := range l.Darts {
			if s.Mouth.Dist(s.Point)*k < geom.Coincident {
				continue
			}
			line := polyline(at(s.Mouth), at(s.Point))
			darts[s.On] = append(darts[s.On], line)
			d.Figures = append(d.Figures, Figure{Kind: InnerLine, Name: dartName, Path: line, Pen: Pen{Width: 0.25, Color: black}})
			if !l.Placed[s.On].Middle {
				other := polyline(at(over.Apply(s.Mouth)), at(over.Apply(s.Point)))
				ghosts[s.On] = append(ghosts[s.On], sampled(other)...)
				d.Figures = append(d.Figures, Figure{Kind: GhostLine, Name: dartName, Path: other, Pen: Pen{Width: 0.2, Color: grey}})
			}
		}
		for _, m := range l.Meets {
			if letters[m.Seam] == "" {
				continue
			}
			a, c := at(m.A), at(m.B)
			own := func(k int) geom.Path {
				if m.Mirrored[k] {
					return others[m.On[k]]
				}
				return cuts[m.On[k]]
			}
			off := func(k int) []geom.Path {
				if m.Mirrored[k] {
					return nil
				}
				return darts[m.On[k]]
			}
			p := letterSpot(a, c, own(0), dots, off(0)...)
			q := letterSpot(c, a, own(1), append(dots[:len(dots):len(dots)], p), off(1)...)
			dots = append(dots, p, q)
			d.Figures = append(d.Figures, Figure{Kind: Extent, Path: polyline(a, c), Pen: Pen{Width: 0.15, Color: grey, Dash: []float64{0.4, 0.4}}})
			letter(letters[m.Seam], p)
			letter(letters[m.Seam], q)
		}
		for _, s := range l.Darts {
			if letters[s.Seam] == "" {
				continue
			}
			middle := at(s.Mouth.Lerp(s.Point, 0.5))
			q := letterSpot(middle, middle, cuts[s.On], dots, darts[s.On]...)
			dots = append(dots, q)
			letter(letters[s.Seam], q)
		}
		var discs []geom.Point
		for _, q := range dots {
			discs = append(append(discs, q), sampled(circle(q, numberDot))...)
		}
		for i, o := range l.Placed {
			avoid := discs[:len(discs):len(discs)]
			for _, line := range darts[i] {
				avoid = append(avoid, sampled(line)...)
			}
			var middle []geom.Point
			if o.Middle {
				middle = sampled(front)
			}
			name, ok := nameClearOf(o.Piece, cuts[i], slices.Concat(avoid, middle))
			switch {
			case ok:
			case o.Middle:
				name = clearName(o.Piece, cuts[i], avoid, middle)
			default: // there are no letters on the other half
				name = clearName(o.Piece, others[i], ghosts[i])
			}
			d = d.with(name)
		}
		return d.with(marks)
	}
}

// letterSpot returns where the letter of a seam stands: inside the piece at its
// side, as near to the middle of the side as leaves the outline and the other
// letters and lines free. Other is the middle of the side that it meets.
func letterSpot(side, other geom.Point, own geom.Path, dots []geom.Point, lines ...geom.Path) geom.Point {
	best, least := side, math.Inf(1)
	for _, r := range []float64{2.2, 2.6, 3, 3.5, 4, 5, 6, 7.5, 9} {
		for i := range 32 {
			q := side.Add((geom.Angle(i) * 11.25 * geom.Degree).Unit().Mul(r))
			if !own.Contains(q) {
				continue
			}
			cost := r + 0.02*q.Dist(other)
			cost += 8 * max(numberDot+letterRim-own.Nearest(q).Dist, 0)
			for _, l := range lines {
				cost += 8 * max(numberDot+letterRim-l.Nearest(q).Dist, 0)
			}
			for _, o := range dots {
				cost += 8 * max(2*numberDot+letterRim-q.Dist(o), 0)
			}
			if cost < least {
				best, least = q, cost
			}
		}
	}
	return best
}

// letterRim is the white in mm between a letter and what stands beside it.
const letterRim = 0.3

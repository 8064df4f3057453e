package render

import (
	"truemat/geom"
	"truemat/ops/cloth/worn"
)

// Worn returns a picture of the pieces laid out as in the finished garment,
// both halves, seen from outside. A seam's letter stands on both its sides;
// seams without one are not lettered.
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
		for _, o := range l.Placed {
			cut := scaled(o.Outline, k, shift)
			d.Figures = append(d.Figures, Figure{Kind: CutLine, Path: cut, Pen: Pen{Width: 0.25, Color: black}})
			d = d.with(pieceName(o.Piece, cut))
			if !o.Middle {
				d.Figures = append(d.Figures, Figure{Kind: GhostLine, Path: scaled(o.Outline.Transform(over), k, shift), Pen: Pen{Width: 0.2, Color: grey}})
			}
		}
		for _, m := range l.Meets {
			if letters[m.Seam] == "" {
				continue
			}
			a, c := at(m.A), at(m.B)
			d.Figures = append(d.Figures, Figure{Kind: Extent, Path: polyline(a, c), Pen: Pen{Width: 0.15, Color: grey, Dash: []float64{0.4, 0.4}}})
			for _, q := range []geom.Point{a, c} {
				d.Figures = append(d.Figures, Figure{Kind: Backing, Path: circle(q, numberDot), Pen: Pen{Width: 0.15, Color: black}, Fill: white})
				d.Labels = append(d.Labels, Label{Text: letters[m.Seam], At: q.Sub(geom.Pt(0, numberText/2)), Height: numberText, Anchor: Middle, Color: black, Bold: true})
			}
		}
		return d
	}
}

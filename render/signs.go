package render

import (
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

// Pens of the marks on paper, in mm.
var (
	cutPen   = Pen{Width: 0.5, Color: black}
	sewPen   = Pen{Width: 0.25, Color: dark, Dash: []float64{3, 1.5}}
	notchPen = Pen{Width: 0.5, Color: black}
	innerPen = Pen{Width: 0.25, Color: dark}
	jointPen = Pen{Width: 0.25, Color: dark, Dash: []float64{6, 1.2, 0.6, 1.2}}
	signPen  = Pen{Width: 0.3, Color: black}
	oldPen   = Pen{Width: 0.2, Color: grey}
	foldPen  = Pen{Width: 0.25, Color: dark, Dash: []float64{10, 1.5, 2, 1.5}}
	ghostPen = Pen{Width: 0.25, Color: faint}
)

const (
	notchBeyond = 2.0 // how far a notch's stroke reaches over the cut line
	notchInside = 3.0 // and how far inside it, never over half the allowance
	markLength  = 4.0 // of a mark on an edge without allowance
	markGap     = 1.0 // between that mark and the edge, so that none snips it
	headLength  = 4.0 // of an arrow head
	headWidth   = 1.4 // half of it
	arrowHalf   = 2.0 // how far signs on an arrow reach to its sides
)

// polyline is a path through points that may coincide; empty when all do.
func polyline(pts ...geom.Point) geom.Path {
	p, err := geom.Polyline(pts...)
	if err != nil {
		return geom.Path{}
	}
	return p
}

// polygon is polyline, closed.
func polygon(pts ...geom.Point) geom.Path {
	segs := make([]geom.Cubic, len(pts))
	for i, p := range pts {
		segs[i] = geom.Straight(p, pts[(i+1)%len(pts)])
	}
	p, err := geom.NewClosed(segs...)
	if err != nil {
		return geom.Path{}
	}
	return p
}

// rectangle is the outline of a box.
func rectangle(b geom.Box) geom.Path {
	return polygon(b.Min, geom.Pt(b.Max.X, b.Min.Y), b.Max, geom.Pt(b.Min.X, b.Max.Y))
}

// circle is a circle of four cubics, within 2.8e-4 of its radius.
func circle(c geom.Point, r float64) geom.Path {
	k := 4.0 / 3 * math.Tan(math.Pi/8) * r
	var segs []geom.Cubic
	for i := range 4 {
		u := geom.Angle(float64(i) * math.Pi / 2).Unit()
		v := u.Perp()
		a, b := c.Add(u.Mul(r)), c.Add(v.Mul(r))
		segs = append(segs, geom.Curve(a, a.Add(v.Mul(k)), b.Add(u.Mul(k)), b))
	}
	p, err := geom.NewClosed(segs...)
	if err != nil {
		return geom.Path{}
	}
	return p
}

// figures draws a notch: a stroke across the cut line, or where there is no
// allowance a ringed mark inside, since nothing may be snipped there.
func (n shapeNotch) figures(pen Pen) []Figure {
	if n.allowance <= 0 {
		in, fine := n.out.Mul(-1), Pen{Width: signPen.Width, Color: pen.Color}
		a, b := n.at.Add(in.Mul(markGap)), n.at.Add(in.Mul(markGap+markLength))
		return []Figure{
			{Kind: NotchMark, Path: polyline(a, b), Pen: fine},
			{Kind: NotchMark, Path: circle(b.Add(in.Mul(0.7)), 0.7), Pen: fine},
		}
	}
	a := n.at.Add(n.out.Mul(n.allowance - min(notchInside, n.allowance/2)))
	b := n.at.Add(n.out.Mul(n.allowance + notchBeyond))
	return []Figure{{Kind: NotchMark, Path: polyline(a, b), Pen: pen}}
}

// apexSign is a crossed circle.
func apexSign(c geom.Point) []Figure {
	const r, arm = 2.5, 4.0
	return []Figure{
		{Kind: ApexSign, Path: circle(c, r), Pen: signPen},
		{Kind: ApexSign, Path: polyline(c.Sub(geom.Pt(arm, 0)), c.Add(geom.Pt(arm, 0))), Pen: signPen},
		{Kind: ApexSign, Path: polyline(c.Sub(geom.Pt(0, arm)), c.Add(geom.Pt(0, arm))), Pen: signPen},
	}
}

// arrowFigures draws an arrow with two heads: a plain shaft for the grain, a
// shaft that swings in the middle like a drawn-out spring for the greatest
// stretch, two bars across the shaft for the least.
func arrowFigures(a pattern.Arrow) []Figure {
	d := a.To.Sub(a.From)
	length := d.Norm()
	if length < 2*headLength {
		return nil
	}
	u := d.Unit()
	v := u.Perp()
	at := func(x, y float64) geom.Point { return a.From.Add(u.Mul(x)).Add(v.Mul(y)) }
	head := func(tip, dir float64) Figure {
		base := tip - dir*headLength
		return Figure{Kind: ArrowLine, Path: polygon(at(tip, 0), at(base, headWidth), at(base, -headWidth)), Fill: black}
	}
	line := func(pts ...geom.Point) Figure {
		return Figure{Kind: ArrowLine, Path: polyline(pts...), Pen: signPen}
	}
	figs := []Figure{head(length, 1), head(0, -1)}
	mid := length / 2
	switch a.Kind {
	case pattern.MostStretch:
		const swing, turns = arrowHalf - 0.5, 4
		half := min(mid-headLength, 8)
		pts := []geom.Point{at(headLength, 0), at(mid-half, 0)}
		for i := range 2 * turns {
			side := swing
			if i%2 == 1 {
				side = -swing
			}
			pts = append(pts, at(mid-half+half*(float64(i)+0.5)/turns, side))
		}
		pts = append(pts, at(mid+half, 0), at(length-headLength, 0))
		figs = append(figs, line(pts...))
	case pattern.LeastStretch:
		figs = append(figs, line(at(headLength, 0), at(length-headLength, 0)))
		for _, x := range []float64{mid - 0.8, mid + 0.8} {
			figs = append(figs, line(at(x, -arrowHalf), at(x, arrowHalf)))
		}
	default:
		figs = append(figs, line(at(headLength, 0), at(length-headLength, 0)))
	}
	return figs
}

// oldArrow draws the arrow of a piece that was taped on: thin, with open heads.
func oldArrow(p geom.Path) []Figure {
	figs := []Figure{{Kind: InnerLine, Path: p, Pen: oldPen}}
	for _, end := range [2]geom.Path{p, p.Reverse()} {
		tip, back := end.Start(), end.TangentAt(0).Mul(headLength*0.6)
		side := back.Perp().Mul(0.4)
		figs = append(figs, Figure{Kind: InnerLine, Path: polyline(tip.Add(back).Add(side), tip, tip.Add(back).Sub(side)), Pen: oldPen})
	}
	return figs
}

// arrowText says what an arrow shows.
func arrowText(k pattern.ArrowKind) string {
	switch k {
	case pattern.MostStretch:
		return "greatest stretch"
	case pattern.LeastStretch:
		return "least stretch"
	}
	return "grain"
}

// bracketDepth is how far the fold bracket stands inside the fold, in mm.
const bracketDepth = 4

// bracket draws the sign for the fold: a line beside it whose ends bend at
// right angles and point at it. The inside lies to the left of a→b.
func bracket(a, b geom.Point) (figs []Figure, inset float64) {
	d := b.Sub(a)
	length := d.Norm()
	u := d.Unit()
	in := u.Perp()
	inset = min(length*0.15, 10)
	depth := min(bracketDepth, length*0.15)
	head := min(headLength*0.7, depth*0.6)
	p, q := a.Add(u.Mul(inset)), b.Sub(u.Mul(inset))
	figs = []Figure{{Kind: FoldSign, Pen: signPen, Path: polyline(p.Add(in.Mul(head)), p.Add(in.Mul(depth)), q.Add(in.Mul(depth)), q.Add(in.Mul(head)))}}
	for _, tip := range []geom.Point{p, q} {
		tip = tip.Add(in.Mul(0.4))
		base := tip.Add(in.Mul(head))
		w := u.Mul(head * 0.4)
		figs = append(figs, Figure{Kind: FoldSign, Fill: black, Path: polygon(tip, base.Add(w), base.Sub(w))})
	}
	return figs, depth
}

package render

import (
	"cmp"
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// scaled returns a path k times as large, then shifted.
func scaled(p geom.Path, k float64, shift geom.Point) geom.Path {
	segs := p.Segments()
	at := func(q geom.Point) geom.Point { return q.Mul(k).Add(shift) }
	for i, c := range segs {
		if c.IsStraight() {
			segs[i] = geom.Straight(at(c.P[0]), at(c.P[3]))
		} else {
			segs[i] = geom.Curve(at(c.P[0]), at(c.P[1]), at(c.P[2]), at(c.P[3]))
		}
	}
	build := geom.NewPath
	if p.Closed() {
		build = geom.NewClosed
	}
	r, err := build(segs...)
	if err != nil {
		return geom.Path{}
	}
	return r
}

// pageMap draws the pages with their numbers and the pieces on them, as large
// as fits into b.
func (p Plan) pageMap(doc Print, b geom.Box) Layer {
	whole := geom.NoBox()
	for r := range p.Rows {
		for c := range p.Cols {
			whole = whole.Union(p.grid.kept(r, c, p.Rows, p.Cols))
		}
	}
	if whole.Empty() || b.Empty() {
		return Layer{}
	}
	k := min(b.Width()/whole.Width(), b.Height()/whole.Height())
	shift := b.Center().Sub(whole.Center().Mul(k))
	at := func(q geom.Point) geom.Point { return q.Mul(k).Add(shift) }
	outlines, _ := p.cutOutlines(doc) // its error stops the drawing of the pieces
	var smalls []geom.Path
	var lines []geom.Point // on the outlines
	for _, cuts := range outlines {
		// Of several sizes the largest stands for all.
		largest := slices.MaxFunc(cuts, func(a, b geom.Path) int { return cmp.Compare(a.Area(), b.Area()) })
		small := scaled(largest, k, shift)
		smalls = append(smalls, small)
		lines = append(lines, walkPoints(small, 0.2)...)
	}
	var l Layer
	var numbers []geom.Point
	for _, t := range p.Tiles {
		kept := p.grid.kept(t.Row, t.Col, p.Rows, p.Cols)
		page := geom.Box{Min: at(kept.Min), Max: at(kept.Max)}
		l.Figures = append(l.Figures, Figure{Kind: Furniture, Path: rectangle(page), Pen: Pen{Width: 0.15, Color: faint}})
		if p.cover != nil {
			continue
		}
		number := pageNumber(t.Number, page, lines)
		l.Labels = append(l.Labels, number)
		numbers = append(numbers, number.At, number.At.Add(geom.Pt(TextWidth(number.Text, number.Height, true), number.Height)))
	}
	for i, small := range smalls {
		l.Figures = append(l.Figures, Figure{Kind: Furniture, Path: small, Pen: Pen{Width: 0.2, Color: black}})
		l = l.with(mapName(words(p.Pieces[i].Name), small, numbers))
	}
	return l
}

// pageNumber writes the number of a page into its upper left corner, else into
// another one, else where else on it no line runs through.
func pageNumber(n int, page geom.Box, lines []geom.Point) Label {
	const rim, steps = 0.8, 12
	number := Label{Text: fmt.Sprint(n), Height: min(2.2, page.Width()/5), Color: grey, Bold: true}
	wide := TextWidth(number.Text, number.Height, true)
	room := geom.Pt(page.Width()-2*rim-wide, page.Height()-2*rim-number.Height)
	at := func(x, y float64) geom.Point { return page.Min.Add(geom.Pt(rim+x*room.X, rim+y*room.Y)) }
	places := []geom.Point{at(0, 1), at(1, 1), at(0, 0), at(1, 0)}
	for y := steps; y >= 0; y-- {
		for x := range steps + 1 {
			places = append(places, at(float64(x)/steps, float64(y)/steps))
		}
	}
	number.At = places[0]
	for _, q := range places {
		box := geom.BoxOf(q, q.Add(geom.Pt(wide, number.Height))).Grow(nameRim)
		if !slices.ContainsFunc(lines, box.Contains) {
			number.At = q
			break
		}
	}
	return number
}

// mapName writes the name of a piece inside its outline, clear of the numbers of
// the pages; over the outline where it is too small for that.
func mapName(name string, outline geom.Path, numbers []geom.Point) Layer {
	if l := clearName(name, outline, numbers); len(l.Labels) > 0 {
		return l
	}
	label := Label{Text: name, Height: 1.6, Anchor: Middle, Color: black}
	for label.Height > 0.9 && TextWidth(label.Text, label.Height, false) > outline.Bounds().Width()*0.9 {
		label.Height *= 0.9
	}
	label.At = outline.Centroid().Sub(geom.Pt(0, label.Height/2))
	return Layer{Labels: []Label{label}}
}

// legend draws what the lines and signs mean, as many rows as fit into b.
func legend(b geom.Box, nested, darts bool) Layer {
	const sample = 20.0
	pitch := 6.8
	type row struct {
		text string
		draw func(a, b geom.Point) []Figure
	}
	line := func(kind Kind, pen Pen) func(a, b geom.Point) []Figure {
		return func(a, b geom.Point) []Figure { return []Figure{{Kind: kind, Path: polyline(a, b), Pen: pen}} }
	}
	arrow := func(kind pattern.ArrowKind) func(a, b geom.Point) []Figure {
		return func(a, b geom.Point) []Figure {
			return arrowFigures(pattern.Arrow{Kind: kind, From: a, To: b})
		}
	}
	notch := func(allowance float64, double bool) func(a, b geom.Point) []Figure {
		return func(a, b geom.Point) []Figure {
			// Drawn with the outside upwards.
			lift := geom.Pt(0, (markLength+1)/2)
			if allowance > 0 {
				lift = geom.Pt(0, -allowance/2)
			}
			cut := geom.Pt(0, allowance).Add(lift)
			figs := []Figure{{Kind: Sample, Path: polyline(a.Add(cut), b.Add(cut)), Pen: cutPen}}
			if allowance > 0 {
				figs = append(figs, Figure{Kind: Sample, Path: polyline(a.Add(lift), b.Add(lift)), Pen: sewPen})
			}
			for i := range 2 {
				if i == 1 && !double {
					break
				}
				at := a.Lerp(b, 0.5).Add(lift).Add(geom.Pt(float64(i)*doubleGap, 0))
				figs = append(figs, shapeNotch{at: at, out: geom.Pt(0, 1), allowance: allowance}.figures(notchPen)...)
			}
			return figs
		}
	}
	rows := []row{
		{"cut line", line(Sample, cutPen)},
		{"sew line", line(Sample, sewPen)},
		{"notch, single or double", notch(3.2, true)},
		{"no allowance: a mark, never a snip", notch(0, false)},
		{"grain", arrow(pattern.Grain)},
		{"greatest stretch", arrow(pattern.MostStretch)},
		{"least stretch", arrow(pattern.LeastStretch)},
		{"place on the fold of the cloth", func(a, b geom.Point) []Figure {
			figs, _ := bracket(a.Sub(geom.Pt(0, 1.5)), b.Sub(geom.Pt(0, 1.5)))
			return append(figs, Figure{Kind: Sample, Path: polyline(a.Sub(geom.Pt(0, 1.5)), b.Sub(geom.Pt(0, 1.5))), Pen: cutPen})
		}},
		{"inner line", line(Sample, innerPen)},
		{"fold line of a piece drawn whole", line(Sample, foldPen)},
		{"old joint of taped pieces", line(Sample, jointPen)},
		{"arrow of a piece taped on", func(a, b geom.Point) []Figure { return oldArrow(polyline(a, b)) }},
		{"apex", func(a, b geom.Point) []Figure { return apexSign(a.Lerp(b, 0.5)) }},
	}
	if nested {
		rows[0].text = "cut line; each size has its own dashes"
		rows[1] = row{"sew line of a size", func(a, b geom.Point) []Figure {
			_, sew, _ := nestPens(0)
			return []Figure{{Kind: Sample, Path: polyline(a, b), Pen: sew}}
		}}
	}
	if darts {
		pitch = 6.2 // one row more
		rows = slices.Insert(rows, 8, row{"dart: " + dartWords + ", do not cut it", func(a, b geom.Point) []Figure {
			mouth, point := a.Add(geom.Pt(2, 0)), b.Sub(geom.Pt(2, 0))
			half := geom.Pt(0, 2)
			legs := []Figure{
				{Kind: Sample, Path: polyline(mouth.Add(half), point), Pen: sewPen},
				{Kind: Sample, Path: polyline(mouth.Sub(half), point), Pen: sewPen},
			}
			return append(legs, dartSigns([]shapeDart{{mouth, point}}, sewPen)...)
		}})
	}
	var l Layer
	for i, r := range rows {
		y := b.Max.Y - (float64(i)+0.6)*pitch
		if y-pitch/2 < b.Min.Y || b.Width() < sample+30 {
			break
		}
		l.Figures = append(l.Figures, r.draw(geom.Pt(b.Min.X, y), geom.Pt(b.Min.X+sample, y))...)
		l.Labels = append(l.Labels, Label{Text: r.text, At: geom.Pt(b.Min.X+sample+5, y-1), Height: 2, Color: black})
	}
	return l
}

package render

import (
	"math"

	"truemat/geom"
	"truemat/ops/cloth/bulk"
)

// turned returns where a strip that folds back at the seam begins.
func turned(s bulk.Strip, bends []bulk.Bend) float64 {
	if outer := widest(0, s.To < 0, bends); s.To < 0 {
		return -outer
	} else {
		return outer
	}
}

// widest returns the radius of the widest bend at a place of one side.
func widest(at float64, left bool, bends []bulk.Bend) float64 {
	outer := 0.0
	for _, b := range bends {
		if b.At == at && b.Left == left {
			outer = max(outer, b.Outer)
		}
	}
	return outer
}

// bend draws a layer round its fold: at the seam, the round of the widest lies
// on the seam; where an edge is folded under, it stands out beyond it.
func (d *sectionDrawing) bend(b bulk.Bend, all []bulk.Bend, at func(x, depth float64) geom.Point) {
	const n = 16
	side, center := -1.0, widest(b.At, b.Left, all)
	if b.At != 0 {
		side, center = 1, b.At
	}
	if b.Left && b.At == 0 {
		side, center = 1, -center
	} else if b.Left {
		side = -1
	}
	var pts []geom.Point
	arc := func(r float64, from, to float64) {
		for i := range n + 1 {
			a := from + (to-from)*float64(i)/n
			pts = append(pts, at(center+side*r*math.Sin(a), b.Middle-r*math.Cos(a)))
		}
	}
	arc(b.Outer, 0, math.Pi)
	if b.Inner > 0 {
		arc(b.Inner, math.Pi, 0)
	}
	fill := ownFill
	if b.At != 0 {
		fill = backFill
	}
	d.l.Figures = append(d.l.Figures, Figure{Kind: LayerStrip, Path: polygon(pts...), Pen: layerPen, Fill: fill})
}

// stitch draws the thread of the seam through what it holds, and where edges are
// folded, the thread that holds them down.
func (d *sectionDrawing) stitch(strips []bulk.Strip, bends []bulk.Bend, at func(x, depth float64) geom.Point) {
	thread := func(a, b geom.Point) {
		d.l.Figures = append(d.l.Figures, Figure{Kind: Stitching, Path: polyline(a, b), Pen: threadPen})
	}
	for _, again := range []bool{false, true} {
		from, to, deep, x := math.Inf(1), math.Inf(-1), math.Inf(-1), 0.0
		out, ends := math.Inf(1), map[bool]float64{}
		for _, s := range strips {
			if s.Again != again {
				continue
			}
			out, deep = min(out, s.Out), max(deep, s.In)
			if s.Allowance {
				from, to, x = min(from, s.Out), max(to, s.In), max(x, turned(s, bends))
				if s.Folded || d.c.Edge {
					ends[s.To < 0] = s.To
				}
			}
		}
		if from >= to {
			continue
		}
		if d.c.Open {
			thread(at(-0.8/d.m, (from+to)/2), at(0.8/d.m, (from+to)/2))
		} else if !d.c.Edge {
			thread(at(x, from), at(x, to))
		}
		for _, end := range ends {
			inner := end - math.Copysign(stitchedIn, end)
			thread(at(inner, out), at(inner, deep))
		}
	}
}

// stitchedIn is how far in mm from a folded edge it is stitched down.
const stitchedIn = 1.0

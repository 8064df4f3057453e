// Package clothtest judges plans of pieces laid on cloth independently of the
// code that made them.
package clothtest

import (
	"math"

	"github.com/tdewolff/canvas"
	"truemat/geom"
)

// Overlap returns the greatest area in mm² that any two outlines share, found
// by the polygon clipping of tdewolff/canvas.
func Overlap(outlines []geom.Path) float64 {
	most := 0.0
	for i := range outlines {
		for j := range i {
			most = max(most, math.Abs(area(polygon(outlines[i]).And(polygon(outlines[j])))))
		}
	}
	return most
}

func polygon(p geom.Path) *canvas.Path {
	out := &canvas.Path{}
	for i, q := range p.Flatten(chord) {
		if i == 0 {
			out.MoveTo(q.X, q.Y)
			continue
		}
		out.LineTo(q.X, q.Y)
	}
	out.Close()
	return out
}

// chord is the error in mm of the polygons.
const chord = 0.02

func area(p *canvas.Path) float64 {
	sum := 0.0
	for _, ring := range p.Split() {
		c := ring.Coords()
		for i := range c {
			q := c[(i+1)%len(c)]
			sum += (c[i].X*q.Y - q.X*c[i].Y) / 2
		}
	}
	return sum
}

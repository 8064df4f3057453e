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
			most = max(most, Shared(outlines[i].Flatten(chord), outlines[j].Flatten(chord)))
		}
	}
	return most
}

// Shared returns the area in mm² that two polygons share. The clipping gives up
// with a panic on some sides that nearly coincide; as the area stays what it is
// when both are turned together, it is tried again from other directions.
func Shared(a, b []geom.Point) float64 {
	var gaveUp any
	for try := range tries {
		m := geom.Turn(geom.Angle(0.7*float64(try)), geom.Point{})
		shared, failed := clipped(polygon(a, m), polygon(b, m))
		if failed == nil {
			return shared
		}
		gaveUp = failed
	}
	panic(gaveUp)
}

// tries is from how many directions two polygons are clipped at most.
const tries = 6

// clipped returns the area that two polygons share, or with what the clipping
// gave up.
func clipped(a, b *canvas.Path) (shared float64, failed any) {
	defer func() { failed = recover() }()
	return math.Abs(area(a.And(b))), nil
}

func polygon(corners []geom.Point, m geom.Motion) *canvas.Path {
	out := &canvas.Path{}
	for i, q := range corners {
		q = m.Apply(q)
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

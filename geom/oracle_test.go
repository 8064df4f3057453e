package geom

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"
	"pgregory.net/rapid"
)

// The polygon booleans of github.com/tdewolff/canvas as an independent witness.

func canvasPolygon(pts []Point) *canvas.Path {
	p := &canvas.Path{}
	p.MoveTo(pts[0].X, pts[0].Y)
	for _, q := range pts[1 : len(pts)-1] {
		p.LineTo(q.X, q.Y)
	}
	p.Close()
	return p
}

// canvasArea adds up the signed areas of the rings canvas gives.
func canvasArea(p *canvas.Path) float64 {
	sum := 0.0
	for _, ring := range p.Split() {
		c := ring.Coords()
		for i := range c {
			j := (i + 1) % len(c)
			sum += (c[i].X*c[j].Y - c[j].X*c[i].Y) / 2
		}
	}
	return math.Abs(sum)
}

// drawBlob draws a simple closed curve round o: a smooth ring whose radius
// wavers.
func drawBlob(t *rapid.T, o Point) Path {
	n := rapid.IntRange(4, 7).Draw(t, "n")
	pts := make([]Point, n)
	for i := range pts {
		r := rapid.Float64Range(30, 60).Draw(t, "r")
		pts[i] = o.Add(Angle(2 * math.Pi * float64(i) / float64(n)).Unit().Mul(r))
	}
	segs := make([]Cubic, n)
	for i := range segs {
		a, b, c, d := pts[(i+n-1)%n], pts[i], pts[(i+1)%n], pts[(i+2)%n]
		segs[i] = Curve(b, b.Add(c.Sub(a).Mul(1.0/6)), c.Sub(d.Sub(b).Mul(1.0/6)), c)
	}
	return Must(NewClosed(segs...))
}

// sharedArea is the area inside both of two simple counter-clockwise paths, by
// Green's theorem over the parts of each that lie in the other, cut where they
// cross.
func sharedArea(p, q Path) float64 {
	m := Cross(p, q)
	if len(m.Crossings) == 0 {
		switch {
		case q.Contains(p.Start()):
			return p.Area()
		case p.Contains(q.Start()):
			return q.Area()
		}
		return 0
	}
	sum := 0.0
	add := func(p, q Path, cuts []float64) {
		cuts = append([]float64{0}, append(cuts, p.Length())...)
		for i := 1; i < len(cuts); i++ {
			part, err := p.Sub(cuts[i-1], cuts[i])
			if err != nil {
				continue
			}
			if q.Contains(part.At(part.Length() / 2)) {
				for _, c := range part.segs {
					sum += c.sweep(Point{})
				}
			}
		}
	}
	var s, u []float64
	for _, c := range m.Crossings {
		s, u = append(s, c.S), append(u, c.T)
	}
	slices.Sort(u)
	add(p, q, s)
	add(q, p, u)
	return sum
}

func TestSharedAreaAgainstCanvas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawBlob(t, Pt(0, 0))
		q := drawBlob(t, Pt(rapid.Float64Range(-80, 80).Draw(t, "x"), rapid.Float64Range(-80, 80).Draw(t, "y")))
		const tol = 1e-3
		a, b := canvasPolygon(p.Flatten(tol)), canvasPolygon(q.Flatten(tol))
		slack := tol * (p.Length() + q.Length())
		require.InDelta(t, canvasArea(a), p.Area(), slack)
		require.InDelta(t, canvasArea(a.And(b)), sharedArea(p, q), slack)
	})
}

func TestContainsAgainstCanvas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, at := drawBlob(t, Pt(0, 0)), drawPoint(t, 70)
		if p.Nearest(at).Dist < 0.01 {
			t.Skip("on the path")
		}
		require.Equal(t, canvasPolygon(p.Flatten(1e-3)).Contains(at.X, at.Y, canvas.NonZero), p.Contains(at))
	})
}

package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The closed forms of the roulettes below are those of D. Zwillinger (ed.),
// CRC Standard Mathematical Tables and Formulae (from memory). They are met
// within 1e-6 mm; the arcs themselves are within 1e-10 mm of their circles.
const rouletteSlack = 1e-6

func circle(t *testing.T, center Point, r float64, from, sweep Angle) Path {
	t.Helper()
	p, err := EllipseArc(center, r, r, 0, from, sweep, 1e-10)
	require.NoError(t, err)
	return p
}

// traced compares the track of a point of the moving path with a closed form
// at every length s up to end, and returns how long the track is.
func traced(t *testing.T, r Roll, of Point, end float64, want func(s float64) Point) float64 {
	t.Helper()
	const steps = 40000
	length, last := 0.0, r.Leaving(0, 0).Apply(of)
	for i := range steps + 1 {
		s := end * float64(i) / steps
		at := r.Leaving(s, s).Apply(of)
		require.LessOrEqual(t, at.Dist(want(s)), rouletteSlack, "at %g mm", s)
		length += at.Dist(last)
		last = at
	}
	return length
}

func TestACircleOnALineDrawsTheCycloid(t *testing.T) {
	const r = 25.0
	roll := Roll{
		Fixed:  Must(Polyline(Pt(0, 0), Pt(2*math.Pi*r, 0))),
		Moving: circle(t, Pt(0, r), r, -90*Degree, 360*Degree),
	}
	arch := traced(t, roll, Pt(0, 0), 2*math.Pi*r, func(s float64) Point {
		a := s / r
		return Pt(r*(a-math.Sin(a)), r*(1-math.Cos(a)))
	})
	require.InDelta(t, 8*r, arch, rouletteSlack, "an arch is as long as eight radii (C. Wren, 1658)")
}

func TestACircleOnACircleDrawsTheEpicycloid(t *testing.T) {
	const big, small = 60.0, 20.0
	roll := Roll{
		Fixed: circle(t, Pt(0, 0), big, 0, 120*Degree),
		// Traced clockwise, so that it lies outside.
		Moving: circle(t, Pt(0, 0), small, 180*Degree, -360*Degree),
	}
	arch := traced(t, roll, Pt(-small, 0), 2*math.Pi*small, func(s float64) Point {
		a := s / big
		k := (big + small) / small
		return Pt((big+small)*math.Cos(a)-small*math.Cos(k*a), (big+small)*math.Sin(a)-small*math.Sin(k*a))
	})
	require.InDelta(t, 8*small*(big+small)/big, arch, rouletteSlack)
}

func TestALineOnACircleDrawsTheInvolute(t *testing.T) {
	const r = 30.0
	end := 1.5 * math.Pi * r
	roll := Roll{
		Fixed:  circle(t, Pt(0, 0), r, 0, 300*Degree),
		Moving: Must(Polyline(Pt(-5, 7), Pt(-5+300, 7))),
	}
	length := traced(t, roll, Pt(-5, 7), end, func(s float64) Point {
		a := s / r
		return Pt(r*(math.Cos(a)+a*math.Sin(a)), r*(math.Sin(a)-a*math.Cos(a)))
	})
	require.InDelta(t, end*end/(2*r), length, rouletteSlack)
}

func TestAPathPivotsAboutACorner(t *testing.T) {
	roll := Roll{Fixed: Must(Polyline(Pt(0, 0), Pt(100, 0))), Moving: Must(Polyline(Pt(0, 0), Pt(30, 0), Pt(30, -40)))}
	a, b := roll.Arriving(50, 30), roll.Leaving(50, 30)
	require.LessOrEqual(t, a.Apply(Pt(30, 0)).Dist(Pt(50, 0)), 1e-12)
	require.LessOrEqual(t, a.Apply(Pt(0, 0)).Dist(Pt(20, 0)), 1e-12)
	require.LessOrEqual(t, b.Apply(Pt(30, 0)).Dist(Pt(50, 0)), 1e-12)
	require.LessOrEqual(t, b.Apply(Pt(30, -40)).Dist(Pt(90, 0)), 1e-12)
}

func TestRollingAndBeingRolledOnAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, err := NewPath(drawCubic(t, drawPoint(t, 100)))
		if err != nil {
			t.Skip("a curve without extent")
		}
		b := Must(Polyline(drawPoint(t, 90), Pt(100, 100), drawPoint(t, 90)))
		f := rapid.Float64Range(0, a.Length()).Draw(t, "f")
		m := rapid.Float64Range(0, b.Length()).Draw(t, "m")
		mirror := rapid.Bool().Draw(t, "mirror")
		on := Roll{Fixed: a, Moving: b, Mirror: mirror}.Leaving(f, m)
		under := Roll{Fixed: b, Moving: a, Mirror: mirror}.Leaving(m, f)
		require.LessOrEqual(t, on.Apply(b.At(m)).Dist(a.At(f)), 1e-9)
		require.LessOrEqual(t, on.Vector(b.TangentAt(m)).Dist(a.TangentAt(f)), 1e-9)
		for _, p := range []Point{Pt(0, 0), Pt(50, 0), Pt(0, 50)} {
			require.LessOrEqual(t, on.Then(under).Apply(p).Dist(p), 1e-9)
		}
		require.Equal(t, mirror, on.Mirrors())
	})
}

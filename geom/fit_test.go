package geom

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fitRadiusError returns the greatest distance of the path from the circle.
func fitRadiusError(p Path, center Point, r float64) float64 {
	worst := 0.0
	for _, c := range p.segs {
		for k := range 1001 {
			worst = max(worst, math.Abs(c.At(float64(k)/1000).Dist(center)-r))
		}
	}
	return worst
}

// The known greatest radius errors of a cubic with handles 4/3·tan(θ/4).
func TestArcRadiusError(t *testing.T) {
	c := Pt(12, -7)
	for _, v := range []struct {
		piece Angle
		want  float64
	}{{90, 2.7253e-4}, {60, 2.3864e-5}, {45, 4.2455e-6}, {30, 3.7266e-7}} {
		p, err := fitArc(c, 100, 100, 0, 0.3, 2*math.Pi, v.piece*Degree)
		require.NoError(t, err)
		assert.Equal(t, int(360/v.piece), p.Len())
		assert.InEpsilon(t, v.want*100, fitRadiusError(p, c, 100), 1e-4, "%v°", v.piece)
	}
	p, err := Arc(c, 80, 170*Degree, -45*Degree)
	require.NoError(t, err)
	assert.Equal(t, 1, p.Len())
	assert.InEpsilon(t, 4.2455e-6*80, fitRadiusError(p, c, 80), 1e-4)
	assert.True(t, p.Start().Near(c.Add((170*Degree).Unit().Mul(80)), 1e-12))
	assert.True(t, p.End().Near(c.Add((125*Degree).Unit().Mul(80)), 1e-12))
	assert.Negative(t, p.CurvatureAt(10))
	full, err := Arc(c, 80, 1, -2*math.Pi)
	require.NoError(t, err)
	assert.Equal(t, full.Start(), full.End())
}

// Perimeters of ellipses by the complete elliptic integral (Abramowitz &
// Stegun 17.1): 60 × 45 and 120 × 80.
func TestEllipseArcPerimeter(t *testing.T) {
	for _, v := range []struct{ rx, ry, want float64 }{{60, 45, 331.55238241064258}, {120, 80, 634.617583571623592}} {
		before := math.Inf(1)
		for _, tol := range []float64{1e-1, 1e-2, 1e-3, 1e-4, 1e-5} {
			p, err := EllipseArc(Pt(3, 4), v.rx, v.ry, 0.4, 1, 2*math.Pi, tol)
			require.NoError(t, err)
			off := math.Abs(p.Length() - v.want)
			assert.LessOrEqual(t, off, 2*math.Pi*tol)
			assert.LessOrEqual(t, off, before)
			before = off
			sin, cos := math.Sincos(-0.4)
			for _, c := range p.segs {
				for k := range 101 {
					q := c.At(float64(k) / 100).Sub(Pt(3, 4))
					q = Pt(cos*q.X-sin*q.Y, sin*q.X+cos*q.Y)
					assert.Less(t, math.Abs(math.Hypot(q.X/v.rx, q.Y/v.ry)-1)*v.ry, tol)
				}
			}
		}
	}
}

func TestArcsRefuseJunk(t *testing.T) {
	nan := math.NaN()
	for _, v := range []struct {
		r           float64
		from, sweep Angle
	}{{0, 0, 1}, {-1, 0, 1}, {nan, 0, 1}, {math.Inf(1), 0, 1}, {1, Angle(nan), 1}, {1, 0, 0}, {1, 0, 7}, {1, 0, Angle(nan)}, {1e-12, 0, 1}} {
		_, err := Arc(Pt(0, 0), v.r, v.from, v.sweep)
		assert.Error(t, err, "%v", v)
		_, err = EllipseArc(Pt(0, 0), v.r, v.r, 0, v.from, v.sweep, 0.01)
		assert.Error(t, err, "%v", v)
	}
	_, err := EllipseArc(Pt(0, 0), 1, 1, 0, 0, 1, 0)
	assert.Error(t, err)
}

// fitOff returns how far the samples of f lie from p at worst, and p from f.
func fitOff(p Path, f func(float64) (Point, Point), t0, t1 float64) (there, back float64) {
	const n = 3000
	at := make([]Point, n+1)
	for k := range at {
		at[k], _ = f(t0 + (t1-t0)*float64(k)/n)
		there = max(there, p.Nearest(at[k]).Point.Dist(at[k]))
	}
	line := Must(Polyline(at...))
	for _, c := range p.segs {
		for k := range 51 {
			q := c.At(float64(k) / 50)
			back = max(back, line.Nearest(q).Point.Dist(q))
		}
	}
	return there, back
}

func fitSmooth(t require.TestingT, p Path) {
	for i := 1; i < p.Len(); i++ {
		turn := Between(p.Seg(i-1).Tangent(1), p.Seg(i).Tangent(0))
		require.InDelta(t, 0, float64(turn), 1e-9, "joint %d", i)
	}
}

func TestFitCurveFollowsKnownCurves(t *testing.T) {
	curves := map[string]struct {
		f      func(t float64) (Point, Point)
		t0, t1 float64
		length float64 // known length, 0 when none is at hand
	}{
		"catenary": {func(t float64) (Point, Point) {
			return Pt(t, 50*math.Cosh(t/50)), Pt(1, math.Sinh(t/50))
		}, -60, 60, 150.9461355412173},
		"parabola": {func(t float64) (Point, Point) { return Pt(t, t*t/50), Pt(1, t/25) }, 50, -50, 147.894285754459743},
		"arch of a cycloid": {func(t float64) (Point, Point) {
			return Pt(20*(t-math.Sin(t)), 20*(1-math.Cos(t))), Pt(20*(1-math.Cos(t)), 20*math.Sin(t))
		}, 0, 2 * math.Pi, 160},
		"circle": {func(t float64) (Point, Point) {
			s, c := math.Sincos(t)
			return Pt(40*c, 40*s), Pt(-40*s, 40*c)
		}, 0, 2 * math.Pi, 80 * math.Pi},
		"wave": {func(t float64) (Point, Point) { return Pt(t, 12*math.Sin(t/9)), Pt(1, 12.0/9*math.Cos(t/9)) }, 0, 120, 0},
	}
	for name, c := range curves {
		pieces := 0
		for _, tol := range []float64{1e-1, 1e-2, 1e-3, 1e-4} {
			p, err := FitCurve(c.f, c.t0, c.t1, tol)
			require.NoError(t, err, name)
			there, back := fitOff(p, c.f, c.t0, c.t1)
			assert.LessOrEqual(t, there, tol, "%s at %g", name, tol)
			assert.LessOrEqual(t, back, tol+2e-4, "%s at %g", name, tol)
			fitSmooth(t, p)
			if c.length > 0 {
				assert.InDelta(t, c.length, p.Length(), 3*tol, name)
			}
			assert.GreaterOrEqual(t, p.Len(), pieces)
			pieces = p.Len()
			t.Logf("%-18s tol %g: %d cubics, off %.3g", name, tol, pieces, there)
		}
	}
}

func TestFitCurveFollowsCornersAndRefusesJunk(t *testing.T) {
	corner := func(t float64) (Point, Point) { return Pt(t, math.Abs(t)), Pt(1, math.Copysign(1, t)) }
	p, err := FitCurve(corner, -1.3, 2, 0.01)
	require.NoError(t, err)
	there, _ := fitOff(p, corner, -1.3, 2)
	assert.LessOrEqual(t, there, 0.01)
	for _, f := range []func(t float64) (Point, Point){
		func(t float64) (Point, Point) { return Pt(math.NaN(), 0), Pt(1, 0) },
		func(t float64) (Point, Point) { return Pt(t, 0), Pt(math.Inf(1), 0) },
		func(t float64) (Point, Point) { return Pt(1/t, 0), Pt(-1/t/t, 0) },
		func(float64) (Point, Point) { return Pt(1, 1), Pt(0, 0) },
		func(t float64) (Point, Point) { return Pt(0, math.Copysign(50, t-0.3)), Pt(1, 0) },
	} {
		_, err := FitCurve(f, 0, 1, 0.01)
		assert.Error(t, err)
	}
	good := func(t float64) (Point, Point) { return Pt(t, 0), Pt(1, 0) }
	for _, v := range [][3]float64{{0, 0, 1}, {0, math.NaN(), 1}, {0, 1, 0}, {0, 1, math.NaN()}, {math.Inf(-1), 1, 1}} {
		_, err := FitCurve(good, v[0], v[1], v[2])
		assert.Error(t, err)
	}
	p, err = FitCurve(good, 0, 30, 0.01)
	require.NoError(t, err)
	assert.True(t, p.IsStraight())
}

// Points on two arcs and a straight run, with corners between them.
func TestFitFindsCorners(t *testing.T) {
	a := Must(Arc(Pt(0, 0), 50, 0, 90*Degree))
	b := Must(Polyline(a.End(), Pt(-40, 90)))
	c := Must(NewPath(Curve(b.End(), Pt(-20, 60), Pt(-80, 40), Pt(-90, 0))))
	source := Must(Join(a, b, c))
	noise := rand.New(rand.NewSource(7))
	for _, tol := range []float64{0.5, 0.05, 0.01} {
		for _, rough := range []float64{0, tol / 3} {
			var pts []Point
			for _, run := range []Path{a, b, c} {
				n := int(run.Length() / 0.3)
				for k := range n {
					q := run.At(run.Length() * float64(k) / float64(n))
					pts = append(pts, q.Add(Pt(noise.Float64()-0.5, noise.Float64()-0.5).Mul(rough)))
				}
			}
			pts = append(pts, c.End())
			p, err := Fit(pts, tol, 30*Degree)
			require.NoError(t, err)
			for _, q := range pts {
				require.LessOrEqual(t, p.Nearest(q).Point.Dist(q), tol*1.0001)
			}
			corners, straights := 0, 0
			for i := range p.Len() {
				if p.Seg(i).IsStraight() {
					straights++
				}
				if i == 0 {
					continue
				}
				if turn := Between(p.Seg(i-1).Tangent(1), p.Seg(i).Tangent(0)); math.Abs(float64(turn)) > 1e-9 {
					corners++
					q := p.Seg(i).Start()
					assert.Less(t, min(q.Dist(b.Start()), q.Dist(b.End())), 0.3+rough)
				}
			}
			assert.Equal(t, 2, corners)
			assert.Equal(t, 1, straights)
			for k := range 500 {
				q := p.At(p.Length() * float64(k) / 500)
				require.Less(t, source.Nearest(q).Point.Dist(q), 2*tol)
			}
			t.Logf("tol %g noise %.3g: %d cubics for %d points", tol, rough, p.Len(), len(pts))
		}
	}
}

func TestFitNeverFailsBadly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := make([]Point, rapid.IntRange(0, 40).Draw(t, "n"))
		for i := range pts {
			pts[i] = drawPoint(t, 100)
		}
		tol := math.Pow(10, rapid.Float64Range(-4, 1.5).Draw(t, "tol"))
		p, err := Fit(pts, tol, Angle(rapid.Float64Range(0.01, 4).Draw(t, "corner")))
		if err != nil {
			for _, q := range pts {
				require.True(t, q.Near(pts[0], Coincident*40), "only a heap of points is refused")
			}
			return
		}
		for _, q := range pts {
			require.LessOrEqual(t, p.Nearest(q).Point.Dist(q), tol*1.0001+1e-9)
		}
	})
}

func TestFitRefusesJunk(t *testing.T) {
	good := []Point{Pt(0, 0), Pt(1, 0), Pt(2, 1)}
	for _, v := range []struct {
		pts    []Point
		tol    float64
		corner Angle
	}{{nil, 1, 1}, {good[:1], 1, 1}, {good, 0, 1}, {good, math.NaN(), 1}, {good, 1, 0}, {good, 1, Angle(math.NaN())},
		{[]Point{Pt(0, 0), Pt(math.NaN(), 1)}, 1, 1}, {[]Point{Pt(3, 3), Pt(3, 3)}, 1, 1}} {
		_, err := Fit(v.pts, v.tol, v.corner)
		assert.Error(t, err)
	}
}

func BenchmarkFitCurve(b *testing.B) {
	f := func(t float64) (Point, Point) {
		return Pt(20*(t-math.Sin(t)), 20*(1-math.Cos(t))), Pt(20*(1-math.Cos(t)), 20*math.Sin(t))
	}
	for b.Loop() {
		if _, err := FitCurve(f, 0.5, 6, 0.01); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFit(b *testing.B) {
	p := Must(Arc(Pt(0, 0), 50, 0, 180*Degree))
	pts := make([]Point, 500)
	for k := range pts {
		pts[k] = p.At(p.Length() * float64(k) / 499)
	}
	for b.Loop() {
		if _, err := Fit(pts, 0.01, 30*Degree); err != nil {
			b.Fatal(err)
		}
	}
}

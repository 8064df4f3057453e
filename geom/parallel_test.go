package geom

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// parallelSample is an open run with two curves, a straight part and two corners.
func parallelSample() Path {
	return Must(NewPath(Curve(Pt(0, 0), Pt(20, 60), Pt(80, 60), Pt(100, 0)), Straight(Pt(100, 0), Pt(120, 40)), Curve(Pt(120, 40), Pt(90, 100), Pt(10, 100), Pt(-20, 40))))
}

// parallelNearest returns how near q comes to the source at least, and at most, over the places of q.
func parallelNearest(q, source Path, n int) (near, far float64) {
	near = math.Inf(1)
	for _, c := range q.segs {
		for k := range n + 1 {
			d := source.Nearest(c.At(float64(k) / float64(n))).Dist
			near, far = min(near, d), max(far, d)
		}
	}
	return near, far
}

// parallelTrue returns how far the true parallel of the source lies from q at worst.
func parallelTrue(q, source Path, d float64, n int) float64 {
	worst := 0.0
	for _, c := range source.segs {
		for k := range n + 1 {
			t := float64(k) / float64(n)
			worst = max(worst, q.Nearest(c.At(t).Add(c.Tangent(t).Perp().Mul(d))).Dist)
		}
	}
	return worst
}

func TestParallelOfOneCurveBothWays(t *testing.T) {
	curves := []Path{
		Must(NewPath(Curve(Pt(0, 0), Pt(20, 60), Pt(80, 60), Pt(100, 0)))),
		Must(NewPath(Curve(Pt(0, 0), Pt(30, 60), Pt(70, -20), Pt(100, 50)))),
		Must(NewPath(Curve(Pt(0, 0), Pt(0, 55.2), Pt(44.8, 100), Pt(100, 100)))),
		Must(NewPath(Curve(Pt(0, 0), Pt(0, 0), Pt(60, 10), Pt(100, 50)))),
	}
	for i, p := range curves {
		for _, d := range []float64{6.35, -6.35, 12} {
			for _, tol := range []float64{1e-1, 1e-2, 5e-3, 1e-3, 1e-4} {
				q, err := p.Parallel(d, tol)
				require.NoError(t, err)
				near, far := parallelNearest(q, p, 400)
				assert.GreaterOrEqual(t, near, math.Abs(d)-tol)
				assert.LessOrEqual(t, far, math.Abs(d)+tol)
				if i != 3 || d < 0 { // its bend has no radius at the start, so the inner side is shorter
					assert.LessOrEqual(t, parallelTrue(q, p, d, 400), tol)
				}
				if tol >= 5e-3 && (i == 0 || i == 2) {
					assert.LessOrEqual(t, q.Len(), 2)
				}
				fitSmooth(t, q)
				t.Logf("curve %d d %5.2f tol %6g: %d cubics, %.3g…%.3g off", i, d, tol, q.Len(), near-math.Abs(d), far-math.Abs(d))
			}
		}
	}
}

func TestParallelKeepsStraightStraightAndMitres(t *testing.T) {
	p := Must(Polyline(Pt(0, 0), Pt(50, 0), Pt(50, 40), Pt(90, 40)))
	q, err := p.Parallel(-5, 0.005)
	require.NoError(t, err)
	assert.Equal(t, "M 0 -5 L 55 -5 L 55 35 L 90 35", roundPath(q))
	q, err = p.Parallel(5, 0.005)
	require.NoError(t, err)
	assert.Equal(t, "M 0 5 L 45 5 L 45 45 L 90 45", roundPath(q))
	for _, c := range q.Segments() {
		assert.True(t, c.IsStraight())
	}

	// Back along itself but for 10°: the mitre would reach 11.5 widths.
	p = Must(Polyline(Pt(0, 0), Pt(50, 0), Pt(50-40*math.Cos(10*math.Pi/180), -40*math.Sin(10*math.Pi/180))))
	q, err = p.Parallel(5, 0.005)
	require.NoError(t, err)
	near, far := parallelNearest(q, p, 50)
	assert.InDelta(t, 5, near, 1e-9)
	assert.Less(t, far, 7.2, "cut blunt")
	assert.Equal(t, 3, q.Len())
}

// roundPath writes a path with coordinates rounded to 1e-6 mm.
func roundPath(p Path) string {
	segs := p.Segments()
	r := func(q Point) Point { return Pt(math.Round(q.X*1e6)/1e6+0, math.Round(q.Y*1e6)/1e6+0) }
	for i, c := range segs {
		if c.straight {
			segs[i] = Straight(r(c.P[0]), r(c.P[3]))
		}
	}
	return Must(NewPath(segs...)).String()
}

// Growing a smooth convex outline of length L and area A by w gives the length
// L + 2πw and the area A + Lw + πw² (J. Steiner).
func TestParallelObeysSteiner(t *testing.T) {
	outline := Must(EllipseArc(Pt(0, 0), 60, 45, 0.3, 0.5, 2*math.Pi, 1e-7))
	area := Must(JoinClosed(outline)).Area()
	for _, tol := range []float64{1e-2, 1e-3, 1e-4} {
		for _, w := range []float64{6.35, 15, -10} {
			q, err := outline.Parallel(-w, tol)
			require.NoError(t, err)
			length := outline.Length() + 2*math.Pi*w
			assert.InDelta(t, length, q.Length(), 2*math.Pi*tol)
			got := Must(JoinClosed(q)).Area()
			assert.InDelta(t, area+outline.Length()*w+math.Pi*w*w, got, length*tol)
		}
	}
	circle := Must(Arc(Pt(3, 4), 50, 0, 2*math.Pi))
	q, err := circle.Parallel(20, 0.001)
	require.NoError(t, err)
	assert.Less(t, fitRadiusError(q, Pt(3, 4), 30), 0.001)
}

func TestParallelAndBack(t *testing.T) {
	p := Must(NewPath(Curve(Pt(0, 0), Pt(30, 60), Pt(70, -20), Pt(100, 50))))
	for _, tol := range []float64{1e-1, 1e-2, 1e-3, 1e-4} {
		q, err := p.Parallel(8, tol)
		require.NoError(t, err)
		back, err := q.Parallel(-8, tol)
		require.NoError(t, err)
		_, far := parallelNearest(back, p, 300)
		assert.LessOrEqual(t, far, 2*tol)
	}
}

// Inside a curve tighter than the width the parallel would cross itself in a
// swallow's tail.
func TestParallelLeavesLoopsOut(t *testing.T) {
	tight := Must(NewPath(Straight(Pt(0, 0), Pt(40, 0)), Curve(Pt(40, 0), Pt(44, 0), Pt(45, 1), Pt(45, 5)), Straight(Pt(45, 5), Pt(45, 50))))
	u := Must(NewPath(Curve(Pt(0, 60), Pt(10, -20), Pt(30, -20), Pt(40, 60))))
	inner := Must(Polyline(Pt(0, 0), Pt(60, 0), Pt(30, 40)))
	for name, c := range map[string]struct {
		p Path
		d float64
	}{
		"tight curve": {tight, 8}, "deep valley": {u, 12}, "sample left": {parallelSample(), 6.35},
		"sample right": {parallelSample(), -6.35}, "sharp corner": {inner, 6},
		"short side swallowed": {Must(Polyline(Pt(0, 0), Pt(50, 0), Pt(52, 2), Pt(52, 60))), 9},
	} {
		for _, tol := range []float64{1e-1, 1e-2, 1e-3, 1e-4} {
			q, err := c.p.Parallel(c.d, tol)
			require.NoError(t, err, name)
			near, _ := parallelNearest(q, c.p, 200)
			assert.GreaterOrEqual(t, near, math.Abs(c.d)-tol, name)
			assert.Empty(t, parallelCrossing(q), name)
			t.Logf("%s %g: %d cubics", name, tol, q.Len())
		}
	}
	q := Must(tight.Parallel(8, 0.005))
	assert.True(t, q.Start().Near(Pt(0, 8), 1e-9))
	assert.True(t, q.End().Near(Pt(37, 50), 1e-9))
	q = Must(inner.Parallel(6, 0.005))
	assert.Equal(t, 2, q.Len())
}

// parallelCrossing names a place where segments meet that is not a joint
// between neighbours; empty when there is none.
func parallelCrossing(q Path) string {
	for i := range q.segs {
		for j := i + 1; j < len(q.segs); j++ {
			hits, laps := meet(&q.segs[i], &q.segs[j])
			if len(laps) > 0 {
				return fmt.Sprintf("segments %d and %d run along each other: %v", i, j, laps)
			}
			for _, h := range hits {
				at := q.segs[i].At(h.t)
				joint := j == i+1 && at.Near(q.segs[j].Start(), 1e-6)
				ends := i == 0 && j == len(q.segs)-1 && at.Near(q.Start(), 1e-6) && at.Near(q.End(), 1e-6)
				if !joint && !ends {
					return fmt.Sprintf("segments %d and %d of %v meet at %v", i, j, q, at)
				}
			}
		}
	}
	return ""
}

// Hairpins: the turn is far smaller than the steps in which the curve is looked
// at, inside it, near its end and where it turns back on itself.
func TestParallelSeesHairpins(t *testing.T) {
	for name, c := range map[string]Cubic{
		"two turns":      Curve(Pt(-25, 0), Pt(100, 2.19), Pt(-14.28, 0.09), Pt(-0.88, 0)),
		"near the end":   Curve(Pt(100, -25), Pt(100, -25), Pt(-1.94, 1), Pt(1, -1)),
		"no way between": Curve(Pt(1.75, -0.0625), Pt(-25, 0), Pt(0, 0), Pt(0, 0)),
		"to and fro":     Curve(Pt(0, 0), Pt(90, 0), Pt(-30, 0), Pt(60, 0)),
		"cusp":           Curve(Pt(0, 0), Pt(60, 40), Pt(0, 40), Pt(60, 0)),
	} {
		p := Must(NewPath(c))
		for _, d := range []float64{0.5, -0.5, 2, -2, 8, -8} {
			q, err := p.Parallel(d, 0.01)
			if err != nil {
				continue
			}
			near, _ := parallelNearest(q, p, 50)
			assert.GreaterOrEqual(t, near, math.Abs(d)-0.01, "%s at %g", name, d)
		}
	}
}

func TestParallelRefuses(t *testing.T) {
	p := parallelSample()
	for _, c := range []struct {
		p      Path
		d, tol float64
	}{
		{Path{}, 5, 0.01}, {p, math.NaN(), 0.01}, {p, math.Inf(1), 0.01}, {p, 5, 0}, {p, 5, math.NaN()},
		{Must(JoinClosed(Must(Arc(Pt(0, 0), 20, 0, 2*math.Pi)))), 5, 0.01},
		{Must(Arc(Pt(0, 0), 20, 0, 2*math.Pi)), 25, 0.01}, // nothing remains
	} {
		_, err := c.p.Parallel(c.d, c.tol)
		assert.Error(t, err)
	}
	q, err := p.Parallel(0, 0.01)
	require.NoError(t, err)
	assert.Equal(t, p, q)
}

func TestParallelOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "n")
		d := rapid.Float64Range(0.5, 30).Draw(t, "width") * float64(1-2*rapid.IntRange(0, 1).Draw(t, "right"))
		tol := math.Pow(10, rapid.Float64Range(-3, -1).Draw(t, "tol"))
		q, err := p.Parallel(d, tol)
		if err != nil {
			return
		}
		if len(p.SelfCrossings()) > 0 {
			return
		}
		near, _ := parallelNearest(q, p, 20)
		require.GreaterOrEqual(t, near, math.Abs(d)-1.01*tol)
		require.Empty(t, parallelCrossing(q))
	})
}

func BenchmarkParallel(b *testing.B) {
	p := parallelSample()
	for name, d := range map[string]float64{"left": 6.35, "right": -6.35} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := p.Parallel(d, 0.01); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	one := Must(NewPath(p.Seg(0)))
	b.Run("one", func(b *testing.B) {
		for b.Loop() {
			if _, err := one.Parallel(6.35, 0.01); err != nil {
				b.Fatal(err)
			}
		}
	})
}

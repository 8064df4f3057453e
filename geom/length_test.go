package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"
)

func TestGaussTables(t *testing.T) {
	for _, rule := range [][]node{gauss8[:], gauss16[:], gauss24[:], gauss32[:]} {
		n := 2 * len(rule)
		x, w := make([]float64, n), make([]float64, n)
		quad.Legendre{}.FixedLocations(x, w, -1, 1) // gonum's own computation
		for i, g := range rule {
			assert.InDelta(t, math.Abs(x[n/2+i]), g.x, 2e-15) // gonum itself is off by a few 1e-16
			assert.InDelta(t, w[n/2+i], g.w, 2e-15)
		}
	}
}

// Lengths in 40-digit arithmetic; the parabola also by its closed form
// r/2 + b²/(8h)·ln((4h+r)/b), r = √(b²+16h²).
func TestLengthKnown(t *testing.T) {
	for _, k := range []struct {
		c    Cubic
		want float64
	}{
		{Curve(Pt(0, 0), Pt(0, 100), Pt(100, 100), Pt(100, 0)), 200},
		{Curve(Pt(0, 0), Pt(30, 60), Pt(70, -20), Pt(100, 50)), 125.793014701217556},
		{Curve(Pt(0, 0), Pt(100, 0), Pt(0, 100), Pt(100, 100)), 167.654262742028567},
		{Curve(Pt(0, 0), Pt(20, 60), Pt(80, 60), Pt(100, 0)), 143.81250504601222},
		{Curve(Pt(0, 0), Pt(0, 0), Pt(1.0/3, 0), Pt(1, 1)), (13*math.Sqrt(13) - 8) / 27},
		{parabola(100, 10), 102.606063042684450},
		{parabola(100, 50), 147.894285754459743},
		{parabola(160, 40), 183.646971951411046},
		// There and back on a line: 3·(t − 3t² + 2t³) turns at (3±√3)/6.
		{Curve(Pt(0, 0), Pt(1, 0), Pt(-1, 0), Pt(0, 0)), 4 * 3 * math.Sqrt(3) / 18},
		// A cusp in the middle.
		{Curve(Pt(0, 0), Pt(100, 100), Pt(0, 100), Pt(100, 0)), cuspLength()},
		{Straight(Pt(1, 2), Pt(4, 6)), 5},
		// At rest at one end to first and second order.
		{Curve(Pt(0, 4.4296875), Pt(0, 0), Pt(0, 0), Pt(0, 0)), 4.4296875},
		{Curve(Pt(0, 0), Pt(0, 0), Pt(3, 4), Pt(3, 4)), 5},
	} {
		assert.InEpsilon(t, k.want, k.c.Length(), 1e-13, "%v", k.c.P)
		assert.InEpsilon(t, k.want, k.c.Reverse().Length(), 1e-13, "%v reversed", k.c.P)
	}
	c := Curve(Pt(0, 0), Pt(30, 60), Pt(70, -20), Pt(100, 50))
	assert.InEpsilon(t, 60.8554296483152335, c.LengthTo(0.5), 1e-14)
	assert.InEpsilon(t, 408.73166546076282, parse(t, samplePath).Length(), 1e-14)
}

// cuspLength: with u = 2t−1 the cubic (0,0)(1,1)(0,1)(1,0) has x′ = 3u² and
// y′ = −3u by t, so half of it is ½∫₀¹ 3u√(1+u²) du = (2√2−1)/2.
func cuspLength() float64 { return 100 * (2*math.Sqrt2 - 1) }

// Perimeter of an ellipse 4aE(m), m = 1 − b²/a², with E from Abramowitz &
// Stegun, table 17.1 (DLMF 19.2); n cubics miss it by less than 2⁻⁶ of what
// n/2 do.
func TestLengthEllipse(t *testing.T) {
	for _, k := range []struct{ a, b, want float64 }{
		{2, 1, 9.68844822054767620}, {5, 3, 25.5269988633981285},
		{100, 60, 510.539977267962569}, {120, 80, 634.617583571623592}, {60, 45, 331.55238241064258},
		{1, math.Sqrt(0.5), 4 * 1.350643881047676}, {1, 0.5, 4 * 1.211056027568460},
	} {
		tol := 2e-4
		for n := 4; n <= 128; n *= 2 {
			assert.InEpsilon(t, k.want, oval(Pt(0, 0), k.a, k.b, n).Length(), math.Max(tol, 1e-13), "%v in %d", k, n)
			tol /= 40
		}
	}
}

// TestLengthAgainstGonum compares with gonum's 60-point rule on 64 parts.
func TestLengthAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCubic(t, drawPoint(t, 100))
		want := 0.0
		for i := range 64 {
			want += quad.Fixed(func(t float64) float64 { return c.Deriv(t).Norm() }, float64(i)/64, float64(i+1)/64, 60, quad.Legendre{}, 0)
		}
		// The reference itself is good to about h² of the largest speed at a cusp.
		slow := math.Inf(1)
		for i := range 2001 {
			slow = math.Min(slow, c.Deriv(float64(i)/2000).Norm())
		}
		tol := 1e-12
		if slow < 0.01*c.extent() {
			tol = 1e-6
		}
		require.InDelta(t, want, c.Length(), tol*(want+1e-9))
	})
}

func TestLengthNearCusps(t *testing.T) {
	// Handles spread by d round the cusp: a loop on one side, a bend on the other.
	exact := cuspLength()
	for _, d := range []float64{1e-1, 1e-2, 1e-3, 1e-4, 1e-6, 1e-8, 1e-10, 1e-12} {
		for _, s := range []float64{-1, 1} {
			c := Curve(Pt(0, 0), Pt(100+s*d, 100), Pt(-s*d, 100), Pt(100, 0))
			assert.InDelta(t, exact, c.Length(), 3*d, "%g", s*d)
			fine := 0.0
			for i := range 4096 { // the same by many pieces, each integrated on its own
				fine += c.Sub(float64(i)/4096, float64(i+1)/4096).Length()
			}
			assert.InEpsilon(t, fine, c.Length(), 1e-12)
		}
	}
}

func TestLengthAdditive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCubic(t, drawPoint(t, 100))
		u := rapid.Float64Range(0, 1).Draw(t, "t")
		a, b := c.Split(u)
		require.InDelta(t, c.Length(), a.Length()+b.Length(), 1e-11)
		require.InDelta(t, c.LengthTo(u), a.Length(), 1e-11)
		require.LessOrEqual(t, c.Length(), c.extent()*(1+1e-13))
		require.GreaterOrEqual(t, c.Length(), c.P[0].Dist(c.P[3])*(1-1e-13))
	})
}

func TestParamAtInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCubic(t, drawPoint(t, 100))
		s := c.Length() * rapid.Float64Range(0, 1).Draw(t, "share")
		require.InDelta(t, s, c.LengthTo(c.ParamAt(s)), 1e-10)
		u := rapid.Float64Range(0, 1).Draw(t, "t")
		require.InDelta(t, 0, c.At(u).Dist(c.At(c.ParamAt(c.LengthTo(u)))), 1e-9)
	})
	c := parabola(100, 10)
	assert.Zero(t, c.ParamAt(-1))
	assert.Zero(t, c.ParamAt(math.NaN()))
	assert.Equal(t, 1.0, c.ParamAt(1e9))
	assert.Equal(t, 1.0, c.ParamAt(math.Inf(1)))
}

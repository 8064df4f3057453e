package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// parabola is the arch over a chord b with the rise h, as one exact cubic.
func parabola(b, h float64) Cubic {
	mid := Pt(b/2, 2*h)
	return Curve(Pt(0, 0), Pt(0, 0).Lerp(mid, 2.0/3), Pt(b, 0).Lerp(mid, 2.0/3), Pt(b, 0))
}

// oval is an ellipse of n cubics with half axes a and b round o, each taking
// the handles of the circle, 4/3·tan(θ/4).
func oval(o Point, a, b float64, n int) Path {
	segs := make([]Cubic, n)
	step := 2 * math.Pi / float64(n)
	k := 4.0 / 3 * math.Tan(step/4)
	pt := func(i int) Point {
		u := Angle(step * float64(i%n)).Unit()
		return o.Add(Pt(a*u.X, b*u.Y))
	}
	tan := func(i int) Point {
		u := Angle(step * float64(i%n)).Unit()
		return Pt(-a*u.Y, b*u.X).Mul(k)
	}
	for i := range segs {
		segs[i] = Curve(pt(i), pt(i).Add(tan(i)), pt(i+1).Sub(tan(i+1)), pt(i+1))
	}
	return Must(NewClosed(segs...))
}

func TestArea(t *testing.T) {
	assert.Equal(t, 200.0, parse(t, "M0 0L20 0L20 10L0 10Z").Area())
	assert.Equal(t, -200.0, parse(t, "M0 0L20 0L20 10L0 10Z").Reverse().Area())
	assert.Zero(t, Path{}.Area())
	// Parabola segment 2bh/3 (Archimedes), an open path closed by its chord.
	for _, bh := range [][2]float64{{100, 10}, {100, 50}, {160, 40}} {
		p := Must(NewPath(parabola(bh[0], bh[1])))
		assert.InDelta(t, -2*bh[0]*bh[1]/3, p.Area(), 1e-11)
	}
	// Ellipse πab, the error of the cubic circle falling by 2⁻⁶ as n doubles.
	for n, tol := range map[int]float64{8: 1e-5, 16: 1.6e-7, 32: 2.5e-9} {
		assert.InEpsilon(t, math.Pi*60*45, oval(Pt(3, 4), 60, 45, n).Area(), tol)
	}
}

func TestCentroid(t *testing.T) {
	c := parse(t, "M0 0L30 0L0 60Z").Centroid()
	assert.InDelta(t, 0, c.Dist(Pt(10, 20)), 1e-12)
	c = oval(Pt(300, -40), 60, 45, 4).Centroid()
	assert.InDelta(t, 0, c.Dist(Pt(300, -40)), 1e-11)
	// A parabola segment has its centroid at 2/5 of its height.
	c = Must(NewPath(parabola(100, 50))).Centroid()
	assert.InDelta(t, 0, c.Dist(Pt(50, 20)), 1e-12)
	c = Must(Polyline(Pt(0, 0), Pt(10, 20))).Centroid()
	assert.Equal(t, Pt(5, 10), c)
}

func TestAreaProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		m := drawMotion(t)
		sign := 1.0
		if m.Mirrors() {
			sign = -1
		}
		q := p.Transform(m)
		require.InDelta(t, sign*p.Area(), q.Area(), 1e-8)
		require.InDelta(t, -p.Area(), p.Reverse().Area(), 1e-8)
		if math.Abs(p.Area()) > 1 {
			require.InDelta(t, 0, q.Centroid().Dist(m.Apply(p.Centroid())), 1e-6)
		}
	})
}

func TestBoundsTight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		b, dense := p.Bounds(), NoBox()
		const n = 400
		for _, c := range p.segs {
			for i := range n + 1 {
				q := c.At(float64(i) / n)
				dense = dense.with(q)
				require.True(t, b.Grow(1e-11).Contains(q), "%v outside %v", q, b)
			}
		}
		// Between samples a cubic of this size leaves them by less than M·h²/8.
		slack := 12 * 400 / 8.0 / n / n
		require.True(t, dense.Grow(slack).Contains(b.Min) && dense.Grow(slack).Contains(b.Max), "%v is not tight: %v", b, dense)
	})
}

func TestBox(t *testing.T) {
	b := BoxOf(Pt(3, 1), Pt(-1, 5), Pt(0, 0))
	assert.Equal(t, Box{Pt(-1, 0), Pt(3, 5)}, b)
	assert.Equal(t, 4.0, b.Width())
	assert.Equal(t, 5.0, b.Height())
	assert.Equal(t, Pt(1, 2.5), b.Center())
	assert.True(t, b.Contains(Pt(3, 5)))
	assert.False(t, b.Contains(Pt(3.1, 5)))
	assert.Equal(t, Box{Pt(-2, -1), Pt(4, 6)}, b.Grow(1))
	assert.True(t, b.Grow(-3).Empty())
	assert.Equal(t, b, b.Union(NoBox()))
	assert.Equal(t, b, NoBox().Union(b))
	assert.True(t, NoBox().Union(NoBox()).Grow(5).Empty())
	assert.Zero(t, NoBox().Width()+NoBox().Height()+NoBox().Center().Norm())
	assert.True(t, Path{}.Bounds().Empty())
	assert.True(t, b.Overlaps(BoxOf(Pt(3, 5), Pt(9, 9))))
	assert.False(t, b.Overlaps(BoxOf(Pt(3, 5.1), Pt(9, 9))))
}

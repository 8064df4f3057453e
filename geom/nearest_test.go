package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestNearestKnown(t *testing.T) {
	sq := parse(t, "M0 0L20 0L20 10L0 10Z")
	f := sq.Nearest(Pt(5, -3))
	assert.Equal(t, Foot{S: 5, Seg: 0, T: 0.25, Point: Pt(5, 0), Dist: 3}, f)
	f = sq.Nearest(Pt(25, 15)) // a corner
	assert.Equal(t, Pt(20, 10), f.Point)
	assert.Equal(t, 30.0, f.S)

	// From (0, d) on the axis of y = x², the foot is where 2x² = 2d − 1.
	arch := parabola(20, 100) // y = 100 − (x−10)²
	f = Must(NewPath(arch)).Nearest(Pt(10, 100-8.5))
	assert.InDelta(t, math.Sqrt(8.25), f.Dist, 1e-12)
	assert.InDelta(t, math.Sqrt(8), math.Abs(f.Point.X-10), 1e-9)

	assert.True(t, math.IsInf(Path{}.Nearest(Pt(0, 0)).Dist, 1))
	assert.True(t, math.IsInf(sq.Nearest(Pt(math.NaN(), 0)).Dist, 1))
}

// TestNearestGlobal: no sample of the path is nearer than the foot, and the
// foot is what it says it is.
func TestNearestGlobal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		q := drawPoint(t, 200)
		f := p.Nearest(q)
		require.InDelta(t, f.Dist, f.Point.Dist(q), 1e-12)
		require.InDelta(t, 0, p.Seg(f.Seg).At(f.T).Dist(f.Point), 1e-12)
		require.InDelta(t, 0, p.At(f.S).Dist(f.Point), 1e-9)
		for _, c := range p.segs {
			for i := range 501 {
				require.GreaterOrEqual(t, c.At(float64(i)/500).Dist(q), f.Dist-1e-12)
			}
		}
		// Right on the foot: the distance line meets the path squarely.
		if f.T > 0 && f.T < 1 && f.Dist > 0 {
			d := p.Seg(f.Seg).Deriv(f.T)
			require.InDelta(t, 0, f.Point.Sub(q).Dot(d), 1e-8*(1+d.Norm()))
		}
	})
}

func TestNearestOfItsOwnPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		q := p.At(rapid.Float64Range(0, p.Length()).Draw(t, "s"))
		require.LessOrEqual(t, p.Nearest(q).Dist, 1e-9)
	})
}

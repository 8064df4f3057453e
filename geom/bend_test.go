package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestBendCarriesStraightRuns(t *testing.T) {
	p := Must(Polyline(Pt(0, 0), Pt(30, 0), Pt(100, 0)))
	q, err := p.Bend(Pt(0, 0), Pt(100, 10))
	require.NoError(t, err)
	assert.Equal(t, "M 0 0 L 30 3 L 100 10", q.String())
	q, err = p.Bend(Pt(1, 2), Pt(101, 2))
	require.NoError(t, err)
	assert.Equal(t, "M 1 2 L 31 2 L 101 2", q.String())
}

func TestBendByEqualDisplacementsIsAShift(t *testing.T) {
	p := parallelSample()
	v := Pt(7, -3)
	q, err := p.Bend(p.Start().Add(v), p.End().Add(v))
	require.NoError(t, err)
	want := p.Transform(Shift(v))
	for i := range q.Len() {
		for k := range 4 {
			assert.True(t, q.Seg(i).P[k].Near(want.Seg(i).P[k], 1e-12))
		}
	}
}

// Bending by a small amount displaces every place in proportion to its arc length.
func TestBendTapersAlongTheLength(t *testing.T) {
	p := Must(Arc(Pt(0, 0), 60, 180*Degree, 180*Degree))
	v := Pt(0, -6.35)
	q, err := p.Bend(p.Start(), p.End().Add(v))
	require.NoError(t, err)
	for k := range 101 {
		share := float64(k) / 100
		want := p.At(share * p.Length()).Add(v.Mul(share))
		assert.Less(t, q.Nearest(want).Dist, 0.005)
	}
	fitSmooth(t, q)
	assert.Equal(t, p.Start(), q.Start())
	assert.Equal(t, p.End().Add(v), q.End())
	turned := Between(p.TangentAt(0), q.TangentAt(0))
	assert.InDelta(t, 0, float64(turned), 6.35/p.Length(), "by the slope at most")
}

func TestBendToLength(t *testing.T) {
	p := Must(Arc(Pt(0, 0), 60, 200*Degree, 100*Degree))
	for _, more := range []float64{-3, -0.5, 0, 0.5, 3, 10} {
		want := p.Length() + more
		q, err := p.BendToLength(p.Start(), p.End().Add(Pt(0.5, -1)), want)
		require.NoError(t, err)
		assert.InDelta(t, want, q.Length(), 1e-9)
		assert.Equal(t, p.Start(), q.Start())
		assert.True(t, q.End().Near(p.End().Add(Pt(0.5, -1)), 1e-12))
		fitSmooth(t, q)
		lo, _ := fairBends(q)
		assert.Greater(t, lo, 0.0)
	}
	_, err := p.BendToLength(p.Start(), p.End(), p.Start().Dist(p.End())-1)
	assert.ErrorContains(t, err, "mm long")
	line := Must(Polyline(Pt(0, 0), Pt(50, 0)))
	_, err = line.BendToLength(Pt(0, 0), Pt(50, 0), 51)
	assert.ErrorContains(t, err, "50 mm to 50 mm")
	q, err := line.BendToLength(Pt(0, 0), Pt(30, 40), 50)
	require.NoError(t, err)
	assert.True(t, q.IsStraight())
}

func TestBendOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "n")
		a, b := drawPoint(t, 150), drawPoint(t, 150)
		q, err := p.Bend(a, b)
		if err != nil {
			return
		}
		require.Equal(t, p.Len(), q.Len())
		require.Equal(t, a, q.Start())
		require.Equal(t, b, q.End())
		want := q.Length() * rapid.Float64Range(0.9, 1.2).Draw(t, "length")
		if r, err := p.BendToLength(a, b, want); err == nil {
			require.InDelta(t, want, r.Length(), 1e-8)
		}
	})
}

func TestBendRefusesJunk(t *testing.T) {
	p := parallelSample()
	nan := Pt(math.NaN(), 0)
	for _, v := range [][2]Point{{nan, Pt(0, 0)}, {Pt(0, 0), nan}, {Pt(0, 0), Pt(math.Inf(1), 0)}, {Pt(0, 0), Pt(5000, 0)}} {
		_, err := p.Bend(v[0], v[1])
		assert.Error(t, err)
		_, err = p.BendToLength(v[0], v[1], 300)
		assert.Error(t, err)
	}
	_, err := p.BendToLength(p.Start(), p.End(), math.NaN())
	assert.Error(t, err)
	_, err = Path{}.Bend(Pt(0, 0), Pt(1, 1))
	assert.Error(t, err)
	_, err = Must(JoinClosed(Must(Arc(Pt(0, 0), 20, 0, 2*math.Pi)))).Bend(Pt(0, 0), Pt(1, 1))
	assert.Error(t, err)
}

func BenchmarkBendToLength(b *testing.B) {
	p := Must(Arc(Pt(0, 0), 60, 200*Degree, 100*Degree))
	for b.Loop() {
		if _, err := p.BendToLength(p.Start(), p.End().Add(Pt(1, 1)), p.Length()); err != nil {
			b.Fatal(err)
		}
	}
}

func TestFullerBulgesByThatMuchMore(t *testing.T) {
	p := Must(Arc(Pt(0, 0), 60, 200*Degree, 100*Degree))
	bulge := 60 * (1 - math.Cos(50*math.Pi/180))
	assert.InDelta(t, bulge, p.Bulge(), 1e-3*bulge)
	for _, more := range []float64{-5, 0.5, 3} {
		q, err := p.Fuller(more)
		require.NoError(t, err)
		assert.InDelta(t, p.Bulge()+more, q.Bulge(), 1e-9)
		assert.Equal(t, p.Start(), q.Start())
		assert.Equal(t, p.End(), q.End())
		assert.Empty(t, q.Inflections())
	}
	for _, more := range []float64{-bulge, 4 * bulge, math.NaN()} {
		_, err := p.Fuller(more)
		require.Error(t, err)
	}
	_, err := Must(Polyline(Pt(0, 0), Pt(10, 0))).Fuller(1)
	require.Error(t, err)
	_, err = Path{}.Fuller(1)
	require.Error(t, err)
}

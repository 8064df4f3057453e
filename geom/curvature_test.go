package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestInflections(t *testing.T) {
	cube := one(graph(func(x float64) float64 { return x * x * x }, func(x float64) float64 { return 3 * x * x }, -2, 3))
	in := cube.Inflections()
	require.Len(t, in, 1)
	assert.InDelta(t, 0, cube.At(in[0]).Norm(), 1e-9)
	for data, want := range map[string]int{
		"M0 0L20 0L20 10L0 10Z": 0,
		samplePath:              2, // one curve bends right, one left
		"M0 0C10 10 20 10 30 0C40 -10 50 -10 60 0":             1,
		"M0 0C10 10 20 10 30 0L40 -10C50 -20 60 -20 70 -10":    1,
		"M0 0C10 10 20 10 30 0C40 10 50 10 60 0":               0, // a corner between, both bend right
		"M0 0C10 10 20 -10 30 0":                               1,
		"M0 0C10 1e-8 20 -1e-8 30 0":                           0, // straight but for rounding
		"M0 0C10 10 20 10 30 0C40 1e-9 50 1e-9 60 0L90 0":      0,
		"M0 0C10 10 20 10 30 0C40 -10 50 -10 60 0L60 -50L0 0Z": 2, // across the start
	} {
		assert.Len(t, parse(t, data).Inflections(), want, data)
	}
	// Across a straight stretch: its middle.
	p := parse(t, "M0 0C10 10 20 10 30 0L40 -10C50 -20 60 -20 70 -10")
	assert.InDelta(t, 0, p.At(p.Inflections()[0]).Dist(Pt(35, -5)), 1e-9)
	assert.Empty(t, Path{}.Inflections())
	for n := 3; n < 20; n++ {
		assert.Empty(t, oval(Pt(0, 0), 60, 45, n).Inflections())
	}
}

func TestInflectionsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tens := func() Point { // keeps bends well above the least that counts
			i := rapid.IntRange(-10, 10)
			return Pt(10*float64(i.Draw(t, "x")), 10*float64(i.Draw(t, "y")))
		}
		p, err := NewPath(Curve(tens(), tens(), tens(), tens()))
		if err != nil {
			t.Skip(err)
		}
		in := p.Inflections()
		m := drawMotion(t)
		moved, back := p.Transform(m).Inflections(), p.Reverse().Inflections()
		require.Len(t, moved, len(in))
		require.Len(t, back, len(in))
		for i, s := range in {
			require.InDelta(t, s, moved[i], 1e-4)
			require.InDelta(t, p.Length()-s, back[len(in)-1-i], 1e-4)
		}
	})
}

func TestCurvature(t *testing.T) {
	// A parabola is most curved at its top: 8h/b². It bends right.
	arch := one(parabola(100, 10))
	k, s := arch.MaxCurvature(0, arch.Length())
	assert.InDelta(t, -8*10.0/100/100, k, 1e-15)
	assert.InDelta(t, arch.Length()/2, s, 1e-9)
	lo, hi := arch.CurvatureRange()
	assert.InDelta(t, k, lo, 1e-15)
	assert.InDelta(t, -8*10.0/1e4/math.Pow(1+0.16, 1.5), hi, 1e-15) // at the ends, slope 4h/b
	k, s = arch.MaxCurvature(0, 20)
	assert.InDelta(t, 20, s, 1e-9)
	assert.InDelta(t, arch.CurvatureAt(20), k, 1e-12)

	// An ellipse has curvatures between b/a² and a/b².
	lo, hi = oval(Pt(5, 5), 60, 45, 64).CurvatureRange()
	assert.InEpsilon(t, 45.0/3600, lo, 1e-4)
	assert.InEpsilon(t, 60.0/2025, hi, 1e-4)

	// A handle without length: finite, and large.
	k, s = parse(t, "M0 0C0 0 20 30 50 0").MaxCurvature(0, 100)
	assert.Less(t, math.Abs(k), 1e4)
	assert.InDelta(t, 0.01, s, 2e-3)
	cusp := parse(t, "M0 0C100 100 0 100 100 0")
	lo, hi = cusp.CurvatureRange()
	assert.False(t, math.IsInf(lo, 0) || math.IsInf(hi, 0) || math.IsNaN(lo+hi))
	lo, hi = Path{}.CurvatureRange()
	assert.Zero(t, lo+hi)
	lo, hi = parse(t, "M0 0L10 0L10 10").CurvatureRange()
	assert.Zero(t, math.Abs(lo)+math.Abs(hi))
}

func TestCurvatureRangeHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		lo, hi := p.CurvatureRange()
		require.False(t, math.IsNaN(lo+hi) || math.IsInf(lo, 0) || math.IsInf(hi, 0))
		for _, c := range p.segs {
			if c.turnsBack() {
				continue
			}
			for i := range 201 {
				k := c.Curvature(float64(i) / 200)
				require.GreaterOrEqual(t, k, lo-1e-9*(1+math.Abs(lo)))
				require.LessOrEqual(t, k, hi+1e-9*(1+math.Abs(hi)))
			}
		}
	})
}

func TestCorners(t *testing.T) {
	sq := parse(t, "M0 0L20 0L20 10L0 10Z")
	assert.Equal(t, []float64{0, 20, 30, 50}, sq.Corners(10*Degree))
	assert.Empty(t, sq.Corners(91*Degree))
	assert.Equal(t, []float64{20, 30, 50}, parse(t, "M0 0L20 0L20 10L0 10L0 0").Corners(10*Degree))
	assert.Empty(t, oval(Pt(0, 0), 60, 45, 8).Corners(1e-6*Degree))
	assert.Len(t, parse(t, samplePath).Corners(5*Degree), 4)
	assert.Equal(t, []float64{10}, parse(t, "M0 0L10 0L20 1").Corners(5*Degree))
	assert.Empty(t, parse(t, "M0 0L10 0L20 1").Corners(6*Degree))
	assert.Empty(t, Path{}.Corners(0))
}

package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFlatten(t *testing.T) {
	assert.Equal(t, []Point{{0, 0}, {20, 0}, {20, 10}, {0, 10}, {0, 0}}, parse(t, "M0 0L20 0L20 10L0 10Z").Flatten(0.01))
	assert.Nil(t, Path{}.Flatten(1))
	p := parse(t, samplePath)
	assert.Len(t, p.Flatten(math.NaN()), len(p.Flatten(flattenLeast)))
	assert.Len(t, p.Flatten(-1), len(p.Flatten(flattenLeast)))
	assert.Len(t, p.Flatten(math.Inf(1)), 5)
	// A quarter circle of radius 100 needs at least n chords with sagitta
	// r(1 − cos(π/4n)) ≤ tol; here never more than a third beyond that.
	quarter := Must(NewPath(oval(Pt(0, 0), 100, 100, 4).Seg(0)))
	for _, tol := range []float64{1, 0.1, 0.01, 1e-3} {
		least := math.Pi / 4 / math.Acos(1-tol/100)
		assert.LessOrEqual(t, float64(len(quarter.Flatten(tol))-1), math.Ceil(least*4/3))
	}
}

// TestFlattenWithinTolerance: points between neighbours on the path are
// within tol of the chord over them.
func TestFlattenWithinTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCubic(t, drawPoint(t, 100))
		p, err := NewPath(c)
		if err != nil {
			t.Skip(err)
		}
		tol := math.Pow(10, rapid.Float64Range(-3, 1).Draw(t, "exponent"))
		pts := p.Flatten(tol)
		n := len(pts) - 1
		require.Equal(t, p.Start(), pts[0])
		require.Equal(t, p.End(), pts[n])
		worst := 0.0
		for i := range n {
			for _, f := range []float64{0.1, 0.3, 0.5, 0.7, 0.9} {
				q := p.Seg(0).At((float64(i) + f) / float64(n))
				chord := Straight(pts[i], pts[i+1])
				_, dist := chord.nearest(q)
				worst = math.Max(worst, dist)
			}
		}
		require.LessOrEqual(t, worst, tol*(1+1e-9))
	})
}

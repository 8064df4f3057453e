package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestWindingAtJointsAndTangents(t *testing.T) {
	diamond := parse(t, "M10 0L0 10L-10 0L0 -10Z") // joints on the ray
	assert.Equal(t, 1, diamond.Winding(Pt(0, 0)))
	assert.Equal(t, 0, diamond.Winding(Pt(-11, 0)))
	assert.Equal(t, 0, diamond.Winding(Pt(-5, 10))) // ray touches a corner
	assert.Equal(t, 0, diamond.Winding(Pt(-5, -10)))
	assert.Equal(t, -1, diamond.Reverse().Winding(Pt(0, 0)))

	step := parse(t, "M0 0L10 0L10 5L20 5L20 10L0 10Z") // ray along a straight run
	assert.Equal(t, 1, step.Winding(Pt(5, 5)))
	assert.Equal(t, 0, step.Winding(Pt(-5, 5)))
	assert.Equal(t, 0, step.Winding(Pt(-5, 0)))
	assert.Equal(t, 0, step.Winding(Pt(-5, 10)))

	round := oval(Pt(0, 0), 60, 45, 4)
	for _, y := range []float64{45, -45, 0} { // tangents, and joints, on the ray
		assert.Equal(t, 0, round.Winding(Pt(-100, y)))
	}
	assert.Equal(t, 1, round.Winding(Pt(0, 0)))
	assert.True(t, round.Contains(Pt(59.999, 0)))
	assert.False(t, round.Contains(Pt(60.001, 0)))

	loop := parse(t, "M0 0C100 80 -40 80 60 0Z") // its own loop turns the same way
	assert.Equal(t, 1, loop.Winding(Pt(30, 55)))
	assert.Equal(t, -1, loop.Winding(Pt(30, 10)))
	assert.Zero(t, Path{}.Winding(Pt(0, 0)))
	assert.Zero(t, round.Winding(Pt(math.NaN(), math.Inf(1))))
}

// TestWindingAgainstAngle compares with the angle the path sweeps round the
// point, summed over a fine polygon.
func TestWindingAgainstAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPath(t, "path")
		q := drawPoint(t, 120)
		if p.Nearest(q).Dist < 0.5 || !p.closed && Must(Polyline(p.Start(), p.Start().Add(Pt(1e-3, 0)), p.End())).Nearest(q).Dist < 0.5 {
			t.Skip("on the path")
		}
		sum, last := 0.0, p.Start().Sub(q)
		for _, c := range append(p.Segments(), Straight(p.End(), p.Start())) {
			for i := 1; i <= 2000; i++ {
				next := c.At(float64(i) / 2000).Sub(q)
				sum += float64(Between(last, next))
				last = next
			}
		}
		require.Equal(t, int(math.Round(sum/2/math.Pi)), p.Winding(q))
	})
}

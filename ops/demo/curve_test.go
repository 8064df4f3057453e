package demo

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/geom"
)

func TestSolveFindsRootsAndRefusesWhereThereIsNone(t *testing.T) {
	x, err := solve(0, 2, func(x float64) float64 { return x*x - 2 })
	require.NoError(t, err)
	assert.InDelta(t, math.Sqrt2, x, 1e-13)
	x, err = solve(0, 1, func(x float64) float64 { return x })
	require.NoError(t, err)
	assert.Zero(t, x)
	_, err = solve(1, 2, func(x float64) float64 { return x })
	assert.Error(t, err)
	_, err = solve(0, 1, func(float64) float64 { return math.NaN() })
	assert.Error(t, err)
}

func TestBowHasTheLengthAndBulgeAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(40, 200).Draw(t, "length")
		bulge := rapid.Float64Range(0.001, 0.2).Draw(t, "share") * length
		c, err := bow(length, bulge)
		require.NoError(t, err)
		p := geom.Must(geom.NewPath(c))
		assert.InDelta(t, length, p.Length(), 1e-9)
		assert.InDelta(t, bulge, bulgeOf(p), 1e-4)
	})
}

func TestCrestHasTheLengthsAndBulgeAskedAndOneBend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		below, above := rapid.Float64Range(60, 120).Draw(t, "below"), rapid.Float64Range(50, 120).Draw(t, "above")
		bulge := rapid.Float64Range(8, 18).Draw(t, "bulge")
		p, err := crest(below, above, bulge)
		require.NoError(t, err)
		assert.InDelta(t, below, p.Seg(0).Length(), 1e-9)
		assert.InDelta(t, above, p.Seg(1).Length(), 1e-9)
		assert.InDelta(t, bulge, bulgeOf(p), 1e-4)
		assert.InDelta(t, p.Seg(0).Curvature(1), p.Seg(1).Curvature(0), 0.3*p.Seg(0).Curvature(1))
		assert.InDelta(t, 0, p.Seg(0).Curvature(0), 1e-9, "straight at its end")
	})
}

// An arc of a circle with a share of its bend is an arc as long of a larger circle.
func TestUnbentArcIsALargerArc(t *testing.T) {
	h := 4.0 / 3 * math.Tan(math.Pi/16) * 60
	var segs []geom.Cubic
	for i := range 4 {
		a, b := deg(22.5*float64(i)), deg(22.5*float64(i+1))
		p, q := a.Unit().Mul(60), b.Unit().Mul(60)
		segs = append(segs, geom.Curve(p, p.Add(a.Unit().Perp().Mul(h/2)), q.Sub(b.Unit().Perp().Mul(h/2)), q))
	}
	arc := geom.Must(geom.NewPath(segs...))
	half, err := unbent(arc, 0.5)
	require.NoError(t, err)
	assert.InDelta(t, arc.Length(), half.Length(), 1e-9)
	turn := geom.Between(half.TangentAt(0), half.TangentBefore(half.Length())).Degrees()
	assert.InDelta(t, geom.Between(arc.TangentAt(0), arc.TangentBefore(arc.Length())).Degrees()/2, turn, 0.01)
	straight, err := unbent(arc, 0)
	require.NoError(t, err)
	assert.InDelta(t, 0, bulgeOf(straight), 1e-9)
}

func TestHollowBendsOneWayBetweenItsDirections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := geom.Pt(0, 0), geom.Pt(rapid.Float64Range(20, 200).Draw(t, "x"), 0)
		leave := deg(-rapid.Float64Range(2, 60).Draw(t, "leave"))
		arrive := deg(rapid.Float64Range(2, 60).Draw(t, "arrive"))
		c := hollow(a, leave, b, arrive)
		assert.InDelta(t, float64(leave), float64(c.Tangent(0).Direction()), 1e-9)
		assert.InDelta(t, float64(arrive), float64(c.Tangent(1).Direction()), 1e-9)
		for i := range 51 {
			assert.Greater(t, c.Curvature(float64(i)/50), 0.0)
		}
	})
}

func TestFullerAndPushedAreLongerBetweenTheSameEnds(t *testing.T) {
	w, err := wireLine(11, 118)
	require.NoError(t, err)
	gentle := geom.Must(geom.NewPath(sweep(geom.Pt(0, 0), deg(-10), third, geom.Pt(70, 0), deg(12), third)))
	for name, c := range map[string]struct {
		was geom.Path
		do  func(geom.Path, float64) (geom.Path, error)
	}{"fuller": {w, fuller}, "pushed": {gentle, pushed}} {
		now, err := c.do(c.was, 2)
		require.NoError(t, err, name)
		assert.InDelta(t, c.was.Length()+2, now.Length(), 1e-9, name)
		assert.Equal(t, c.was.Start(), now.Start(), name)
		assert.Equal(t, c.was.End(), now.End(), name)
		for _, s := range []float64{0, 1} {
			a, b := c.was.TangentBefore(s*c.was.Length()), now.TangentBefore(s*now.Length())
			assert.InDelta(t, 0, geom.Between(a, b).Degrees(), 1e-9, name)
		}
	}
}

package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A joint that turns ever so slightly, as rounded coordinates make it, does
// not upset the parallel on either side.
func TestParallelPassesSlightKinks(t *testing.T) {
	const tol = 0.002
	rapid.Check(t, func(t *rapid.T) {
		kink := math.Pow(10, rapid.Float64Range(-6, -3).Draw(t, "log10 of the kink")) * float64(rapid.SampledFrom([]int{1, -1}).Draw(t, "side"))
		width := rapid.Float64Range(-18, 18).Draw(t, "width")
		bit := rapid.Float64Range(0.5, 30).Draw(t, "bit")
		after := Curve(Pt(0, 0), Pt(35, 0), Pt(65, -5), Pt(96, -10))
		if rapid.Bool().Draw(t, "straight") {
			after = Straight(Pt(0, 0), Pt(90, 0))
		}
		p := Must(NewPath(Straight(Pt(-bit, -bit*math.Tan(kink)), Pt(0, 0)), after))
		q, err := p.Parallel(width, tol)
		require.NoError(t, err)
		for i := range 101 {
			d := p.Nearest(q.At(q.Length() * float64(i) / 100)).Dist
			assert.InDelta(t, math.Abs(width), d, 2*tol+math.Abs(width)*(1/math.Cos(kink/2)-1))
		}
	})
}

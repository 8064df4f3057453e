package intake

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A curve that was written as straight bits comes in as the curve: an ellipse,
// whose parallel's length is known from Steiner's formula.
func TestFlattenedCurvesBecomeCurvesAgain(t *testing.T) {
	for _, n := range []int{60, 400, 4000} {
		var pts strings.Builder
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			fmt.Fprintf(&pts, "%.4f,%.4f ", 100+60*c, 100+40*s)
		}
		in := page + `<polygon id="a" points="` + pts.String() + `"/></svg>`
		res, err := Bring(strings.NewReader(in), nil, Options{Allowance: 6.35})
		require.NoError(t, err)
		pc := piece(t, res, "a")
		require.Len(t, pc.Edges, 2)
		assert.Less(t, pc.Edges[0].Path.Len()+pc.Edges[1].Path.Len(), 60)
		assert.Greater(t, res.Pieces[0].Bits, n/2)
		assert.Contains(t, strings.Join(res.Notes, "\n"), "stand for curves")
		// Moved inwards by w, a convex outline of perimeter L has L − 2πw.
		const ellipse = 317.308791785811816 // semi-axes 60 and 40: half that of (120, 80)
		assert.InDelta(t, ellipse-2*math.Pi*6.35, pc.Edges[0].Length()+pc.Edges[1].Length(), 0.1, "%d bits", n)
		assert.Less(t, res.Pieces[0].CutError, 0.02)
	}
}

func TestCornersDrawnStraightStayAsDrawn(t *testing.T) {
	var pts []string
	for i := range 24 { // turns of 15 degrees are drawn on purpose
		s, c := math.Sincos(2 * math.Pi * float64(i) / 24)
		pts = append(pts, fmt.Sprintf("%.5f,%.5f", 100+30*c, 100+30*s))
	}
	res, err := bring(t, `<polygon id="a" points="`+strings.Join(pts, " ")+`"/>`, "corners 14\npiece a")
	require.NoError(t, err)
	assert.Len(t, piece(t, res, "a").Edges, 24)
	assert.Zero(t, res.Pieces[0].Bits)
}

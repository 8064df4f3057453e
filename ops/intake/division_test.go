package intake

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/geom"
)

// twoPlates are two rectangles of 100 by 60 mm; the second is half as large.
const twoPlates = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">
  <g id="big"><path id="plate" d="M20 20 h100 v60 h-100 z"/></g>
  <g id="small"><path id="plate" d="M200 100 h50 v30 h-50 z"/></g></svg>`

func TestEdgesAreDividedWhereItIsSaid(t *testing.T) {
	svg := strings.ReplaceAll(twoPlates, `<g id="small"><path id="plate" d="M200 100 h50 v30 h-50 z"/></g>`, "")
	bring := func(allowance float64, d ...Division) (Result, error) {
		return Bring(strings.NewReader(svg), nil, Options{Allowance: allowance, Divisions: d})
	}
	for _, allowance := range []float64{0, 6} {
		plain, err := bring(allowance)
		require.NoError(t, err)
		pc := plain.Run.Sizes[0].Pattern.Pieces[0]
		require.Len(t, pc.Edges, 4)
		name := pc.Name
		on := func(x, y float64) Division { return Division{Piece: name, At: plain.Origin.Add(geom.Pt(x, y))} }
		off := func(x, y float64) Division { d := on(x, y); d.Smooth = true; return d }

		// A corner more, 30 mm along the lower edge of what is sewn.
		res, err := bring(allowance, on(30, 0))
		require.NoError(t, err)
		edges := res.Run.Sizes[0].Pattern.Pieces[0].Edges
		require.Len(t, edges, 5)
		assert.InDelta(t, 30, edges[1].Length(), 0.01)

		// It goes again, and one of those that were drawn too.
		res, err = bring(allowance, on(30, 0), off(31, 1), off(0, 0))
		require.NoError(t, err)
		edges = res.Run.Sizes[0].Pattern.Pieces[0].Edges
		require.Len(t, edges, 3)
		assert.InDelta(t, 160-4*allowance, edges[0].Length(), 0.5, "left and bottom are one edge now")

		_, err = bring(allowance, on(30, 0), on(30, 0))
		require.ErrorContains(t, err, "there is a joint already")
		_, err = bring(allowance, off(0, 0), off(0, 0), off(0, 0), off(0, 0), off(0, 0))
		require.ErrorContains(t, err, "no joint to take away")
	}
}

func TestDivisionsLieInOtherSizesWhereTheyAreInShares(t *testing.T) {
	c, err := ReadCompanion(strings.NewReader(`size L in big
size S in small
piece plate
`))
	require.NoError(t, err)
	plain, err := Bring(strings.NewReader(twoPlates), c, Options{})
	require.NoError(t, err)
	res, err := Bring(strings.NewReader(twoPlates), c, Options{Divisions: []Division{{Piece: "plate", At: plain.Origin.Add(geom.Pt(30, 0))}}})
	require.NoError(t, err)
	for i, want := range []float64{30, 15} {
		require.InDelta(t, want, res.Run.Sizes[i].Pattern.Pieces[0].Edges[1].Length(), 0.01, fmt.Sprint(i))
	}
}

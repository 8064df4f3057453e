package step

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
)

// A place along an edge, and a datum, may be another in each size, or follow a
// figure; the file reads and writes them like every number.
func TestPlacesAndDatumsVaryBySize(t *testing.T) {
	const steps = `[
		{"id":"mark","do":"notch","act":"add","piece":"left","name":"at","spot":{"piece":"left","edge":"side","from":"end","mm":{"sizes":{"L":25,"S":20}}}},
		{"id":"cut","do":"cut-off","piece":"left","from":{"piece":"left","edge":"side","from":"end","mm":{"figure":"pattern.drop","times":0.5}},"to":{"piece":"left","edge":"top","share":{"sizes":{"L":0.6,"S":0.5}}},"keep":"left","name":"lace","role":"lace-edge"},
		{"id":"turn","do":"turn","piece":"right","pin":{"piece":"right","edge":"front","from":"end","mm":"1/4 in"},"direction":"cw","until":{"spot":{"piece":"right","edge":"hem","from":"end"},"datum":{"y":{"sizes":{"L":-9,"S":-6}}}}}
	]`
	var r Recipe
	require.NoError(t, json.Unmarshal([]byte(steps), &r))
	p := twoBoxes()
	p.Figures = map[string]float64{"drop": 30}
	run := pattern.Run{Name: "x", Sizes: []pattern.Size{{Label: "S", Pattern: p}, {Label: "L", Pattern: p}}}
	results := r.Replay(run)
	for i, want := range []struct{ at, top, y float64 }{{40, 50, -6}, {35, 40, -9}} {
		res := results[i]
		require.Nil(t, res.Upset(), res.Reason())
		pc := res.Size.Pattern.Piece("left")
		assert.InDelta(t, want.at, res.Reports[0].Figures["at_mm"], 1e-9)
		assert.InDelta(t, 45, pc.Edge("side").Length(), 1e-9, "half of 30 is cut off")
		assert.InDelta(t, want.top, pc.Edge("top").Length(), 1e-9)
		right := res.Size.Pattern.Piece("right")
		assert.InDelta(t, want.y, right.Pose.Apply(right.Edge("hem").Path.End()).Y, 1e-6)
		assert.Contains(t, res.Reports[1].Sentence, []string{"the middle of top", "the place 60 % along top"}[i], "a size tells its own number")
		assert.Contains(t, res.Reports[1].Sentence, "the place 15 mm along side of left from its end")
	}
	assert.Contains(t, r[0].Sentence(), `There "spot mm" varies: 25 in L and 20 in S.`)
	assert.Contains(t, r[1].Sentence(), `There "from mm" varies: half the pattern's drop.`)

	b, err := json.Marshal(r)
	require.NoError(t, err)
	for _, part := range []string{`"mm":{"sizes":{"L":25,"S":20}}`, `"mm":{"figure":"pattern.drop","times":0.5}`, `"share":{"sizes":{"L":0.6,"S":0.5}}`, `"y":{"sizes":{"L":-9,"S":-6}}`, `"mm":6.35`} {
		assert.Contains(t, string(b), part)
	}
	var again Recipe
	require.NoError(t, json.Unmarshal(b, &again))
	require.Equal(t, r, again)

	// Their sizes and figures are names that the recipe speaks of, and a number
	// can be given anew.
	named := map[Name]bool{}
	for i := range r {
		for _, m := range r[i].Mentions() {
			named[m.Name] = true
		}
	}
	assert.True(t, named[Name{Kind: NameSize, Name: "L"}])
	assert.True(t, named[Name{Kind: NameFigure, Name: "drop"}])
	e, err := r[0].WithNumber([]string{"spot", "mm"}, Lit(10))
	require.NoError(t, err)
	assert.InDelta(t, 50, Recipe{e}.Replay(run)[1].Reports[0].Figures["at_mm"], 1e-9)
	assert.InDelta(t, 35, Recipe{r[0]}.Replay(run)[1].Reports[0].Figures["at_mm"], 1e-9, "the entry itself stays")

	// A size that the table lacks, and a number that is none, are told.
	_, _, err = Recipe{}.Append(pattern.Run{Sizes: []pattern.Size{{Label: "M", Pattern: p}}}, r[0])
	require.ErrorContains(t, err, `none for size "M"; it has L, S`)
	var bad Entry
	require.ErrorContains(t, json.Unmarshal([]byte(`{"id":"a","do":"notch","act":"add","spot":{"piece":"x","edge":"y","mm":{"sizes":{"S":1},"figure":"x"}}}`), &bad), "spot mm")
}

// A plain number of a place may come to vary, and be one for all sizes again.
func TestPlainNumberOfAPlaceIsMadeToVary(t *testing.T) {
	var e Entry
	require.NoError(t, json.Unmarshal([]byte(`{"id":"turn","do":"turn","piece":"right","pin":{"piece":"right","edge":"front","from":"end","mm":6},"direction":"cw","until":{"spot":{"piece":"right","edge":"hem","from":"end"},"datum":{"y":-6}}}`), &e))
	varied, err := e.WithNumber([]string{"until", "datum", "y"}, PerSize(map[string]float64{"S": -6, "L": -9}))
	require.NoError(t, err)
	varied, err = varied.WithNumber([]string{"pin", "mm"}, Figure("pattern.drop", 0.2))
	require.NoError(t, err)
	require.Len(t, varied.Varies, 2)
	require.Empty(t, e.Varies)
	p := twoBoxes()
	p.Figures = map[string]float64{"drop": 30}
	run := pattern.Run{Name: "x", Sizes: []pattern.Size{{Label: "S", Pattern: p}, {Label: "L", Pattern: p}}}
	for i, y := range []float64{-6, -9} {
		res := Recipe{varied}.Replay(run)[i]
		require.Nil(t, res.Upset(), res.Reason())
		right := res.Size.Pattern.Piece("right")
		assert.InDelta(t, y, right.Pose.Apply(right.Edge("hem").Path.End()).Y, 1e-6)
	}
	back, err := varied.WithNumber([]string{"until", "datum", "y"}, Lit(-6))
	require.NoError(t, err)
	back, err = back.WithNumber([]string{"pin", "mm"}, Lit(6))
	require.NoError(t, err)
	require.Equal(t, e, back)
	_, err = e.WithNumber([]string{"until", "datum", "z"}, Lit(1))
	require.ErrorContains(t, err, "no number")
}

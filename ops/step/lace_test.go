package step

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/pattern/patterntest"
)

// laceHems alters a frame for a lace along its lower edge, as a maker would.
const laceHems = `[
 {"id": "cradle hem", "do": "straighten", "piece": "cradle", "from": {"edge": "hem"}, "to": {"edge": "hem", "from": "end"}, "role": "lace-edge", "allowance": 0},
 {"id": "band hem", "do": "straighten", "piece": "band", "from": {"edge": "hem"}, "to": {"edge": "hem", "from": "end"}, "role": "lace-edge", "allowance": "0 mm"},
 {"id": "side", "do": "true", "seam": "side seam", "end": "start", "hold": "a"},
 {"id": "closure", "do": "add", "piece": "band", "edge": "top", "end": "start", "amount": {"figure": "side.far_change", "times": -1}},
 {"id": "back", "do": "share-out", "amount": "1/4 in", "onto": [{"piece": "cradle", "edge": "side", "end": "start"}, {"piece": "band", "edge": "side", "end": "end"}]},
 {"id": "wire", "do": "smooth", "piece": "cradle", "edge": "wire", "at": {"share": 0.5}, "reach": {"sizes": {"M": 12, "L": 14}}, "keep": "length"},
 {"id": "upper", "do": "cut-off", "piece": "band", "from": {"edge": "top", "share": 0.6}, "to": {"edge": "side", "mm": 9}, "kept": {"edge": "hem", "share": 0.5}, "name": "low top", "role": "underarm", "allowance": 6.35, "partner": {"rest": "cradle rest"}}
]`

func TestARecipeOfTheseStepsRunsInEverySize(t *testing.T) {
	large := patterntest.Middle
	large.Width, large.SideArm, large.BandLength = 126, 97, 172
	id := geom.Identity()
	run := pattern.Run{Name: "frame", Sizes: []pattern.Size{
		{Label: "M", Pattern: patterntest.Sample()},
		{Label: "L", Pattern: large.Frame(id, id, id)},
	}}
	var entries []Entry
	require.NoError(t, json.Unmarshal([]byte(laceHems), &entries))
	_, results, err := Recipe(nil).Append(run, entries...)
	require.NoError(t, err)
	for i, res := range results {
		was, is := run.Sizes[i].Pattern, res.Size.Pattern
		require.NoError(t, is.Validate())
		require.False(t, res.Behind())
		assert.InDelta(t, lengthOf(t, was, "band", "closure"), lengthOf(t, is, "band", "closure"), 1e-9, "the closure gets its height back")
		assert.InEpsilon(t, was.Length(was.Line(patterntest.WireLine).Parts), is.Length(is.Line(patterntest.WireLine).Parts), 1e-9)
		assert.InDelta(t, 0, seamDifference(is, is.Seam("side seam")), 0.1)
		assert.True(t, is.Piece("cradle").Edge("hem").Path.IsStraight())
		assert.NotNil(t, is.Piece("cradle").Edge("cradle rest"))
		sides := res.Reports[2].Figures
		assert.InDelta(t, 0, sides["kink_after"], 1e-6)
		assert.NotZero(t, sides["far_change"])
	}
	require.NoError(t, (pattern.Run{Name: "altered", Sizes: []pattern.Size{results[0].Size, results[1].Size}}).Validate())
}

package intake

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/step"
)

// What came in can be altered, by one recipe in both sizes: the hem's corner
// turned onto the line of the bridge's hem, taped, straightened, smoothed.
func TestARecipeAppliesInBothSizesOfTheIrregularFrame(t *testing.T) {
	res := bringFiles(t, "irregular.svg", "irregular.txt", Options{})
	text, err := os.ReadFile(filepath.Join(testdata, "irregular-lace.json"))
	require.NoError(t, err)
	var entries []step.Entry
	require.NoError(t, json.Unmarshal(text, &entries))
	_, results, err := step.Recipe{}.Append(res.Run, entries...)
	require.NoError(t, err)
	require.Len(t, results, 2)
	for i, r := range results {
		require.False(t, r.Behind())
		was, is := res.Run.Sizes[i].Pattern, r.Size.Pattern
		frame := is.Piece("frame")
		require.NotNil(t, frame)
		assert.True(t, frame.Edge("hem").Path.IsStraight())
		assert.InDelta(t, was.Length(was.Line("wire line").Parts), is.Length(is.Line("wire line").Parts), 1e-6)
		figures := map[string]map[string]float64{}
		for _, rep := range r.Reports {
			figures[rep.ID] = rep.Figures
		}
		assert.Less(t, figures["turn"]["turned_deg"], -6.0)
		assert.Greater(t, figures["turn"]["turned_deg"], -11.0)
		assert.Greater(t, figures["tape"]["overlap"], 4.0)
		assert.Less(t, figures["tape"]["overlap"], 10.0)
		// After the turn the whole hem is square to the fold.
		fold, hem := frame.Edge("fold").Path, frame.Edge("hem").Path
		assert.InDelta(t, 90, geom.Between(fold.TangentAt(0), hem.TangentAt(0)).Degrees(), 0.5)
	}
}

package render

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/suit"
	"truemat/ops/demo"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// The first page tells what is broken in the sizes printed, in the unit of the
// print, or that all holds.
func TestTheCoverTellsWhatIsBroken(t *testing.T) {
	need(t, "pdftotext")
	run, err := demo.Tern()
	require.NoError(t, err)
	print := func(sizes int, u unit.System, steps ...step.Entry) string {
		results := step.Recipe(steps).Replay(run)[:sizes]
		doubts := suit.Doubts(results, check.Defaults(), cloth.Goods{})
		doc := Print{Pattern: "Tern", Paper: A4, Units: u, Doubts: &doubts}
		for _, r := range results {
			doc.Sizes = append(doc.Sizes, SizePieces{Label: r.Size.Label, Pieces: r.Size.Pattern.Pieces})
		}
		text := output(t, "pdftotext", "-l", "1", saved(t, tiled(t, doc), "tiles.pdf"), "-")
		return strings.Join(strings.Fields(text), " ")
	}
	assert.Contains(t, print(1, ""), "All checks hold.")
	width := step.Lit(10)
	allow := step.Entry{ID: "allow", Step: &step.Allow{Piece: "band", Edge: "side seam", Width: &width}}
	one := print(1, unit.Centimetres, allow)
	assert.Contains(t, one, "Broken, mend before cutting: Side seam: the allowances of its sides differ by 0.365 cm, 0.635 cm on cradle and 1 cm on band. Besides, 1 thing deserves a look before cutting.")
	assert.NotContains(t, one, "All checks hold")
	assert.Contains(t, print(2, "", allow), "in 65C and 65D: Side seam: the allowances of its sides differ by 3.65 mm")
}

// A cover has room for some of many broken checks only, and says how many more.
func TestTheCoverTellsTheFirstOfManyBrokenChecks(t *testing.T) {
	var all check.Doubts
	for range 5 {
		all.Broken = append(all.Broken, check.Doubt{Check: check.Check{Text: "Off by 1 mm."}, Sizes: []string{"S"}, Alike: true})
	}
	doc := Print{Doubts: &all, Sizes: make([]SizePieces, 1)}
	assert.Equal(t, "5 checks broken, mend before cutting: Off by 1 mm; Off by 1 mm; Off by 1 mm; and 2 more.", doc.doubted())
}

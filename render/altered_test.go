package render

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/unit"
)

// lacePrint is the print of the Tern in lace in one size.
func lacePrint(t *testing.T) Print {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	results := demo.TernInLace().Replay(run)[:1]
	return Print{Pattern: "Tern", Paper: A4, Altered: AlterationOf(results), Date: "27 November 2026",
		Sizes: []SizePieces{{Label: results[0].Size.Label, Pieces: results[0].Size.Pattern.Pieces}}}
}

// The first page tells that the pattern was altered, which pieces, how they are
// marked and when it was made; that of an unaltered one does not.
func TestTheCoverTellsWhatWasAltered(t *testing.T) {
	need(t, "pdftotext")
	doc := lacePrint(t)
	cover := func(doc Print) string {
		return output(t, "pdftotext", "-l", "1", "-layout", saved(t, tiled(t, doc), "tiles.pdf"), "-")
	}
	text := cover(doc)
	for _, want := range []string{"Tern · size 65C · altered", "Altered by 15 steps", "frame, band, inner cup, upper outer cup, marked ALTERED · LACE.", "made on 27 November 2026"} {
		assert.Contains(t, text, want)
	}
	run, err := demo.Tern()
	require.NoError(t, err)
	doc.Altered = AlterationOf(demo.TernInLace()[:0].Replay(run)[:1])
	plain := cover(doc)
	assert.NotContains(t, plain, "· altered")
	assert.NotContains(t, plain, "Altered by")
}

// Pieces with other marks, or none, are told apart.
func TestPiecesWithOtherMarksAreToldApart(t *testing.T) {
	doc := Print{Altered: Alteration{Steps: 1, Pieces: []string{"frame", "band", "bridge"}, Marks: []string{"SHORT", "", "SHORT"}}}
	assert.Equal(t, "Altered by 1 step: frame, bridge, marked SHORT; band, not marked.", doc.altered())
}

// Who works in cm reads the metric square in cm and mm, the other in inches.
func TestTheTestSquaresAreToldInHerUnit(t *testing.T) {
	assert.Equal(t, "10\u00a0cm × 10\u00a0cm (100\u00a0mm)", squareText(100, unit.Centimetres))
	assert.Equal(t, "100\u00a0mm × 100\u00a0mm", squareText(100, unit.InchFractions))
	need(t, "pdftotext")
	doc := lacePrint(t)
	doc.Units = unit.Centimetres
	text := output(t, "pdftotext", "-l", "1", "-layout", saved(t, tiled(t, doc), "tiles.pdf"), "-")
	for _, want := range []string{"10 cm × 10 cm (100 mm)", "4 in × 4 in", "9.70 cm"} {
		assert.Contains(t, text, want)
	}
}

// A lace edge says that it has no allowance, so that "else as marked" holds.
func TestALaceEdgeTellsThatItHasNoAllowance(t *testing.T) {
	doc := lacePrint(t)
	d, err := newDrawn(doc, must(PlanTiles(doc)))
	require.NoError(t, err)
	edges := 0
	for _, s := range append(d.sizes[:len(d.sizes):len(d.sizes)], d.common) {
		for _, l := range s.Labels {
			if len(l.Text) >= 9 && l.Text[:9] == "lace edge" {
				edges++
				assert.Contains(t, []string{"lace edge, allowance 0", "lace edge, 0"}, l.Text)
			}
		}
	}
	assert.GreaterOrEqual(t, edges, 3)
}

// Beyond a joint over which no piece runs nothing is printed, where a mere
// corner of a piece would show that is whole on the next page.
func TestNothingIsPrintedBeyondALooseJoint(t *testing.T) {
	doc := lacePrint(t)
	plan, err := PlanTiles(doc)
	require.NoError(t, err)
	loose := 0
	for _, j := range plan.Joints {
		a, b, over := plan.glueLine(j)
		mid := a.Lerp(b, 0.5)
		for side, tile := range []int{j.First, j.Second} {
			beyond := mid.Add(over.Mul(float64(1-2*side) * plan.grid.overlap / 4))
			assert.Equal(t, !j.Loose, plan.Printed(tile).Grow(-1e-9).Contains(beyond))
			assert.True(t, plan.Printed(tile).Contains(mid.Add(over.Mul(-float64(1-2*side)))))
		}
		if j.Loose {
			loose++
		}
	}
	require.Positive(t, loose)
	require.NotEqual(t, geom.Box{}, plan.Printed(0))
}

func must(p Plan, err error) Plan {
	if err != nil {
		panic(err)
	}
	return p
}

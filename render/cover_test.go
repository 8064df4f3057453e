package render

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/cloth/suit"
	"truemat/ops/demo"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// ternPrint is a print of the Tern after a recipe, in those of its sizes, with
// what of it deserves a look.
func ternPrint(t *testing.T, recipe step.Recipe, paper Paper, sizes ...string) Print {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	results := slices.DeleteFunc(recipe.Replay(run), func(r step.Result) bool { return !slices.Contains(sizes, r.Size.Label) })
	doubts := suit.Doubts(results, check.Defaults(), demo.Goods())
	doc := Print{Pattern: "Tern", Paper: paper, FoldWhole: true, Altered: AlterationOf(results), Date: "27 November 2026", Doubts: &doubts}
	for _, r := range results {
		doc.Sizes = append(doc.Sizes, SizePieces{r.Size.Label, r.Size.Pattern.Pieces})
	}
	return doc
}

// What is told before the pages of the Tern stands on one page, on either paper,
// upright or on its side, and in every unit.
func TestTheCoverOfTheTernIsOnePage(t *testing.T) {
	for _, recipe := range []step.Recipe{nil, demo.TernInLace()} {
		for _, paper := range []Paper{A4, Letter, Both} {
			for _, sizes := range [][]string{{"65C"}, {"75C"}, {"80E"}, {"65C", "80E"}} {
				doc := ternPrint(t, recipe, paper, sizes...)
				plan, err := PlanTiles(doc)
				require.NoError(t, err)
				for _, u := range []unit.System{unit.Millimetres, unit.Centimetres, unit.InchFractions} {
					doc.Units = u
					w, h := plan.grid.width, plan.grid.height
					assert.Len(t, coverPages(doc, plan, w, h), 1, "%s %v %s, %d steps", paper.Name, sizes, u, len(recipe))
					assert.Len(t, coverPages(doc, plan, h, w), 1, "%s turned %v %s, %d steps", paper.Name, sizes, u, len(recipe))
				}
			}
		}
	}
}

// No outline runs through the number of a page on the map.
func TestNumbersOfPagesOnTheMapStandClear(t *testing.T) {
	for _, sizes := range [][]string{{"65C"}, {"75C"}, {"65C", "80E"}} {
		doc := ternPrint(t, nil, A4, sizes...)
		plan, err := PlanTiles(doc)
		require.NoError(t, err)
		l := plan.pageMap(doc, geom.Box{Max: geom.Pt(92, 90)})
		n := 0
		for _, label := range l.Labels {
			if !label.Bold {
				continue
			}
			page := l.Figures[n].Path.Bounds()
			n++
			q := label.quad(0)
			assert.True(t, page.Contains(q[0]) && page.Contains(q[2]), "%s stands on its page", label.Text)
			box := geom.BoxOf(label.At, label.At.Add(geom.Pt(TextWidth(label.Text, label.Height, true), label.Height)))
			for _, f := range l.Figures[len(plan.Tiles):] {
				for _, at := range walkPoints(f.Path, 0.05) {
					require.False(t, box.Contains(at), "%v: an outline runs through page %s", sizes, label.Text)
				}
			}
		}
		require.Equal(t, len(plan.Tiles), n)
	}
}

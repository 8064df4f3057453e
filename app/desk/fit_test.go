package desk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

func TestFitIsAChangeThatCanBeTakenBack(t *testing.T) {
	d := inLace(t)
	before := bytesOf(t, d)
	fit, sizes := d.Fit()
	play := func() check.Verdict {
		for _, c := range d.Checks() {
			if c.ID == check.WirePlay {
				return c.Verdict
			}
		}
		return ""
	}
	require.Equal(t, check.Holds, play())

	require.Error(t, d.SetFit(fit, map[string]pattern.SizeFit{"75C": {Wire: "no such wire"}}))
	require.Equal(t, before, bytesOf(t, d), "a refusal changes nothing")
	require.Equal(t, len(d.Document().Recipe), d.history.Version(), "no change was added")

	d.SetSize("75C")
	longer := fit
	longer.Wires = append([]pattern.Wire{{Name: "longer", Length: fit.Wire(sizes["75C"].Wire).Length + 10, PlayStart: 6, PlayEnd: 6}}, fit.Wires...)
	require.NoError(t, d.SetFit(longer, map[string]pattern.SizeFit{"75C": {Wire: "longer", Underbust: 750}}))
	require.Equal(t, check.Broken, play())
	require.Equal(t, fit.Wire(sizes["75C"].Wire).Length+10, d.Figures()["pattern.wire"], "steps see the new wire")

	// A step accepted afterwards goes on from results with the new fit.
	require.NoError(t, d.Accept(&step.Move{Piece: "band", DX: step.Lit(5), DY: step.Lit(0)}))
	require.Equal(t, check.Broken, play())
	require.True(t, d.Undo())
	require.True(t, d.Undo())
	require.Equal(t, check.Holds, play())
	require.Equal(t, before, bytesOf(t, d))
	require.NoError(t, d.Accept(&step.Move{Piece: "band", DX: step.Lit(5), DY: step.Lit(0)}))
	require.Equal(t, check.Holds, play())
}

func TestTableTellsWhySizesAreBehind(t *testing.T) {
	d := inLace(t)
	tape := entry(t, d, "tape")
	tape.Sizes = []string{"75C"}
	require.NoError(t, d.Replace(tape))
	table := d.Tabulate()()
	require.Len(t, table.Columns, len(d.Document().Source.Sizes))
	for _, c := range table.Columns {
		if c.Size == "75C" {
			require.Empty(t, c.Behind)
			continue
		}
		require.Contains(t, c.Behind, "could not apply", c.Size)
	}
	require.Equal(t, check.Broken, table.Rows[0].Worst, "worst first")
}

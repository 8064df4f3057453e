package check

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
)

func TestTableHasARowForEachPlaceAndACellForEachSize(t *testing.T) {
	seam := func(name string, v float64, verdict Verdict) Check {
		return Check{ID: SeamLength, Seam: name, Piece: "a", Measured: v, Unit: "mm", Verdict: verdict}
	}
	kink := func(v float64) Check {
		return Check{ID: RunOn, Line: "hem", Piece: "a", Measured: v, Unit: "deg", Verdict: Holds}
	}
	cloth := func(edge string) Check { return Check{ID: ClothBelow, Piece: "a", Edge: edge, Verdict: Look} }
	table := Tabulate([]SizeChecks{
		{Size: "S", Checks: []Check{seam("one", 0.1, Holds), kink(1), kink(2), cloth("left")}},
		{Size: "M", Behind: "step x", Checks: []Check{seam("one", 2, Broken), seam("two", 0, Holds), kink(3), cloth("right")}},
	})
	require.Equal(t, []Column{{"S", "", Look}, {"M", "step x", Broken}}, table.Columns)
	type row struct {
		place string
		cells [2]float64
	}
	var got []row
	for _, r := range table.Rows {
		w := row{place: r.What() + ", " + r.Place()}
		for i, c := range r.Cells {
			w.cells[i] = -1
			if c != nil {
				w.cells[i] = c.Measured
			}
		}
		got = append(got, w)
	}
	require.Equal(t, []row{
		{"sides differ by, seam one", [2]float64{0.1, 2}},
		{"cloth from wire to hem, a", [2]float64{0, 0}},
		{"sides differ by, seam two", [2]float64{-1, 0}},
		{"runs on smoothly, hem at a", [2]float64{1, 3}},
		{"runs on smoothly, hem at a", [2]float64{2, -1}},
	}, got)
	worst, i := table.Rows[0].WorstCell()
	require.Equal(t, 1, i)
	require.Equal(t, 2.0, worst.Measured)
	require.Equal(t, [3]int{3, 1, 1}, [3]int{table.Count(Holds), table.Count(Look), table.Count(Broken)})
	require.Empty(t, Tabulate(nil).Rows)
}

// Nothing of a check is lost on the way into the table of the Tern, and no
// size lacks a row that another has.
func TestTableOfTheTernHasEveryCheckOnce(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	var sizes []SizeChecks
	n := 0
	for _, r := range demo.TernInLace().Replay(run) {
		checks := Run(r.Before, r.Size.Pattern, Defaults())
		n += len(checks)
		sizes = append(sizes, SizeChecks{Size: r.Size.Label, Checks: checks})
	}
	table := Tabulate(sizes)
	for _, r := range table.Rows {
		for i, c := range r.Cells {
			require.NotNil(t, c, "%s %s in %s", r.What(), r.Place(), table.Columns[i].Size)
			require.Equal(t, r.ID, c.ID)
			n--
		}
	}
	require.Zero(t, n)
}

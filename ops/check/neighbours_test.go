package check_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// The underarm runs on from the frame over the side seam to the band: 12 mm
// there against 6.35 mm step by 5.65 mm, told with both edges and the remedy; in
// no size does the Tern, as it comes and altered, step anywhere.
func TestUnlikeAllowancesAlongALineAreToldOfAtTheSeam(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	steps := func(before, after pattern.Pattern) (all []check.Check) {
		for _, c := range check.Run(before, after, check.Defaults()) {
			if c.ID == check.LineAllowance {
				all = append(all, c)
			}
		}
		return all
	}
	for _, r := range demo.TernInLace().Replay(run) {
		for _, c := range append(steps(r.Before, r.Before), steps(r.Before, r.Size.Pattern)...) {
			require.Equal(t, check.Holds, c.Verdict, "%s: %s", r.Size.Label, c.Text)
		}
		p := r.Before.Clone()
		_, top := p.Edge("band", "top")
		top.Allowance = 12
		var told []check.Check
		for _, c := range steps(r.Before, p) {
			if c.Verdict != check.Holds {
				told = append(told, c)
			}
		}
		require.Len(t, told, 1)
		require.Equal(t, check.Look, told[0].Verdict)
		require.InDelta(t, 12-6.35, told[0].Measured, 1e-9)
		for _, said := range []string{"underarm", "side seam", "12 mm on top of band", "6.35 mm on", "5.65 mm", "allowance tool"} {
			require.Contains(t, told[0].Text, said)
		}
	}
}

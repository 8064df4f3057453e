package check

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
)

// What the fit is told to be is what the checks of the whole size say.
func TestFitNumbersCarryTheChecksOfTheFit(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, size := range run.Sizes {
		size.Pattern = run.Fitted(size)
		want := slices.DeleteFunc(Run(size.Pattern, size.Pattern, Defaults()), func(c Check) bool {
			return c.ID != WirePlay && c.ID != CupWire && c.ID != HemBody
		})
		ids := map[string]bool{}
		for _, c := range want {
			ids[c.ID] = true
		}
		require.Len(t, ids, 3, "the Tern states wire and body")
		require.Equal(t, want, FitNumbers(size, size.Pattern, Defaults()).Checks)
	}
}

package check

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDoubtsAreToldOnceWithTheirSizes(t *testing.T) {
	seam := func(name, text string, v Verdict) Check {
		return Check{ID: SeamLength, Seam: name, Text: text, Verdict: v}
	}
	table := Tabulate([]SizeChecks{
		{Size: "S", Checks: []Check{seam("one", "off by 1.", Look), seam("two", "off by 3.", Broken), seam("three", "fits.", Holds)}},
		{Size: "M", Checks: []Check{seam("one", "off by 2.", Broken), seam("two", "off by 3.", Broken), seam("three", "off by 1.", Look)}},
		{Size: "L", Checks: []Check{seam("one", "off by 4.", Broken), seam("two", "off by 3.", Broken), seam("three", "fits.", Holds)}},
	})
	all := table.Doubts()
	require.Len(t, all.Broken, 2)
	require.Equal(t, "in M, with other figures in L", all.Broken[0].In(9))
	require.Equal(t, "off by 2.", all.Broken[0].Check.Text)
	require.Equal(t, "in S, M and L", all.Broken[1].In(9))
	require.Len(t, all.Look, 1, "what is broken in another size is told there")
	require.Equal(t, "in M", all.Look[0].In(9))

	many := Doubt{Sizes: []string{"a", "b", "c", "d", "e"}, Alike: true}
	require.Equal(t, "in a and 4 sizes more", many.In(9))
	require.Equal(t, "in all 5 sizes", many.In(5))
	require.Empty(t, Tabulate(nil).Doubts())
}

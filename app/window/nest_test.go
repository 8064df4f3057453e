package window

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/ops/store"
)

// What is next to a size of band and cup is the next band or the next cup, and
// in a list of other labels what stands beside it.
func TestTheNextSizesAreNextBandsAndNextCups(t *testing.T) {
	w := open(t, false)
	require.NoError(t, w.desk.SetSize("75D"))
	under := func(n nesting) (out []string) {
		w.setNesting(n)
		require.Len(t, w.others(), len(w.beneathAre(n)))
		return w.beneathAre(n)
	}
	require.Equal(t, []string{"70D", "80D"}, under(nextBands))
	require.Equal(t, []string{"75C", "75E"}, under(nextCups))
	require.Len(t, under(everySize), 11)
	require.Empty(t, under(alone))
	require.Contains(t, texts(w.column.list), "cups")
	w.setNesting(nextCups)

	run := w.desk.Document().Source
	run.Sizes = run.Sizes[:3]
	for i, label := range []string{"S", "M", "L"} {
		run.Sizes[i].Label = label
	}
	d, err := desk.New(store.Document{Source: run}, "")
	require.NoError(t, err)
	w.replace(d)
	require.Equal(t, neighbours, w.nested)
	require.NoError(t, w.desk.SetSize("M"))
	require.Equal(t, []string{"S", "L"}, under(neighbours))
	require.Contains(t, texts(w.column.list), "the next")
	require.NotContains(t, texts(w.column.list), "cups")
}

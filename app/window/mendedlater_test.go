package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A step that makes the sides of a seam differ, which a later one makes fit
// again, tells so where it is opened and while its number is typed.
func TestAStepTellsThatALaterOneMakesTheSeamFitAgain(t *testing.T) {
	const open = `{"id": "open", "do": "spread", "piece": "lower outer cup", "slashes": [{"from": {"edge": "cross seam", "share": 0.4}}], "hinge": {"spot": {"edge": "wire", "share": 0.5}}, "amount": 5}`
	const follow = `{"id": "follow", "do": "spread", "piece": "upper outer cup", "slashes": [{"from": {"edge": "cross seam", "share": 0.4}}], "hinge": {"spot": {"edge": "neckline", "share": 0.5}}, "until": {"edge": "cross seam", "seam": "cross seam"}}`
	const told = "before it, they fitted. Step 2 makes them fit again."
	w := someSizes(t, entryOf(t, open), entryOf(t, follow))
	d := w.openStep(t, "open")
	require.Contains(t, strings.Join(texts(w.column.list), " "), told)
	w.win.Canvas().Focus(d)
	for _, r := range "4" {
		d.TypedRune(r)
	}
	w.show()
	require.NotNil(t, w.rehearsal)
	require.Contains(t, w.rehearsal.hint(), "after this step")
	require.Contains(t, w.rehearsal.hint(), told)
	w.abandon()

	w.openStep(t, "follow")
	require.NotContains(t, strings.Join(texts(w.column.list), " "), told)
	require.NoError(t, w.desk.Switch("follow", true))
	w.openStep(t, "open")
	require.NotContains(t, strings.Join(texts(w.column.list), " "), told)
}

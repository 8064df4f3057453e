package window

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/ops/step"
)

// pickOf returns the choice of the column that stands empty with those words.
func (w *Window) pickOf(t *testing.T, placeholder string) *choice {
	t.Helper()
	for _, f := range reachable(w.column.list) {
		if c, ok := f.(*choice); ok && c.PlaceHolder == placeholder {
			return c
		}
	}
	require.FailNow(t, "no choice", placeholder)
	return nil
}

// An edge that nothing is sewn to is sewn to another from where it is shown,
// so that both meet as they did.
func TestAnEdgeIsSewnFromWhereItIsShown(t *testing.T) {
	w := open(t, false)
	was := w.desk.Pattern().Seam("side seam")
	require.NotNil(t, was)
	a, b := w.desk.Pattern().SeamLengths(*was)
	require.NoError(t, w.desk.Accept(&step.Sew{Name: "side seam", Apart: true}))
	w.desk.Select(tool.Selection{Piece: "band", Edge: "side seam"})
	pick := w.pickOf(t, "sew it to …")
	require.Contains(t, pick.Options, "side seam of cradle")
	require.NotContains(t, pick.Options, "side seam of band")
	pick.SetSelected("side seam of cradle")

	now := w.desk.Pattern().Seam("side seam")
	require.NotNil(t, now)
	x, y := w.desk.Pattern().SeamLengths(*now)
	require.ElementsMatch(t, []float64{a, b}, []float64{x, y})
	for _, c := range w.desk.Checks() {
		require.NotEqual(t, "broken", string(c.Verdict), c.Text)
	}
}

// A letter does not drop what waits to be accepted; pressing the tool does.
func TestALetterKeepsWhatWaitsToBeAccepted(t *testing.T) {
	w := open(t, false)
	w.rune('k')
	require.NoError(t, w.tool().Set("pieces", "band"))
	w.show()
	w.rune('t')
	require.Equal(t, "chalk", w.tool().Name())
	require.NotEmpty(t, w.tool().Proposal())
	require.Contains(t, w.prompt.wrong.Text, "waits")
	w.accept()
	w.rune('t')
	require.Equal(t, "tape", w.tool().Name())
}

package window

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/ops/step"
)

// lastInView reports whether all of the last step's sentence shows.
func (w *Window) lastInView(t *testing.T) bool {
	t.Helper()
	recipe := w.desk.Document().Recipe
	row := w.column.rowOf(recipe[len(recipe)-1].ID)
	require.NotNil(t, row)
	y, _ := depth(w.column.scroll.Content, row)
	at := w.column.scroll.Offset.Y
	return y >= at && y+row.Size().Height <= at+w.column.scroll.Size().Height
}

// While she looks at a step, one that is kept from the mat comes into view below
// it, and the keys stay on the mat.
func TestAStepThatIsKeptComesIntoViewBelowAnOpenOne(t *testing.T) {
	w := open(t, true)
	second := w.desk.Document().Recipe[1]
	w.column.open = second.ID
	w.column.refresh()
	w.column.toStep(second.ID)
	require.False(t, w.lastInView(t))
	w.focusMat()
	require.True(t, w.do(&step.Mark{Piece: "band", Text: "one"}))
	require.True(t, w.lastInView(t))
	require.Equal(t, fyne.Focusable(w.mat), w.win.Canvas().Focused())
}

// What she rolled to, such as the checks or the sizes, stays in view.
func TestAStepThatIsKeptLeavesTheColumnWhereNoStepIsSeen(t *testing.T) {
	w := open(t, true)
	for _, open := range []bool{false, true} {
		w.column.open = ""
		if open {
			w.column.open = w.desk.Document().Recipe[1].ID
		}
		w.column.refresh()
		w.column.scroll.ScrollToTop()
		w.focusMat()
		require.False(t, w.column.seesSteps())
		require.True(t, w.do(&step.Mark{Piece: "band", Text: fmt.Sprint("open ", open)}))
		require.Zero(t, w.column.scroll.Offset.Y)
	}
}

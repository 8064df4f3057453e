package window

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// dialOf opens the first step that has a number at that path and returns it.
func dialOf(t *testing.T, w *Window, path string) *dial {
	t.Helper()
	for _, e := range w.desk.Document().Recipe {
		w.column.open = e.ID
		w.column.refresh()
		w.column.toStep(e.ID)
		for _, f := range reachable(w.column.list) {
			if d, ok := f.(*dial); ok && d.name == e.ID+" "+path {
				return d
			}
		}
	}
	require.Fail(t, "no step has that number")
	return nil
}

// The keys may still be at a step while she reads the lesson, to which she
// rolled: a tool taken up and what is pressed with it leave the lesson in view.
func TestTheLessonStaysInViewWhileTheKeysAreAtAStep(t *testing.T) {
	w := open(t, false)
	w.startLesson()
	reach := step.Lit(25)
	require.NoError(t, w.desk.Accept(&step.True{Seam: "side seam", End: pattern.End, Reach: &reach}))
	d := dialOf(t, w, "reach")
	w.win.Canvas().Focus(d)
	d.SetText("12")
	d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Positive(t, w.column.scroll.Offset.Y)
	w.column.scroll.ScrollToTop()
	w.choose(slices.IndexFunc(w.tools, func(x tool.Tool) bool { return x.Name() == "shears" }))
	require.Zero(t, w.column.scroll.Offset.Y)
	pc := w.desk.Pattern().Pieces[0]
	for _, at := range []int{0, 2} {
		q := pc.Pose.Apply(pc.Edges[at].Path.Start())
		w.pointer(tool.Event{Act: tool.Press, At: q, Reach: 3})
		w.pointer(tool.Event{Act: tool.Release, At: q, Reach: 3})
		w.show()
		require.Zero(t, w.column.scroll.Offset.Y)
	}
	require.NotEmpty(t, w.prompt.boxes)
}

// That a reach goes beyond its edge is told above the tray while it is typed,
// not only below the step once it is kept.
func TestAReachBeyondItsEdgeIsToldWhileTyping(t *testing.T) {
	w := open(t, true)
	d := dialOf(t, w, "reach_a")
	w.win.Canvas().Focus(d)
	d.SetText("300")
	w.show()
	told := w.prompt.hint.Text
	for _, more := range w.prompt.hints {
		told += " " + more.Text
	}
	assert.Contains(t, told, "goes beyond")
	assert.Contains(t, told, "Enter keeps this")
	d.SetText("5")
	w.show()
	told = w.prompt.hint.Text
	for _, more := range w.prompt.hints {
		told += " " + more.Text
	}
	assert.NotContains(t, told, "goes beyond")
}

// What was opened in the list of checks is of that document alone.
func TestTheChecksThatHoldAreHiddenInTheNextDocument(t *testing.T) {
	w := open(t, true)
	w.column.full = true
	w.column.refresh()
	require.True(t, w.newTern())
	assert.False(t, w.column.full)
}

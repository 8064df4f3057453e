package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/step"
)

// A lining is laid beside its piece. Where that is not seen it is told, before
// and after it is accepted, and 0 brings it into view; the mat stays till then.
func TestWhatIsMadeBeyondTheViewIsTold(t *testing.T) {
	w := open(t, false)
	line := &step.LineIt{Piece: "band", Name: "band lining"}
	made, err := w.desk.Try(line)
	require.NoError(t, err)
	pc := made.Size.Pattern.Piece("band lining")
	require.NotNil(t, pc)
	(&sitting{Window: w}).near("bridge")
	w.show()
	require.NotContains(t, w.prompt.hint.Text, "beyond")
	view := w.mat.Camera()

	require.NoError(t, (&sitting{Window: w}).take("fold"))
	at, err := (&sitting{Window: w}).spots(along("band", "hem", 0.5))
	require.NoError(t, err)
	w.pointer(tool.Event{Act: tool.Press, At: at[0].Add(geom.Pt(0, 10)), Reach: 3})
	w.pointer(tool.Event{Act: tool.Release, At: at[0].Add(geom.Pt(0, 10)), Reach: 3})
	w.prompt.set("do", "line it")
	require.NoError(t, w.prompt.said)
	require.True(t, w.shown.asked, w.prompt.hint.Text)
	require.Contains(t, w.prompt.hint.Text, "Band lining lies beyond what is seen: 0 shows all.")
	w.accept()
	require.Contains(t, w.prompt.wrong.Text, "Band lining lies beyond what is seen: 0 shows all.")
	require.Equal(t, view, w.mat.Camera())
	w.key(&fyne.KeyEvent{Name: fyne.Key0})
	w.rune('0')
	for _, e := range w.desk.Pattern().Piece("band lining").Edges {
		require.True(t, w.mat.Sees(e.Path.Transform(w.desk.Pattern().Piece("band lining").Pose).Bounds()))
	}
	require.Empty(t, w.unseen(made.Size.Pattern, w.desk.Pattern().Pieces))
}

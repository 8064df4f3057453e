package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/tool"
)

// While a number is typed, told what it would do, kept and tried elsewhere, the
// line above the tools keeps its height, so that mat and column lie still.
func TestTheLineAboveTheToolsKeepsItsHeightWhileANumberIsTyped(t *testing.T) {
	w := open(t, false)
	w.rune('W')
	pc, e := w.desk.Pattern().Edge("band", "side seam")
	at := pc.Pose.Apply(e.Path.At(0.5 * e.Length()))
	w.pointer(tool.Event{Act: tool.Press, At: at, Reach: 3})
	w.pointer(tool.Event{Act: tool.Release, At: at, Reach: 3})
	tall := w.prompt.top.MinSize().Height
	require.Equal(t, float32(topHeight+hintHeight), tall)
	for _, width := range []string{"9 mm", "12 mm", "7 mm"} {
		require.NoError(t, w.tool().Set("width", width))
		w.show()
		w.tryElsewhere(t.Context())
		require.Equal(t, tall, w.prompt.top.MinSize().Height, hinted(w))
	}
	w.prompt.explain(strings.Repeat("This needs more than two lines. ", 20))
	more := w.prompt.top.MinSize().Height
	require.Greater(t, more, tall)
	w.prompt.explain("")
	require.Equal(t, more, w.prompt.top.MinSize().Height, "what it grew to stays until the act ends")
	w.abandon()
	w.rune('C')
	require.Less(t, w.prompt.top.MinSize().Height, more)
}

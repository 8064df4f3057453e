package window

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
)

// What the keys point at comes into view, also where the mat is looked at from
// near; what is in view already moves nothing.
func TestWhatTheKeysPointAtIsSeen(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 770}, lowest} {
		w := open(t, false)
		w.win.Resize(size)
		w.mat.Fit()
		at := w.mat.Camera()
		for range w.desk.Pattern().Pieces {
			w.rune('n')
			require.Equal(t, at, w.mat.Camera(), "all shows")
		}
		w.mat.Zoom(1.5)
		moved := 0
		for range w.desk.Pattern().Pieces {
			at = w.mat.Camera()
			w.rune('n')
			pointed := geom.NoBox()
			for _, s := range w.tool().Overlay().Strokes {
				if s.Style == tool.Pointed {
					pointed = pointed.Union(s.Path.Bounds())
				}
			}
			require.False(t, pointed.Empty())
			require.True(t, w.mat.Sees(pointed), "%v", size)
			if w.mat.Camera() != at {
				moved++
			}
			require.Equal(t, at.Scale, w.mat.Camera().Scale)
		}
		require.Positive(t, moved)
		require.Less(t, moved, len(w.desk.Pattern().Pieces), "no more than is needed")
	}
}

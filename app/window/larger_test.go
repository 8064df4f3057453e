package window

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/step"
)

// liesInView reports whether a piece lies in the view as a whole.
func (w *Window) liesInView(t *testing.T, name string) bool {
	t.Helper()
	pc := w.desk.Pattern().Piece(name)
	require.NotNil(t, pc)
	o, err := pc.Outline()
	require.NoError(t, err)
	b, size := o.Transform(pc.Pose).Bounds(), w.mat.Size()
	p, q := w.mat.Camera().ToScreen(geom.Pt(b.Min.X, b.Max.Y)), w.mat.Camera().ToScreen(geom.Pt(b.Max.X, b.Min.Y))
	return p.X >= 0 && p.Y >= 0 && q.X <= size.Width && q.Y <= size.Height
}

func TestWhatAnActLaysBeyondTheViewComesIntoIt(t *testing.T) {
	w := open(t, false)
	w.mat.Fit()
	w.rune('f')
	for _, c := range []struct {
		piece, do, seen string
	}{{"bridge", "unfold", "bridge"}, {"band", "line it", "band lining"}} {
		pc := w.desk.Pattern().Piece(c.piece)
		o, err := pc.Outline()
		require.NoError(t, err)
		at := pc.Pose.Apply(o.Bounds().Center())
		w.pointer(tool.Event{Act: tool.Press, At: at, Reach: 2})
		w.pointer(tool.Event{Act: tool.Release, At: at, Reach: 2})
		require.NoError(t, w.tool().Set("do", c.do))
		w.show()
		shown := w.mat.Camera()
		w.accept()
		require.True(t, w.liesInView(t, c.seen), c.seen)
		require.Equal(t, shown, w.mat.Camera(), "it comes into view with the preview, and stays so")
	}
	// A view of her own choice is left alone.
	w.mat.Zoom(3)
	own := w.mat.Camera()
	require.NoError(t, w.desk.Accept(&step.Copy{Piece: "cradle", Name: "twin", DX: step.Lit(900)}))
	require.Equal(t, own, w.mat.Camera())
}

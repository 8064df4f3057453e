package render

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
)

// The name of a small piece stands beside its arrow, which has heads at both
// ends, and inside its outline.
func TestASmallNameLeavesItsArrowFree(t *testing.T) {
	cut := geom.Must(geom.JoinClosed(geom.Must(geom.Polyline(geom.Pt(0, 0), geom.Pt(30, 0), geom.Pt(30, 20), geom.Pt(0, 20), geom.Pt(0, 0)))))
	arrow := geom.Must(geom.Polyline(geom.Pt(15, 4), geom.Pt(15, 16)))
	l := Miniature(Layer{Name: "upper outer cup, turned over", Figures: []Figure{{Kind: CutLine, Path: cut}, {Kind: ArrowLine, Path: arrow}}}, geom.Identity(), 1, geom.Point{})
	heads := 0
	for _, f := range l.Figures {
		if f.Kind == ArrowLine {
			heads++
		}
	}
	require.Equal(t, 3, heads)
	require.NotEmpty(t, l.Labels)
	for _, text := range l.Labels {
		half := TextWidth(text.Text, text.Height, false) / 2
		require.True(t, text.At.X+half < 15 || text.At.X-half > 15 || text.At.Y > 16 || text.At.Y+text.Height < 4, "%s lies on the arrow", text.Text)
		for _, x := range []float64{-half, half} {
			require.True(t, cut.Contains(text.At.Add(geom.Pt(x, 0))), text.Text)
		}
	}
}

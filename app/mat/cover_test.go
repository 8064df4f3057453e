package mat

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
)

// What covers the mat's lower edge leaves the view as it is, whether it was
// fitted or hers; what was fitted lies above what is covered now and then.
func TestTheViewStaysWhenItsLowerEdgeIsCovered(t *testing.T) {
	m, _, _ := shown(t, 960, 646, 1)
	m.Spare(64)
	pieces := tern(t).Pieces
	all := map[string]bool{}
	for _, pc := range pieces {
		all[pc.Name] = true
	}
	m.Lay(View{Pieces: pieces, Preview: all})
	m.Fit()
	fit := m.Camera()
	box := geom.NoBox()
	for _, l := range m.live {
		box = box.Union(l.bounds())
	}
	require.Less(t, fit.ToScreen(box.Min).Y, m.Size().Height-64)
	for _, own := range []Camera{fit, fit.Zoomed(fit.Scale*2, fyne.NewPos(300, 600))} {
		m.SetCamera(own)
		v := m.view
		v.Overlay.Dots = []tool.Dot{{At: own.ToMat(fyne.NewPos(300, 640)), Style: tool.Chosen}}
		m.Lay(v)
		for _, h := range []float32{40, 90, 200, 0} {
			m.Cover(h)
			require.Equal(t, own, m.Camera())
		}
	}
}

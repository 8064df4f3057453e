package mat

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
)

func TestTheViewStaysButForWhatWouldBeCovered(t *testing.T) {
	m, _, _ := shown(t, 960, 646, 1)
	m.Lay(View{Pieces: tern(t).Pieces})
	m.Fit()
	fit := m.Camera()

	m.Cover(90)
	require.Equal(t, fit, m.Camera(), "nothing is being worked on")
	m.Cover(0)
	require.Equal(t, fit, m.Camera())

	low := fit.ToMat(fyne.NewPos(300, m.Size().Height-20))
	v := m.view
	v.Overlay.Dots = []tool.Dot{{At: low}}
	m.Lay(v)
	m.Cover(10)
	require.Equal(t, fit, m.Camera(), "what the pointer is over counts not")

	v.Overlay.Dots = []tool.Dot{{At: low, Style: tool.Chosen}}
	m.Lay(v)
	at := fyne.NewPos(100, 100)
	m.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	m.Cover(90)
	require.Equal(t, fit, m.Camera(), "it stays while a button is down")
	m.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	pushed := m.Camera()
	require.Equal(t, fit.Scale, pushed.Scale)
	require.InDelta(t, fit.Corner.X, pushed.Corner.X, 1e-9)
	require.LessOrEqual(t, pushed.ToScreen(low).Y, m.Size().Height-90)

	for _, h := range []float32{40, 90, 30} {
		m.Cover(h)
		require.Equal(t, pushed, m.Camera(), "it moves once")
	}
	m.Cover(0)
	require.Equal(t, fit, m.Camera(), "her view comes back")

	m.Cover(90)
	require.Equal(t, pushed, m.Camera())
	own := m.Camera().Panned(0, 7)
	m.SetCamera(own)
	m.Cover(0)
	require.Equal(t, own, m.Camera(), "a view she moved herself is left as it is")
}

func TestWhatIsPushedUpKeepsItsUpperEndInView(t *testing.T) {
	m, _, _ := shown(t, 960, 646, 1)
	pieces := tern(t).Pieces
	all := map[string]bool{}
	for _, pc := range pieces {
		all[pc.Name] = true
	}
	m.Lay(View{Pieces: pieces, Preview: all})
	m.Fit()
	scale := m.Camera().Scale
	m.Cover(200)
	require.Equal(t, scale, m.Camera().Scale)
	require.GreaterOrEqual(t, m.Camera().ToScreen(geom.Pt(0, m.looked().Max.Y)).Y, float32(rulerWidth)-0.01)
}

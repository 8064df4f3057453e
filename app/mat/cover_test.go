package mat

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
	"truemat/app/tool"
	"truemat/geom"
)

func TestNothingThatIsLookedAtIsCovered(t *testing.T) {
	m, _, _ := shown(t, 960, 646, 1)
	m.Lay(View{Pieces: tern(t).Pieces})
	m.Fit()
	fit := m.Camera()
	bottom := func() float32 { return m.Camera().ToScreen(m.looked().Min).Y }

	m.Cover(90)
	require.LessOrEqual(t, bottom(), m.Size().Height-90)
	require.Greater(t, m.Camera().ToScreen(geom.Pt(0, m.looked().Max.Y)).Y, float32(rulerWidth))
	m.Cover(30)
	require.LessOrEqual(t, bottom(), m.Size().Height-30)
	m.Cover(0)
	require.Equal(t, fit, m.Camera(), "it moves back")

	at := fyne.NewPos(100, 100)
	m.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	m.Cover(90)
	require.Equal(t, fit, m.Camera(), "it stays while a button is down")
	m.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary})
	require.NotEqual(t, fit, m.Camera())

	m.Cover(0)
	low := m.Camera().ToMat(fyne.NewPos(300, m.Size().Height-20))
	own := m.Camera().Panned(5, 0)
	m.SetCamera(own)
	m.Cover(40)
	require.Equal(t, own, m.Camera(), "a view of her own stays when nothing is chosen there")
	m.Cover(0)
	v := m.view
	v.Overlay.Dots = []tool.Dot{{At: low}}
	m.Lay(v)
	m.Cover(40)
	require.LessOrEqual(t, m.Camera().ToScreen(low).Y, m.Size().Height-40)
	moved := m.Camera().Panned(0, 7)
	m.SetCamera(moved)
	m.Cover(0)
	require.Equal(t, moved, m.Camera(), "a view she moved herself is left as it is")
}

package mat

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/pattern"
)

// Whatever pointer, wheel and keys do, the view stays finite, the mat draws,
// and every press has one release.
func TestAnyEvents(t *testing.T) {
	m, events, _ := shown(t, 300, 200, 1)
	v := busy(t)
	m.Lay(v)
	rapid.Check(t, func(t *rapid.T) {
		*events = nil
		for range rapid.IntRange(1, 25).Draw(t, "n") {
			pos := fyne.NewPos(float32(rapid.IntRange(-50, 400).Draw(t, "x")), float32(rapid.IntRange(-50, 300).Draw(t, "y")))
			mouse := &desktop.MouseEvent{Button: rapid.SampledFrom([]desktop.MouseButton{
				desktop.MouseButtonPrimary, desktop.MouseButtonSecondary, desktop.MouseButtonTertiary}).Draw(t, "button")}
			mouse.Position = pos
			d := float32(rapid.Float64Range(-1e4, 1e4).Draw(t, "d"))
			switch rapid.IntRange(0, 12).Draw(t, "what") {
			case 0, 1:
				m.MouseDown(mouse)
			case 2:
				m.MouseUp(mouse)
			case 3:
				m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos}})
			case 4:
				m.DragEnd()
			case 5:
				m.MouseMoved(mouse)
			case 6:
				m.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: pos}, Scrolled: fyne.NewDelta(0, d)})
			case 7:
				m.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: pos}, Scrolled: fyne.NewDelta(d, d)})
			case 8:
				m.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
			case 9:
				m.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
			case 10:
				m.Zoom(float64(d))
			case 11:
				m.Fit()
			case 12:
				m.MouseOut()
			}
		}
		m.DragEnd()
		open := 0
		for _, e := range *events {
			require.True(t, e.At.Finite() && e.Reach > 0)
			switch e.Act {
			case tool.Press, tool.Double:
				open++
			case tool.Release:
				open--
			}
			require.True(t, open == 0 || open == 1)
		}
		require.Zero(t, open)
		require.False(t, math.IsNaN(m.camera.Scale+m.camera.Corner.X+m.camera.Corner.Y))
		for _, f := range []func(*painter){m.drawBase, m.drawMoving, m.drawOver} {
			m.draw(0, f)(300, 200)
		}
	})
}

func TestNothingAndOddPieces(t *testing.T) {
	m, _, capture := shown(t, 300, 200, 1)
	m.Lay(View{})
	capture()
	m.Fit()
	m.FitBox(geom.NoBox())

	p := tern(t).Clone()
	wide := p.Pieces[0].Clone() // allowances that cannot fit
	for i := range wide.Edges {
		wide.Edges[i].Allowance = pattern.MaxAllowance
	}
	over, err := geom.Mirror(geom.Pt(0, 0), geom.Pt(0, 1))
	require.NoError(t, err)
	mirrored := p.Pieces[1].Clone()
	mirrored.Pose = over
	bare := pattern.Piece{Name: "bare", Pose: geom.Identity()}
	m.Lay(View{
		Pieces:    []pattern.Piece{wide, mirrored, bare},
		Selection: tool.Selection{Piece: "bare", Edge: "none", Notch: "none"},
		Overlay:   tool.Overlay{Strokes: []tool.Stroke{{}}, Notes: []tool.Note{{Text: ""}}},
	})
	m.Fit()
	capture()
}

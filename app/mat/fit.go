package mat

import (
	"math"

	"fyne.io/fyne/v2"
	"truemat/geom"
)

// Fit shows all pieces, at once or as soon as the mat has a size, and again
// when its size changes before the view does.
func (m *Mat) Fit() {
	b := geom.NoBox()
	for _, ls := range append([][]laid{m.still, m.live}, m.nested...) {
		for _, l := range ls {
			b = b.Union(l.bounds())
		}
	}
	m.toFit = b.Empty() || m.Size().IsZero()
	if m.toFit {
		m.redraw()
		return
	}
	before := m.camera
	m.FitBox(b)
	m.fitted = true
	if m.camera == before {
		m.redraw()
	}
}

// FitAgain fits all again when the view was one of all, and leaves one of her own.
func (m *Mat) FitAgain() {
	if m.fitted {
		m.Fit()
	}
}

// Refit fits all again when the view was one of all and something came up that
// lies out of it.
func (m *Mat) Refit() {
	if !m.fitted || m.Size().IsZero() {
		return
	}
	size := m.Size()
	for _, ls := range append([][]laid{m.still, m.live}, m.nested...) {
		for _, l := range ls {
			b := l.bounds()
			p, q := m.camera.ToScreen(geom.Pt(b.Min.X, b.Max.Y)), m.camera.ToScreen(geom.Pt(b.Max.X, b.Min.Y))
			if p.X < rulerWidth || p.Y < rulerWidth || q.X > size.Width || q.Y > size.Height-m.cover.spare {
				m.Fit()
				return
			}
		}
	}
}

// Sees reports whether a stretch of the mat shows whole, clear of the rulers and
// of what covers its lower edge.
func (m *Mat) Sees(b geom.Box) bool {
	if b.Empty() {
		return true
	}
	p, q := m.camera.ToScreen(geom.Pt(b.Min.X, b.Max.Y)), m.camera.ToScreen(geom.Pt(b.Max.X, b.Min.Y))
	return p.X >= rulerWidth && p.Y >= rulerWidth && q.X <= m.Size().Width && q.Y <= m.Size().Height-m.cover.height
}

// FitBox shows a stretch of the mat, with some room around it.
func (m *Mat) FitBox(b geom.Box) {
	if b.Empty() || m.Size().IsZero() {
		return
	}
	m.SetCamera(m.fitting(b))
}

// fitting is the camera that shows a stretch in the room that is never covered.
func (m *Mat) fitting(b geom.Box) Camera {
	s := m.Size()
	room := min(s.Height/20, 28)
	below := max(m.cover.spare+room/2, room)
	return Fitted(b, fyne.NewPos(rulerWidth+room, rulerWidth+room),
		fyne.NewSize(max(s.Width-rulerWidth-2*room, 10), max(s.Height-rulerWidth-room-below, 10)))
}

// Zoom changes the scale by a factor, the middle kept in its place.
func (m *Mat) Zoom(factor float64) {
	if factor > 0 {
		m.SetCamera(m.camera.Zoomed(m.camera.Scale*factor, m.middle()))
	}
}

// Pan pushes the mat by units.
func (m *Mat) Pan(dx, dy float64) { m.SetCamera(m.camera.Panned(dx, dy)) }

func (m *Mat) middle() fyne.Position {
	return fyne.NewPos((m.Size().Width+rulerWidth)/2, (m.Size().Height-m.cover.spare+rulerWidth)/2)
}

// SetPixelsPerMM says how many pixels of the screen make a real millimetre,
// as found by holding a ruler to it.
func (m *Mat) SetPixelsPerMM(v float64) {
	if v > 0 && !math.IsInf(v, 0) {
		m.perMM = v
	}
}

// RealSize shows the pieces as large as they are.
func (m *Mat) RealSize() { m.SetCamera(m.camera.Zoomed(m.perMM/m.canvasScale(), m.middle())) }

func (m *Mat) canvasScale() float64 {
	if app := fyne.CurrentApp(); app != nil {
		if c := app.Driver().CanvasForObject(m); c != nil && c.Scale() > 0 {
			return float64(c.Scale())
		}
	}
	return 1
}

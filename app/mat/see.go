package mat

import (
	"truemat/app/tool"
	"truemat/geom"
)

// toldMargin is what is seen around what comes into view by itself, in units.
const toldMargin = 36

// SeeTold pans as little as is needed to see what the overlay points at and tells
// of, or where that is too large, the places of its notes; it does nothing where
// all of it shows or nothing is told.
func (m *Mat) SeeTold() {
	if m.toFit || m.Size().IsZero() {
		return
	}
	o := m.overlay()
	notes := geom.NoBox()
	for _, n := range o.Notes {
		notes = notes.Union(geom.BoxOf(n.At))
	}
	if notes.Empty() {
		return
	}
	whole := notes
	for _, s := range o.Strokes {
		if s.Style == tool.Pointed {
			whole = whole.Union(s.Path.Bounds())
		}
	}
	for _, b := range []geom.Box{whole, notes} {
		if m.Sees(b) {
			return
		}
		if dx, dy, ok := m.into(b); ok {
			m.Pan(dx, dy)
			return
		}
	}
}

// into is by how many units the mat must be pushed for a box to show; false when
// there is no room for it.
func (m *Mat) into(b geom.Box) (dx, dy float64, ok bool) {
	p, q := m.camera.ToScreen(geom.Pt(b.Min.X, b.Max.Y)), m.camera.ToScreen(geom.Pt(b.Max.X, b.Min.Y))
	least := func(from, to, low, high float32) float64 {
		switch {
		case from < low:
			return float64(low - from)
		case to > high:
			return float64(high - to)
		}
		return 0
	}
	right, low := m.Size().Width-toldMargin, m.Size().Height-m.cover.height-toldMargin
	const rim = rulerWidth + toldMargin
	if q.X-p.X > right-rim || q.Y-p.Y > low-rim {
		return 0, 0, false
	}
	return least(p.X, q.X, rim, right), least(p.Y, q.Y, rim, low), true
}

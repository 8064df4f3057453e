package mat

import "truemat/geom"

// cover is what hides the lowest part of the mat for a while, such as fields
// that need more than their usual room.
type cover struct {
	height, wanted float32 // units hidden now, and as soon as no button is down
	moved          bool
	before, after  Camera // the view when it came, and as it was moved for it
}

// Cover says how many units of the mat's lowest part are hidden. What is being
// looked at, else all that was fitted, is moved out from under it, and back
// when it goes; never while a button is down.
func (m *Mat) Cover(height float32) {
	m.cover.wanted = max(height, 0)
	m.settle()
}

func (m *Mat) settle() {
	c := &m.cover
	if c.wanted == c.height || m.pointer.down || m.pointer.panning {
		return
	}
	c.height = c.wanted
	now := m.camera
	if c.moved && now == c.after {
		now = c.before
	}
	c.moved = false
	view := m.clear(now)
	c.before, c.after, c.moved = now, view, view != now
	m.setCamera(view)
}

// clearRoom is left between the cover and what must not lie under it.
const clearRoom = 16

// clear returns the camera moved so far that what counts is not covered; when
// all was fitted and would not fit so, it is fitted anew.
func (m *Mat) clear(c Camera) Camera {
	box := m.looked()
	if m.cover.height == 0 || box.Empty() || m.Size().IsZero() {
		return c
	}
	free := m.Size().Height - m.cover.height - clearRoom
	top, bottom := c.ToScreen(geom.Pt(box.Min.X, box.Max.Y)).Y, c.ToScreen(box.Min).Y
	need := bottom - free
	switch {
	case need <= 0 || bottom > m.Size().Height && !m.fitted: // seen, or not seen before either
		return c
	case top-need >= rulerWidth:
		return c.Panned(0, -float64(need))
	case m.fitted:
		return m.fitting(box)
	}
	return c.Panned(0, -float64(min(need, m.cover.height)))
}

// looked is what must not be covered, mm.
func (m *Mat) looked() geom.Box {
	b := geom.NoBox()
	add := func(ls []laid) {
		for _, l := range ls {
			b = b.Union(l.bounds())
		}
	}
	if m.fitted {
		add(m.still)
		add(m.live)
		return b
	}
	add(m.live)
	if l := m.selected(); l != nil {
		b = b.Union(l.bounds())
	}
	for _, d := range m.overlay().Dots {
		b = b.Union(geom.BoxOf(d.At))
	}
	return b
}

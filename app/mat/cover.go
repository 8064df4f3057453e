package mat

import (
	"truemat/app/tool"
	"truemat/geom"
)

// cover is what hides the lowest part of the mat for a while, such as fields
// that need more than their usual room.
type cover struct {
	height, wanted float32 // units hidden now, and as soon as no button is down
	pushed         bool
	before, after  Camera // her view, and as it was pushed
}

// Cover says how many units of the mat's lowest part are hidden. The view
// stays as it is, but that what is being worked on is pushed out from under the
// cover, at the same scale, until nothing is hidden any more; never while a
// button is down.
func (m *Mat) Cover(height float32) {
	m.cover.wanted = max(height, 0)
	m.settle()
}

func (m *Mat) settle() {
	c := &m.cover
	if c.wanted == c.height || m.pointer.down || m.pointer.panning {
		return
	}
	grows := c.wanted > c.height
	c.height = c.wanted
	c.pushed = c.pushed && m.camera == c.after // else she moved it herself
	switch view := m.clear(m.camera); {
	case c.height == 0 && c.pushed:
		c.pushed = false
		m.setCamera(c.before)
	case grows && view != m.camera:
		if !c.pushed {
			c.before = m.camera
		}
		c.pushed, c.after = true, view
		m.setCamera(view)
	}
}

// clearRoom is left between the cover and what must not lie under it.
const clearRoom = 16

// clear returns the camera pushed up so far that what is being worked on is
// not covered, if it was seen before; its upper end stays in view.
func (m *Mat) clear(c Camera) Camera {
	box := m.looked()
	if box.Empty() || m.Size().IsZero() {
		return c
	}
	free := m.Size().Height - m.cover.height
	top, bottom := c.ToScreen(geom.Pt(box.Min.X, box.Max.Y)).Y, c.ToScreen(box.Min).Y
	if bottom <= free || bottom > m.Size().Height {
		return c
	}
	need := min(bottom-free+clearRoom, top-rulerWidth)
	if need <= 0 {
		return c
	}
	return c.Panned(0, -float64(need))
}

// looked is what is being worked on and must not be covered, mm: the pieces
// that move and the places that were taken.
func (m *Mat) looked() geom.Box {
	b := geom.NoBox()
	for _, l := range m.live {
		b = b.Union(l.bounds())
	}
	for _, d := range m.view.Overlay.Dots {
		if d.Style != tool.Pointed {
			b = b.Union(geom.BoxOf(d.At))
		}
	}
	return b
}

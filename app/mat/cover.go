package mat

// cover is what hides the lowest part of the mat, in units: now, such as fields
// that need more than their usual room, and now and then.
type cover struct{ height, spare float32 }

// Cover says how many units of the mat's lowest part are hidden. The view
// stays as it is; only the notes of the overlay make way.
func (m *Mat) Cover(height float32) {
	if height = max(height, 0); height != m.cover.height {
		m.cover.height = height
		m.placeOver()
	}
}

// Spare says how many units of the mat's lowest part are hidden now and then:
// what is fitted to the view is shown above them, so that it need not be moved
// when they are.
func (m *Mat) Spare(height float32) { m.cover.spare = max(height, 0) }

package window

import "fyne.io/fyne/v2"

// seesSteps reports whether steps are looked at beside the mat: one is open and
// in view, or, without a lesson to be read above them, any is in view.
func (c *column) seesSteps() bool {
	if c.folded {
		return false
	}
	from, to := c.scroll.Offset.Y, c.scroll.Offset.Y+c.scroll.Size().Height
	for _, e := range c.w.desk.Document().Recipe {
		row := c.rowOf(e.ID)
		if row == nil || c.open != e.ID && (c.open != "" || c.w.lesson != nil) {
			continue
		}
		last := fyne.CanvasObject(row)
		if c.open == e.ID {
			last = c.opened
		}
		top, _ := depth(c.scroll.Content, row)
		end, _ := depth(c.scroll.Content, last)
		if top < to && end+last.Size().Height > from {
			return true
		}
	}
	return false
}

// seeLast brings the last step into view, by as little as is needed; the keys
// stay where they are.
func (c *column) seeLast() {
	recipe := c.w.desk.Document().Recipe
	if row := c.rowOf(recipe[len(recipe)-1].ID); row != nil {
		row.reveal(row)
	}
}

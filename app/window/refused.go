package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"truemat/ops/unit"
)

// fail tells what is wrong with what was typed: beside it, where it stays until
// it is mended or given up, and above the tray.
func (c *column) fail(at string, err error) {
	c.at, c.wrong, c.refusal = at, err, nil
	c.refresh()
	if now := c.w.win.Canvas().Focused(); c.refusal != nil && slices.Contains(reachable(c.list), now) {
		revealAll(c.scroll, now.(fyne.CanvasObject), c.refusal)
	}
	c.w.prompt.say(err)
	c.w.prompt.refresh()
}

// told is the place where it is told beside what was typed.
func (c *column) told(at string) {
	if c.wrong != nil && c.at == at {
		c.note(unit.Restate(sentence(c.wrong), c.w.unit), c.w.palette.Poor)
		c.refusal = c.list.Objects[len(c.list.Objects)-1]
	}
}

// forgive takes back what was told to be wrong, once it is mended or given up.
func (c *column) forgive() {
	if c.wrong == nil {
		return
	}
	c.wrong = nil
	c.w.prompt.say(nil)
	c.w.prompt.refresh()
	c.refresh()
}

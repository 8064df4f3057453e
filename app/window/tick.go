package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// tick is a box to tick, with its words.
type tick struct {
	widget.Check
	revealing
}

func newTick(words string, on bool, ticked func(bool)) *tick {
	t := &tick{}
	t.Text, t.Checked, t.OnChanged = words, on, ticked
	t.ExtendBaseWidget(t)
	return t
}

// FocusGained brings it into view.
func (t *tick) FocusGained() {
	t.Check.FocusGained()
	t.reveal(t)
}

// TypedKey backs out with Escape, and hands on what turns or rolls a page, and
// Enter, as the space bar ticks.
func (t *tick) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyEscape:
		handBack(t, e)
	case fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyReturn, fyne.KeyEnter:
		handOn(t, e)
	}
}

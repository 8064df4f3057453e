package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// choice is a field to pick from. What is picked is shortened where it is too
// long, and then told whole under the pointer and with the keys; the list that
// opens is as wide as its longest option.
type choice struct {
	widget.Select
	revealing
	quiet  bool
	wide   float32      // shows the longest option, within reason
	whole  float32      // shows it whatever its length
	tell   func(string) // tells what is cut in its place, "" to end it; may be nil
	told   bool
	seen   func()       // when it gets the keys; may be nil
	chosen func()       // when an option of the open list was taken; may be nil
	escape func()       // what Escape does while the list is not open; it backs out when nil
	enter  func()       // what Enter does in place of opening the list; may be nil
	letter func(rune)   // takes letters; may be nil
	try    func(string) // shows what an option of the open list would do; may be nil
	untry  func()       // ends that when the list closes; may be nil
	tab    func()       // what Tab does in place of going to the next; may be nil
}

const (
	widestChoice = 240
	choiceRim    = 52 // beside its words
)

func newChoice(options []string, now string, picked func(string)) *choice {
	c := &choice{}
	c.ExtendBaseWidget(c)
	c.Options, c.Selected = options, now
	for _, o := range options {
		c.whole = max(c.whole, up(fyne.MeasureText(o, normal, fyne.TextStyle{}).Width)+choiceRim)
	}
	c.wide = min(c.whole, widestChoice)
	c.OnChanged = func(s string) {
		if !c.quiet {
			picked(s)
		}
	}
	return c
}

// MinSize has room for the longest option.
func (c *choice) MinSize() fyne.Size {
	m := c.Select.MinSize()
	return fyne.NewSize(max(m.Width, c.wide), m.Height)
}

// cut reports whether what is picked does not show whole.
func (c *choice) cut() bool {
	return fyne.MeasureText(c.Selected, normal, fyne.TextStyle{}).Width+choiceRim > c.Size().Width+1
}

func (c *choice) say(in bool) {
	switch {
	case c.tell == nil:
	case in && c.cut():
		c.told = true
		c.tell(titled(c.Selected) + ".")
	case c.told:
		c.told = false
		c.tell("")
	}
}

// MouseIn tells what is cut.
func (c *choice) MouseIn(e *desktop.MouseEvent) {
	c.Select.MouseIn(e)
	c.say(true)
}

// MouseOut ends it.
func (c *choice) MouseOut() {
	c.Select.MouseOut()
	c.say(false)
}

// FocusGained brings it into view and tells what is cut.
func (c *choice) FocusGained() {
	c.Select.FocusGained()
	c.reveal(c)
	if c.seen != nil {
		c.seen()
	}
	c.say(true)
}

// FocusLost ends it.
func (c *choice) FocusLost() {
	c.Select.FocusLost()
	c.say(false)
}

// Tapped opens the list.
func (c *choice) Tapped(*fyne.PointEvent) {
	if c.Disabled() {
		return
	}
	if on := fyne.CurrentApp().Driver().CanvasForObject(c); on != nil {
		on.Focus(c)
	}
	c.open()
}

// TypedKey opens the list with Space, Enter and the arrows up and down, at what is
// picked now, so that the next arrow goes on from there; it backs out with
// Escape. The arrows left and right change nothing.
func (c *choice) TypedKey(e *fyne.KeyEvent) {
	if c.enter != nil && (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter) {
		c.enter()
		return
	}
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter, fyne.KeyUp, fyne.KeyDown:
		if list := c.open(); list != nil {
			list.light(c.SelectedIndex())
		}
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyPageUp, fyne.KeyPageDown:
		handOn(c, e)
	case fyne.KeyTab:
		c.tab() // else it does not get here
	case fyne.KeyLeft, fyne.KeyRight: // the toolkit's own list changes unseen by them
	case fyne.KeyEscape:
		if c.escape != nil {
			c.escape()
			return
		}
		handBack(c, e)
	default:
		c.Select.TypedKey(e)
	}
}

// AcceptsTab keeps Tab where the next field may be one that does not show yet.
func (c *choice) AcceptsTab() bool { return c.tab != nil }

// TypedRune hands letters on: it has no use for them. The blank is that of the
// space bar, as a key or on the way here.
func (c *choice) TypedRune(r rune) {
	if c.letter != nil && r != ' ' {
		c.letter(r)
	}
}

// open shows the options beneath, each whole unless the window is too narrow; those
// of a tool's field may lie on the field itself and on the tray, and roll there in a
// low window.
func (c *choice) open() *optionList {
	on := fyne.CurrentApp().Driver().CanvasForObject(c)
	if on == nil || len(c.Options) == 0 {
		return nil
	}
	most := on.Size().Width - 4*choiceRim
	words := make([]string, len(c.Options))
	for i, o := range c.Options {
		words[i] = shortened(o, most, normal)
	}
	options := slices.Clone(c.Options)
	list := newOptionList(on, words, func(i int) {
		c.SetSelected(options[i])
		if c.chosen != nil {
			c.chosen()
		}
	})
	if c.try != nil {
		list.shows = func(i int) { c.try(options[i]) }
	}
	list.gone = c.untry
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(c)
	size := list.MinSize()
	y, tall := beneathOrAbove(at.Y, c.Size().Height-theme.Size(theme.SizeNameInputBorder), size.Height, on.Size().Height)
	wide := max(size.Width, c.Size().Width)
	x := max(min(at.X, on.Size().Width-wide), 0)
	if c.try != nil && y < at.Y { // to leave free the mat, where it is seen what an option would do
		low := on.Size().Height - listRim
		tall = min(size.Height, low-listRim)
		if on.Size().Height < lowWindow {
			tall = min(tall, low-at.Y) // and what is told above the field
		}
		y = min(at.Y, low-tall)
	}
	list.show(fyne.NewPos(down(x), y), fyne.NewSize(wide, tall))
	return list
}

// beneathOrAbove says where a list of some height opens beside a field at y
// that is so high: beneath it, or above where there is more room; it rolls
// where neither is enough.
func beneathOrAbove(y, field, list, window float32) (at, tall float32) {
	under, over := window-listRim-y-field, y-listRim
	switch {
	case list <= under:
		return y + field, list
	case list <= over:
		return y - list, list
	case under >= over:
		return y + field, under
	}
	return listRim, over
}

// listRim is the room in units between an open list and the edge of the window.
const listRim = 4

func (c *choice) set(value string) {
	if c.Selected != value {
		c.quiet = true
		c.SetSelected(value)
		c.quiet = false
	}
}

package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// revealing is what can be brought into view when it gets the keys, and found
// again when the page is made anew.
type revealing struct {
	into *container.Scroll
	name string // of its own on the page, or none
}

func (r *revealing) within(s *container.Scroll) { r.into = s }

func (r *revealing) named() string { return r.name }

// reveal rolls the page until an object is seen.
func (r *revealing) reveal(o fyne.CanvasObject) {
	if r.into == nil {
		return
	}
	y, there := depth(r.into.Content, o)
	if !there {
		return
	}
	to := r.into.Offset
	if end := y + o.Size().Height + revealed; end > to.Y+r.into.Size().Height {
		to.Y = end - r.into.Size().Height
	}
	if y-revealed < to.Y {
		to.Y = max(y-revealed, 0)
	}
	if to != r.into.Offset {
		rollTo(r.into, to)
	}
}

// revealAll rolls the page until what stands between two of its parts, these
// included, is seen, or as much of it as there is room for below the first.
func revealAll(s *container.Scroll, first, last fyne.CanvasObject) {
	top, ok := depth(s.Content, first)
	end, ok2 := depth(s.Content, last)
	if !ok || !ok2 {
		return
	}
	end += last.Size().Height + revealed
	top = max(top-revealed, 0)
	to := s.Offset
	to.Y = min(max(to.Y, end-s.Size().Height), top)
	if to != s.Offset {
		rollTo(s, to)
	}
}

// depth is how far below the top of what holds it an object lies. The toolkit
// knows that only of what was drawn before.
func depth(in, o fyne.CanvasObject) (float32, bool) {
	if in == o {
		return 0, true
	}
	if box, ok := in.(*fyne.Container); ok {
		for _, c := range box.Objects {
			if y, ok := depth(c, o); ok {
				return c.Position().Y + y, true
			}
		}
	}
	return 0, false
}

// revealed is what is seen around what has the keys, in units.
const revealed = 12

// rolls lets all that is within an object roll a page when it gets the keys, but
// for what is in a part that rolls by itself.
func rolls(o fyne.CanvasObject, s *container.Scroll) {
	for _, f := range reachableIn(o, false) {
		if r, ok := f.(interface{ within(*container.Scroll) }); ok {
			r.within(s)
		}
	}
}

// again returns the place among all of what has the same name as was; else the
// nearest one before the place that was had, or after it, that does nothing to
// the pattern when Enter is pressed once more, and is no field unless that was one.
// It is −1 when there is none.
func again(all []fyne.Focusable, was fyne.Focusable, at int) int {
	name := func(f fyne.Focusable) string {
		if r, ok := f.(interface{ named() string }); ok {
			return r.named()
		}
		return ""
	}
	n := name(was)
	for i, f := range all {
		if f == was || n != "" && name(f) == n {
			return i
		}
	}
	typed := func(f fyne.Focusable) bool {
		_, ok := f.(interface{ SelectedText() string })
		return ok
	}
	rests := func(i int) bool {
		if typed(all[i]) && !typed(was) {
			return false // what is pressed next is meant for something else
		}
		t, ok := all[i].(*touch)
		return !ok || !t.deed || n == "" && i == at && t.name == ""
	}
	for i := min(at, len(all)-1); i >= 0; i-- {
		if rests(i) {
			return i
		}
	}
	for i := at + 1; i < len(all); i++ {
		if rests(i) {
			return i
		}
	}
	return -1
}

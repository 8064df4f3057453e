package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// largerWide is how wide a page is at least shown when it is looked at by itself,
// in units, where the window is so wide.
const largerWide = 900

// largerSharp is by how much finer such a page is drawn.
const largerSharp = 1.5

// larger shows the page that is looked at, or the map, over the print page with
// all the room of the window: as wide as it is, unless less than half of the page
// would be seen at a time. It rolls, turns, and is saved as on the print page.
func (p *printing) larger() {
	if p.picture == nil || p.large != nil {
		return
	}
	w := p.w
	full := func() float32 { return down(w.pageRoom().Width) - scrollBar }
	word := text("", normal, false, w.palette.Text)
	shown := container.New(layered{})
	roll := container.NewVScroll(shown)
	page := container.New(roomy{func() fyne.Size {
		return fyne.NewSize(full()+scrollBar, down(max(w.pageRoom().Height-largerHead, 180)))
	}}, roll)
	at := -1
	p.large = func() {
		said, size, picture := p.shows()
		change(word, said)
		shown.RemoveAll()
		shown.Add(container.New(roomy{func() fyne.Size {
			upright := float32(max(size.Y, 1)) / float32(max(size.X, 1))
			wide := min(full(), max(largerWide, 2*page.MinSize().Height/upright))
			return fyne.NewSize(full(), down(wide*upright))
		}}, picture))
		shown.Refresh()
		if at != p.page {
			at = p.page
			roll.ScrollToTop()
		}
	}
	var s *sheet
	turn := func(by int) {
		p.turn(by)
		s.fit()
	}
	acts := container.New(line{gap: 8}, w.button("‹", false, func() { turn(-1) }), w.button("›", false, func() { turn(1) }),
		w.link("Smaller  −", func() { s.close() }), word)
	keys := "arrows roll, Enter saves"
	if w.prompt.low() { // no room beside what is longest of a map
		keys = ""
	}
	s = w.overSheet("Print at true size", full()+scrollBar,
		container.New(ends{}, acts, text(keys, normal, false, w.palette.Faint)), page)
	p.show()
	s.pages = turn
	s.enter = func() {
		s.close()
		p.enter()
	}
	s.smaller = s.close
	s.shut = func() { p.large = nil }
}

// largerHead is the room in units of what stands above a page looked at by itself.
const largerHead = 104

// enter saves the print, once it is laid out.
func (p *printing) enter() {
	switch {
	case p.laying:
		p.wanted = true
	case !p.savePDF.disabled:
		p.save()
	}
}

package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// largerWide is how wide a page of a print is shown at most when it is looked at
// by itself, in units.
const largerWide = 900

// larger shows the page that is looked at, or the map, over the print page as
// wide as the window has room for; it rolls, and turns as the print page does.
func (p *printing) larger() {
	if p.picture == nil || p.large != nil {
		return
	}
	w := p.w
	wide := w.pageWide(largerWide) - scrollBar
	word := text("", normal, false, w.palette.Text)
	shown := container.New(layered{})
	roll := container.NewVScroll(shown)
	page := w.within(roll, wide+scrollBar, 190, 180)
	at := -1
	p.large = func() {
		said, size, picture := p.shows()
		change(word, said)
		shown.RemoveAll()
		shown.Add(container.New(roomy{func() fyne.Size { return fyne.NewSize(wide, down(wide*float32(size.Y)/float32(max(size.X, 1)))) }}, picture))
		shown.Refresh()
		if at != p.page {
			at = p.page
			roll.ScrollToTop()
		}
	}
	p.large()
	s := w.overSheet("Print at true size", wide+scrollBar,
		container.New(ends{}, word, text("Page Down turns on, the arrows roll", normal, false, w.palette.Faint)), page)
	s.pages = func(by int) {
		p.turn(by)
		s.fit()
	}
	s.shut = func() { p.large = nil }
}

package window

import (
	"fmt"
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// turn goes to the next page, or the one before; at the last one comes the map.
// It does so at once, whether or not the page is drawn already.
func (p *printing) turn(by int) {
	if p.picture == nil {
		return
	}
	n := p.plan.Pages() + 1
	p.page = (p.page + by + n) % n
	p.show()
}

func (p *printing) show() {
	p.view.RemoveAll()
	defer p.foot.Refresh()
	defer p.view.Refresh()
	if p.picture == nil {
		return
	}
	if p.keysWord.Show(); p.page > 0 {
		p.keysWord.Hide()
		p.draw()
	}
	word, _, shown := p.shows()
	change(p.pageWord, word)
	p.view.Add(shown)
	if p.large != nil {
		p.large()
	}
}

// shows returns what is shown now in words, its size in pixels, and as a picture.
func (p *printing) shows() (word string, size image.Point, shown fyne.CanvasObject) {
	if p.page > 0 {
		return p.showsPage()
	}
	word, picture := "Map of the pages", p.picture
	if p.turned() {
		word, picture = word+", on its side: row 1 at the left", quarter(p.picture)
	}
	return word, picture.Bounds().Size(), container.New(layered{}, p.w.contained(picture), container.New(&pageMap{p}, p.mapMarks()...))
}

// showsPage shows one page as it comes out of the printer; until it is drawn, its
// white paper.
func (p *printing) showsPage() (word string, size image.Point, shown fyne.CanvasObject) {
	word = fmt.Sprintf("Page %d of %d", p.page, p.plan.Pages())
	for _, t := range p.plan.Tiles {
		if t.Number == p.page && len(p.plan.Tiles) > 1 {
			word += fmt.Sprintf(", row %d, column %d", t.Row+1, t.Col+1)
		}
	}
	if page := p.drawn[p.page]; page != nil {
		return word, page.Bounds().Size(), p.onSheet(page.Bounds().Size(), p.w.stretched(page))
	}
	paper, k := p.plan.Paper, dots(p.plan.Paper.Width, p.plan.Paper.Height)
	size = image.Pt(int(paper.Width*k), int(paper.Height*k))
	white := canvas.NewRectangle(p.w.palette.Raised)
	return word, size, p.onSheet(size, container.New(layered{}, white, container.NewCenter(text("Drawing this page …", normal, false, p.w.palette.Faint))))
}

func (p *printing) onSheet(size image.Point, shown fyne.CanvasObject) fyne.CanvasObject {
	edge := canvas.NewRectangle(color.Transparent)
	edge.StrokeColor, edge.StrokeWidth = p.w.palette.Faint, 1
	return container.New(inset{8, 8}, gap(0, 0), container.New(inMiddle{size}, shown, edge))
}

// keptPages is how many drawn pages are kept, so that turning back is at once.
const keptPages = 8

// draw draws the page that is asked for, away from the window's own thread, one
// at a time, finer where it is shown larger: what was turned over meanwhile is
// left out.
func (p *printing) draw() {
	if p.page == 0 {
		return
	}
	paper := p.plan.Paper
	fine := dots(paper.Width, paper.Height)
	if p.large != nil {
		fine *= largerSharp
	}
	if had := p.drawn[p.page]; p.drawing || had != nil && had.Bounds().Dx() >= int(paper.Width*fine) {
		return
	}
	p.drawing = true
	n, serial, pages := p.page, p.serial, p.pages
	dim, palette := p.w.dark, p.w.palette
	var page *image.RGBA
	var err error
	p.w.away(func() {
		if page, err = pages.Page(n, fine); err == nil && dim {
			page = dimmed(page, palette)
		}
	}, func() {
		p.drawing = false
		if !p.sheet.open() {
			return
		}
		if pages != p.pages || serial != p.serial {
			p.show() // laid out anew meanwhile
			return
		}
		if err != nil {
			p.sheet.say(err)
			return
		}
		if len(p.drawn) >= keptPages {
			clear(p.drawn)
		}
		p.drawn[n] = page
		if p.w.running {
			p.show()
		}
	})
}

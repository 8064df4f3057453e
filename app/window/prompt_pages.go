package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"truemat/app/tool"
)

// mostRows is how many rows of fields show at once, one in a low window, so that
// enough of the mat is left; the fields beyond are reached by a word at the end.
const mostRows = 2

// Words that turn to the other fields.
const (
	moreFields  = "More…"
	firstFields = "Back"
)

// turner turns to the fields that do not show.
func (p *prompt) turner() *touch {
	word := moreFields
	if p.page == len(p.pages)-1 {
		word = firstFields
	}
	var t *touch
	t = p.w.link(word, func() {
		keys := p.w.win.Canvas().Focused() == fyne.Focusable(t)
		p.turn((p.page + 1) % len(p.pages))
		if all := reachable(p.fields); keys && len(all) > 0 {
			p.w.win.Canvas().Focus(all[0])
		}
	})
	t.name = moreFields
	return t
}

// pagesOf divides fields into pages of the rows that may show, those that are
// seldom needed last, and first the one that chooses which others there are.
func pagesOf(fields []tool.Field, boxes []fyne.CanvasObject, room float32, rows int, more fyne.CanvasObject) [][]int {
	var often, seldom []int
	all := line{gap: 8, wrap: room}
	tall := func(o []fyne.CanvasObject) bool {
		return len(o) > 1 && all.MinSize(o).Height > float32(rows)*(o[0].MinSize().Height+all.gap)
	}
	for i, f := range fields {
		switch {
		case f.Turns:
			often = append([]int{i}, often...)
		case f.Seldom && tall(boxes):
			seldom = append(seldom, i)
		default:
			often = append(often, i)
		}
	}
	if len(fields) == 0 {
		return nil
	}
	if !tall(boxes) {
		return [][]int{often}
	}
	var pages [][]int
	var page []int
	var shown []fyne.CanvasObject
	for _, i := range append(often, seldom...) {
		if tall(append(shown[:len(shown):len(shown)], boxes[i], more)) {
			pages, page, shown = append(pages, page), nil, nil
		}
		page, shown = append(page, i), append(shown, boxes[i])
	}
	return append(pages, page)
}

// pageShown is the page of fields that shows next: that of the field that is typed
// into, which others that come and go do not take from under the keys, or else
// that which shows already.
func (p *prompt) pageShown(fields []tool.Field) int {
	for page, on := range p.pages {
		for _, i := range on {
			if e := p.stay[fields[i].Name]; e != nil && p.w.win.Canvas().Focused() == fyne.Focusable(e) {
				return page
			}
		}
	}
	if p.page < len(p.pages) {
		return p.page
	}
	return 0
}

// turn shows the fields of another page.
func (p *prompt) turn(page int) {
	p.page, p.paged = page, 0
	p.refresh()
}

// order lists the fields as they follow each other on all pages.
func (p *prompt) order() (names []string) {
	fields := p.w.tool().Fields()
	for _, page := range p.pages {
		for _, i := range page {
			if i < len(fields) {
				names = append(names, fields[i].Name)
			}
		}
	}
	if fields := p.w.tool().Fields(); len(p.turns.Objects) > 0 && len(fields) > 0 {
		names = append(names, fields[len(fields)-1].Name)
	}
	return names
}

// focus gives a field the keys, on whichever page it is.
func (p *prompt) focus(field string) {
	at := slices.Index(p.order(), field)
	for page, on := range p.pages {
		if at < len(on) && at >= 0 && page != p.page {
			p.turn(page)
		}
		if at -= len(on); at < 0 {
			break
		}
	}
	if f, ok := p.boxes[field].(fyne.Focusable); ok {
		p.w.win.Canvas().Focus(f)
	}
}

// tab goes from a field to the next, or with Shift to the one before it, also
// where that is on another page: by keys the fields are one row that rolls.
func (p *prompt) tab(field string) {
	c, back := p.w.win.Canvas(), p.w.modifiers()&fyne.KeyModifierShift != 0
	order := p.order()
	to := slices.Index(order, field) + 1
	if back {
		to -= 2
	}
	if len(p.pages) > 1 && to >= 0 && to < len(order) {
		c.Unfocus() // what is typed is kept before its field goes
		p.focus(order[to])
		return
	}
	if back {
		c.FocusPrevious()
	} else {
		c.FocusNext()
	}
}

// goOn lets Tab on the mat go on at the field that was left, or else begin at the
// first; it reports whether there is one that the toolkit would not find.
func (p *prompt) goOn(backwards bool) bool {
	order := p.order()
	at := slices.Index(order, p.left)
	p.left = ""
	switch {
	case at >= 0 && !backwards:
		at = (at + 1) % len(order)
	case at < 0 && !backwards && p.page > 0:
		at = 0
	case at < 0:
		return false
	}
	p.focus(order[at])
	return true
}

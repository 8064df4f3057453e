package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
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

// layFields shows the tool's fields; those that stay keep what is typed.
func (p *prompt) layFields(t tool.Tool, room float32) {
	fields := t.Fields()
	p.stay = p.typedStill(t)
	if p.w.rehearsal != nil {
		fields = nil // they are of the tool, and Enter keeps the number
	}
	shape := t.Name()
	for _, f := range fields {
		shape += "\x00" + f.Name + "\x01" + f.Label
		for _, o := range f.Options {
			shape += "\x02" + o
		}
	}
	rows := mostRows
	if p.low() {
		rows = 1
	}
	if shape == p.shape && room == p.paged && rows == p.rows {
		for _, f := range fields {
			switch b := p.boxes[f.Name].(type) {
			case *entry:
				b.set(f.Text)
			case *choice:
				b.set(f.Text)
			}
		}
		return
	}
	if name, _, _ := strings.Cut(p.shape, "\x00"); name != t.Name() {
		p.page = 0
	}
	p.shape, p.paged, p.rows, p.boxes = shape, room, rows, map[string]fyne.CanvasObject{}
	boxes := make([]fyne.CanvasObject, len(fields))
	for i, f := range fields {
		boxes[i] = container.New(line{gap: 8}, text(f.Label, normal, false, p.w.palette.Faint), p.box(f))
	}
	p.widen(fields, boxes, room)
	p.pages = pagesOf(fields, boxes, room, rows, p.w.link(moreFields, nil))
	if p.page >= len(p.pages) {
		p.page = 0
	}
	p.w.renew(p.fields, func() {
		if len(p.pages) == 0 {
			return
		}
		for _, i := range p.pages[p.page] {
			p.fields.Add(boxes[i])
		}
		if len(p.pages) > 1 {
			p.fields.Add(container.New(inset{0, 6}, gap(0, 0), p.turner()))
		}
	})
}

// widenBy is in units by how much less a choice is tried where it is too wide.
const widenBy = 8

// widen lets choices show their options whole, or more of them, as far as that
// needs no further row.
func (p *prompt) widen(fields []tool.Field, boxes []fyne.CanvasObject, room float32) {
	rows := line{gap: 8, wrap: room}
	size := rows.MinSize(boxes)
	for _, f := range fields {
		c, ok := p.boxes[f.Name].(*choice)
		if !ok || c.whole == c.wide {
			continue
		}
		least := c.wide
		for c.wide = c.whole; c.wide > least; c.wide = max(c.wide-widenBy, least) {
			if now := rows.MinSize(boxes); now.Height <= size.Height && now.Width <= room {
				break
			}
		}
	}
}

// box is where a field is typed or picked.
func (p *prompt) box(f tool.Field) fyne.CanvasObject {
	if len(f.Options) > 0 {
		c := newChoice(f.Options, f.Text, func(s string) { p.set(f.Name, s) })
		c.chosen = func() {
			if p.said == nil && p.w.sheet == nil {
				p.leave(f.Name)
			}
		}
		c.tell, c.name = p.explain, f.Name
		c.letter = func(r rune) {
			p.leave(f.Name) // it is meant for the mat or the tray
			p.w.rune(r)
		}
		c.escape = func() { p.leave(f.Name) }
		p.boxes[f.Name] = c
		return c
	}
	if e := p.stay[f.Name]; e != nil {
		p.boxes[f.Name] = e
		return e
	}
	var e *entry
	e = newEntry(f.Text, wideFor(f.Text), func(string, bool) { p.keep(e) }, func() {
		p.say(nil)
		p.w.show()
		p.leave(f.Name)
	})
	e.OnSubmitted = func(string) { p.enter(e) }
	e.OnChanged = func(s string) { p.typed(e, s) }
	e.tell, e.name = p.explain, f.Name
	p.boxes[f.Name] = e
	return e
}

// turner turns to the fields that do not show.
func (p *prompt) turner() *touch {
	word := moreFields
	if p.page == len(p.pages)-1 {
		word = firstFields
	}
	var t *touch
	t = p.w.link(word, func() {
		keys := p.w.win.Canvas().Focused() == fyne.Focusable(t)
		p.page = (p.page + 1) % len(p.pages)
		p.paged = 0
		p.refresh()
		if all := reachable(p.fields); keys && len(all) > 0 {
			p.w.win.Canvas().Focus(all[0])
		}
	})
	t.name = moreFields
	return t
}

// pagesOf divides fields into pages of the rows that may show, those that are
// seldom needed last.
func pagesOf(fields []tool.Field, boxes []fyne.CanvasObject, room float32, rows int, more fyne.CanvasObject) [][]int {
	var often, seldom []int
	all := line{gap: 8, wrap: room}
	tall := func(o []fyne.CanvasObject) bool {
		return len(o) > 1 && all.MinSize(o).Height > float32(rows)*(o[0].MinSize().Height+all.gap)
	}
	for i, f := range fields {
		if f.Seldom && tall(boxes) {
			seldom = append(seldom, i)
		} else {
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

// wideFor returns the width of a field that shows a text whole, within reason.
func wideFor(s string) float32 {
	return min(max(up(fyne.MeasureText(s, normal, fyne.TextStyle{}).Width)+24, 104), 220)
}

func (p *prompt) set(field, value string) {
	p.say(p.w.tool().Set(field, value))
	p.w.show()
}

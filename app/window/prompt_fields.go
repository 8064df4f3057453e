package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/tool"
)

// layFields shows the tool's fields; those that stay keep what is typed.
func (p *prompt) layFields(t tool.Tool, room float32) {
	if p.tried != nil {
		return // a list is open above them
	}
	all := t.Fields()
	p.stay = p.typedStill(t)
	if p.w.rehearsal != nil {
		all = nil // they are of the tool, and Enter keeps the number
	}
	shape := t.Name()
	for _, f := range all {
		shape += "\x00" + f.Name + "\x01" + f.Label
		for _, o := range f.Options {
			shape += "\x02" + o
		}
		shape += "\x03" + p.long(f)
	}
	rows := mostRows
	if p.low() {
		rows = 1
	}
	if shape == p.shape && room == p.paged && rows == p.rows {
		for _, f := range all {
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
	fields, boxes := all, make([]fyne.CanvasObject, len(all))
	for i, f := range fields {
		boxes[i] = container.New(line{gap: 8}, text(f.Label, normal, false, p.w.palette.Faint), p.box(f))
	}
	var turns []fyne.CanvasObject
	if n := len(fields) - 1; n >= 0 && fields[n].Turns && rows > 1 {
		turns = boxes[n:]
		fields, boxes = fields[:n], boxes[:n]
		if c, ok := p.boxes[all[n].Name].(*choice); ok {
			c.wide = c.whole
		}
		room -= turns[0].MinSize().Width + turnsGap
	}
	more := p.w.link(moreFields, nil)
	p.pages = pagesOf(fields, boxes, room, rows, more)
	p.page = p.pageShown(fields)
	for _, page := range p.pages {
		shown := make([]fyne.CanvasObject, 0, len(page)+1)
		for _, i := range page {
			shown = append(shown, boxes[i])
		}
		if len(p.pages) > 1 {
			shown = append(shown, more)
		}
		p.widen(page, fields, shown, room)
	}
	p.w.renew(p.turns, func() {
		for _, b := range turns {
			p.turns.Add(b)
		}
	})
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

// turnsGap is the room in units between the fields and that which chooses which
// of them there are.
const turnsGap = 8

// widenBy is in units by how much less a choice is tried where it is too wide.
const widenBy = 8

// widen lets choices show their options whole, and fields what stands in them, or
// more of it, as far as that needs no further row for what shows with them.
func (p *prompt) widen(page []int, fields []tool.Field, shown []fyne.CanvasObject, room float32) {
	rows := line{gap: 8, wrap: room}
	size := rows.MinSize(shown)
	for _, i := range page {
		var wide *float32
		var whole float32
		switch b := p.boxes[fields[i].Name].(type) {
		case *choice:
			wide, whole = &b.wide, b.whole
		case *entry:
			wide, whole = &b.width, wholeFor(fields[i].Text)
		}
		if wide == nil || whole <= *wide {
			continue
		}
		least := *wide
		for *wide = whole; *wide > least; *wide = max(*wide-widenBy, least) {
			if now := rows.MinSize(shown); now.Height <= size.Height && now.Width <= room {
				break
			}
		}
	}
}

// long is what stands in a field to be typed into when it is longer than usual,
// or what an empty one asks for: the field is laid anew for it, but not while it
// is typed into.
func (p *prompt) long(f tool.Field) string {
	text := f.Text
	if e, ok := p.boxes[f.Name].(*entry); ok && e == p.typing.box {
		text = e.was
	}
	if text == "" {
		text = f.Wants
	}
	if len(f.Options) > 0 || wideFor(text) <= leastField {
		return ""
	}
	return text
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
		c.tab = func() { p.tab(f.Name) }
		c.try, c.untry = func(s string) { p.try(f.Name, s) }, p.untry
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
	wide := wideFor(f.Text)
	if f.Text == "" && f.Wants != "" {
		wide = wholeFor(f.Wants)
	}
	e = newEntry(f.Text, wide, func(string, bool) { p.keep(e) }, func() {
		p.say(nil)
		p.w.show()
		p.leave(f.Name)
	})
	e.PlaceHolder = f.Wants
	e.OnSubmitted = func(string) { p.enter(e) }
	e.OnChanged = func(s string) { p.typed(e, s) }
	e.tell, e.name = p.explain, f.Name
	e.tab = func() { p.tab(f.Name) }
	p.boxes[f.Name] = e
	return e
}

// wideFor returns the width of a field that shows a text whole, within reason.
func wideFor(s string) float32 {
	return min(max(wholeFor(s), leastField), 220)
}

// wholeFor is the width of a field that shows a text whole.
func wholeFor(s string) float32 { return up(fyne.MeasureText(s, normal, fyne.TextStyle{}).Width) + 24 }

// leastField is the width of a field in units, whatever stands in it.
const leastField = 104

func (p *prompt) set(field, value string) {
	p.say(p.w.tool().Set(field, value))
	p.w.show()
	p.w.mat.SeeTold()
}

// try shows on the mat what a field would do with another value, until untry.
func (p *prompt) try(field, value string) {
	t := p.w.tool()
	if p.tried == nil {
		back, selected := tool.Remember(t), p.w.desk.Selection()
		p.tried = func() {
			back()
			if p.w.desk.Selection() != selected {
				p.w.desk.Select(selected)
			}
		}
	}
	p.tried()
	if t.Set(field, value) != nil {
		p.tried()
	}
	p.w.show()
}

// untry gives the tool back what it was told before try.
func (p *prompt) untry() {
	if p.tried == nil {
		return
	}
	p.tried()
	p.tried = nil
	p.w.show()
}

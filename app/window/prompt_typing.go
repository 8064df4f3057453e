package window

import (
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"truemat/app/tool"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// typing is what is being typed into a field above the tray: the mat shows it
// as soon as it can be read, and it is kept when the field is left.
type typing struct {
	box  *entry
	back func() // gives the tool back what stood there
	read string // what could be read last, "" for nothing
}

// typed shows what stands in a field now. What cannot be read yet leaves what
// was read before it; nothing, or what stood there, gives that back.
func (p *prompt) typed(e *entry, s string) {
	t := p.w.tool()
	e.unread = false
	if s == e.was {
		if p.untype(e) {
			p.w.show()
		}
		return
	}
	if p.typing.box != e {
		p.typing = typing{box: e, back: tool.Remember(t)}
		p.say(nil)
	}
	p.typing.back()
	if strings.TrimSpace(s) == "" {
		p.typing.read = ""
	} else if t.Set(e.name, s) == nil {
		p.typing.read = s
	} else {
		p.typing.back()
		if p.typing.read != "" && t.Set(e.name, p.typing.read) != nil {
			p.typing.back()
		}
	}
	p.w.show()
	p.w.mat.SeeTold()
}

// enter keeps what was typed and gives the keys back to the mat; in a field that
// nothing was typed into it accepts. What cannot be read stays to be mended.
func (p *prompt) enter(e *entry) {
	if e.unkept() {
		p.keep(e)
	} else {
		p.w.accept()
	}
	if p.said == nil {
		p.leave(e.name)
	}
}

// keep gives the tool what stands in a field; what cannot be read stays there,
// and is told beside it. It reports whether it could be read.
func (p *prompt) keep(e *entry) bool {
	if p.boxes[e.name] != fyne.CanvasObject(e) {
		return true // the field is gone
	}
	p.untype(e)
	err := p.w.tool().Set(e.name, e.Text)
	if e.unread = err != nil; e.unread {
		e.was = p.value(e.name)
	} else {
		e.was, p.owed = e.Text, true
	}
	p.say(err)
	p.w.show()
	return err == nil
}

// value is what a field of the tool holds.
func (p *prompt) value(field string) string {
	for _, f := range p.w.tool().Fields() {
		if f.Name == field {
			return f.Text
		}
	}
	return ""
}

// settle keeps what is typed in any field before it is accepted; where it cannot
// be read it gives that field the keys and reports false.
func (p *prompt) settle() bool {
	for _, f := range p.w.tool().Fields() {
		if e, ok := p.boxes[f.Name].(*entry); ok && e.unkept() && !p.keep(e) {
			p.focus(e.name)
			return false
		}
	}
	return true
}

// clear lets go of what could not be read, and of what waits to be accepted.
func (p *prompt) clear() {
	p.owed = false
	for _, b := range p.boxes {
		if e, ok := b.(*entry); ok && e.unread {
			e.SetText(e.was)
		}
	}
}

// waits is the sentence of what was typed and waits to be accepted, "" when
// nothing does.
func (p *prompt) waits() string {
	if !p.owed || p.w.rehearsal != nil {
		return ""
	}
	var said []string
	for _, s := range p.w.tool().Proposal() {
		said = append(said, step.Told(s, p.w.desk.Pattern()))
	}
	return strings.Join(said, " ")
}

// dropped tells that what waited was let go by going on with something else.
func (p *prompt) dropped(what string) {
	if what != "" {
		p.owed = false
		p.say(fmt.Errorf("not accepted, and so not done: %s", what))
	}
}

// typedStill returns the fields of the tool with what was typed into them and is
// not kept: such a field stays when others come and go.
func (p *prompt) typedStill(t tool.Tool) map[string]*entry {
	still := map[string]*entry{}
	if name, _, _ := strings.Cut(p.shape, "\x00"); name != t.Name() {
		return still
	}
	for name, b := range p.boxes {
		if e, ok := b.(*entry); ok && e.unkept() && (e.unread || e == p.typing.box && p.w.win.Canvas().Focused() == fyne.Focusable(e)) {
			still[name] = e
		}
	}
	return still
}

// untype gives back what stood in a field before it was typed into; it reports
// whether it was.
func (p *prompt) untype(e *entry) bool {
	if p.typing.box == nil || p.typing.box != e {
		return false
	}
	p.typing.back()
	p.typing = typing{}
	return true
}

// whileTyping is the line above the tray while a field is typed into: what
// Enter and Escape do there, and what else the tool tells.
func (p *prompt) whileTyping(hint string) string {
	said := []string{"Enter keeps what is typed, Escape leaves the field."}
	if was := strings.TrimSpace(p.typing.box.was); was != "" {
		said[0] = "Enter keeps what is typed, Escape goes back to " + was + "."
	}
	if taken := p.taken(); taken != "" {
		said = append([]string{taken}, said...)
	}
	for s := range strings.SplitSeq(strings.TrimSuffix(hint, "."), ". ") {
		if !strings.Contains(s, "Enter") && !strings.Contains(s, "Escape") && s != "" {
			said = append(said, s+".")
		}
	}
	return strings.Join(said, " ")
}

// taken tells what a fraction that is typed is taken for, where the field of the
// tool shows a length.
func (p *prompt) taken() string {
	said := unit.Taken(p.typing.box.Text, p.w.unit)
	if mm, err := unit.ParseIn(p.value(p.typing.box.name), p.w.unit); said == "" || err != nil || !p.reads(p.typing.box.Text, mm) {
		return ""
	}
	return said
}

// reads reports whether a text is read as a length, to what a field shows of it.
func (p *prompt) reads(text string, mm float64) bool {
	v, err := p.w.read(text)
	return err == nil && math.Abs(math.Abs(v)-math.Abs(mm)) < 0.01
}

// leave gives the keys back to the mat from a field, after which Tab goes on
// to the one behind it, until the keys do something else.
func (p *prompt) leave(field string) {
	p.left = field
	p.w.focusMat()
}

package window

import (
	"strings"

	"truemat/app/tool"
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
}

// enter keeps what was typed and gives the keys back to the mat; in a field that
// nothing was typed into it accepts. What cannot be read stays to be mended.
func (p *prompt) enter(e *entry, s string) {
	p.untype(e)
	if s == e.was {
		p.w.accept()
	} else if err := p.w.tool().Set(e.name, s); err != nil {
		p.say(err)
		p.w.show()
	} else {
		e.was = s
		p.say(nil)
		p.w.show()
	}
	if p.said == nil {
		p.leave(e.name)
	}
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
	for s := range strings.SplitSeq(strings.TrimSuffix(hint, "."), ". ") {
		if !strings.Contains(s, "Enter") && !strings.Contains(s, "Escape") && s != "" {
			said = append(said, s+".")
		}
	}
	return strings.Join(said, " ")
}

// leave gives the keys back to the mat from a field, after which Tab goes on
// behind it.
func (p *prompt) leave(field string) {
	p.left = field
	p.w.focusMat()
}

// goOn lets Tab on the mat go on at the field that was left; it reports whether
// there is one.
func (p *prompt) goOn(backwards bool) bool {
	left := p.left
	p.left = ""
	for _, f := range reachable(p.fields) {
		if named, ok := f.(interface{ named() string }); ok && left != "" && named.named() == left {
			c := p.w.win.Canvas()
			c.Focus(f)
			if !backwards {
				c.FocusNext()
			}
			return true
		}
	}
	return false
}

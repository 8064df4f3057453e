package handout

import (
	"strings"

	"truemat/ops/unit"
	"truemat/render"
)

// Wish says which sheet is wanted.
type Wish struct {
	Size  string // its label
	Paper render.Paper
	// Units are those in which lengths are written; mm when empty.
	Units unit.System
	// Called is what the altered work is called, where that is not the name of
	// the pattern.
	Called  string
	Without []Part // parts that are left out
}

// betweenCells lets the lengths of a row be told alike.
const betweenCells = "\x1f"

// restated writes the lengths in what is told in another system of units.
func restated(parts []render.Part, system unit.System) []render.Part {
	say := func(text string) string { return unit.Kept(unit.Restate(text, system)) }
	all := func(texts []string) []string {
		out := make([]string, len(texts))
		for i, t := range texts {
			out[i] = say(t)
		}
		return out
	}
	out := make([]render.Part, len(parts))
	for i, p := range parts {
		switch p := p.(type) {
		case render.Words:
			out[i] = render.Words(say(string(p)))
		case render.Small:
			p.Lead, p.Caption = say(p.Lead), say(p.Caption)
			out[i] = p
		case render.Entries:
			entries := make(render.Entries, len(p))
			for k, e := range p {
				e.Text, e.Below = say(e.Text), all(e.Below)
				entries[k] = e
			}
			out[i] = entries
		case render.Table:
			p.Head = all(p.Head)
			rows := make([][]string, len(p.Rows))
			for k, r := range p.Rows {
				rows[k] = strings.Split(say(strings.Join(r, betweenCells)), betweenCells)
			}
			p.Rows = rows
			out[i] = p
		default:
			out[i] = p
		}
	}
	return out
}

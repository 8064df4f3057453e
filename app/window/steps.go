package window

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"image/color"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// steps lists the recipe, a sentence each; the one opened shows its acts and
// numbers.
func (c *column) steps() {
	w := c.w
	recipe := w.desk.Document().Recipe
	reports := w.desk.Reports()
	if len(recipe) == 0 {
		c.note("None yet. What you do with the tools is kept here, to be altered or taken out at any time.", w.palette.Faint)
		return
	}
	looking := w.desk.Looking()
	off, said := 0, false // the first step that is switched off, counted from 1, until it is told
	for i, e := range recipe {
		r := reports[i]
		ink, fill := w.palette.Text, color.Color(color.Transparent)
		switch {
		case e.Off || r.State == step.Off || looking >= 0 && i >= looking:
			ink = w.palette.Faint
		}
		if c.open == e.ID {
			fill = w.palette.Soft
		}
		sign := container.New(centred{}, text(strconv.Itoa(i+1), small, true, w.palette.Faint))
		var mark fyne.CanvasObject = sign
		if r.State == step.Upset {
			mark = container.New(stack{gap: 2}, sign, icon("broken", w.palette.Poor, 16))
		}
		s := unit.Restate(r.Sentence, w.unit)
		if e.Off {
			s += " (off)"
		}
		s += meantFor(e.Sizes)
		from := len(c.list.Objects)
		row := c.row(mark, s, ink, fill, func() {
			if c.open == e.ID {
				c.open = ""
			} else {
				c.open = e.ID
			}
			c.wrong = nil
			c.refresh()
			c.toStep(e.ID)
		})
		row.name, row.escape = "step "+e.ID, c.lookOn
		for _, s := range c.upset(i) {
			if c.open == e.ID {
				c.retell(w.palette.Poor, []string{s}, nil)
			} else {
				c.note(s, w.palette.Poor)
			}
			if off > 0 {
				c.note(fmt.Sprintf("Step %d is switched off: if this one rests on it, switch it on again.", off), w.palette.Poor)
				off = 0 // told once
			}
		}
		if off == 0 && e.Off && !said {
			off, said = i+1, true
		}
		if c.open == e.ID {
			c.inside(i, e, r)
			c.opened = c.lastShown()
			c.digits(c.list.Objects[from:])
		}
	}
}

// lookOn ends a look at an earlier state and leaves the keys where they are; it
// reports whether there was one.
func (c *column) lookOn() bool {
	if c.w.desk.Looking() < 0 {
		return false
	}
	c.w.desk.Look(-1)
	return true
}

// rowOf is the sentence of a step where the steps are listed, nil when it is not.
func (c *column) rowOf(id string) *touch {
	for _, f := range reachable(c.list) {
		if t, ok := f.(*touch); ok && t.name == "step "+id {
			return t
		}
	}
	return nil
}

// toStep gives the keys to the sentence of a step and shows all that is open
// below it.
func (c *column) toStep(id string) {
	row := c.rowOf(id)
	if row == nil {
		return
	}
	c.w.win.Canvas().Focus(row)
	last := fyne.CanvasObject(row)
	if c.open == id {
		last = c.opened
	}
	revealAll(c.scroll, row, last)
}

// upset tells why the step at place i could not apply in the size shown, and in
// which others with the first reason there; the same reason once.
func (c *column) upset(i int) []string {
	var sizes []string
	here, why := "", ""
	for _, r := range c.w.desk.Results() {
		switch rep := r.Reports[i]; {
		case rep.State != step.Upset:
		case r.Size.Label == c.w.desk.Size():
			here = rep.Error
		default:
			sizes = append(sizes, r.Size.Label)
			why = cmp.Or(why, rep.Error)
		}
	}
	others := strings.Join(sizes, ", ")
	if len(sizes) > sizesNamed {
		others = fmt.Sprintf("%d other sizes", len(sizes))
	}
	reason := func(s string) string { return sentence(errors.New(s)) }
	switch {
	case here == "" && why == "":
		return nil
	case here == why:
		return []string{"It no longer applies, here and in " + others + ": " + reason(here)}
	case why == "":
		return []string{"It no longer applies: " + reason(here)}
	}
	if len(sizes) > sizesNamed {
		others += ", such as " + sizes[0]
	}
	elsewhere := "It does not apply in " + others + ": " + reason(why)
	if here == "" {
		return []string{elsewhere}
	}
	return []string{"It no longer applies: " + reason(here), elsewhere}
}

// meantFor says for which sizes a step is, when not for all.
func meantFor(sizes []string) string {
	switch {
	case len(sizes) == 0:
		return ""
	case len(sizes) > sizesNamed:
		return fmt.Sprintf(" (for %d sizes)", len(sizes))
	}
	return " (only " + strings.Join(sizes, ", ") + ")"
}

// sizesNamed is how many sizes of a step are named at most.
const sizesNamed = 4

// inside shows what is within the step at place i: its numbers first, then what
// can be done with it, and what else of it can be changed.
func (c *column) inside(i int, e step.Entry, r step.Report) {
	w := c.w
	c.numberRows(i, e)
	c.acts(i, e)
	c.pickRows(i, e)
	for _, n := range numbers(e) {
		if n.kind != 's' || secondOf(e.Step, n.path) {
			continue
		}
		at := e.ID + " " + strings.Join(n.path, " ")
		in := newEntry(n.text, columnInner-gripWidth, func(s string, changed bool) {
			if !changed {
				return
			}
			next, err := n.with(e, s)
			if other := partnerOf(e.Step, n.path); err == nil && other != nil {
				next, err = altered(next, other, strings.TrimSpace(s))
			}
			if err == nil {
				err = w.desk.Amend(next)
			}
			c.edit(at, err)
		}, func() {
			c.forgive()
			w.backOut()
		})
		in.name = at
		called := label(n.path)
		if walk, k, ok := droppedAt(e.Step, n.path); ok && lastOf(n.path) == "name" {
			called = droppedTitle(walk, k) + ", name"
		}
		c.add(container.New(columns{gripWidth}, text(shortened(called, gripWidth-4, normal), normal, false, w.palette.Faint), in))
		c.told(at)
	}
	c.besides(e.ID) // whose notes follow
	c.stepNotes(e, r)
	c.told(e.ID)
}

// edit shows what became of an edit that was made at a place of the column.
func (c *column) edit(at string, err error) {
	if err != nil {
		c.fail(at, err)
		return
	}
	c.forgive()
	c.refresh()
}

// number is a value of a step that can be typed anew: where it stands in the
// step's JSON, and as what.
type number struct {
	path  []string
	text  string
	value float64
	kind  byte // n: number, s: text
}

// numbers returns the values of a step, those within others included; names
// of pieces, edges and roles stay as they are, and so do the numbers that
// step.NumbersOf lists.
func numbers(e step.Entry) []number {
	b, err := json.Marshal(e)
	if err != nil {
		return nil
	}
	var all map[string]any
	if json.Unmarshal(b, &all) != nil {
		return nil
	}
	for _, k := range []string{"id", "do", "off", "sizes"} {
		delete(all, k)
	}
	return gather(all, nil)
}

// deepest bounds how deep values are looked for.
const deepest = 4

func gather(m map[string]any, path []string) []number {
	if len(path) > deepest {
		return nil
	}
	var out []number
	for _, k := range slices.Sorted(maps.Keys(m)) {
		at := append(path[:len(path):len(path)], k)
		switch v := m[k].(type) {
		case float64:
			out = append(out, number{at, plainly(v), v, 'n'})
		case string:
			if k == "text" || k == "cloth" || k == "name" || strings.ContainsAny(v, "0123456789") && len(path) == 0 && k != "piece" && k != "edge" {
				out = append(out, number{at, v, 0, 's'})
			}
		case map[string]any:
			_, figure := v["figure"]
			_, sizes := v["sizes"]
			if !figure && !sizes {
				out = append(out, gather(v, at)...)
			}
		case []any:
			if k == "knots" || k == "pieces" { // have rows of their own, or came as they are
				continue
			}
			for i, one := range v {
				item := append(at[:len(at):len(at)], strconv.Itoa(i))
				switch one := one.(type) {
				case float64:
					out = append(out, number{item, plainly(one), one, 'n'})
				case map[string]any:
					out = append(out, gather(one, item)...)
				}
			}
		}
	}
	return out
}

// plainly writes a number as it is read, to a thousandth of a thousandth.
func plainly(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64)
}

// with returns the step with another value there.
func (n number) with(e step.Entry, typed string) (step.Entry, error) {
	if typed == n.text {
		return e, nil
	}
	typed = strings.TrimSpace(typed)
	if n.kind == 's' {
		return altered(e, n.path, typed)
	}
	v, err := strconv.ParseFloat(typed, 64)
	if err != nil {
		return e, fmt.Errorf("%q is no number; write one as 4.5", typed)
	}
	return altered(e, n.path, v)
}

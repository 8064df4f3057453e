package window

import (
	"encoding/json"
	"fmt"
	"image/color"
	"maps"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"truemat/ops/step"
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
		sign := container.New(layout.NewCenterLayout(), text(strconv.Itoa(i+1), small, true, w.palette.Faint))
		var mark fyne.CanvasObject = sign
		if r.State == step.Upset {
			mark = icon("broken", w.palette.Poor, 16)
		}
		s := r.Sentence
		if e.Off {
			s += " (off)"
		}
		c.row(mark, s, ink, fill, func() {
			if c.open == e.ID {
				c.open = ""
			} else {
				c.open = e.ID
			}
			c.wrong = nil
			c.refresh()
		})
		if r.State == step.Upset {
			c.note("It no longer applies: "+sentence(fmt.Errorf("%s", r.Error)), w.palette.Poor)
		}
		if c.open == e.ID {
			c.acts(i, e, r)
		}
	}
}

// acts shows what can be done with a step.
func (c *column) acts(i int, e step.Entry, r step.Report) {
	w := c.w
	word := "Switch off"
	if e.Off {
		word = "Switch on"
	}
	box := container.New(line{gap: 4, wrap: columnInner},
		w.link("Before it", func() { w.desk.Look(i) }),
		w.link("After it", func() { w.desk.Look(i + 1) }))
	if w.desk.Looking() >= 0 {
		box.Add(w.link("All steps", func() { w.desk.Look(-1) }))
	}
	box.Add(w.link(word, func() { c.edit(e.ID, w.desk.Switch(e.ID, !e.Off)) }))
	box.Add(w.link("Remove", func() { c.edit(e.ID, w.desk.Remove(e.ID)) }))
	c.add(box)
	for _, n := range numbers(e) {
		in := newEntry(n.text, columnInner-112, func(s string, changed bool) {
			if !changed {
				return
			}
			next, err := n.with(e, s)
			if err == nil {
				err = w.desk.Replace(next)
			}
			c.edit(e.ID, err)
		}, w.backOut)
		c.add(container.New(columns{112}, text(shortened(n.label(), 108, normal), normal, false, w.palette.Faint), in))
	}
	for _, n := range r.Notes {
		c.note(n, w.palette.Faint)
	}
	c.told(e.ID)
}

func (c *column) edit(id string, err error) {
	if err != nil {
		c.fail(id, err)
		return
	}
	c.wrong = nil
	c.refresh()
}

// number is a value of a step that can be typed anew: where it stands in the
// step's JSON, and as what.
type number struct {
	path []string
	text string
	kind byte // n: number, s: text, o: a figure of another step, or a number per size
}

// label is where the value stands, in words.
func (n number) label() string {
	return titled(strings.ReplaceAll(strings.Join(n.path, " "), "_", " "))
}

// numbers returns the values of a step, those within others included; names
// of pieces, edges and roles stay as they are.
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

// nesting bounds how deep values are looked for.
const nesting = 4

func gather(m map[string]any, path []string) []number {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	var out []number
	for _, k := range keys {
		at := append(append([]string{}, path...), k)
		switch v := m[k].(type) {
		case float64:
			out = append(out, number{at, plainly(v), 'n'})
		case string:
			if k == "text" || k == "cloth" || k == "name" || strings.ContainsAny(v, "0123456789") && len(path) == 0 && k != "piece" && k != "edge" {
				out = append(out, number{at, v, 's'})
			}
		case map[string]any:
			_, figure := v["figure"]
			_, sizes := v["sizes"]
			if figure || sizes {
				out = append(out, number{at, inWords(v), 'o'})
			} else if len(path) < nesting {
				out = append(out, gather(v, at)...)
			}
		}
	}
	return out
}

// plainly writes a number as it is read, to a thousandth of a thousandth.
func plainly(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64)
}

// inWords writes a figure of another step as "name × factor", and numbers per
// size as "65C 3, 65D 4".
func inWords(v map[string]any) string {
	if name, ok := v["figure"].(string); ok {
		if times, ok := v["times"].(float64); ok && times != 1 {
			name += " × " + plainly(times)
		}
		return name
	}
	sizes, _ := v["sizes"].(map[string]any)
	var out []string
	for _, s := range slices.Sorted(maps.Keys(sizes)) {
		if mm, ok := sizes[s].(float64); ok {
			out = append(out, s+" "+plainly(mm))
		}
	}
	return strings.Join(out, ", ")
}

// fromWords reads what inWords writes; anything else is handed on as text.
func fromWords(typed string) any {
	name, factor, factored := strings.Cut(typed, "×")
	name = strings.TrimSpace(name)
	if strings.Contains(name, ".") && !strings.ContainsAny(name, ", ") && !strings.ContainsAny(name[:1], "0123456789.-−+") {
		times := 1.0
		if factored {
			var err error
			if times, err = strconv.ParseFloat(strings.TrimSpace(strings.ReplaceAll(factor, ",", ".")), 64); err != nil {
				return typed
			}
		}
		return map[string]any{"figure": name, "times": times}
	}
	sizes := map[string]any{}
	for _, part := range strings.Split(typed, ",") {
		words := strings.Fields(part)
		if len(words) != 2 {
			return typed
		}
		mm, err := strconv.ParseFloat(words[1], 64)
		if err != nil {
			return typed
		}
		sizes[words[0]] = mm
	}
	return map[string]any{"sizes": sizes}
}

// with returns the step with another value there. What is no plain number is
// handed on as text, which a step reads as a length or refuses.
func (n number) with(e step.Entry, typed string) (step.Entry, error) {
	if typed == n.text {
		return e, nil
	}
	b, err := json.Marshal(e)
	if err != nil {
		return e, err
	}
	var all map[string]any
	if err := json.Unmarshal(b, &all); err != nil {
		return e, err
	}
	at := all
	for _, k := range n.path[:len(n.path)-1] {
		at, _ = at[k].(map[string]any)
		if at == nil {
			return e, fmt.Errorf("the step has no %s any more", n.label())
		}
	}
	last := n.path[len(n.path)-1]
	typed = strings.TrimSpace(typed)
	plain, perr := strconv.ParseFloat(strings.NewReplacer(",", ".", "−", "-").Replace(typed), 64)
	switch {
	case n.kind == 's':
		at[last] = typed
	case perr == nil:
		at[last] = plain
	case n.kind == 'o':
		at[last] = fromWords(typed)
	default:
		at[last] = typed
	}
	if b, err = json.Marshal(all); err != nil {
		return e, err
	}
	var next step.Entry
	if err := json.Unmarshal(b, &next); err != nil {
		return e, err
	}
	return next, nil
}

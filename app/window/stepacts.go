package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/step"
)

// acts shows what can be done with the step at place i of the recipe.
func (c *column) acts(i int, e step.Entry) {
	w := c.w
	word := "Switch off"
	if e.Off {
		word = "Switch on"
	}
	look := func(to int) func() {
		return func() {
			c.bounds = "" // the marks of a check would lie over what is looked at
			w.desk.Look(to)
		}
	}
	box := container.New(line{gap: 4, wrap: columnInner})
	act := func(name string, t *touch) {
		t.name, t.escape = "act "+name+" "+e.ID, c.lookOn
		box.Add(t)
	}
	before := c.option("Before it", w.desk.Looking() == i, look(i))
	act("before", before)
	act("after", c.option("After it", w.desk.Looking() == i+1, look(i+1)))
	if w.desk.Looking() >= 0 {
		var all *touch
		all = w.link("All steps", func() {
			if on := w.win.Canvas(); on.Focused() == fyne.Focusable(all) {
				on.Focus(before) // for it goes
			}
			w.desk.Look(-1)
		})
		act("all", all)
	}
	act("switch", w.link(word, func() {
		since := w.since()
		err := w.desk.Switch(e.ID, !e.Off)
		c.edit(e.ID, err)
		if err == nil {
			done := "off"
			if e.Off {
				done = "on again"
			}
			since.tell(fmt.Sprintf("Step %d is switched %s.", i+1, done))
		}
	}))
	if len(e.Sizes) > 0 {
		act("sizes", w.link("For all sizes", func() { c.edit(e.ID, w.desk.SetSizes(e.ID)) }))
	} else if len(w.desk.Document().Source.Sizes) > 1 {
		act("sizes", w.link("Only for "+w.desk.Size(), func() { c.edit(e.ID, w.desk.SetSizes(e.ID, w.desk.Size())) }))
	}
	act("remove", w.link("Remove", func() {
		since := w.since()
		err := w.desk.Remove(e.ID)
		c.edit(e.ID, err)
		if err == nil {
			since.tell(fmt.Sprintf("Step %d is taken out; Ctrl+Z brings it back.", i+1))
		}
	}))
	c.add(box)
}

// digits lets a number that is typed anywhere in a step that is open, such as on
// what can be done with it, go to the first of the step's numbers.
func (c *column) digits(within []fyne.CanvasObject) {
	var first *dial
	var rest []*touch
	for _, o := range within {
		for _, f := range reachable(o) {
			switch f := f.(type) {
			case *dial:
				if first == nil {
					first = f
				}
			case *touch:
				rest = append(rest, f)
			}
		}
	}
	if first == nil {
		return
	}
	for _, t := range rest {
		t.digit = func(r rune) {
			c.w.win.Canvas().Focus(first)
			first.TypedRune(r)
		}
	}
}

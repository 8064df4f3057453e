package window

import (
	"image/color"

	"fyne.io/fyne/v2/container"
	"truemat/app/desk"
	"truemat/ops/check"
)

// sizes shows every size with the sign of its state, the one shown marked.
func (c *column) sizes() {
	c.run.RemoveAll()
	c.fillRun()
	c.add(c.run)
	c.reach()
	c.beneath()
}

// reach lets her say whether changes go to all sizes or to the one shown.
func (c *column) reach() {
	w := c.w
	if len(w.desk.Document().Source.Sizes) < 2 {
		return
	}
	box := container.New(line{gap: 4, wrap: columnInner}, container.New(inset{0, 4}, gap(0, 0), text("Changes go to", small, false, w.palette.Faint)))
	for _, o := range []struct {
		word string
		only bool
	}{{"all sizes", false}, {shortened("only "+w.desk.Size(), columnInner-24, small), true}} {
		b := c.option(o.word, o.only == w.desk.Only(), func() { w.desk.SetOnly(o.only) })
		b.hover = func(in bool) {
			told := ""
			if in && o.only {
				told = "What you do or edit from now on alters size " + w.desk.Size() + " alone."
			} else if in {
				told = "What you do or edit from now on alters every size."
			}
			w.prompt.explain(told)
		}
		box.Add(b)
	}
	c.add(box)
}

func (c *column) fillRun() {
	w := c.w
	for _, s := range c.states {
		ink, fill := w.palette.Text, color.Color(w.palette.Raised)
		signInk := c.ink(s.Worst)
		name := string(s.Worst)
		if s.Behind {
			name, signInk = "behind", w.palette.Poor
		}
		if s.Label == w.desk.Size() {
			ink, signInk, fill = w.palette.OnAccent, w.palette.OnAccent, w.palette.Accent
		}
		sign := icon(name, signInk, 16)
		if name == "" { // not known yet
			sign = gap(16, 16)
		}
		face := container.New(line{gap: 4}, sign, text(shortened(s.Label, columnInner-48, normal), normal, s.Label == w.desk.Size(), ink))
		b := newTouch(w.palette, container.New(centred{}, face), fill, 6, 4, func() {
			w.prompt.say(w.desk.SetSize(s.Label))
			w.mat.Refit()
			if path := w.desk.Path(); path != "" {
				w.set.SetString(sizeKey(path), s.Label)
			}
		})
		b.hover = func(in bool) {
			told := ""
			if in {
				told = "Size " + s.Label + ": " + c.stateWords(s)
			}
			w.prompt.explain(told)
		}
		c.run.Add(b)
	}
}

func (c *column) stateWords(s desk.SizeState) string {
	if s.Worst == "" {
		return "its checks are being worked out."
	}
	col := check.Column{Size: s.Label, Worst: s.Worst}
	for _, r := range c.w.desk.Results() {
		if s.Behind && r.Size.Label == s.Label {
			col.Behind = r.Reason()
		}
	}
	return columnWords(col)
}

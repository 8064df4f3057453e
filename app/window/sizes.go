package window

import (
	"fmt"
	"image/color"
	"slices"

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
		b := newTouch(w.palette, container.New(centred{}, face), fill, 6, 4, func() { w.showSize(s.Label) })
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

// showSize shows another size, and again when the document is opened anew.
func (w *Window) showSize(label string) {
	w.prompt.say(w.desk.SetSize(label))
	w.prompt.refresh() // what was told was of the other size
	w.mat.FitAgain()
	w.keepShown()
}

// keepShown keeps which size is shown of a document that has a file.
func (w *Window) keepShown() {
	if path := w.desk.Path(); path != "" {
		w.set.SetString(sizeKey(path), w.desk.Size())
	}
}

// asLeft shows the size of a document that was shown when it was left, the first
// where it has that no more.
func (w *Window) asLeft(d *desk.Desk) {
	if d.Path() == "" {
		return
	}
	if size := w.set.String(sizeKey(d.Path())); size != "" {
		_ = d.SetSize(size)
	}
}

// besides lets the sizes before and after the one shown be seen where a step is
// open, whose numbers and notes are those of the size; they go round. They stand
// behind the numbers, so that keys come to these first.
func (c *column) besides(id string) {
	labels := c.w.desk.Document().Source.Labels()
	if len(labels) < 2 {
		return
	}
	now, n := slices.Index(labels, c.w.desk.Size()), len(labels)
	word := func(label string) string { return shortened(label, columnInner/4, small) }
	row := container.New(line{gap: 4, wrap: columnInner}, container.New(inset{0, 4}, gap(0, 0), text("In size "+word(labels[now]), small, false, c.w.palette.Faint)))
	for _, o := range []struct{ name, word, label string }{
		{"size before", "‹ %s", labels[(now+n-1)%n]}, {"size after", "%s ›", labels[(now+1)%n]},
	} {
		b := c.option(fmt.Sprintf(o.word, word(o.label)), false, func() { c.w.showSize(o.label) })
		b.name, b.escape = o.name+" "+id, c.lookOn
		row.Add(b)
	}
	c.add(row)
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

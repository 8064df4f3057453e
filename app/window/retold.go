package window

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// toldStep is a sentence of a step as the list of steps tells it.
type toldStep struct{ id, said string }

// retold are notes of the step that is open which follow its numbers while one
// of them is rehearsed.
type retold struct {
	box  *fyne.Container
	size float32
	ink  color.Color
	said []string
	own  []string                  // while its numbers are as they are kept
	tell func(*rehearsal) []string // nil when there is nothing to tell while they are not
}

// retell adds the place of such notes.
func (c *column) retell(ink color.Color, own []string, tell func(*rehearsal) []string) {
	c.retellIn(normal, ink, own, tell)
}

func (c *column) retellIn(size float32, ink color.Color, own []string, tell func(*rehearsal) []string) {
	n := &retold{box: container.New(stack{gap: columnGap}), size: size, ink: ink, own: own, tell: tell}
	n.say(own)
	c.retold = append(c.retold, n)
	c.add(n.box)
}

// lastShown is the last object of the list that is not hidden for want of notes.
func (c *column) lastShown() fyne.CanvasObject {
	i := len(c.list.Objects) - 1
	for i > 0 && !c.list.Objects[i].Visible() {
		i--
	}
	return c.list.Objects[i]
}

// now is what they are while a step is rehearsed, nil for none.
func (n *retold) now(r *rehearsal) []string {
	switch {
	case r == nil:
		return n.own
	case n.tell == nil:
		return nil
	}
	return n.tell(r)
}

// say writes notes in the place of those there are.
func (n *retold) say(notes []string) {
	n.said = notes
	n.box.RemoveAll()
	for _, s := range notes {
		n.box.Add(para(s, columnInner, n.size, false, n.ink))
	}
	if n.box.Hide(); len(notes) > 0 {
		n.box.Show()
	}
}

// tellRehearsed writes what is told of the step that is rehearsed where the
// steps are listed, and its own again afterwards.
func (c *column) tellRehearsed() {
	r, now := c.w.rehearsal, toldStep{}
	if r != nil {
		now = toldStep{r.id, r.sentence() + meantFor(r.next.Sizes)}
	}
	of := r
	if r != nil && r.id != c.open {
		of = nil
	}
	var anew []*retold
	for _, n := range c.retold {
		if said := n.now(of); !slices.Equal(said, n.said) {
			anew = append(anew, n)
		}
	}
	if c.rehearsed == now && len(anew) == 0 {
		return
	}
	row := now
	if now.id == "" {
		recipe := c.w.desk.Document().Recipe
		if i := recipe.Index(c.rehearsed.id); i >= 0 {
			row = toldStep{c.rehearsed.id, c.w.desk.Reports()[i].Sentence + meantFor(recipe[i].Sizes)}
		}
	}
	c.rehearsed = now
	c.keepStill(func() {
		if t := c.rowOf(row.id); t != nil {
			face := t.body.(*fyne.Container).Objects[1].(*fyne.Container)
			face.Objects[1] = para(unit.Restate(row.said, c.w.unit), columnInner-24, normal, false, c.w.palette.Text)
			t.Refresh()
		}
		for _, n := range anew {
			n.say(n.now(of))
		}
		c.list.Layout.Layout(c.list.Objects, c.list.Size())
		c.list.Refresh()
		c.scroll.Refresh()
	})
}

// stepNotes tells what a step notes, in the size shown.
func (c *column) stepNotes(e step.Entry, own step.Report) {
	w := c.w
	written := func(notes []string, in step.Result, e step.Entry) (told []string) {
		for _, n := range slices.Concat(mendedLater(notes, in, e.ID), carriedLater(in, e)) {
			told = append(told, unit.Restate(n, w.unit))
		}
		return told
	}
	var now step.Result
	for _, res := range w.desk.Results() {
		if res.Size.Label == w.desk.Size() {
			now = res
		}
	}
	c.retell(w.palette.Faint, written(own.Notes, now, e), func(r *rehearsal) []string {
		rep, _ := r.report()
		return written(rep.Notes, r.result, r.next)
	})
	if s, ok := e.Step.(*step.Walk); ok {
		c.retell(w.palette.Faint, w.droppedOnAnother(s), nil)
	}
}

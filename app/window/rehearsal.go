package window

import (
	"fmt"
	"reflect"
	"slices"

	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// rehearsal is an edit of a step that is looked at before it is made: the
// number is being dragged, or typed.
type rehearsal struct {
	id     string
	at     string // the field in which it is made
	play   func(step.Entry) step.Result
	notes  []string // what the step tells now
	left   string   // the tool with which something was begun that is given up for it
	next   step.Entry
	result step.Result
	played bool // the result is that of next
}

// rehearse shows what a step with another number, typed in a field, would make of
// the size shown.
func (w *Window) rehearse(next step.Entry, at string) {
	if w.rehearsal == nil || w.rehearsal.id != next.ID {
		play, err := w.desk.Rehearse(next.ID)
		if err != nil {
			w.prompt.say(err)
			return
		}
		w.rehearsal = &rehearsal{id: next.ID, play: play}
		for _, rep := range w.desk.Reports() {
			if rep.ID == next.ID {
				w.rehearsal.notes = rep.Notes
			}
		}
		if t := w.tool(); t.Reset() {
			w.rehearsal.left = t.Name()
		}
	}
	w.rehearsal.next, w.rehearsal.at, w.rehearsal.played = next, at, false
	w.prompt.say(nil)
	w.soon()
}

// keepRehearsed makes the edit, in every size it is meant for; it reports false
// when the step itself refuses it, which then is told there.
func (w *Window) keepRehearsed() bool {
	r := w.rehearsal
	if r == nil {
		return true
	}
	w.rehearsal = nil
	since := w.since()
	err := w.desk.Amend(r.next)
	w.column.edit(r.at, err)
	w.show()
	if err == nil {
		since.tell("The number is kept.")
	}
	return err == nil
}

// dropRehearsed goes back to what was before; it reports whether there was
// anything to go back from.
func (w *Window) dropRehearsed() bool {
	if w.rehearsal == nil {
		return false
	}
	w.rehearsal = nil
	w.show()
	return true
}

// preview is what the edit would do in the size shown.
func (r *rehearsal) preview(w *Window) preview {
	r.replay()
	was := w.desk.Pattern()
	p := against(was, r.result.Size.Pattern)
	p.live = w.differences(r.result.Size.Pattern, []step.Report{{Changes: step.Changes(was, r.result.Size.Pattern)}})
	stood := map[string]step.State{}
	for _, rep := range w.desk.Reports() {
		stood[rep.ID] = rep.State
	}
	for i, rep := range r.result.Reports {
		if rep.State != step.Upset || stood[rep.ID] == step.Upset {
			continue
		}
		p.err = fmt.Errorf("step %d would no longer apply: %s", i+1, rep.Error)
		if rep.ID == r.id {
			p.err = fmt.Errorf("this cannot be kept: %s", rep.Error)
		}
		break
	}
	return p
}

// hint says what is being looked at.
func (r *rehearsal) hint() string {
	left := ""
	if r.left != "" {
		left = fmt.Sprintf("What was begun with %s is given up. ", r.left)
	}
	return "Enter keeps this, Escape goes back. " + left + r.warning() + r.sentence()
}

// warning is what the step would tell that it does not tell now, such as that a
// reach goes beyond its edge, and what of it later steps mend.
func (r *rehearsal) warning() (told string) {
	rep, _ := r.report()
	for i, n := range mendedLater(rep.Notes, r.result, r.id) {
		if !slices.Contains(r.notes, rep.Notes[i]) {
			told += n + " "
		}
	}
	return told
}

// report is that of the step as it would be.
func (r *rehearsal) report() (step.Report, bool) {
	r.replay()
	for _, rep := range r.result.Reports {
		if rep.ID == r.id {
			return rep, true
		}
	}
	return step.Report{}, false
}

// replay works out what the edit would do, once.
func (r *rehearsal) replay() {
	if !r.played {
		r.result, r.played = r.play(r.next), true
	}
}

// sentence is that of the step as it would be, on the pattern it would meet.
func (r *rehearsal) sentence() string {
	if rep, ok := r.report(); ok {
		return rep.Sentence
	}
	return r.next.Sentence()
}

// against compares the pattern as it would be with the one there is.
func against(was, next pattern.Pattern) preview {
	p := preview{asked: true, pieces: next.Pieces, seams: next.Seams, names: map[string]bool{}}
	for i := range p.pieces {
		pc := &p.pieces[i]
		if b := was.Piece(pc.Name); b == nil || !reflect.DeepEqual(*b, *pc) {
			p.names[pc.Name] = true
		}
	}
	for _, b := range was.Pieces {
		if a := next.Piece(b.Name); a == nil || p.names[b.Name] {
			p.ghost = append(p.ghost, b)
		}
	}
	return p
}

// marks show where on the pattern the step works: the edges that it alters or
// speaks of, as far as they are there at the end.
func (r *rehearsal) marks(p pattern.Pattern) (o tool.Overlay) {
	shown := map[[2]string]bool{}
	show := func(piece, edge string) {
		pc, e := p.Edge(piece, edge)
		if e == nil || shown[[2]string{piece, edge}] {
			return
		}
		shown[[2]string{piece, edge}] = true
		o.Strokes = append(o.Strokes, tool.Stroke{Path: e.Path.Transform(pc.Pose), Style: tool.Chosen})
	}
	for _, rep := range r.result.Reports {
		if rep.ID != r.id {
			continue
		}
		for _, c := range rep.Changes {
			if c.What == "length" && c.Edge != "" {
				show(c.Piece, c.Edge)
			}
		}
	}
	next, err := r.next.Clone()
	if err != nil {
		return o
	}
	for _, m := range next.Mentions() {
		if m.Kind == step.NameEdge {
			show(m.Piece, m.Name.Name)
		}
	}
	return o
}

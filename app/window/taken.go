package window

import "truemat/ops/unit"

// counting says that a field counts lengths: while a fraction without a unit
// stands in it where lengths are read in cm or mm, it is told what that is taken
// for.
func (w *Window) counting(e *entry) *entry {
	e.taken = func(typed string) { w.tellTaken(unit.Taken(typed, w.unit)) }
	return e
}

// tellTaken tells at the foot of the page that is open, or in the line above the
// tray; "" ends it.
func (w *Window) tellTaken(said string) {
	if said == w.taken {
		return
	}
	if w.taken != "" && w.prompt.about == w.taken {
		w.prompt.explain("")
	}
	w.taken = said
	switch {
	case w.sheet != nil:
		w.sheet.note(said)
	case said != "":
		w.prompt.explain(said)
	}
}

// tells tells what stands in the field now is taken for.
func (e *entry) tells(typed string) {
	if e.taken != nil {
		e.taken(typed)
	}
}

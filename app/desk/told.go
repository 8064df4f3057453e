package desk

import (
	"fmt"
	"reflect"

	"truemat/ops/step"
	"truemat/ops/store"
)

// Undoes says what Undo takes back, as a sentence told once it did; "" when
// there is nothing.
func (d *Desk) Undoes() string {
	h, ok := d.history.Undo()
	if !ok {
		return ""
	}
	return d.change(h.Current(), d.Document(), true)
}

// Redoes says what Redo takes up again, as a sentence told once it did; "" when
// there is nothing.
func (d *Desk) Redoes() string {
	h, ok := d.history.Redo()
	if !ok {
		return ""
	}
	return d.change(d.Document(), h.Current(), false)
}

// told is the sentence of a step on the pattern as it is now, or as it came in.
func (d *Desk) told(s step.Step) string { return step.Told(s, d.Pattern(), d.Source()) }

// change tells that the change from one document to the next was taken back, or
// was made again.
func (d *Desk) change(was, is store.Document, back bool) string {
	done := "Done again: "
	if back {
		done = "Undone: "
	}
	step := func(i int, taken, made string, e step.Entry) string {
		if back {
			made = taken
		}
		return fmt.Sprintf("Step %d is %s: %s", i+1, made, d.told(e.Step))
	}
	a, b := was.Recipe, is.Recipe
	for i := range max(len(a), len(b)) {
		switch {
		case i < len(a) && i < len(b) && sameEntry(a[i], b[i]):
			continue
		case len(b) > len(a):
			if more := len(b) - len(a); more > 1 {
				return fmt.Sprintf("%s%d steps, the first: %s", done, more, d.told(b[i].Step))
			}
			return done + d.told(b[i].Step)
		case len(b) < len(a):
			return step(i, "back", "taken out again", a[i])
		case a[i].Off != b[i].Off && b[i].Off:
			return step(i, "switched on again", "switched off again", b[i])
		case a[i].Off != b[i].Off:
			return step(i, "switched off again", "switched on again", b[i])
		}
		e := b[i]
		if back {
			e = a[i]
		}
		return step(i, "as it was before", "changed again", e)
	}
	switch {
	case !reflect.DeepEqual(was.Goods, is.Goods):
		return done + "a change in cloth and sewing."
	case !reflect.DeepEqual(was.Bounds, is.Bounds):
		return done + "a change in what a check allows."
	}
	return done + "a change in wires and measures."
}

func sameEntry(a, b step.Entry) bool { return reflect.DeepEqual(a, b) }

package desk

import (
	"fmt"
	"reflect"

	"truemat/ops/step"
	"truemat/ops/store"
)

// Undoes says what Undo takes back, as a sentence; "" when there is nothing.
func (d *Desk) Undoes() string {
	h, ok := d.history.Undo()
	if !ok {
		return ""
	}
	return d.change(h.Current(), d.Document())
}

// Redoes says what Redo takes up again, as a sentence; "" when there is nothing.
func (d *Desk) Redoes() string {
	h, ok := d.history.Redo()
	if !ok {
		return ""
	}
	return d.change(d.Document(), h.Current())
}

// told is the sentence of a step on the pattern as it is now, or as it came in.
func (d *Desk) told(s step.Step) string { return step.Told(s, d.Pattern(), d.Source()) }

// change tells how one document became the next.
func (d *Desk) change(was, is store.Document) string {
	a, b := was.Recipe, is.Recipe
	for i := range max(len(a), len(b)) {
		switch {
		case i < len(a) && i < len(b) && sameEntry(a[i], b[i]):
			continue
		case len(b) > len(a):
			if more := len(b) - len(a); more > 1 {
				return fmt.Sprintf("%d steps, the first: %s", more, d.told(b[i].Step))
			}
			return d.told(b[i].Step)
		case len(b) < len(a):
			return fmt.Sprintf("Take step %d out: %s", i+1, d.told(a[i].Step))
		case a[i].Off != b[i].Off:
			word := "on"
			if b[i].Off {
				word = "off"
			}
			return fmt.Sprintf("Switch step %d %s: %s", i+1, word, d.told(b[i].Step))
		}
		return fmt.Sprintf("Change step %d: %s", i+1, d.told(b[i].Step))
	}
	switch {
	case !reflect.DeepEqual(was.Goods, is.Goods):
		return "A change in cloth and sewing."
	case !reflect.DeepEqual(was.Bounds, is.Bounds):
		return "A change in what a check allows."
	}
	return "A change in wires and measures."
}

func sameEntry(a, b step.Entry) bool { return reflect.DeepEqual(a, b) }

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
	return d.placed(d.change(h.Current(), d.Document()))
}

// Redoes says what Redo takes up again, as a sentence; "" when there is nothing.
func (d *Desk) Redoes() string {
	h, ok := d.history.Redo()
	if !ok {
		return ""
	}
	return d.placed(d.change(d.Document(), h.Current()))
}

// placed tells ends of edges by what they meet there, now or as the pattern came in.
func (d *Desk) placed(s string) string { return step.Placed(step.Placed(s, d.Pattern()), d.Source()) }

// change tells how one document became the next.
func (d *Desk) change(was, is store.Document) string {
	a, b := was.Recipe, is.Recipe
	for i := range max(len(a), len(b)) {
		switch {
		case i < len(a) && i < len(b) && sameEntry(a[i], b[i]):
			continue
		case len(b) > len(a):
			if more := len(b) - len(a); more > 1 {
				return fmt.Sprintf("%d steps, the first: %s", more, b[i].Step.Sentence())
			}
			return b[i].Step.Sentence()
		case len(b) < len(a):
			return fmt.Sprintf("Take step %d out: %s", i+1, a[i].Step.Sentence())
		case a[i].Off != b[i].Off:
			word := "on"
			if b[i].Off {
				word = "off"
			}
			return fmt.Sprintf("Switch step %d %s: %s", i+1, word, b[i].Step.Sentence())
		}
		return fmt.Sprintf("Change step %d: %s", i+1, b[i].Step.Sentence())
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

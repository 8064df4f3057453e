package desk

import (
	"fmt"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Rehearse returns what tells how the size shown would be, by all steps, with
// another step in the place of the one with that id. What comes before the
// step is worked out once, so that a number can be dragged; nothing is kept.
func (d *Desk) Rehearse(id string) (func(step.Entry) step.Result, error) {
	doc := d.Document()
	i := doc.Recipe.Index(id)
	size, ok := doc.Source.Size(d.size)
	if i < 0 || !ok {
		return nil, fmt.Errorf("there is no step %q", id)
	}
	one := doc.Source
	one.Sizes = []pattern.Size{size}
	before := doc.Recipe[:i].Replay(one)
	return func(e step.Entry) step.Result {
		next, err := doc.Recipe.Replace(e)
		if err != nil {
			next = doc.Recipe
		}
		return next.Resume(before, i)[0]
	}, nil
}

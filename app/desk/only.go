package desk

import (
	"fmt"

	"truemat/ops/step"
)

// Only reports whether changes go to the size shown alone.
func (d *Desk) Only() bool { return d.only && d.many() }

// SetOnly says whether changes from now on go to the size shown alone, or to
// all sizes.
func (d *Desk) SetOnly(only bool) {
	if d.only == only {
		return
	}
	d.only = only
	d.changed()
}

func (d *Desk) many() bool { return len(d.Document().Source.Sizes) > 1 }

// meant returns the sizes that a new step is meant for; nil for all.
func (d *Desk) meant() []string {
	if d.Only() {
		return []string{d.size}
	}
	return nil
}

// SetSizes says for which sizes a step is meant; for all of them when none is named.
func (d *Desk) SetSizes(id string, labels ...string) error {
	return d.edit(func(r step.Recipe) (step.Recipe, error) {
		i := r.Index(id)
		if i < 0 {
			return nil, fmt.Errorf("there is no step %q", id)
		}
		e := r[i]
		e.Sizes = labels
		return r.Replace(e)
	})
}

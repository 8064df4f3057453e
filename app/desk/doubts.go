package desk

import (
	"slices"

	"truemat/ops/check"
	"truemat/ops/cloth/suit"
	"truemat/ops/step"
)

// Doubts are the checks that do not hold, those of cloths and elastics included.
type Doubts struct {
	Upset []int // places of the steps that could not apply in one of the sizes
	check.Doubts
}

// Doubts returns what finds the checks of some sizes that do not hold as they
// are now; that may run in another goroutine while the desk is used on.
func (d *Desk) Doubts(labels []string) func() Doubts {
	bounds, goods := d.Bounds(), d.Goods()
	results := slices.DeleteFunc(slices.Clone(d.results), func(r step.Result) bool { return !slices.Contains(labels, r.Size.Label) })
	return func() (all Doubts) {
		for _, r := range results {
			all.Upset = append(all.Upset, r.UpsetSteps()...)
		}
		slices.Sort(all.Upset)
		all.Upset = slices.Compact(all.Upset)
		all.Doubts = suit.Doubts(results, bounds, goods)
		return all
	}
}

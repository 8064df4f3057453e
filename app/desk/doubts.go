package desk

import (
	"slices"

	"truemat/ops/check"
	"truemat/ops/cloth/suit"
)

// Broken is a check that is broken in a size.
type Broken struct {
	Size  string
	Check check.Check
}

// Doubts are the checks that do not hold, those of cloths and elastics included.
type Doubts struct {
	Upset  []int // places of the steps that could not apply in one of the sizes
	Broken []Broken
	Look   int // how many deserve a look
}

// Doubts returns what finds the checks of some sizes that do not hold as they
// are now, size by size; that may run in another goroutine while the desk is
// used on.
func (d *Desk) Doubts(labels []string) func() Doubts {
	results, bounds, goods := d.results, d.Bounds(), d.Goods()
	return func() (all Doubts) {
		for _, r := range results {
			if !slices.Contains(labels, r.Size.Label) {
				continue
			}
			all.Upset = append(all.Upset, r.UpsetSteps()...)
			for _, c := range slices.Concat(check.Run(r.Before, r.Size.Pattern, bounds), suit.Run(goods, r.Size.Pattern, suit.Defaults())) {
				switch c.Verdict {
				case check.Broken:
					all.Broken = append(all.Broken, Broken{r.Size.Label, c})
				case check.Look:
					all.Look++
				}
			}
		}
		slices.Sort(all.Upset)
		all.Upset = slices.Compact(all.Upset)
		return all
	}
}

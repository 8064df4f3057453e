package desk

import (
	"truemat/ops/check"
	"truemat/ops/pattern"
)

// Fit returns the wire table, reduction and closure of the document, and what
// each size takes from them, by its label.
func (d *Desk) Fit() (pattern.Fit, map[string]pattern.SizeFit) {
	run := d.Document().Source
	return run.Fit, run.SizeFits()
}

// SetFit states another fit, as one change that can be taken back. Sizes that
// the map leaves out keep their wire and body measure. A refusal names the size
// or the wire and changes nothing.
func (d *Desk) SetFit(f pattern.Fit, sizes map[string]pattern.SizeFit) error {
	doc, err := d.Document().SetFit(f, sizes)
	if err != nil {
		return err
	}
	d.put(doc, doc.Results())
	return nil
}

// Tabulate returns what works out the table of all checks in all sizes as they
// are now; that may run in another goroutine while the desk is used on.
func (d *Desk) Tabulate() func() check.Table {
	results, bounds := d.results, d.Document().Bounds.Bounds()
	return func() check.Table {
		sizes := make([]check.SizeChecks, len(results))
		for i, r := range results {
			sizes[i] = check.SizeChecks{Size: r.Size.Label, Behind: r.Reason(), Checks: check.Run(r.Before, r.Size.Pattern, bounds)}
		}
		return check.Tabulate(sizes)
	}
}

package desk

import (
	"maps"
	"slices"

	"truemat/ops/check"
)

// Bounds returns the bounds by which the checks decide.
func (d *Desk) Bounds() check.Bounds { return d.Document().Bounds.Bounds() }

// OwnBounds returns those of them that are not as usual.
func (d *Desk) OwnBounds() check.Own { return d.Document().Bounds }

// SetBounds sets bounds of the maker's own, as one change that can be taken
// back; those left out are as usual. A refusal says what a bound takes and
// changes nothing.
func (d *Desk) SetBounds(own check.Own) error {
	doc := d.Document()
	if maps.EqualFunc(own, doc.Bounds, slices.Equal) {
		return nil
	}
	doc, err := doc.SetBounds(own)
	if err != nil {
		return err
	}
	d.put(doc, d.results)
	return nil
}

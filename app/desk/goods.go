package desk

import (
	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/suit"
)

// Goods returns what the garment is cut from and finished with.
func (d *Desk) Goods() cloth.Goods { return d.Document().Goods }

// SetGoods says what the garment is cut from and finished with, as one change
// that can be taken back. A refusal names the cloth, piece or line and changes
// nothing.
func (d *Desk) SetGoods(g cloth.Goods) error {
	doc, err := d.Document().SetGoodsOn(g, d.results)
	if err != nil {
		return err
	}
	d.put(doc, d.results)
	return nil
}

// Suits returns the checks of cloths and elastics in the size shown.
func (d *Desk) Suits() []check.Check { return suit.Run(d.Goods(), d.Pattern(), suit.Defaults()) }

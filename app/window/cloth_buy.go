package window

import (
	"errors"
	"fmt"
	"reflect"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/cloth/shop"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// bought is how much of each cloth a garment takes, for the goods, the pieces
// and the size that it was worked out for.
type bought struct {
	goods cloth.Goods
	facts facts
	list  []shop.Taken
}

// clothPartBuy is the list to shop from: cloths, and what goes with them.
func (w *Window) clothPartBuy() fyne.CanvasObject {
	box := container.New(stack{gap: 6})
	g, p := w.desk.Goods(), w.desk.Pattern()
	var lines []string
	row := func(amount, what string) {
		box.Add(w.clothRow(amount, what))
		lines = append(lines, amount+"\t"+what)
	}
	wrong := func(err error) {
		box.Add(para(unit.Restate(sentence(err), w.unit), w.cloths.wide-20, normal, false, w.palette.Poor))
	}
	box.Add(w.clothHead("Cloth"))
	b := w.buying()
	switch {
	case b == nil:
		box.Add(para("Laying the pieces on the cloths …", w.cloths.wide-20, normal, false, w.palette.Faint))
	case len(b.list) == 0 && len(g.Proposed(p)) > 0:
	case len(b.list) == 0:
		box.Add(para("No piece is cut from a cloth yet; say so under Layers.", w.cloths.wide-20, normal, false, w.palette.Text))
	default:
		for _, c := range b.list {
			if c.Err != nil {
				wrong(fmt.Errorf("%s: %w", c.Cloth.Name, c.Err))
				continue
			}
			row(cloth.Buy(c.Length), c.Cloth.Name+unit.Brief(fmt.Sprintf(", %s wide (the pieces take %s)", unit.MM(c.Cloth.Width), unit.MM(c.Length)), w.unit))
			if c.Lacks != "" {
				wrong(errors.New(c.Lacks))
			}
		}
	}
	if offer := w.proposal("", w.cloths.wide-20); offer != nil {
		box.Add(offer)
	}
	box.Add(w.clothHead("Besides cloth"))
	list, err := g.ShoppingList(p)
	if err != nil {
		wrong(err)
	}
	for _, b := range list {
		amount := b.Metric + " or " + b.Yards
		if b.Metric == "" {
			amount = fmt.Sprintf("%d of %s", b.Count, unit.Tell(b.Length, w.unit))
		}
		row(amount, unit.Restate(b.What, w.unit))
	}
	w.lacking(box, func(said string) { lines = append(lines, "?\t"+said) })
	box.Add(para("For one garment in "+pattern.SizeWords(w.desk.Size())+", rounded up to how it is sold: tens of centimetres, eighths of a yard. "+unit.Restate(cloth.SpareTold, w.unit), w.cloths.wide-20, small, false, w.palette.Faint))
	if len(lines) > 0 {
		box.Add(container.New(line{}, w.button("Copy the list", false, func() { w.app.Clipboard().SetContent(strings.Join(lines, "\n")) })))
	}
	return box
}

// buying returns how much of each cloth is bought; nil while that is worked
// out, after which the page is shown again.
func (w *Window) buying() *bought {
	c, g, p, size := w.cloths, w.desk.Goods(), w.desk.Pattern(), w.desk.Size()
	now := factsOf(w.desk.Document())
	now.size, now.look = size, w.desk.Looking()
	if b := c.bought; b != nil && b.facts == now && reflect.DeepEqual(b.goods, g) {
		return b
	}
	b := &bought{goods: g, facts: now}
	waits := false
	w.away(func() { b.list = shop.Cloths(g, p, size) }, func() {
		c.bought = b
		if waits && w.cloths == c {
			c.again()
		}
	})
	waits = true
	if c.bought == b {
		return b
	}
	return nil
}

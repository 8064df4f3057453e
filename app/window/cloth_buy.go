package window

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// bought is how much of each cloth a garment takes, for the goods, the pieces
// and the size that it was worked out for.
type bought struct {
	goods cloth.Goods
	facts facts
	list  []boughtCloth
}

// boughtCloth is a length of cloth to buy, or why it cannot be told.
type boughtCloth struct {
	cloth  cloth.Cloth
	length float64 // mm
	err    error
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
	case len(b.list) == 0:
		box.Add(para("No piece is cut from a cloth yet; say so under Layers.", w.cloths.wide-20, normal, false, w.palette.Text))
	default:
		for _, c := range b.list {
			if c.err != nil {
				wrong(fmt.Errorf("%s: %w", c.cloth.Name, c.err))
				continue
			}
			row(cloth.Metric(c.length)+" or "+cloth.Yards(c.length), fmt.Sprintf("%s, %s wide (the pieces take %s)", c.cloth.Name, unit.Format(c.cloth.Width, w.unit), unit.Format(c.length, w.unit)))
		}
	}
	box.Add(w.clothHead("Besides cloth"))
	list, err := g.ShoppingList(p)
	if err != nil {
		wrong(err)
	}
	for _, b := range list {
		amount := b.Metric + " or " + b.Yards
		if b.Metric == "" {
			amount = fmt.Sprintf("%d of %s", b.Count, unit.Format(b.Length, w.unit))
		}
		row(amount, unit.Restate(b.What, w.unit))
	}
	box.Add(para("For one garment in size "+w.desk.Size()+", rounded up to how it is sold: tens of centimetres, eighths of a yard.", w.cloths.wide-20, small, false, w.palette.Faint))
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
	w.away(func() { b.list = clothsBought(g, p, size) }, func() {
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

// clothsBought lays the pieces on every cloth they are cut from.
func clothsBought(g cloth.Goods, p pattern.Pattern, size string) []boughtCloth {
	var out []boughtCloth
	for _, c := range g.Cloths {
		if len(c.Of) > 0 || !slices.ContainsFunc(g.Made, func(m cloth.Made) bool { return g.Cuts(m.Piece, c.Name) }) {
			continue
		}
		b := boughtCloth{cloth: c}
		if c.Lace != nil {
			plan, err := border.Of(g, c, p, size)
			b.length, b.err = plan.Length, err
		} else {
			l, err := cutting.Of(g, c, p, size)
			b.length, b.err = l.Length, err
		}
		out = append(out, b)
	}
	return out
}

package handout

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/cloth/bulk"
	"truemat/ops/cloth/order"
	"truemat/ops/cloth/worn"
	"truemat/render"
)

// sewing tells how the pieces lie as they are worn, the order of sewing, and
// where seams grow thick.
func (s *sheet) sewing() ([]render.Part, error) {
	p, g := s.after(), s.doc.Goods
	acts, err := order.Sorted(order.Acts(p, g), g.Order)
	if err != nil {
		return nil, err
	}
	letters := order.Letters(p, acts)
	lay, err := worn.Lay(p)
	if err != nil {
		return nil, err
	}
	parts := []render.Part{
		render.Heading("As worn"),
		render.Small{Picture: render.Worn(lay, letters), Height: 88, Least: 62,
			Caption: "Seen from outside, up is up; centre front is the broken line, the wearer's left at the right, her right faint. Equal letters meet."},
		ways(worn.Ways(p, lay), letters),
		render.Heading("In which order it is sewn"),
	}
	var told render.Entries
	for i, t := range order.Tell(p, g, acts, s.checks()) {
		e := render.Entry{Number: i + 1, Text: t.Title, Below: slices.Concat(t.Details, t.Broken)}
		if l := letters[t.Seam]; l != "" && t.Kind == order.Join {
			e.Text = l + " · " + e.Text
		}
		told = append(told, e)
	}
	parts = append(parts, told)
	if lone := order.Lone(p); lone != "" {
		parts = append(parts, render.Words(lone))
	}
	limits := bulk.DefaultsIn(s.units)
	over := 0
	for _, pl := range bulk.Places(p, g, limits) {
		if !pl.Over {
			continue
		}
		if over++; over == 1 {
			parts = append(parts, render.Heading("Where it grows thick"))
		}
		scene := render.Section(pl, pageWide, s.units)
		parts = append(parts, render.Small{Lead: pl.Remedy + ".", Picture: render.AsDrawn(scene), Height: scene.Box.Height()})
	}
	if over == 0 && len(g.Cloths) > 0 {
		parts = append(parts, render.Words(fmt.Sprintf("Nowhere do more than %g mm of cloth lie on each other.", limits.Thickness)))
	}
	if lacking := bulk.Unmeasured(p, g); len(lacking) > 0 && len(g.Cloths) > 0 {
		parts = append(parts, render.Words("Counted for nothing in this, since no thickness is described: "+strings.Join(lacking, "; ")+"."))
	}
	return parts, nil
}

// ways is a table of which way round each piece goes.
func ways(all []worn.Way, letters map[string]string) render.Table {
	t := render.Table{Head: []string{"piece", "up", "down", "to centre front", "to the side", "meets at"}}
	for _, w := range all {
		meets := ""
		for _, s := range w.Seams {
			if letters[s] != "" {
				if meets != "" {
					meets += ", "
				}
				meets += letters[s]
			}
		}
		t.Rows = append(t.Rows, []string{w.Piece, worn.Looks(w.Up), worn.Looks(w.Down), worn.Looks(w.Front), worn.Looks(w.Side), meets})
	}
	return t
}

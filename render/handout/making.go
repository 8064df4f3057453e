package handout

import (
	"fmt"
	"math"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/cloth/shop"
	"truemat/ops/cloth/suit"
	"truemat/ops/pattern"
	"truemat/render"
)

// goods tells what is cut: the cutting list, and the plans of laces and cloths.
func (s *sheet) goods() ([]render.Part, error) {
	p, g := s.after(), s.doc.Goods
	cut := render.Table{Head: []string{"cut", "piece", "layer", "from", "how"}}
	for _, e := range cutting.List(p, g) {
		from := e.Cloth
		if from == "" {
			from = "not named"
		}
		cut.Rows = append(cut.Rows, []string{fmt.Sprint(e.Count), e.Piece, fmt.Sprint(e.Layer), from, e.Way})
	}
	parts := []render.Part{render.Heading("What is cut"), cut}
	if len(g.Cloths) == 0 {
		return parts, nil
	}
	parts = append(parts, suits(suit.Run(g, p, suit.Defaults()))...)
	parts = append(parts, cloths(g)...)
	first := true
	for _, c := range g.Cloths {
		picture, high, caption, err := s.laid(c)
		if err != nil {
			return nil, err
		}
		if picture == nil {
			continue
		}
		if first {
			parts, first = append(parts, render.Heading("How it lies on the cloth")), false
		}
		parts = append(parts, render.Small{Picture: picture, Height: high, Caption: caption})
	}
	return parts, nil
}

// suits tells which cloths and elastics do not suit, and counts the others.
func suits(all []check.Check) []render.Part {
	table := render.Table{Head: []string{"", "what was found"}}
	held := 0
	for _, c := range all {
		if c.Verdict == check.Holds {
			held++
			continue
		}
		table.Rows = append(table.Rows, []string{string(c.Verdict), c.Text})
	}
	parts := []render.Part{render.Heading("Do the cloths suit?")}
	if len(table.Rows) > 0 {
		parts = append(parts, table)
	}
	return append(parts, render.Words(fmt.Sprintf("%s hold.", counted(held, "check"))))
}

// buying tells what is bought, how each elastic is put on, and
// how the garment closes.
func (s *sheet) buying() ([]render.Part, error) {
	p, g := s.after(), s.doc.Goods
	if len(g.Cloths) == 0 {
		return nil, nil
	}
	var parts []render.Part
	list, err := shop.List(g, p, s.size)
	if err != nil {
		return nil, err
	}
	buy := render.Table{Head: []string{"to buy", "metric", "or"}}
	for _, w := range list {
		metric, yards := w.Metric, w.Yards
		if metric == "" {
			metric, yards = fmt.Sprintf("%d × %.0f mm", w.Count, w.Length), ""
		}
		buy.Rows = append(buy.Rows, []string{w.Told(), metric, yards})
	}
	parts = append(parts, render.Heading("What is bought"), buy, render.Words(cloth.SpareTold))
	for _, e := range g.Elastics {
		cut, err := e.Cut(p)
		if err != nil {
			return nil, err
		}
		for _, part := range cut.Parts {
			parts = append(parts, render.Words(fmt.Sprintf("%s: %s of %s, %g %% shorter, so stretched by %.1f %%.", e.Name, part.Told(wholeMM), part.Piece, part.Percent, part.Strain)))
		}
	}
	return append(parts, closing(g, p)...), nil
}

// closing tells how the hem closes round the body in every column of eyes.
func closing(g cloth.Goods, p pattern.Pattern) []render.Part {
	c, ok := suit.Close(g, p)
	if !ok {
		return nil
	}
	table := render.Table{Head: []string{"column of eyes", "hooks and eyes", "hem round", "less than the body", "hem stretched", "band alone", "elastic"}}
	for _, col := range c.Columns {
		name := fmt.Sprint(col.Column)
		if col.Worn {
			name += ", worn"
		}
		row := []string{name, fmt.Sprintf("%.0f mm", col.Fastened), fmt.Sprintf("%.0f mm", col.Girth), fmt.Sprintf("%.1f %%", col.Reduction), fmt.Sprintf("%.1f %%", col.Strain), fmt.Sprintf("%.1f %%", col.Band), ""}
		if col.Elastic > 0 {
			row[6] = fmt.Sprintf("%.1f %%", col.Elastic)
		}
		table.Rows = append(table.Rows, row)
	}
	return []render.Part{
		render.Heading("How it closes"),
		render.Words(fmt.Sprintf("Closed round a body of %.0f mm under the bust (column 1 is the loosest; worn, a reduction of r is a strain of r/(1 − r)):", c.Underbust)),
		table,
	}
}

// laid returns the picture of a cloth with what is cut from it; nil when
// nothing is.
func (s *sheet) laid(c cloth.Cloth) (render.Drawing, float64, string, error) {
	p, g := s.after(), s.doc.Goods
	switch {
	case len(c.Of) > 0:
		return nil, 0, "", nil
	case c.Lace != nil:
		if len(g.OnLaceOf(c.Name, p).Wishes) == 0 {
			return nil, 0, "", nil
		}
		plan, err := border.Of(g, c, p, s.size)
		if err != nil {
			return nil, 0, "", err
		}
		scene, err := render.BorderScene(plan, p)
		return render.LaidOut(scene, false), 70, fmt.Sprintf("%s, %g mm wide: %.0f mm; buy %s. Sew lines on the valley line, left and right on mirrored places of the motif.", c.Name, c.Width, plan.Length, cloth.Buy(plan.Length)) + lacking(plan) + darts(p, g, c.Name), err
	}
	l, err := cutting.Of(g, c, p, s.size)
	if err != nil || len(l.Placed) == 0 {
		return nil, 0, "", err
	}
	wide, upTo, drawn, shown := c.Width, c.Width, c.Width, ""
	if lies := max(across(l), leastShown); lies < mostlyFree*wide {
		upTo, drawn = lies, lies+render.BrokenOff(lies)
		shown = fmt.Sprintf(" It is drawn up to the broken line, %.0f mm from its left selvedge; beside that stands its right one.", lies)
	}
	scene, err := render.LayoutUpTo(l, p, upTo)
	return render.LaidOut(scene, true), min(l.Length*pageWide/drawn+5, 75), fmt.Sprintf("%s, %.0f mm wide: %.0f mm; buy %s.", c.Name, wide, l.Length, cloth.Buy(l.Length)) + shown + darts(p, g, c.Name), err
}

// mostlyFree is the share of a cloth's width up to which only that is drawn on
// which pieces lie.
const mostlyFree = 0.8

// leastShown is the least width in mm that is drawn of a cloth, so that small
// pieces are not drawn much larger than others.
const leastShown = 550.0

// across returns how far in mm pieces lie from the first selvedge, with some
// room, in whole centimetres.
func across(l cutting.Layout) float64 {
	far := 0.0
	for _, o := range l.Placed {
		far = max(far, o.Outline.Bounds().Max.Y)
	}
	return 10 * math.Ceil((far+l.Gap)/10)
}

// lacking says what a plan does not have, as one more sentence.
func lacking(p border.Plan) string {
	if p.Lacks() == "" {
		return ""
	}
	return " Not on the plan: " + p.Lacks() + "."
}

// pageWide is about the width in mm that a picture has on a page.
const pageWide = 175

// wholeMM writes a length in whole millimetres.
func wholeMM(mm float64) string { return fmt.Sprintf("%.0f mm", mm) }

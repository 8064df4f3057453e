package handout

import (
	"fmt"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/bulk"
	"truemat/ops/cloth/cutting"
	"truemat/ops/cloth/order"
	"truemat/ops/cloth/suit"
	"truemat/ops/cloth/worn"
	"truemat/render"
)

// goods tells what is cut and bought: the cutting list, the plans of laces and
// cloths, and the notions.
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
	for _, c := range suit.Run(g, p, suit.Defaults()) {
		if c.Verdict != check.Holds {
			parts = append(parts, render.Words(fmt.Sprintf("%s: %s", c.Verdict, c.Text)))
		}
	}
	for _, c := range g.Cloths {
		picture, high, caption, err := s.laid(c)
		if err != nil {
			return nil, err
		}
		if picture == nil {
			continue
		}
		parts = append(parts, render.Small{Picture: picture, Height: high, Caption: caption})
	}
	list, err := g.ShoppingList(p)
	if err != nil {
		return nil, err
	}
	buy := render.Table{Head: []string{"to buy", "metric", "or"}}
	for _, w := range list {
		metric, yards := w.Metric, w.Yards
		if metric == "" {
			metric, yards = fmt.Sprintf("%d × %.0f mm", w.Count, w.Length), ""
		}
		buy.Rows = append(buy.Rows, []string{w.What, metric, yards})
	}
	parts = append(parts, render.Heading("What is bought besides cloth"), buy)
	for _, e := range g.Elastics {
		cut, err := e.Cut(p)
		if err != nil {
			return nil, err
		}
		for _, part := range cut.Parts {
			parts = append(parts, render.Words(fmt.Sprintf("%s: %.0f mm of it on %.0f mm of %s, %g %% shorter, so stretched by %.1f %%.", e.Name, part.Length, part.Run, part.Piece, part.Percent, part.Strain)))
		}
	}
	return parts, nil
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
		return render.LaidOut(scene, false), 70, fmt.Sprintf("%s: %.0f mm; buy %s or %s. Sew lines on the valley line, left and right on mirrored places of the motif.", c.Name, plan.Length, cloth.Metric(plan.Length), cloth.Yards(plan.Length)), err
	}
	l, err := cutting.Of(g, c, p, s.size)
	if err != nil || len(l.Placed) == 0 {
		return nil, 0, "", err
	}
	scene, err := render.LayoutScene(l, p)
	return render.LaidOut(scene, true), min(l.Length*pageWide/c.Width+5, 90), fmt.Sprintf("%s, %.0f mm wide: %.0f mm; buy %s or %s.", c.Name, c.Width, l.Length, cloth.Metric(l.Length), cloth.Yards(l.Length)), err
}

// pageWide is about the width in mm that a picture has on a page.
const pageWide = 175

// sewing tells the order of sewing and where seams grow thick.
func (s *sheet) sewing() ([]render.Part, error) {
	p, g := s.after(), s.doc.Goods
	acts, err := order.Sorted(order.Acts(p, g), g.Order)
	if err != nil {
		return nil, err
	}
	parts := []render.Part{render.Heading("In which order it is sewn")}
	letters := map[string]string{}
	var told []render.Part
	for i, a := range acts {
		text := order.Sentence(p, g, a)
		if a.Kind == order.Join && len(letters) < 26 {
			letters[a.Seam] = string(rune('A' + len(letters)))
			text = letters[a.Seam] + " · " + text
		}
		told = append(told, render.Entry{Number: i + 1, Text: text})
	}
	lay, err := worn.Lay(p)
	if err != nil {
		return nil, err
	}
	parts = append(parts, render.Small{Picture: render.Worn(lay, letters), Height: 85,
		Caption: "As worn, seen from outside, up is up; centre front is the broken line, the wearer's left at the right. Equal letters meet."})
	parts = append(parts, told...)
	limits := bulk.Defaults()
	over := 0
	for _, pl := range bulk.Places(p, g, limits) {
		if pl.Over {
			over++
			parts = append(parts, render.Words(pl.Remedy+"."))
		}
	}
	if over == 0 && len(g.Cloths) > 0 {
		parts = append(parts, render.Words(fmt.Sprintf("Nowhere do more than %g mm of cloth lie on each other.", limits.Thickness)))
	}
	return parts, nil
}

package handout

import (
	"fmt"
	"io"
	"math"

	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/render"
)

// WritePlan writes the plan of one lace or plain cloth in one size on a page,
// at a small scale that it states, with where each piece lies. The error names
// a size or cloth that is not there, or says what cannot be laid.
func WritePlan(w io.Writer, doc store.Document, size, name string, paper render.Paper) error {
	s, err := newSheet(doc, Wish{Size: size})
	if err != nil {
		return err
	}
	c, ok := doc.Goods.Cloth(name)
	if !ok {
		return fmt.Errorf("there is no cloth %q to lay pieces on", name)
	}
	var scene render.Scene
	var length float64
	table := render.Table{Head: []string{"Piece", "Where", "Along it, from its beginning"}}
	told, care := "", "Lay the cloth down without pulling it, and keep every arrow as it is drawn."
	if c.Lace != nil {
		plan, err := border.Of(doc.Goods, c, s.after(), size)
		if err != nil {
			return err
		}
		if scene, err = render.BorderScene(plan, s.after()); err != nil {
			return err
		}
		length = plan.Length
		care = "Look at the motif of the lace in your hands before you cut: a lace may be drawn out or creased. Pin from the valley line, left and right together."
		told = fmt.Sprintf("A motif point of the lower border lies %.0f mm from the beginning; the motif comes again every %g mm. Lace edges lie on the valley line, left and right on mirrored places of the motif.", plan.Origin(), c.Lace.Repeat) + lacking(plan)
		for _, o := range plan.Placed {
			where := "lower border"
			if o.Second {
				where = "upper border, turned half round"
			}
			table.Rows = append(table.Rows, []string{o.Name(), where, fmt.Sprintf("held at %.0f mm, %.0f mm behind a motif point", o.X, o.Motif)})
		}
	} else {
		l, err := cutting.Of(doc.Goods, c, s.after(), size)
		if err != nil {
			return err
		}
		if scene, err = render.LayoutScene(l, s.after()); err != nil {
			return err
		}
		length = l.Length
		told = fmt.Sprintf("The cloth is %g mm wide between its selvedges, which run up and down the page. Arrows are kept.", c.Width)
		for _, o := range l.Placed {
			box, turned := o.Outline.Bounds(), ""
			if o.Half {
				turned = ", turned half round"
			}
			table.Rows = append(table.Rows, []string{o.Name(), fmt.Sprintf("%.0f to %.0f mm from the left selvedge%s", whole(box.Min.Y), whole(box.Max.Y), turned), fmt.Sprintf("%.0f to %.0f mm", whole(box.Min.X), whole(box.Max.X))})
		}
	}
	if len(table.Rows) == 0 {
		return fmt.Errorf("nothing is cut from %q, so it has no plan", name)
	}
	picture, high, scale := render.FitOnLeaf(scene, c.Lace == nil, paper)
	return render.WriteLeaflet(w, render.Leaflet{
		Title:    fmt.Sprintf("%s: %s", doc.Source.Name, name),
		Subtitle: fmt.Sprintf("%s · %.0f mm: buy %s", pattern.SizeWords(size), length, cloth.Buy(length)),
		Paper:    paper,
		Parts: []render.Part{
			render.Small{Picture: picture, Height: high, Caption: fmt.Sprintf("At 1 : %.1f. %s%s", 1/scale, told, darts(s.after(), doc.Goods, name))},
			table,
			render.Words(care),
		},
	})
}

// whole rounds a length to whole mm, and never to a nought below nought.
func whole(mm float64) float64 { return math.Round(mm) + 0 }

// darts tells how darts are drawn, where a piece that is cut from a cloth has
// one whose cloth stays folded; else nothing.
func darts(p pattern.Pattern, g cloth.Goods, of string) string {
	for i := range p.Pieces {
		if pc := &p.Pieces[i]; render.HasDart(pc) && g.Cuts(pc.Name, of) {
			return " " + render.DartSays
		}
	}
	return ""
}

package window

import (
	"fmt"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth/suit"
	"truemat/ops/unit"
)

const closingWide = 118 // of a column of the table

// closing tells how the hem closes round the body in every column of eyes;
// nothing when the body's measure is not stated.
func (w *Window) closing() fyne.CanvasObject {
	c, ok := suit.Close(w.desk.Goods(), w.desk.Pattern())
	box := container.New(stack{gap: 4})
	if !ok {
		return box
	}
	row := func(cells ...string) {
		var objects []fyne.CanvasObject
		widths := make([]float32, len(cells))
		ink := w.palette.Text
		if len(box.Objects) == 2 {
			ink = w.palette.Faint
		}
		for i, cell := range cells {
			widths[i] = closingWide
			objects = append(objects, text(shortened(cell, closingWide-6, normal), normal, false, ink))
		}
		box.Add(container.New(across{widths, 4}, objects...))
	}
	mm := func(v float64) string { return unit.Brief(unit.MM(math.Round(v*10)/10), w.unit) }
	percent := func(v float64) string { return fmt.Sprintf("%.1f %%", v) }
	box.Add(w.clothHead("How it closes"))
	box.Add(para(unit.Restate(fmt.Sprintf("Round a body of %.0f mm under the bust. Column 1 is the loosest; a hem that is r shorter is worn stretched by r/(1 \u2212 r).", c.Underbust), w.unit), w.cloths.wide-16, small, false, w.palette.Faint))
	// The hem is drawn in only by what is described.
	elastic := func(drawn, stretched string, of ...string) []string {
		if !c.Elastics {
			return of
		}
		return append(slices.Insert(of, 3, drawn), stretched)
	}
	row(elastic("with elastic", "elastic", "column of eyes", "hooks, eyes", "hem round", "less", "hem stretched", "band alone")...)
	for _, col := range c.Columns {
		name := fmt.Sprint(col.Column)
		if col.Worn {
			name += ", worn"
		}
		if col.Column == c.Nearest {
			name += ", nearest"
		}
		row(elastic(mm(col.Drawn), percent(col.Elastic), name, mm(col.Fastened), mm(col.Girth), percent(col.Reduction), percent(col.Strain), percent(col.Band))...)
	}
	return box
}

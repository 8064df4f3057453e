package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/check"
	"truemat/ops/cloth"
)

// clothPartSuits tells whether cloths and elastics suit the pieces, what is
// wrong first, each with its remedy; pressing one shows its place on the mat.
func (w *Window) clothPartSuits() fyne.CanvasObject {
	wide := w.cloths.wide - 16
	suits := w.desk.Suits()
	if offer := w.proposal("", wide); offer != nil && len(suits) == 0 {
		return offer
	}
	if len(suits) == 0 {
		return container.New(stack{gap: 12},
			para("Nothing can be looked at before it is said what the pieces are cut from.", wide, normal, false, w.palette.Text),
			container.New(line{}, w.button("Say it under Layers", true, func() { w.clothTo(partLayers) })))
	}
	count := map[check.Verdict]int{}
	rows := container.New(stack{gap: 4})
	for _, v := range []check.Verdict{check.Broken, check.Look, check.Holds} {
		for _, c := range suits {
			if c.Verdict != v {
				continue
			}
			count[v]++
			b := newTouch(w.palette, w.verdict(c, wide-12), w.palette.Ground, 6, 5, func() {
				w.cloths.sheet.close()
				w.column.goTo(c)
			})
			b.name = "suit " + c.ID + c.Piece + c.Edge
			rows.Add(b)
		}
	}
	said := fmt.Sprintf("%d broken, %d to look at, %d hold", count[check.Broken], count[check.Look], count[check.Holds])
	if n := len(w.desk.Goods().Clothless(w.desk.Pattern())); n > 0 {
		said += fmt.Sprintf("; %s without a cloth", counted(n, "piece", "pieces"))
	}
	without := container.New(stack{gap: 4})
	for _, l := range w.desk.Goods().Lacking(w.desk.Pattern()) {
		if l.Of == cloth.LackLayers {
			there := w.link("Say it under Layers", func() { w.clothTo(partLayers) })
			there.name = "lack layers"
			beside := wide - there.MinSize().Width - 8
			without.Add(container.New(columns{beside}, para(l.Text+" Nothing is looked at there.", beside-8, normal, false, w.palette.Look), there))
		}
	}
	return container.New(stack{gap: 10}, text(said, normal, true, w.palette.Faint), without, rows, w.closing(),
		para("Common practice, without a published source. The cloths are yours: test a scrap of the layers as they will be sewn.", wide, small, false, w.palette.Faint))
}

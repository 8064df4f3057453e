package window

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/render"
)

const (
	planWide = 760
	planDots = 110 // per inch, of the picture of a plan
)

// clothPartPlans shows how the pieces lie on the laces and cloths.
func (w *Window) clothPartPlans() fyne.CanvasObject {
	g := w.desk.Goods()
	box := container.New(stack{gap: 8})
	for _, c := range g.Cloths {
		if slices.ContainsFunc(g.Made, func(m cloth.Made) bool { return g.Cuts(m.Piece, c.Name) }) {
			box.Add(container.New(line{}, w.button("Plan of "+c.Name+"\u2026", false, func() { w.planPage(c) })))
		}
	}
	if len(box.Objects) == 0 {
		box.Add(para("A plan is made of each cloth once it is said which pieces are cut from it.", w.cloths.wide-20, normal, false, w.palette.Text))
	}
	return box
}

// planPage shows the pieces laid on a cloth.
func (w *Window) planPage(c cloth.Cloth) {
	p, g, size := w.desk.Pattern(), w.desk.Goods(), w.desk.Size()
	var scene render.Scene
	var length float64
	var err error
	w.away(func() { scene, length, err = planned(c, g, p, size) }, func() {
		if err != nil {
			w.complain(err)
			return
		}
		picture, err := render.Picture(scene, min(planDots, 25.4*dots(scene.Box.Width()+20, scene.Box.Height()+20)))
		if err != nil {
			w.complain(err)
			return
		}
		img := canvas.NewImageFromImage(picture)
		img.FillMode = canvas.ImageFillContain
		room := w.win.Canvas().Size()
		img.SetMinSize(fyne.NewSize(planWide, max(room.Height-260, 200)))
		w.overSheet(c.Name+", size "+w.desk.Size()+": "+unit.Format(length, w.unit), planWide,
			text("Buy "+cloth.Metric(length)+" or "+cloth.Yards(length)+".", normal, false, w.palette.Text), img)
	})
}

// planned lays the pieces out on a lace or in the width of a cloth.
func planned(c cloth.Cloth, g cloth.Goods, p pattern.Pattern, size string) (render.Scene, float64, error) {
	if c.Lace != nil {
		plan, err := border.Of(g, c, p, size)
		if err != nil {
			return render.Scene{}, 0, err
		}
		scene, err := render.BorderScene(plan, p)
		return scene, plan.Length, err
	}
	l, err := cutting.Of(g, c, p, size)
	if err != nil {
		return render.Scene{}, 0, err
	}
	scene, err := render.LayoutScene(l, p)
	return scene, l.Length, err
}

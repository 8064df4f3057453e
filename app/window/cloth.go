package window

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/cloth/order"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/ops/unit"
	"truemat/render"
	"truemat/render/handout"
)

const (
	clothWide  = 760
	clothLabel = 210 // of what stands before a text
	clothDots  = 110 // per inch, of the picture of a plan
)

// clothPage tells what the garment is cut from and finished with in the size
// shown, whether it suits, what to buy and in which order to sew.
func (w *Window) clothPage() {
	g, p := w.desk.Goods(), w.desk.Pattern()
	box := container.New(stack{gap: 6})
	head := func(s string) { box.Add(container.New(inset{0, 4}, gap(0, 0), text(s, large, true, w.palette.Text))) }
	row := func(name, told string) {
		box.Add(container.New(columns{clothLabel}, text(shortened(name, clothLabel-8, normal), normal, true, w.palette.Text), para(told, clothWide-clothLabel-20, normal, false, w.palette.Text)))
	}
	foot := container.New(line{gap: 8})
	if len(g.Cloths) == 0 {
		box.Add(para("Nothing is said yet of the cloths. Describe them in a file, each by its own pull test, and take it in: \u201ctruemat help cloth\u201d and the README show such a file.", clothWide, normal, false, w.palette.Text))
	}
	if len(g.Cloths) > 0 {
		head("Cloths")
	}
	for _, c := range g.Cloths {
		along, across := g.Stretch(c)
		told := fmt.Sprintf("stretches by %.0f %% along, %.0f %% across; %.2f mm thick", along, across, g.Thickness(c))
		if c.Width > 0 {
			told += "; " + unit.Format(c.Width, w.unit) + " wide"
		}
		if c.Lace != nil {
			told += fmt.Sprintf("; repeats every %s, scallops %s deep", unit.Format(c.Lace.Repeat, w.unit), unit.Format(c.Lace.Depth, w.unit))
		}
		row(c.Name, told)
		if slices.ContainsFunc(g.Made, func(m cloth.Made) bool { return g.Cuts(m.Piece, c.Name) }) {
			foot.Add(w.button("Plan of "+c.Name+"\u2026", false, func() { w.planPage(c) }))
		}
	}
	if suits := w.desk.Suits(); len(suits) > 0 {
		head("Do they suit?")
		for _, c := range suits {
			box.Add(container.New(beside{}, icon(string(c.Verdict), w.column.ink(c.Verdict), 18), para(c.Text, clothWide-44, normal, false, w.palette.Text)))
		}
	}
	list, err := g.ShoppingList(p)
	if err == nil && len(g.Cloths) > 0 {
		head("To buy besides cloth")
		for _, b := range list {
			amount := b.Metric + " or " + b.Yards
			if b.Metric == "" {
				amount = fmt.Sprintf("%d of %s", b.Count, unit.Format(b.Length, w.unit))
			}
			row(amount, b.What)
		}
	}
	if acts, wrong := order.Sorted(order.Acts(p, g), g.Order); wrong != nil {
		err = wrong
	} else {
		head("In which order it is sewn")
		for i, a := range acts {
			box.Add(container.New(beside{}, container.New(atWidth{26}, text(fmt.Sprint(i+1), normal, true, w.palette.Faint)), para(order.Sentence(p, g, a), clothWide-50, normal, false, w.palette.Text)))
		}
	}
	roll := container.NewVScroll(box)
	rolls(box, roll)
	roll.SetMinSize(fyne.NewSize(clothWide, min(box.MinSize().Height, max(w.win.Canvas().Size().Height-240, 200))))
	s := w.openSheet("Cloth and sewing, size "+w.desk.Size(), clothWide, roll, rule(w.palette.Line),
		container.New(ends{}, foot, container.New(line{gap: 8},
			w.button("Take from a file\u2026", false, w.goodsAsk), w.button("Save the sheet\u2026", true, w.sheetAsk))))
	if err != nil {
		s.say(err)
	}
	if all := reachable(s.pop.Content); len(all) > 0 {
		w.win.Canvas().Focus(all[len(all)-1])
	}
}

// planPage shows the pieces laid on a cloth.
func (w *Window) planPage(c cloth.Cloth) {
	p, g := w.desk.Pattern(), w.desk.Goods()
	var scene render.Scene
	var length float64
	var err error
	w.away(func() { scene, length, err = planned(c, g, p) }, func() {
		if err != nil {
			w.complain(err)
			return
		}
		picture, err := render.Picture(scene, min(clothDots, dots(scene.Box)))
		if err != nil {
			w.complain(err)
			return
		}
		img := canvas.NewImageFromImage(picture)
		img.FillMode = canvas.ImageFillContain
		room := w.win.Canvas().Size()
		img.SetMinSize(fyne.NewSize(clothWide, max(room.Height-260, 200)))
		w.overSheet(fmt.Sprintf("%s, size %s: %s", c.Name, w.desk.Size(), unit.Format(length, w.unit)), clothWide,
			text("Buy "+cloth.Metric(length)+" or "+cloth.Yards(length)+".", normal, false, w.palette.Text), img)
	})
}

// planned lays the pieces out on a lace or in the width of a cloth.
func planned(c cloth.Cloth, g cloth.Goods, p pattern.Pattern) (render.Scene, float64, error) {
	if c.Lace != nil {
		plan, err := border.Of(g, c, p)
		if err != nil {
			return render.Scene{}, 0, err
		}
		scene, err := render.BorderScene(plan, p)
		return scene, plan.Length, err
	}
	l, err := cutting.Of(g, c, p)
	if err != nil {
		return render.Scene{}, 0, err
	}
	scene, err := render.LayoutScene(l, p)
	return scene, l.Length, err
}

var goodsFiles = fileKind{"Cloths (.json)", []string{".json"}}

// goodsAsk takes what the garment is made of from a file, as one change.
func (w *Window) goodsAsk() {
	w.filePage(fileAsk{title: "Take cloths from a file", act: "Take it", kinds: []fileKind{goodsFiles, allFiles},
		take: func(path string, told func(error)) {
			err := w.takeGoods(path)
			if err != nil {
				told(fmt.Errorf("nothing was changed: %w", err))
				return
			}
			told(nil)
			w.show()
			w.clothPage()
		}})
}

func (w *Window) takeGoods(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	g, err := store.ReadGoods(f)
	if err != nil {
		return fmt.Errorf("%s: %w", filepath.Base(path), err)
	}
	return w.desk.SetGoods(g)
}

// sheetAsk asks where the sheet for another maker is to be saved.
func (w *Window) sheetAsk() {
	w.filePage(fileAsk{title: "Save the sheet for another maker, size " + w.desk.Size(), act: "Save", saving: true, name: w.stem() + "-sheet-" + w.desk.Size() + ".pdf",
		kinds: []fileKind{{"Sheet (.pdf)", []string{".pdf"}}},
		take: func(path string, told func(error)) {
			told(nil)
			w.writeSheet(path)
		}})
}

func (w *Window) writeSheet(path string) {
	doc, size, paper := w.desk.Document(), w.desk.Size(), render.A4
	if w.unit == unit.InchFractions {
		paper = render.Letter
	}
	w.prompt.explain("Writing " + filepath.Base(path) + " \u2026 Escape calls it off.")
	var err error
	w.begin(func(t *task) {
		err = t.write(path, func(o io.Writer) error { return handout.Write(o, doc, size, paper) })
	}, func() {
		w.prompt.explain("")
		if err != nil {
			w.complain(fmt.Errorf("%s was not written: %w", filepath.Base(path), err))
		}
		w.show()
	})
}

package window

import (
	"fmt"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// clothPartGoods lists the cloths.
func (w *Window) clothPartGoods() fyne.CanvasObject {
	g := w.desk.Goods()
	box := container.New(stack{gap: 6})
	if len(g.Cloths) == 0 {
		box.Add(para("Nothing is said yet of the cloths. Describe them in a file, each by its own pull test, and take it in: \u201ctruemat help cloth\u201d and the README show such a file.", w.cloths.wide-20, normal, false, w.palette.Text))
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
		box.Add(w.clothRow(c.Name, told))
	}
	box.Add(container.New(line{}, w.button("Take from a file\u2026", false, w.goodsAsk)))
	return box
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

package window

import (
	"fmt"
	"io"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/unit"
	"truemat/render"
	"truemat/render/handout"
)

// clothPartSheet is where the sheet for another maker is saved.
func (w *Window) clothPartSheet() fyne.CanvasObject {
	return container.New(stack{gap: 12},
		para("The sheet tells another maker in a few pages what was changed and how: before and after, every step, the checks, the sizes, what to cut and to buy, the plan of the lace and the order of sewing.", w.cloths.wide-20, normal, false, w.palette.Text),
		container.New(line{}, w.button("Save the sheet\u2026", true, w.sheetAsk)))
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

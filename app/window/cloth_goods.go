package window

import (
	"fmt"
	"image/color"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/store"
)

const clothList = 196 // width of the list of cloths where there is room

// clothPartGoods lists the cloths beside the form of the one that is chosen.
func (w *Window) clothPartGoods() fyne.CanvasObject {
	g := w.desk.Goods()
	if _, known := g.Cloth(w.described); !known && w.describing[""] == nil {
		if w.described = ""; len(g.Cloths) > 0 {
			w.described = g.Cloths[0].Name
		}
	} else if !known {
		w.described = ""
	}
	list := container.New(stack{gap: 4})
	for _, c := range g.Cloths {
		list.Add(w.clothTab(c.Name, w.clothFacts(g, c), c.Name == w.described))
	}
	if w.describing[""] != nil {
		list.Add(w.clothTab("", "not kept yet", w.described == ""))
	}
	if len(list.Objects) > 0 {
		list.Add(gap(1, 4))
	}
	add := func(word string, sort sortOfCloth) {
		b := w.button(word, false, func() { w.describe(sort) })
		b.name = word
		list.Add(b)
	}
	add("Add a cloth", plainCloth)
	add("Add a lace", laceCloth)
	if len(g.Cloths) > 1 {
		add("Bond or sew layers", layersAsOne)
	}
	list.Add(w.button("Take from a file\u2026", false, w.goodsAsk))
	w.libraryRows(list, g)
	var body fyne.CanvasObject
	if w.described == "" && w.describing[""] == nil {
		body = para(asSentence(cloth.NoneDescribed(w.desk.Pattern()))+" Add the first one: write down its name and width, and what a pull test of your own comes to. Everything else follows from that.", w.cloths.wide-w.listWide()-clothGap, normal, false, w.palette.Text)
	} else {
		body = w.clothFormOf(w.described).lay()
	}
	return container.New(across{[]float32{w.listWide()}, clothGap}, list, body)
}

// clothTab is a cloth of the list.
func (w *Window) clothTab(name, facts string, shown bool) fyne.CanvasObject {
	head, fill := name, color.Color(color.Transparent)
	if f := w.describing[name]; f != nil && f.changed() && name != "" {
		facts = "changed, not kept yet"
	}
	if name == "" {
		head = w.describing[""].said("name")
	}
	if head == "" {
		head = "A new cloth"
		if w.describing[""].sort == laceCloth {
			head = "A new lace"
		}
	}
	if shown {
		fill = w.palette.Soft
	}
	title := text(shortened(head, w.listWide()-20, normal), normal, true, w.palette.Text)
	if f := w.describing[name]; f != nil {
		f.title = title
	}
	body := container.New(stack{}, title, text(shortened(facts, w.listWide()-20, small), small, false, w.palette.Faint))
	t := newTouch(w.palette, body, fill, 8, 5, func() {
		w.described = name
		w.cloths.again()
	})
	t.name = "cloth " + name
	return t
}

// clothFacts is what a cloth is told by in the list.
func (w *Window) clothFacts(g cloth.Goods, c cloth.Cloth) string {
	return g.Gives(c)
}

// describe begins one more cloth, in an empty form.
func (w *Window) describe(sort sortOfCloth) {
	f := w.newClothForm("", cloth.Cloth{})
	f.sort = sort
	if sort == laceCloth {
		f.borders = bothMirrored
	}
	w.describing[""], w.described = f, ""
	w.cloths.again()
	w.win.Canvas().Focus(f.fields["name"])
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

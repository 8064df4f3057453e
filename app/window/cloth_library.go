package window

import (
	"fmt"
	"reflect"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/store"
)

// libraryRows adds the cloths of the maker's library to a list, each to be
// taken into the document; what is in it as it is there is only named.
func (w *Window) libraryRows(list *fyne.Container, g cloth.Goods) {
	if w.library == "" {
		return
	}
	list.Add(gap(1, 6))
	list.Add(text("Your library", normal, true, w.palette.Faint))
	all, err := store.ReadLibrary(w.library)
	if err != nil {
		list.Add(para(sentence(err), w.listWide(), small, false, w.palette.Poor))
		return
	}
	if len(all) == 0 {
		list.Add(para("Empty. A cloth you keep in it can be taken into every pattern.", w.listWide(), small, false, w.palette.Faint))
	}
	for _, c := range all {
		if there, ok := g.Cloth(c.Name); ok && reflect.DeepEqual(there, c) {
			list.Add(container.New(inset{8, 4}, container.New(stack{}, text(shortened(c.Name, w.listWide()-20, normal), normal, false, w.palette.Faint), text("in this document", small, false, w.palette.Faint))))
			continue
		}
		name := c.Name
		take := newTouch(w.palette, container.New(stack{}, text(shortened(name, w.listWide()-20, normal), normal, false, w.palette.Text),
			text(shortened("take it: "+w.clothFacts(cloth.Goods{Cloths: all}, c), w.listWide()-20, small), small, false, w.palette.Faint)), w.palette.Ground, 8, 4, func() { w.takeFromLibrary(name) })
		take.name = "take " + name
		list.Add(take)
	}
}

// takeFromLibrary takes a cloth into the document, as one change.
func (w *Window) takeFromLibrary(name string) {
	all, err := store.ReadLibrary(w.library)
	var g cloth.Goods
	if err == nil {
		g, err = w.desk.Goods().Taking(all, name)
	}
	if err == nil {
		w.described = name
		err = w.desk.SetGoods(g)
	}
	w.cloths.say(err)
}

// inLibrary reports whether the library holds a cloth of the document as it is.
func (w *Window) inLibrary(c cloth.Cloth) bool {
	all, err := store.ReadLibrary(w.library)
	return err == nil && slices.ContainsFunc(all, func(x cloth.Cloth) bool { return reflect.DeepEqual(x, c) })
}

// keepInLibrary puts a cloth of the document into the library; what lay in the
// way of that and could not be read is put aside, and where is told.
func (w *Window) keepInLibrary(name string) {
	aside, err := store.KeepCloth(w.library, w.desk.Goods(), name)
	if err == nil && aside != "" {
		err = fmt.Errorf("what lay there could not be read; it was put aside as %s, and a new library begun", aside)
	}
	w.cloths.again()
	w.cloths.say(err)
}

// dropFromLibrary takes a cloth out of the library; the document keeps it.
func (w *Window) dropFromLibrary(name string) {
	err := store.DropCloth(w.library, name)
	w.cloths.again()
	w.cloths.say(err)
}

// libraryLink offers to put the cloth of a form into the library, or to take it
// out again.
func (f *clothForm) libraryLink() fyne.CanvasObject {
	if f.w.library == "" || f.was == "" {
		return container.New(line{})
	}
	word, do := "Keep in your library", func() { f.w.keepInLibrary(f.was) }
	if f.w.inLibrary(f.base) {
		word, do = "Take out of your library", func() { f.w.dropFromLibrary(f.was) }
	}
	b := f.w.link(word, do)
	b.name = "library link"
	return container.New(line{}, b)
}

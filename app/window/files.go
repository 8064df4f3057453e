package window

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"truemat/app/desk"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/render"
)

const ending = ".truemat"

// openPath opens a document, or brings a drawing in. When it cannot be read,
// that is said and everything stays as it was.
func (w *Window) openPath(path string) { w.openTold(path, w.complain) }

// openTold is openPath, which tells how that went.
func (w *Window) openTold(path string, told func(error)) {
	if isDrawing(path) {
		told(nil)
		w.bring(path, true)
		return
	}
	var d *desk.Desk
	var err error
	was := factsOf(w.desk.Document())
	w.prompt.explain("Opening " + filepath.Base(path) + " … Escape calls it off.")
	w.begin(func(t *task) { d, err = load(t.ctx, path) }, func() {
		w.prompt.explain("")
		if err != nil {
			told(fmt.Errorf("nothing was opened: %w", err))
			return
		}
		told(nil)
		lay := func() {
			w.remember(path)
			w.prompt.say(nil)
			w.replace(d)
		}
		if factsOf(w.desk.Document()) != was { // work went on meanwhile
			w.leave(lay)
			return
		}
		lay()
	})
}

func isDrawing(path string) bool { return strings.EqualFold(filepath.Ext(path), ".svg") }

func load(ctx context.Context, path string) (*desk.Desk, error) {
	doc, err := store.LoadContext(ctx, path)
	if err != nil {
		return nil, err
	}
	return desk.NewContext(ctx, doc, path)
}

// sizeKey is under which setting the size shown of a document is kept.
func sizeKey(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	return prefSize + path
}

// recentMost is how many recent files are kept.
const recentMost = 8

func (w *Window) remember(path string) {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	list := slices.DeleteFunc(w.set.StringList(prefRecent), func(s string) bool { return s == path })
	list = append([]string{path}, list...)
	w.set.SetStringList(prefRecent, list[:min(len(list), recentMost)])
	w.menu()
}

// leave goes on after the document was saved, or the maker said that it need
// not be.
func (w *Window) leave(on func()) { w.leaveBy(w.ask, on) }

// leaveOver is leave that asks over the page that is open, which stays.
func (w *Window) leaveOver(on func()) { w.leaveBy(w.askOver, on) }

func (w *Window) leaveBy(ask func(title, question string, answers []string, answer func(int)), on func()) {
	if !w.desk.WorthKeeping() {
		on()
		return
	}
	ask("Save first?", "There are changes that are not on disk yet.", []string{"Save", "Go on without saving", "Stay here"}, func(i int) {
		switch i {
		case 0:
			w.save(on)
		case 1:
			on()
		}
	})
}

func (w *Window) quit() {
	w.leave(func() {
		w.keepSize()
		_ = w.desk.Close() // the program ends all the same
		if w.journal != nil {
			w.journal.idle.Wait()
		}
		w.saves.writing.Wait()
		w.app.Quit()
	})
}

func (w *Window) newAsk() {
	w.leave(func() { w.newPage() })
}

// newTern begins with the Tern in place of the document; it reports whether it
// could.
func (w *Window) newTern() bool {
	run, err := demo.Tern()
	var d *desk.Desk
	if err == nil {
		d, err = desk.New(store.Document{Source: run}, "")
	}
	if err != nil {
		w.prompt.say(err)
		w.show()
		return false
	}
	w.replace(d)
	return true
}

var (
	documents = fileKind{"Documents (.truemat)", []string{ending}}
	drawings  = fileKind{"Drawings (.svg)", []string{".svg"}}
	allFiles  = fileKind{word: "All files"}
)

func (w *Window) openAsk() { w.leave(w.openFile) }

func (w *Window) openFile() {
	w.filePage(fileAsk{title: "Open", act: "Open", kinds: []fileKind{documents, drawings, allFiles}, take: w.openTold})
}

// save writes the document where it belongs, and asks where that is when
// nobody said yet; then it goes on.
func (w *Window) save(on func()) {
	if w.desk.Path() == "" {
		w.saveAs(on)
		return
	}
	w.saveTo(w.desk.Path(), w.complain, on)
}

func (w *Window) saveAs(on func()) {
	w.filePage(fileAsk{title: "Save as", act: "Save", saving: true, name: w.freeName(), kinds: []fileKind{documents},
		take: func(path string, told func(error)) { w.saveTo(path, told, on) }})
}

// freeName is the name to save under: that of the file it came from, else one
// that the folder has not yet, so that no other work is written over.
func (w *Window) freeName() string {
	name := w.stem() + ending
	for n := 2; w.desk.Path() == "" && exists(filepath.Join(w.startFolder(), name)); n++ {
		name = fmt.Sprintf("%s %d%s", w.stem(), n, ending)
	}
	return name
}

// stem is a file name for what is made of the document.
func (w *Window) stem() string {
	if p := w.desk.Path(); p != "" {
		return strings.TrimSuffix(filepath.Base(p), filepath.Ext(p))
	}
	return strings.ToLower(strings.ReplaceAll(w.desk.Document().Source.Name, " ", "-"))
}

// dropped takes files that were let fall on the window.
func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) == 0 {
		return
	}
	if path := files[0].Path(); isDrawing(path) { // which may come beside what is there
		w.bring(path, false)
	} else {
		w.leave(func() { w.openPath(path) })
	}
}

func (w *Window) exportAsk() {
	w.filePage(fileAsk{
		title: "Export a drawing, " + pattern.SizeWords(w.desk.Size()), act: "Export", saving: true, name: w.stem() + "-" + w.desk.Size() + ".svg",
		kinds: []fileKind{{"Drawing (.svg)", []string{".svg"}}, {"Picture (.png)", []string{".png"}}, {"One sheet (.pdf)", []string{".pdf"}}},
		take: func(path string, told func(error)) {
			told(nil)
			w.export(path)
		},
	})
}

func (w *Window) export(path string) {
	altered, name, size := w.desk.Pattern(), w.desk.Document().Source.Name, w.desk.Size()
	w.prompt.explain("Writing " + filepath.Base(path) + " … Escape calls it off.")
	altered.Pieces = w.desk.Goods().Named(altered.Pieces)
	var err error
	w.begin(func(t *task) { err = t.export(path, altered, name, size) }, func() {
		w.prompt.explain("")
		w.show()
		if err != nil {
			w.complain(fmt.Errorf("%s was not written: %w", filepath.Base(path), err))
			return
		}
		w.prompt.report(filepath.Base(path) + " is written.")
	})
}

// exportDots is the resolution of a picture that is exported.
const exportDots = 200

// export writes one sheet with the pieces as they lie; the ending says what.
func (t *task) export(path string, p pattern.Pattern, name, size string) error {
	scene, err := render.PatternScene(p, render.Options{Pattern: name, Size: size})
	if err != nil {
		return err
	}
	switch strings.ToLower(filepath.Ext(path)) {
	case ".svg":
		return t.write(path, func(o io.Writer) error { return render.WriteSVG(o, name, scene) })
	case ".png":
		return t.write(path, func(o io.Writer) error { return render.WritePNG(o, scene, exportDots) })
	case ".pdf":
		return t.write(path, func(o io.Writer) error { return render.WritePDF(o, name, scene) })
	}
	return fmt.Errorf("the ending of %s says no kind of drawing; use .svg, .png or .pdf", filepath.Base(path))
}

// OpenLater opens a file, or brings a drawing in, once the window is shown.
func (w *Window) OpenLater(path string) {
	w.later = true
	w.app.Lifecycle().SetOnStarted(func() { w.openPath(path) })
}

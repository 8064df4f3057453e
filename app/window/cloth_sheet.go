package window

import (
	"fmt"
	"image"
	"io"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/ops/unit"
	"truemat/render"
	"truemat/render/handout"
)

// telling is the sheet for another maker as it is chosen.
type telling struct {
	paper   string         // as render.ParsePaper reads it; by her units when empty
	without []handout.Part // what is left out
	page    int            // that shows, from 0
	serial  int            // of the pages that were asked for last
	written string         // that it is, until another one is chosen
	last    *setPages      // those that were set last, or nil
}

// setPages are the pages of a sheet as they were set.
type setPages struct {
	doc   store.Document
	wish  handout.Wish
	pages []render.Scene
	at    int // the page that was drawn last, as img
	dim   bool
	img   image.Image
}

// sheetPaper is the paper that is chosen: A4, or Letter for one who measures in
// inches, until she says otherwise.
func (w *Window) sheetPaper() render.Paper {
	if p, err := render.ParsePaper(w.telling.paper); err == nil && w.telling.paper != "" {
		return p
	}
	if w.unit == unit.InchFractions {
		return render.Letter
	}
	return render.A4
}

// paperName is what a paper is called on the page.
func paperName(p render.Paper) string {
	if strings.EqualFold(p.Name, render.Letter.Name) {
		return "Letter"
	}
	return p.Name
}

// sheetPages shows the pages of the sheet.
type sheetPages struct {
	w     *Window
	pages []render.Scene
	view  *fyne.Container
	said  *canvas.Text
	save  *touch
	back  *touch
	on    *touch
}

const (
	sheetChoices = 250 // width of what is chosen beside the page
	sheetDots    = 110 // per inch of the picture of a page
)

// clothPartSheet is where the sheet for another maker is looked at and saved.
func (w *Window) clothPartSheet() fyne.CanvasObject {
	s := &sheetPages{w: w, view: container.New(layered{}), said: text("", normal, false, w.palette.Text)}
	paper := newChoice([]string{"A4", "Letter"}, paperName(w.sheetPaper()), func(name string) {
		w.telling.paper, w.telling.written = name, ""
		s.set()
	})
	parts := container.New(stack{gap: 2})
	for _, p := range handout.Parts {
		tick := widget.NewCheck(string(p), nil)
		tick.Checked = !slices.Contains(w.telling.without, p)
		tick.OnChanged = func(with bool) { s.tell(p, with) }
		parts.Add(tick)
	}
	s.save = w.button("Save the sheet\u2026", true, w.sheetAsk)
	s.back, s.on = w.button("\u2039", false, func() { s.turn(-1) }), w.button("\u203a", false, func() { s.turn(1) })
	s.back.name, s.on.name = "page before", "page after"
	choices := container.New(stack{gap: 10},
		para("It tells another maker in a few pages what was changed and how.", sheetChoices, normal, false, w.palette.Text),
		container.New(line{gap: 8}, text("Paper", normal, false, w.palette.Faint), paper),
		container.New(stack{gap: 2}, text("What it tells", normal, false, w.palette.Faint), parts,
			para("The cautions are always told.", sheetChoices, small, false, w.palette.Faint)),
		container.New(line{}, s.save),
		para(w.telling.written, sheetChoices, normal, false, w.palette.Text))
	frame := canvas.NewRectangle(w.palette.Line)
	frame.CornerRadius = 6
	frame.SetMinSize(fyne.NewSize(w.cloths.wide-sheetChoices-2*clothGap, max(w.cloths.tall-64, 240)))
	page := container.New(stack{gap: 8}, container.New(layered{}, frame, s.view), container.New(line{gap: 8}, s.back, s.on, s.said))
	s.set()
	return container.New(across{[]float32{sheetChoices}, clothGap}, choices, page)
}

// tell takes a part in, or leaves it out.
func (s *sheetPages) tell(p handout.Part, with bool) {
	left := slices.DeleteFunc(slices.Clone(s.w.telling.without), func(o handout.Part) bool { return o == p })
	if !with {
		left = append(left, p)
	}
	s.w.telling.without, s.w.telling.written = left, ""
	s.set()
}

// set sets the pages, away from the window's thread; those that were set for
// the same before show again.
func (s *sheetPages) set() {
	w := s.w
	w.telling.serial++
	serial, on := w.telling.serial, w.cloths
	doc, wish := w.desk.Document(), w.sheetWish()
	if last := w.telling.last; last != nil && reflect.DeepEqual(last.wish, wish) && reflect.DeepEqual(last.doc, doc) {
		s.pages = last.pages
		s.show()
		return
	}
	change(s.said, "Setting the pages \u2026")
	s.save.able(false)
	var pages []render.Scene
	var err error
	w.away(func() { pages, err = handout.Pages(doc, wish) }, func() {
		if serial != w.telling.serial || w.cloths != on || !on.sheet.open() {
			return
		}
		on.say(err)
		s.save.able(err == nil)
		s.pages, w.telling.last = pages, &setPages{doc: doc, wish: wish, pages: pages}
		if err != nil {
			w.telling.last = nil
		}
		w.telling.page = max(min(w.telling.page, len(pages)-1), 0)
		s.show()
	})
}

// turn shows the next page, or the one before.
func (s *sheetPages) turn(by int) {
	if to := s.w.telling.page + by; to >= 0 && to < len(s.pages) {
		s.w.telling.page = to
		s.show()
	}
}

// show draws the page.
func (s *sheetPages) show() {
	s.view.RemoveAll()
	at := s.w.telling.page
	s.back.able(at > 0)
	s.on.able(at+1 < len(s.pages))
	if at >= len(s.pages) {
		change(s.said, "")
		s.view.Refresh()
		return
	}
	change(s.said, fmt.Sprintf("Page %d of %d on %s", at+1, len(s.pages), paperName(s.w.sheetPaper())))
	page, last := s.pages[at], s.w.telling.last
	if last != nil && last.img != nil && last.at == at && last.dim == s.w.dark {
		s.hang(last.img)
		return
	}
	var img image.Image
	var err error
	serial := s.w.telling.serial
	s.w.away(func() {
		if img, err = pageOf(page); err == nil {
			img = s.w.onPaper(img)
		}
	}, func() {
		if serial != s.w.telling.serial || at != s.w.telling.page {
			return
		}
		if err != nil {
			s.w.cloths.say(err)
			return
		}
		if last != nil {
			last.at, last.dim, last.img = at, s.w.dark, img
		}
		s.hang(img)
	})
}

// hang shows the picture of a page.
func (s *sheetPages) hang(img image.Image) {
	s.view.RemoveAll()
	s.view.Add(container.New(inset{8, 8}, gap(0, 0), s.w.contained(img)))
	s.view.Refresh()
}

// pageOf draws a page without the white that pictures have around them.
func pageOf(page render.Scene) (image.Image, error) {
	img, err := render.Picture(page, sheetDots)
	if err != nil {
		return nil, err
	}
	return withoutRim(img, sheetDots), nil
}

// sheetAsk asks where the sheet for another maker is to be saved.
func (w *Window) sheetAsk() {
	w.filePage(fileAsk{title: "Save the sheet for another maker, " + pattern.SizeWords(w.desk.Size()), act: "Save", saving: true, name: w.stem() + "-sheet-" + w.desk.Size() + ".pdf",
		kinds: []fileKind{{"Sheet (.pdf)", []string{".pdf"}}},
		take: func(path string, told func(error)) {
			told(nil)
			w.writeSheet(path)
		}})
}

func (w *Window) writeSheet(path string) {
	doc, wish := w.desk.Document(), w.sheetWish()
	w.prompt.explain("Writing " + filepath.Base(path) + " \u2026 Escape calls it off.")
	var err error
	w.begin(func(t *task) {
		err = t.write(path, func(o io.Writer) error { return handout.Write(o, doc, wish) })
	}, func() {
		w.prompt.explain("")
		if err != nil {
			err = fmt.Errorf("%s was not written: %w", filepath.Base(path), err)
			w.complain(err)
		} else {
			w.telling.written = filepath.Base(path) + " is written."
			w.prompt.report(w.telling.written)
		}
		w.show()
		if w.cloths != nil && w.cloths.sheet.open() {
			w.cloths.again()
			w.cloths.say(err)
		}
	})
}

// sheetWish is the sheet that is chosen.
func (w *Window) sheetWish() handout.Wish {
	return handout.Wish{Size: w.desk.Size(), Paper: w.sheetPaper(), Units: w.unit, Called: w.stem(), Without: slices.Clone(w.telling.without)}
}

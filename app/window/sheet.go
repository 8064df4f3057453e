package window

import (
	"slices"

	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// sheet is a page that lies over the window until it is closed.
type sheet struct {
	w       *Window
	under   *sheet // on which it lies, nil for the window
	pop     *widget.PopUp
	wrong   *fyne.Container
	width   float32
	wide    *canvas.Rectangle // as wide as the page
	roll    *container.Scroll // its first part that rolls, nil for none
	pages   func(by int)      // turns what it shows by Page Up and Page Down; may be nil
	larger  func()            // shows its picture larger, by +; may be nil
	smaller func()            // shows its picture as small as before, by −; may be nil
	enter   func()            // what Enter does where nothing else on it takes it; may be nil
	room    func()            // suits the page to another size of the window; may be nil
	shut    func()            // may be nil
}

// openSheet shows a page with a title in place of those that are open; its
// parts stand one below the other.
func (w *Window) openSheet(title string, width float32, parts ...fyne.CanvasObject) *sheet {
	for w.sheet != nil {
		w.sheet.close()
	}
	return w.overSheet(title, width, parts...)
}

// overSheet shows a page over those that are open.
func (w *Window) overSheet(title string, width float32, parts ...fyne.CanvasObject) *sheet {
	s := &sheet{w: w, under: w.sheet, width: width, wrong: container.New(stack{}), wide: canvas.NewRectangle(w.palette.Ground)}
	head := container.New(ends{}, text(title, 20, true, w.palette.Text), w.link("Close  Esc", func() { s.close() }))
	body := container.New(lastOnTop{stack{gap: 16}}, append(slices.Clone(parts), s.wrong, head)...) // Tab comes to the word that closes last
	s.roll = rollIn(body)
	s.wrong.Hide()
	ground := canvas.NewRectangle(w.palette.Ground)
	ground.StrokeWidth, ground.StrokeColor = 1, faded(w.palette.Faint, 150)
	s.wide.SetMinSize(fyne.NewSize(width, 0))
	// A line along the rim of a part is drawn half beside it.
	all := container.NewScroll(container.New(line{}, container.New(inset{pageRim, pageRim}, gap(0, 0), container.New(layered{}, s.wide, body)), gap(pageBar, 0)))
	rolls(body, all)
	if s.roll == nil {
		s.roll = all
	}
	page := container.New(outBy{pageBar, func() fyne.Size {
		return all.Content.MinSize().SubtractWidthHeight(pageBar, 0).Min(w.pageRoom().AddWidthHeight(2*pageRim, 2*pageRim))
	}}, all)
	s.pop = widget.NewModalPopUp(container.New(framed{inset{20 - pageRim, 16 - pageRim}, w}, ground, page), w.win.Canvas())
	w.sheet = s
	s.pop.Show()
	return s
}

// pageRoom is what the window has room for of a page, without its frame; what
// is larger rolls.
func (w *Window) pageRoom() fyne.Size {
	return w.win.Canvas().Size().SubtractWidthHeight(pageFrame, pageFrame)
}

// pageWide is the width of a page that would best be so wide.
func (w *Window) pageWide(best float32) float32 { return min(best, down(w.pageRoom().Width)) }

// Of a page in units: its frame and what is around it, what is seen around
// its parts, and the room in the frame for the bar of what rolls.
const (
	pageFrame = 56
	pageRim   = 2
	pageBar   = 16
)

// outBy is a [roomy] whose object stands out of it at the right.
type outBy struct {
	by    float32
	least func() fyne.Size
}

func (b outBy) Layout(o []fyne.CanvasObject, size fyne.Size) {
	lay(o[0], fyne.Position{}, size.AddWidthHeight(b.by, 0))
}

func (b outBy) MinSize([]fyne.CanvasObject) fyne.Size { return b.least() }

func (s *sheet) close() {
	if s.w.sheet != s {
		return
	}
	s.w.sheet = s.under
	// A field of a form that is kept is shown again later, without the keys.
	if f, ok := s.w.win.Canvas().Focused().(*formField); ok {
		f.Entry.FocusLost()
	}
	s.pop.Hide()
	if s.shut != nil {
		s.shut()
	}
	if s.under == nil {
		s.w.focusMat()
	}
}

// open reports whether it is shown, be it beneath another.
func (s *sheet) open() bool {
	for o := s.w.sheet; o != nil; o = o.under {
		if o == s {
			return true
		}
	}
	return false
}

// fit gives the page the size that its parts ask for now.
func (s *sheet) fit() {
	s.pop.Resize(s.pop.MinSize())
	s.pop.Refresh()
}

// rollIn returns the first part of an object that rolls.
func rollIn(o fyne.CanvasObject) *container.Scroll {
	switch o := o.(type) {
	case *container.Scroll:
		return o
	case *fyne.Container:
		for _, c := range o.Objects {
			if s := rollIn(c); s != nil {
				return s
			}
		}
	}
	return nil
}

// rolled rolls the page by a key that nothing else on it takes; false when it
// is no key for that, or nothing rolls.
func (s *sheet) rolled(k fyne.KeyName) bool {
	if by := map[fyne.KeyName]int{fyne.KeyPageUp: -1, fyne.KeyPageDown: 1}[k]; s.pages != nil && by != 0 {
		s.pages(by)
		return true
	}
	if s.roll == nil {
		return false
	}
	by := map[fyne.KeyName]float32{
		fyne.KeyUp: -rolledBy, fyne.KeyDown: rolledBy,
		fyne.KeyPageUp: rolledBy - s.roll.Size().Height, fyne.KeyPageDown: s.roll.Size().Height - rolledBy, fyne.KeySpace: s.roll.Size().Height - rolledBy,
		fyne.KeyHome: -s.roll.Content.Size().Height, fyne.KeyEnd: s.roll.Content.Size().Height,
	}[k]
	if by == 0 {
		return false
	}
	most := max(s.roll.Content.Size().Height-s.roll.Size().Height, 0)
	rollTo(s.roll, fyne.NewPos(s.roll.Offset.X, min(max(s.roll.Offset.Y+by, 0), most)))
	return true
}

// rolledBy is how far an arrow rolls a page, in units.
const rolledBy = 40

// resized suits the pages that are open to another size of the window.
func (w *Window) resized() {
	for s := w.sheet; s != nil; s = s.under {
		if s.room != nil {
			s.room()
		}
		s.fit()
	}
}

// framed is an inset whose first object stands out as far as the toolkit's own
// ground of a page does, so that its edge is the edge of the page.
type framed struct {
	inset
	w *Window
}

// MinSize is such that the page, in the middle of the window, stands on whole
// units.
func (f framed) MinSize(o []fyne.CanvasObject) fyne.Size {
	m, room := f.inset.MinSize(o), f.w.win.Canvas().Size()
	even := func(size, of float32) float32 {
		if size = up(size); int(of-size)%2 != 0 {
			size++
		}
		return size
	}
	return fyne.NewSize(even(m.Width, room.Width), even(m.Height, room.Height))
}

func (f framed) Layout(o []fyne.CanvasObject, size fyne.Size) {
	f.inset.Layout(o, size)
	out := fyne.CurrentApp().Settings().Theme().Size(theme.SizeNameInnerPadding) / 2
	lay(o[0], fyne.NewPos(-out, -out), size.AddWidthHeight(2*out, 2*out))
}

// roomy is an area whose least size is told anew whenever it is asked for, as
// it depends on the size of the window.
type roomy struct{ least func() fyne.Size }

func (roomy) Layout(o []fyne.CanvasObject, size fyne.Size) { layered{}.Layout(o, size) }

func (r roomy) MinSize([]fyne.CanvasObject) fyne.Size { return r.least() }

// within lets something be as tall as the window leaves it beside spare units
// of other things, but no less than least, and no taller than it wants.
func (w *Window) within(roll *container.Scroll, wide, spare, least float32) fyne.CanvasObject {
	return container.New(roomy{func() fyne.Size {
		return fyne.NewSize(wide, min(roll.Content.MinSize().Height, max(w.win.Canvas().Size().Height-spare, least)))
	}}, roll)
}

// say tells what is wrong at the foot of the sheet.
func (s *sheet) say(err error) {
	s.wrong.RemoveAll()
	s.wrong.Hide()
	if err != nil {
		s.wrong.Show()
		s.wrong.Add(para(sentence(err), s.width, normal, false, s.w.palette.Poor))
	}
	s.fit()
}

// note tells something at the foot of the sheet that is not wrong; "" ends it.
func (s *sheet) note(said string) {
	s.wrong.RemoveAll()
	s.wrong.Hide()
	if said != "" {
		s.wrong.Show()
		s.wrong.Add(para(said, s.width, normal, false, s.w.palette.Look))
	}
	s.fit()
}

// table shows pairs in a width, the first of each in bold.
func (w *Window) table(rows [][2]string, width float32) fyne.CanvasObject {
	const first = 230
	box := container.New(stack{gap: 4})
	for _, r := range rows {
		box.Add(container.New(columns{first}, text(r[0], normal, true, w.palette.Text), para(r[1], width-first, normal, false, w.palette.Text)))
	}
	return box
}

// columns lays its second object at an offset.
type columns struct{ at float32 }

func (c columns) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for i, x := range []float32{0, c.at} {
		m := o[i].MinSize()
		width := c.at
		if i > 0 {
			width = max(m.Width, size.Width-x)
		}
		lay(o[i], fyne.NewPos(x, down((size.Height-m.Height)/2)), fyne.NewSize(width, m.Height))
	}
}

func (c columns) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(c.at+o[1].MinSize().Width, max(o[0].MinSize().Height, o[1].MinSize().Height))
}

// ends lays one object at the left and one at the right.
type ends struct{}

func (ends) Layout(o []fyne.CanvasObject, size fyne.Size) {
	a, b := o[0].MinSize(), o[1].MinSize()
	lay(o[0], fyne.NewPos(0, down((size.Height-a.Height)/2)), a)
	lay(o[1], fyne.NewPos(down(size.Width-b.Width), down((size.Height-b.Height)/2)), b)
}

func (ends) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(a.Width+b.Width+16, max(a.Height, b.Height))
}

// ask asks a question with words to answer it; the first is the main one and
// has the keys.
func (w *Window) ask(title, question string, answers []string, answer func(i int)) {
	for w.sheet != nil {
		w.sheet.close()
	}
	w.askOver(title, question, answers, answer)
}

// askOver asks over the page that is open, which stays.
func (w *Window) askOver(title, question string, answers []string, answer func(i int)) {
	acts := container.New(line{gap: 8})
	for i, a := range answers {
		acts.Add(w.button(a, i == 0, func() {
			w.sheet.close()
			answer(i)
		}))
	}
	w.overSheet(title, 440, para(question, 440, normal, false, w.palette.Text), acts)
	if all := reachable(acts); len(all) > 0 {
		w.win.Canvas().Focus(all[0])
	}
}

// pair lays a sign beside a paragraph.
func (w *Window) pair(sign, body fyne.CanvasObject) fyne.CanvasObject {
	return container.New(columns{40}, sign, body)
}

func faded(c color.NRGBA, a uint8) color.NRGBA {
	c.A = a
	return c
}

// rulerUnits is the length in units of the line that a ruler is held to.
const rulerUnits = 500

// rulerPage asks what a ruler held to the screen reads, so that real size is
// real.
func (w *Window) rulerPage() {
	bar := canvas.NewRectangle(w.palette.Accent)
	bar.SetMinSize(fyne.NewSize(rulerUnits, 12))
	var s *sheet
	in := w.counting(newEntry("", 120, func(v string, changed bool) {
		if !changed {
			return
		}
		mm, err := w.read(v)
		if err == nil && !(mm > 10 && mm < 1000) {
			err = fmt.Errorf("%s is no likely length of that bar", v)
		}
		if err != nil {
			s.say(err)
			return
		}
		w.set.SetFloat(prefScale, rulerUnits/mm)
		w.mat.SetPixelsPerMM(rulerUnits / mm)
		s.close()
		w.mat.RealSize()
	}, w.backOut))
	s = w.openSheet("Hold a ruler to the screen", 520, container.New(line{}, bar),
		container.New(line{gap: 8}, text("The bar is long", normal, false, w.palette.Text), in))
	w.win.Canvas().Focus(in)
}

package window

import (
	"image"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"truemat/app/look"
	"truemat/ops/unit"
)

// Heights of text.
const (
	small  = 12
	normal = 14
	large  = 16
)

func text(s string, size float32, bold bool, c color.Color) *canvas.Text {
	t := canvas.NewText(s, c)
	t.TextSize, t.TextStyle.Bold = size, bold
	return t
}

// para is text broken into lines of a width.
func para(s string, width, size float32, bold bool, c color.Color) fyne.CanvasObject {
	style := fyne.TextStyle{Bold: bold}
	lines := memo.broken(s, width, size, style)
	h := up(fyne.MeasureText("Hg", size, style).Height)
	box := container.New(fixed(fyne.NewSize(width, h*float32(len(lines)))))
	for i, l := range lines {
		t := text(l, size, bold, c)
		lay(t, fyne.NewPos(0, h*float32(i)), fyne.NewSize(width, h))
		box.Add(t)
	}
	return box
}

// breaks remembers how paragraphs were broken into lines: to measure words takes
// longer than all else about them, and most are shown again unchanged.
type breaks map[paragraph][]string

type paragraph struct {
	text        string
	width, size float32
	style       fyne.TextStyle
}

var memo = breaks{}

// mostBreaks is how many paragraphs are remembered at a time.
const mostBreaks = 4000

func (b breaks) broken(s string, width, size float32, style fyne.TextStyle) []string {
	key := paragraph{s, width, size, style}
	lines, known := b[key]
	if !known {
		if len(b) >= mostBreaks {
			clear(b)
		}
		lines = broken(s, width, func(s string) float32 { return fyne.MeasureText(s, size, style).Width })
		b[key] = lines
	}
	return lines
}

// nearly is more than by which a line differs from its words and the spaces
// between them, in units.
const nearly = 8

// broken divides text into lines that are no wider than width; a word that is
// wider stands alone, as does a number with its unit. A line is measured whole
// only where its words, which the toolkit remembers, do not tell whether it fits.
func broken(s string, width float32, measure func(string) float32) []string {
	var lines []string
	space := measure(" ")
	for _, block := range strings.Split(s, "\n") {
		now, long := "", float32(0) // and about how long that is
		for _, word := range strings.FieldsFunc(unit.Kept(block), func(r rune) bool { return r == ' ' || r == '\t' }) {
			word = unit.Loose(word)
			own := measure(word)
			long += space + own
			switch {
			case now == "":
				now, long = word, own
			case long > width+nearly || long > width-nearly && measure(now+" "+word) > width:
				lines = append(lines, now)
				now, long = word, own
			default:
				now += " " + word
			}
		}
		lines = append(lines, now)
	}
	return lines
}

// shortened cuts text that is wider than width, with an ellipsis.
func shortened(s string, width, size float32) string {
	fits := func(s string) bool { return fyne.MeasureText(s, size, fyne.TextStyle{}).Width <= width }
	if fits(s) {
		return s
	}
	r := []rune(s)
	lo, hi := 0, len(r)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if fits(string(r[:mid]) + "…") {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return strings.TrimSpace(string(r[:lo])) + "…"
}

func icon(name string, c color.NRGBA, size float32) fyne.CanvasObject {
	drawn := canvas.NewRaster(func(w, h int) image.Image { return look.Drawn(name, c, min(w, h)) })
	drawn.SetMinSize(fyne.NewSquareSize(size))
	return container.New(centred{}, drawn)
}

func gap(w, h float32) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(fyne.NewSize(w, h))
	return r
}

// button is a word that can be pressed; the main one of a place is filled.
func (w *Window) button(word string, main bool, tap func()) *touch {
	fill, ink := color.Color(w.palette.Raised), w.palette.Text
	if main {
		fill, ink = w.palette.Accent, w.palette.OnAccent
	}
	t := newTouch(w.palette, container.New(centred{}, text(word, normal, main, ink)), fill, 14, 6, tap)
	t.deed = true
	return t
}

// link is a quiet word that can be pressed.
func (w *Window) link(word string, tap func()) *touch {
	t := newTouch(w.palette, text(word, small, true, w.palette.Accent), color.Transparent, 6, 3, tap)
	t.deed = true
	return t
}

// entry is a field for typing. Enter submits, Escape backs out; leaving it
// submits what was changed.
type entry struct {
	widget.Entry
	revealing
	was     string
	submit  func(text string, changed bool)
	escape  func()
	width   float32
	tell    func(string) // tells what is cut in its place, "" to end it; may be nil
	told    bool
	tab     func()       // what Tab does in place of going to the next; may be nil
	taken   func(string) // tells what a fraction is taken for, "" to end it; nil where no length is typed
	unread  bool         // it was left with what cannot be read, which stays to be mended
	presses presses
}

// unkept reports whether something is typed that was not submitted.
func (e *entry) unkept() bool { return e.Text != e.was }

func (e *entry) say(in bool) {
	switch {
	case e.tell == nil:
	case in && e.Text == e.was && fyne.MeasureText(e.Text, normal, e.TextStyle).Width+16 > e.Size().Width:
		e.told = true
		e.tell(titled(e.Text) + ".")
	case e.told:
		e.told = false
		e.tell("")
	}
}

// MouseIn tells what is cut.
func (e *entry) MouseIn(*desktop.MouseEvent) { e.say(true) }

// MouseMoved is for the toolkit.
func (e *entry) MouseMoved(*desktop.MouseEvent) {}

// MouseOut ends what MouseIn told.
func (e *entry) MouseOut() { e.say(false) }

func newEntry(value string, width float32, submit func(string, bool), escape func()) *entry {
	e := &entry{was: value, submit: submit, escape: escape, width: width}
	e.ExtendBaseWidget(e)
	e.Text = value
	e.Scroll = fyne.ScrollNone
	e.roll()
	e.OnSubmitted = func(s string) { e.done(s) }
	return e
}

func (e *entry) done(s string) {
	changed := s != e.was
	e.was = s
	e.submit(s, changed)
}

// MinSize is as wide as asked for, or as its words want within reason: they
// would run out of the field.
func (e *entry) MinSize() fyne.Size {
	wanted := up(fyne.MeasureText(e.was, normal, e.TextStyle).Width) + 24
	return fyne.NewSize(max(e.width, min(wanted, widestEntry)), e.Entry.MinSize().Height)
}

// roll lets words that are longer than the field roll within it.
func (e *entry) roll() {
	most := max(e.width, widestEntry) - 24
	if size := e.Size().Width; size > 0 {
		most = size - 24
	}
	if e.Scroll == fyne.ScrollNone && fyne.MeasureText(e.Text, normal, e.TextStyle).Width > most {
		e.Scroll = fyne.ScrollHorizontalOnly
		e.Refresh()
	}
}

// TypedRune takes a letter.
func (e *entry) TypedRune(r rune) {
	if r == ' ' && e.Text == e.was && e.SelectedText() == e.Text {
		return // a blank at the head says nothing: it came with the key that led here
	}
	e.Entry.TypedRune(r)
	e.tells(e.Text)
	e.roll()
}

// widestEntry is what the column has room for, beside a name.
const widestEntry = columnInner - 112

// TypedKey backs out with Escape.
func (e *entry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.SetText(e.was)
		e.escape()
		return
	}
	switch k.Name {
	case fyne.KeyTab:
		if e.tab != nil {
			e.tab()
			return
		}
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyPageUp, fyne.KeyPageDown: // of no use in one line
		handOn(e, k)
		return
	}
	e.Entry.TypedKey(k)
	if k.Name == fyne.KeyBackspace || k.Name == fyne.KeyDelete {
		e.tells(e.Text)
	}
}

// AcceptsTab keeps Tab where the next field may be one that does not show yet.
func (e *entry) AcceptsTab() bool { return e.tab != nil }

// FocusGained brings it into view, and selects what is in it: what is typed
// then takes its place.
func (e *entry) FocusGained() {
	e.Entry.FocusGained()
	e.selectUntouched()
	e.reveal(e)
	e.say(true)
}

// selectUntouched selects all of it unless something is being typed. A press
// of the mouse then puts the cursor where it was pressed.
func (e *entry) selectUntouched() {
	if e.Text == e.was {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// FocusLost submits what was changed.
func (e *entry) FocusLost() {
	e.Entry.FocusLost()
	e.say(false)
	e.tells("")
	if e.Text != e.was {
		e.done(e.Text)
	}
}

// set shows another value unless something is being typed; what could not be
// read gives way to it.
func (e *entry) set(value string) {
	if value == e.was || e.unkept() && !e.unread {
		return
	}
	e.was, e.unread = value, false
	e.SetText(value)
	e.roll()
}

package window

import (
	"fmt"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// fileKind is a kind of file by its endings; without any, every file.
type fileKind struct {
	word    string
	endings []string
}

// fileAsk is what a page for files asks.
type fileAsk struct {
	title  string
	act    string // the word that does it
	saving bool
	name   string // offered, when saving
	kinds  []fileKind
	// take uses the path that was chosen and tells how that went; with nil the
	// page closes, and otherwise says what is wrong and stays.
	take func(path string, told func(error))
}

// filePage lets a file be chosen: a folder's content in a list, worked from
// the field in which a name is typed, which keeps the keys.
type filePage struct {
	fileAsk
	w     *Window
	sheet *sheet
	dir   string
	all   []found // in the folder
	shown []found // those of the kind that are meant by what is typed
	at    int     // which of these is chosen; −1 for none
	kind  int
	turn  int // of the reading whose outcome is shown
	came  time.Time

	width  float32
	folder *entry
	name   *nameField
	list   *fyne.Container
	scroll *container.Scroll
	wrong  *fyne.Container
	sorts  *fyne.Container
}

const (
	rowsMost   = 120 // of a folder that are shown at once
	rowTall    = 30
	placesWide = 190
	labelWide  = 68
	rowsApart  = 16 // of the rows of a page
	wrongTall  = 56 // two lines and the gap above them, which the places leave free
)

// filePage opens a page for files over whatever is open.
func (w *Window) filePage(ask fileAsk) *filePage {
	room := w.win.Canvas().Size()
	p := &filePage{fileAsk: ask, w: w, at: -1, width: min(880, max(room.Width-96, 480))}
	ink := w.palette
	p.folder = newEntry("", 200, func(s string, changed bool) {
		if changed {
			p.enter(whole(p.dir, s))
		}
		w.win.Canvas().Focus(p.name)
	}, w.backOut)
	p.folder.Scroll = container.ScrollHorizontalOnly
	p.name = newNameField(p)
	p.list = container.New(stack{})
	p.scroll = container.NewVScroll(p.list)
	tall := func() float32 { return min(max(w.win.Canvas().Size().Height-380, 150), 540) }
	list := func() float32 { // gives way to what is wrong, so that nothing else moves
		if !p.wrong.Visible() {
			return tall()
		}
		return max(tall()-up(p.wrong.MinSize().Height)-rowsApart, 2*rowTall)
	}
	paper := canvas.NewRectangle(ink.Raised)
	paper.CornerRadius, paper.StrokeWidth, paper.StrokeColor = 5, 1, ink.Line
	p.wrong = container.New(stack{})
	p.sorts = container.New(line{gap: 6})
	word := func(s string) fyne.CanvasObject { return text(s, normal, false, ink.Faint) }
	what, hint := "Find", "Part of the name. ↑ ↓ choose, Enter opens; empty, Backspace goes up."
	if ask.saving {
		what, hint = "Name", "A folder may stand before it: autumn/tern. ↑ ↓ choose from the list."
	}
	acts := container.New(line{}, w.button(ask.act, true, p.enough))
	rows := []fyne.CanvasObject{
		container.New(columns{labelWide}, word("Folder"), p.folder),
		container.New(besidePlaces{}, p.places(tall()-wrongTall), container.New(roomy{func() fyne.Size { return fyne.NewSize(p.width-placesWide-16, list()) }}, paper, p.scroll)),
		p.wrong,
		container.New(columns{labelWide}, word(what), p.name),
	}
	p.wrong.Hide()
	if len(ask.kinds) > 1 {
		rows = append(rows, container.New(columns{labelWide}, word("Kind"), p.sorts))
		p.layKinds()
	}
	rows = append(rows, container.New(ends{}, acts, text(shortened(hint, p.width-acts.MinSize().Width-16, small), small, false, ink.Faint)))
	p.sheet = w.overSheet(ask.title, p.width, rows...)
	if ask.saving {
		p.name.put(ask.name)
	}
	p.enter(w.startFolder())
	w.win.Canvas().Focus(p.name)
	p.name.TypedShortcut(&fyne.ShortcutSelectAll{})
	return p
}

// startFolder is where a page for files begins.
func (w *Window) startFolder() string {
	if path := w.desk.Path(); path != "" {
		if abs, err := filepath.Abs(path); err == nil {
			return filepath.Dir(abs)
		}
	}
	dir := w.set.String(prefFolder)
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return dir
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return string(filepath.Separator)
}

// besidePlaces lays the places at the left and the list in what is left.
type besidePlaces struct{}

func (besidePlaces) Layout(o []fyne.CanvasObject, size fyne.Size) {
	lay(o[0], fyne.Position{}, fyne.NewSize(placesWide, size.Height))
	lay(o[1], fyne.NewPos(placesWide+16, 0), fyne.NewSize(size.Width-placesWide-16, size.Height))
}

func (besidePlaces) MinSize(o []fyne.CanvasObject) fyne.Size {
	m := o[1].MinSize()
	return fyne.NewSize(placesWide+16+m.Width, m.Height)
}

// places lists where people keep their things, and where she was last.
func (p *filePage) places(tall float32) fyne.CanvasObject {
	w := p.w
	box := container.New(stack{gap: 2})
	used := float32(0)
	add := func(o fyne.CanvasObject) {
		if h := up(o.MinSize().Height) + 2; used+h <= tall {
			used += h
			box.Add(o)
		}
	}
	link := func(sign, s string, do func()) {
		face := container.New(beside{}, icon(sign, w.palette.Faint, 16), text(shortened(s, placesWide-40, normal), normal, false, w.palette.Text))
		add(newTouch(w.palette, container.New(atWidth{placesWide - 12}, face), color.Transparent, 6, 4, do))
	}
	add(text("Places", small, true, w.palette.Faint))
	places := usualPlaces()
	for _, s := range places {
		link("envelope", s.word, func() { p.enter(s.path); w.win.Canvas().Focus(p.name) })
	}
	recent := w.set.StringList(prefRecent)
	var dirs []string
	for _, f := range recent {
		dir := filepath.Dir(f)
		if !slices.Contains(dirs, dir) && !slices.ContainsFunc(places, func(s spot) bool { return s.path == dir }) && len(dirs) < 4 {
			dirs = append(dirs, dir)
		}
	}
	if len(dirs) > 0 {
		add(gap(1, 6))
		add(text("Lately", small, true, w.palette.Faint))
	}
	for _, dir := range dirs {
		link("envelope", filepath.Base(dir), func() { p.enter(dir); w.win.Canvas().Focus(p.name) })
	}
	return box
}

func (p *filePage) layKinds() {
	p.w.renew(p.sorts, func() {
		for i, k := range p.kinds {
			fill, ink := color.Color(p.w.palette.Raised), p.w.palette.Text
			if i == p.kind {
				fill = p.w.palette.Soft
			}
			p.sorts.Add(newTouch(p.w.palette, text(k.word, normal, i == p.kind, ink), fill, 10, 4, func() { p.sort(i) }))
		}
	})
}

// sort shows files of another kind, or gives the name another ending.
func (p *filePage) sort(i int) {
	p.kind = i
	if p.saving && len(p.kinds[i].endings) > 0 {
		if now := p.name.Text; slices.Contains(p.endings(), strings.ToLower(filepath.Ext(now))) {
			p.name.put(strings.TrimSuffix(now, filepath.Ext(now)) + p.kinds[i].endings[0])
		}
	}
	p.layKinds()
	p.sift()
}

// endings are those of all kinds.
func (p *filePage) endings() (all []string) {
	for _, k := range p.kinds {
		all = append(all, k.endings...)
	}
	return all
}

// enter shows a folder, or says why that cannot be.
func (p *filePage) enter(dir string) {
	p.turn++
	turn := p.turn
	var all []found
	var err error
	p.w.away(func() { all, err = readFolder(dir) }, func() {
		if turn != p.turn || !p.sheet.open() {
			return
		}
		p.folder.was = p.dir // what was typed is answered
		if err != nil {
			p.say(err)
			p.folder.SetText(p.dir)
			return
		}
		p.dir, p.all, p.came = dir, all, time.Now()
		p.folder.was = dir
		p.folder.SetText(dir)
		if !p.saving {
			p.name.put("")
		}
		p.say(nil)
		p.sift()
	})
}

// sift shows what of the folder is meant.
func (p *filePage) sift() {
	typed := ""
	if !p.saving {
		typed = p.name.Text
	}
	p.shown = sieve(p.all, p.kinds[p.kind].endings, typed)
	p.at = -1
	if typed != "" && len(p.shown) > 0 && !strings.ContainsAny(typed, pathSigns) {
		p.at = max(slices.IndexFunc(p.shown, func(f found) bool { return !f.folder }), 0)
	}
	p.lay()
	p.scroll.ScrollToTop()
	p.reveal()
}

func (p *filePage) lay() {
	ink := p.w.palette
	var rows []fyne.CanvasObject
	for i, f := range p.shown[:min(len(p.shown), rowsMost)] {
		rows = append(rows, newFileRow(p, i, f))
	}
	told := ""
	switch more := len(p.shown) - rowsMost; {
	case more > 0:
		told = fmt.Sprintf("and %d more; type a part of the name to find one", more)
	case p.dir != "" && !slices.ContainsFunc(p.shown, func(f found) bool { return !f.folder }):
		told = "No file of this kind lies here."
		if !p.saving && p.name.Text != "" {
			told = fmt.Sprintf("No file of this kind here has %q in its name.", p.name.Text)
		}
	}
	if told != "" {
		rows = append(rows, container.New(inset{12, 6}, gap(0, 0), text(told, normal, false, ink.Faint)))
	}
	p.list.Objects = rows // laid out once, not at each row
	p.list.Refresh()
	p.scroll.Refresh()
}

// step chooses another row.
func (p *filePage) step(by int) {
	n := min(len(p.shown), rowsMost)
	if n == 0 {
		return
	}
	was := p.at
	if p.at < 0 && by < 0 {
		p.at = n
	}
	p.pick(min(max(p.at+by, 0), n-1), was)
}

func (p *filePage) pick(i, was int) {
	p.at = i
	for _, j := range []int{was, i} {
		if j >= 0 && j < len(p.list.Objects) {
			if r, ok := p.list.Objects[j].(*fileRow); ok {
				r.paint()
			}
		}
	}
	if f := p.shown[i]; p.saving && !f.folder {
		p.name.put(f.name)
	}
	p.say(nil)
	p.reveal()
}

// reveal rolls the list so that the chosen row is seen.
func (p *filePage) reveal() {
	if p.at < 0 {
		return
	}
	top, tall := float32(p.at)*rowTall, p.scroll.Size().Height
	if tall < rowTall {
		return
	}
	switch y := p.scroll.Offset.Y; {
	case top < y:
		p.scroll.ScrollToOffset(fyne.NewPos(0, top))
	case top+rowTall > y+tall:
		p.scroll.ScrollToOffset(fyne.NewPos(0, top+rowTall-tall))
	}
}

// say tells above the field what is wrong.
func (p *filePage) say(err error) {
	if err == nil && len(p.wrong.Objects) == 0 {
		return
	}
	p.wrong.RemoveAll()
	p.wrong.Hide()
	if err != nil {
		p.wrong.Show()
		said := para(sentence(err), p.width-labelWide, normal, false, p.w.palette.Poor)
		p.wrong.Add(container.New(columns{labelWide}, gap(0, 0), said))
	}
	p.sheet.fit()
}

// faceOf tells how a row looks: its sign, its name, and when it was changed.
func (p *filePage) faceOf(f found) (sign, name, when string) {
	switch {
	case f.name == above:
		return "up", "Folder above: " + filepath.Base(filepath.Dir(p.dir)), ""
	case f.folder:
		return "envelope", f.name, ""
	case strings.EqualFold(filepath.Ext(f.name), ending):
		return "pattern", f.name, changedWords(f.changed, time.Now())
	}
	return "sheet", f.name, changedWords(f.changed, time.Now())
}

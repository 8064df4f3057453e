package window

import (
	"fmt"
	"image"
	"image/color"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/app/desk"
	"truemat/geom"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/render"
)

// printing is a print that is looked at before it is saved.
type printing struct {
	w        *Window
	sheet    *sheet
	wide     float32
	paper    string
	overlap  string
	sizes    []string
	whole    bool
	border   bool // of the lace along lace edges
	laying   bool // it is being worked out
	wanted   bool // Enter was pressed meanwhile
	job      render.Print
	plan     render.Plan
	pages    *render.Pages
	page     int // shown, 0 for the map
	drawn    map[int]*image.RGBA
	drawing  bool                // a page is being drawn
	picture  *image.RGBA         // of all pages together
	state    *fyne.Container     // whether what is printed holds
	ways     []fyne.CanvasObject // lead to where that stands
	foot     *fyne.Container     // what leads from page to page, how many there are, and what saves them
	said     *canvas.Text
	view     *fyne.Container
	serial   int
	savePDF  *touch
	pageWord *canvas.Text
	keysWord fyne.CanvasObject // how to turn by keys, told beside the map
	large    func()            // shows what is shown larger, over the page; nil while it is not
}

// papers are those that are offered, by their words and as render reads them.
var papers = []struct{ words, paper string }{
	{"A4", "a4"}, {"Letter", "letter"}, {"A4 or letter, fits both", "both"}, {"A3", "a3"}, {"A0", "a0"},
}

// usualPaper is the place among papers of what was printed on last; else of what
// is sold where her unit is used.
func (w *Window) usualPaper() int {
	paper := w.set.String(prefPaper)
	if paper == "" && w.unit == unit.InchFractions {
		paper = "letter"
	}
	return max(slices.IndexFunc(papers, func(p struct{ words, paper string }) bool { return p.paper == paper }), 0)
}

// pictureDots are the pixels a mm of the pictures of a print; the greatest side
// of one is bounded by pictureMost pixels.
const (
	pictureDots = 4.0
	pictureMost = 2600.0
)

const printWide = 780

// usualOverlap is a strip in mm for glue that is a round number on her ruler.
func usualOverlap(u unit.System) float64 {
	if u == unit.InchFractions {
		return 3.0 / 8 * unit.Inch
	}
	return render.DefaultOverlap
}

// printPage shows how the pieces lie on pages, and saves them as a PDF.
func (w *Window) printPage() { w.openPrint() }

func (w *Window) openPrint() *printing {
	usual := w.usualPaper()
	run, kept := w.desk.Document().Source.Labels(), &w.printed
	p := &printing{w: w, wide: w.pageWide(printWide), paper: papers[usual].paper, overlap: kept.strip(w.unit), sizes: kept.chosen(run, w.desk.Size()), whole: !kept.halved, border: kept.border}
	label := func(s string) fyne.CanvasObject { return text(s, normal, false, w.palette.Faint) }
	var offered []string
	for _, o := range papers {
		offered = append(offered, o.words)
	}
	paper := newChoice(offered, offered[usual], func(s string) {
		p.paper = papers[slices.Index(offered, s)].paper
		w.set.SetString(prefPaper, p.paper)
		p.lay()
	})
	paper.enter = p.enter
	overlap := w.counting(newEntry(p.overlap, 96, func(s string, changed bool) {
		if changed {
			p.overlap = s
			if mm, err := w.read(s); err == nil {
				kept.overlap = &mm
			}
			p.lay()
		}
	}, w.backOut))
	overlap.OnSubmitted = func(s string) {
		taken := overlap.unkept()
		if overlap.done(s); !taken {
			p.enter()
		}
	}
	whole := newTick("pieces on the fold whole", p.whole, func(on bool) { p.whole, kept.halved = on, !on; p.lay() })
	sizes := container.New(line{wrap: p.wide})
	for _, l := range run {
		sizes.Add(newTick(l, slices.Contains(p.sizes, l), func(on bool) {
			chosen := map[string]bool{l: on}
			for _, s := range p.sizes {
				chosen[s] = s != l || on
			}
			p.sizes = slices.DeleteFunc(slices.Clone(run), func(s string) bool { return !chosen[s] })
			kept.sizes = p.sizes
			p.lay()
		}))
	}
	choices := container.New(line{gap: 8, wrap: p.wide},
		container.New(line{gap: 8}, label("Paper"), paper), container.New(line{gap: 8}, label("Overlap"), overlap), whole)
	if g := w.desk.Goods(); slices.ContainsFunc(g.Cloths, func(c cloth.Cloth) bool {
		return c.Lace != nil && len(g.OnLaceOf(c.Name, w.desk.Pattern()).Wishes) > 0
	}) {
		choices.Add(newTick("border of the lace", p.border, func(on bool) { p.border, kept.border = on, on; p.lay() }))
	}
	p.said = text("", normal, true, w.palette.Text)
	p.pageWord = text("Map of the pages", normal, false, w.palette.Text)
	p.keysWord = label("Page Down turns on")
	p.view = container.New(layered{})
	p.savePDF = w.button("Save as PDF…", true, p.save)
	back := w.button("‹", false, func() { p.turn(-1) })
	on := w.button("›", false, func() { p.turn(1) })
	frame := canvas.NewRectangle(w.palette.Raised)
	p.state = container.New(layered{})
	// What is pressed comes first and stays where it is, whatever the page is called.
	turn := container.New(line{gap: 8}, back, on, w.link("Larger  +", p.larger), p.pageWord, p.keysWord)
	low, beside := w.prompt.low(), float32(378)
	p.foot = container.New(stack{gap: 8}, p.said, container.New(ends{}, turn, p.savePDF))
	if low {
		beside = 256
		p.foot = container.New(stack{gap: 8}, container.New(ends{}, p.said, p.savePDF), turn)
	}
	picture := newTouch(w.palette, container.New(layered{}, frame, p.view), color.Transparent, 0, 0, p.larger)
	shown := container.New(roomy{func() fyne.Size { return fyne.NewSize(p.wide-20, max(w.win.Canvas().Size().Height-beside, 150)) }}, picture)
	state := container.New(layered{}, gap(p.wide, 44), p.state)
	parts := []fyne.CanvasObject{choices, sizes, shown, state, p.foot}
	if low { // what it is for comes first with what is wrong, and what is seldom chosen below it
		parts = []fyne.CanvasObject{p.foot, state, shown, choices, sizes}
	}
	p.sheet = w.openSheet("Print at true size", p.wide, parts...)
	p.sheet.larger = p.larger
	p.sheet.pages = p.turn
	p.sheet.enter = p.enter
	p.lay()
	w.win.Canvas().Focus(p.savePDF)
	return p
}

// lay works the print out, away from the window's own thread.
func (p *printing) lay() {
	w := p.w
	p.serial++
	p.laying, p.wanted = true, false
	p.savePDF.able(false)
	serial := p.serial
	change(p.said, "Laying the pieces on pages …")
	p.foot.Refresh()
	job := render.Print{Pattern: w.desk.Document().Source.Name, FoldWhole: p.whole, Units: w.unit}
	var err error
	if job.Paper, err = render.ParsePaper(p.paper); err == nil {
		job.Overlap, err = w.read(p.overlap)
	}
	if err == nil && len(p.sizes) == 0 {
		err = fmt.Errorf("no size is chosen; choose one at least")
	}
	if err != nil {
		p.done(serial, render.Print{}, laidOut{}, err)
		return
	}
	type laid struct {
		size    string
		pattern pattern.Pattern
	}
	byLabel := map[string]laid{}
	var printed []step.Result
	for _, r := range w.desk.Results() {
		label := r.Size.Label
		if !slices.Contains(p.sizes, label) {
			continue
		}
		size := label
		if r.Behind() {
			label += " (NOT ALL STEPS DONE)"
		}
		printed = append(printed, r)
		job.Sizes = append(job.Sizes, render.SizePieces{Label: label, Pieces: w.desk.Goods().Named(r.Size.Pattern.Pieces)})
		byLabel[label] = laid{size, r.Size.Pattern}
	}
	job.Altered, job.Date = render.AlterationOf(printed), render.Today()
	judge := w.desk.Doubts(p.sizes)
	goods, bordered := w.desk.Goods(), p.border
	var l laidOut
	w.away(func() {
		if bordered {
			job.Laces = map[string][]border.Plan{}
			for label, of := range byLabel {
				if job.Laces[label], err = border.All(goods, of.pattern, of.size); err != nil {
					err = fmt.Errorf("size %s: %w", of.size, err)
					return
				}
			}
		}
		doubts := judge()
		job.Doubts = &doubts.Doubts
		if l, err = layOut(job); err == nil {
			if l.doubts = doubts; w.dark {
				l.picture = dimmed(l.picture, w.palette)
			}
		}
	}, func() { p.done(serial, job, l, err) })
}

// laidOut is a print that was worked out.
type laidOut struct {
	plan    render.Plan
	pages   *render.Pages
	picture *image.RGBA
	doubts  desk.Doubts
}

func layOut(job render.Print) (l laidOut, err error) {
	if l.plan, err = render.PlanTiles(job); err == nil {
		l.pages, err = render.NewPages(job, l.plan)
	}
	if err == nil {
		box := l.pages.Sheet()
		l.picture, err = l.pages.Map(dots(box.Width(), box.Height()))
	}
	return l, err
}

func dots(width, height float64) float64 {
	return min(pictureDots, pictureMost/max(width, height))
}

func (p *printing) done(serial int, job render.Print, l laidOut, err error) {
	if serial != p.serial || !p.sheet.open() {
		return
	}
	w, wanted := p.w, p.wanted
	p.laying, p.wanted = false, false
	p.job, p.plan, p.pages, p.picture, p.page = job, l.plan, l.pages, l.picture, 0
	p.drawn = map[int]*image.RGBA{}
	p.savePDF.able(err == nil)
	told := ""
	if err == nil {
		told = fmt.Sprintf("%d pages of %s, %s", p.plan.Pages(), p.plan.Paper.Name, gridWords(p.plan))
		if p.plan.Covers > 0 {
			told = fmt.Sprintf("%d + %d pages of %s, %s", p.plan.Covers, len(p.plan.Tiles), p.plan.Paper.Name, gridWords(p.plan))
		}
		if len(p.plan.Tiles) > 1 && p.plan.Glued() == 0 {
			told += ", nothing to glue"
		}
	}
	change(p.said, told)
	p.show()
	p.foot.Refresh()
	p.state.RemoveAll()
	p.ways = nil
	if err != nil {
		p.tell("broken", w.palette.Poor, sentence(err))
	} else {
		p.judge(l.doubts)
	}
	p.state.Refresh()
	if wanted && w.sheet == p.sheet {
		p.enter()
	}
}

// gridWords says how the pages with pieces are laid out when they are glued.
func gridWords(plan render.Plan) string {
	return counted(plan.Rows, "row", "rows") + " × " + counted(plan.Cols, "column", "columns")
}

// pixels returns where an area of the sheet lies in its picture.
func (p *printing) pixels(a geom.Box) image.Rectangle {
	box := p.pages.Sheet()
	k := dots(box.Width(), box.Height())
	x := func(v float64) int { return int((v - box.Min.X) * k) }
	y := func(v float64) int { return int((box.Max.Y - v) * k) }
	return image.Rect(x(a.Min.X), y(a.Max.Y), x(a.Max.X), y(a.Min.Y)).Intersect(p.picture.Bounds())
}

// turned reports whether the map is shown turned by a quarter, since it is so
// much higher than wide that little of it would be seen upright.
func (p *printing) turned() bool { return 2*p.picture.Bounds().Dy() > 3*p.picture.Bounds().Dx() }

// quarter turns a picture so that its upper end is at the left.
func quarter(img *image.RGBA) *image.RGBA {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	out := image.NewRGBA(image.Rect(0, 0, h, w))
	for y := range h {
		for x := range w {
			out.SetRGBA(y, w-1-x, img.RGBAAt(x, y))
		}
	}
	return out
}

// mapMarks are the frame and number of each page.
func (p *printing) mapMarks() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, t := range p.plan.Tiles {
		ink := p.w.palette.Accent
		r := canvas.NewRectangle(faded(ink, 0x0c))
		r.StrokeColor, r.StrokeWidth = faded(ink, 0xa0), 1
		out = append(out, r, text(strconv.Itoa(t.Number), normal, true, ink))
	}
	return out
}

// pageMap lays the frames of the pages over the picture of the sheet.
type pageMap struct{ p *printing }

func (m *pageMap) Layout(o []fyne.CanvasObject, size fyne.Size) {
	b, turned := m.p.picture.Bounds(), m.p.turned()
	if turned {
		b = image.Rect(0, 0, b.Dy(), b.Dx())
	}
	k := min(size.Width/float32(b.Dx()), size.Height/float32(b.Dy()))
	dx, dy := (size.Width-k*float32(b.Dx()))/2, (size.Height-k*float32(b.Dy()))/2
	for i := range m.p.plan.Tiles {
		r := m.p.pixels(m.p.plan.Printed(i))
		if turned {
			r = image.Rect(r.Min.Y, b.Dy()-r.Max.X, r.Max.Y, b.Dy()-r.Min.X)
		}
		at := fyne.NewPos(dx+k*float32(r.Min.X), dy+k*float32(r.Min.Y))
		o[2*i].Move(at)
		o[2*i].Resize(fyne.NewSize(k*float32(r.Dx()), k*float32(r.Dy())))
		o[2*i+1].Move(at.AddXY(6, 4))
		o[2*i+1].Resize(o[2*i+1].MinSize())
	}
}

func (m *pageMap) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// save asks where to and writes the PDF, away from the window's own thread.
func (p *printing) save() {
	if len(p.job.Sizes) == 0 {
		return
	}
	p.w.filePage(fileAsk{title: "Save the print", act: "Save", saving: true, name: p.stem() + ".pdf", kinds: []fileKind{{"Print (.pdf)", []string{".pdf"}}},
		take: func(path string, told func(error)) {
			told(nil)
			p.write(path)
		}})
}

// stem is the name of the file that is offered, which tells an altered pattern
// from the one that it came from.
func (p *printing) stem() string {
	stem := p.w.stem()
	if len(p.job.Altered.Pieces) > 0 && !strings.Contains(strings.ToLower(stem), "altered") {
		stem += " altered"
	}
	return stem
}

func (p *printing) write(path string) {
	job := p.job
	change(p.said, "Writing the pages … Escape calls it off.")
	var err error
	p.w.begin(func(t *task) {
		err = t.write(path, func(o io.Writer) error { return render.Tile(o, job) })
	}, func() {
		switch {
		case !p.sheet.open(): // left meanwhile
			if err != nil {
				p.w.complain(fmt.Errorf("%s was not written: %w", filepath.Base(path), err))
			}
			return
		case err == nil:
			change(p.said, filepath.Base(path)+" is written; measure its test squares before cutting")
		}
		p.sheet.say(err)
	})
}

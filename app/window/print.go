package window

import (
	"fmt"
	"image"
	"io"
	"path/filepath"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"truemat/geom"
	"truemat/ops/unit"
	"truemat/render"
)

// printing is a print that is looked at before it is saved.
type printing struct {
	w        *Window
	sheet    *sheet
	paper    string
	overlap  string
	sizes    []string
	whole    bool
	job      render.Print
	plan     render.Plan
	page     int // shown, 0 for the map
	picture  *image.RGBA
	said     *canvas.Text
	view     *fyne.Container
	serial   int
	savePDF  *touch
	pageWord *canvas.Text
}

var papers = []string{"a4", "letter", "both", "a3", "a0"}

// pictureDots is the resolution of the pictures of a print; the greatest side
// of a sheet is bounded by pictureMost pixels.
const (
	pictureDots = 60.0
	pictureMost = 2600.0
	pictureRim  = 10.0 // mm of white that render.Picture leaves around a scene
)

// printPage shows how the pieces lie on pages, and saves them as a PDF.
func (w *Window) printPage() {
	p := &printing{w: w, paper: papers[0], overlap: unit.Format(render.DefaultOverlap, w.unit), sizes: []string{w.desk.Size()}, whole: true}
	label := func(s string) fyne.CanvasObject { return text(s, normal, false, w.palette.Faint) }
	paper := newChoice(papers, p.paper, func(s string) { p.paper = s; p.lay() })
	overlap := newEntry(p.overlap, 96, func(s string, changed bool) {
		if changed {
			p.overlap = s
			p.lay()
		}
	}, w.backOut)
	whole := widget.NewCheck("pieces on the fold whole", func(on bool) { p.whole = on; p.lay() })
	whole.Checked = p.whole
	sizes := widget.NewCheckGroup(w.desk.Document().Source.Labels(), nil)
	sizes.Horizontal = true
	sizes.Selected = slices.Clone(p.sizes)
	sizes.OnChanged = func(s []string) { p.sizes = s; p.lay() }
	p.said = text("", normal, true, w.palette.Text)
	p.pageWord = text("Map of the pages", normal, false, w.palette.Text)
	p.view = container.New(layered{})
	p.savePDF = w.button("Save as PDF…", true, p.save)
	back := w.button("‹", false, func() { p.turn(-1) })
	on := w.button("›", false, func() { p.turn(1) })
	frame := canvas.NewRectangle(w.palette.Raised)
	room := w.win.Canvas().Size()
	frame.SetMinSize(fyne.NewSize(760, max(room.Height-400, 240)))
	p.sheet = w.openSheet("Print at true size", 780,
		container.New(line{gap: 8}, label("Paper"), paper, label("Overlap"), overlap, whole),
		container.NewHScroll(sizes),
		container.New(layered{}, frame, p.view),
		container.New(ends{}, container.New(line{gap: 8}, back, on, p.pageWord), container.New(line{gap: 12}, p.said, p.savePDF)))
	p.lay()
}

// lay works the print out, away from the window's own thread.
func (p *printing) lay() {
	w := p.w
	p.serial++
	p.savePDF.able(false)
	serial := p.serial
	change(p.said, "Laying the pieces on pages …")
	job := render.Print{Pattern: w.desk.Document().Source.Name, FoldWhole: p.whole}
	var err error
	if job.Paper, err = render.ParsePaper(p.paper); err == nil {
		job.Overlap, err = unit.Parse(p.overlap)
	}
	if err == nil && len(p.sizes) == 0 {
		err = fmt.Errorf("no size is chosen; choose one at least")
	}
	if err != nil {
		p.done(serial, render.Print{}, render.Plan{}, nil, err)
		return
	}
	for _, r := range w.desk.Results() {
		label := r.Size.Label
		if !slices.Contains(p.sizes, label) {
			continue
		}
		if r.Behind() {
			label += " (behind: a step could not apply)"
		}
		job.Sizes = append(job.Sizes, render.SizePieces{Label: label, Pieces: r.Size.Pattern.Pieces})
	}
	var plan render.Plan
	var img *image.RGBA
	w.away(func() {
		if plan, err = render.PlanTiles(job); err == nil {
			img, err = picture(job, plan)
		}
	}, func() { p.done(serial, job, plan, img, err) })
}

// picture draws the whole sheet of a print, its first size alone.
func picture(job render.Print, plan render.Plan) (*image.RGBA, error) {
	scene := render.Scene{Box: sheetBox(plan)}
	for _, pl := range plan.Pieces {
		for _, pc := range job.Sizes[0].Pieces {
			if pc.Name != pl.Name {
				continue
			}
			s, err := render.PieceScene(pc, render.Options{Pattern: job.Pattern, Size: job.Sizes[0].Label, FoldWhole: job.FoldWhole})
			if err != nil {
				return nil, err
			}
			for _, l := range s.Layers {
				scene.Layers = append(scene.Layers, l.Transform(pl.Move))
			}
		}
	}
	return render.Picture(scene, dots(scene.Box))
}

func sheetBox(plan render.Plan) geom.Box {
	box := geom.NoBox()
	for _, t := range plan.Tiles {
		box = box.Union(t.Area)
	}
	return box
}

func dots(box geom.Box) float64 {
	most := max(box.Width(), box.Height()) + 2*pictureRim
	return min(pictureDots, pictureMost/most*25.4)
}

func (p *printing) done(serial int, job render.Print, plan render.Plan, img *image.RGBA, err error) {
	if serial != p.serial || !p.sheet.open() {
		return
	}
	p.job, p.plan, p.picture, p.page = job, plan, img, 0
	p.savePDF.able(err == nil)
	told := ""
	if err == nil {
		told = fmt.Sprintf("%d pages of %s, %d × %d tiles", plan.Pages(), plan.Paper.Name, plan.Cols, plan.Rows)
	}
	change(p.said, told)
	p.show()
	p.sheet.say(err)
}

// turn shows the next page, or the one before.
func (p *printing) turn(by int) {
	n := len(p.plan.Tiles) + 1
	p.page = (p.page + by + n) % n
	p.show()
}

func (p *printing) show() {
	p.view.RemoveAll()
	if p.picture == nil {
		p.view.Refresh()
		return
	}
	if p.page == 0 {
		change(p.pageWord, "Map of the pages")
		img := canvas.NewImageFromImage(p.picture)
		img.FillMode = canvas.ImageFillContain
		if p.plan.Cols == 1 && p.plan.Rows > 1 {
			p.view.Add(container.New(strips{p}, p.stripMarks()...))
		} else {
			p.view.Add(img)
			p.view.Add(container.New(&pageMap{p}, p.mapMarks()...))
		}
	} else {
		t := p.plan.Tiles[p.page-1]
		change(p.pageWord, fmt.Sprintf("Page %d, row %d, column %d", t.Number, t.Row+1, t.Col+1))
		img := canvas.NewImageFromImage(p.picture.SubImage(p.pixels(t.Area)))
		img.FillMode = canvas.ImageFillContain
		p.view.Add(img)
	}
	p.view.Refresh()
}

// pixels returns where an area of the sheet lies in its picture.
func (p *printing) pixels(a geom.Box) image.Rectangle {
	box := sheetBox(p.plan)
	k := dots(box) / 25.4
	x := func(v float64) int { return int((v - box.Min.X + pictureRim) * k) }
	y := func(v float64) int { return int((box.Max.Y - v + pictureRim) * k) }
	return image.Rect(x(a.Min.X), y(a.Max.Y), x(a.Max.X), y(a.Min.Y)).Intersect(p.picture.Bounds())
}

// mapMarks are the frame and number of each page.
func (p *printing) mapMarks() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, t := range p.plan.Tiles {
		r := canvas.NewRectangle(faded(p.w.palette.Accent, 0x0c))
		r.StrokeColor, r.StrokeWidth = faded(p.w.palette.Accent, 0xa0), 1
		out = append(out, r, text(strconv.Itoa(t.Number), normal, true, p.w.palette.Accent))
	}
	return out
}

// stripMarks are the picture, frame and number of each page of a strip.
func (p *printing) stripMarks() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	marks := p.mapMarks()
	for i, t := range p.plan.Tiles {
		img := canvas.NewImageFromImage(p.picture.SubImage(p.pixels(t.Area)))
		img.FillMode = canvas.ImageFillContain
		out = append(out, img, marks[2*i], marks[2*i+1])
	}
	return out
}

// strips lays the pages that stand one above the other side by side, where
// there is more room for them.
type strips struct{ p *printing }

func (s strips) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const between = 10
	n := float32(len(s.p.plan.Tiles))
	page := s.p.pixels(s.p.plan.Tiles[0].Area)
	k := min((size.Width-between*(n+1))/(n*float32(page.Dx())), (size.Height-2*between)/float32(page.Dy()))
	w, h := k*float32(page.Dx()), k*float32(page.Dy())
	x := (size.Width - n*w - (n-1)*between) / 2
	for i := 0; i < len(o); i += 3 {
		at := fyne.NewPos(down(x), down((size.Height-h)/2))
		for _, c := range o[i : i+2] {
			c.Move(at)
			c.Resize(fyne.NewSize(w, h))
		}
		o[i+2].Move(at.AddXY(6, 4))
		o[i+2].Resize(o[i+2].MinSize())
		x += w + between
	}
}

func (strips) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// pageMap lays the frames of the pages over the picture of the sheet.
type pageMap struct{ p *printing }

func (m *pageMap) Layout(o []fyne.CanvasObject, size fyne.Size) {
	b := m.p.picture.Bounds()
	k := min(size.Width/float32(b.Dx()), size.Height/float32(b.Dy()))
	dx, dy := (size.Width-k*float32(b.Dx()))/2, (size.Height-k*float32(b.Dy()))/2
	for i, t := range m.p.plan.Tiles {
		r := m.p.pixels(t.Area)
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
	p.w.filePage(fileAsk{title: "Save the print", act: "Save", saving: true, name: p.w.stem() + ".pdf", kinds: []fileKind{{"Print (.pdf)", []string{".pdf"}}},
		take: func(path string, told func(error)) {
			told(nil)
			p.write(path)
		}})
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

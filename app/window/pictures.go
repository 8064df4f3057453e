package window

import (
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"truemat/app/desk"
	"truemat/app/lesson"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
	"truemat/render"
)

// Scene is a state of the window that a picture is made of.
type Scene struct {
	Name          string
	width, height float32 // units
	scale         float32 // pixels to a unit
	dark          bool
	unit          unit.System
	steps         int // of the demo's recipe that are done
	act           func(*sitting) error
}

// pictured is the size of the demo that is shown.
const pictured = "75C"

// Scenes returns the states of the window that show what it is, each brought
// about by pointer and keys.
func Scenes() []Scene {
	all := 1000
	scenes := []Scene{
		{Name: "first-start", act: (*sitting).firstStart},
		{Name: "turning", steps: 5, act: (*sitting).turning},
		{Name: "taping", steps: 6, act: (*sitting).taping},
		{Name: "smoothing", steps: 8, act: (*sitting).smoothing},
		{Name: "spreading", act: (*sitting).spreading},
		{Name: "reshaping", act: (*sitting).reshaping},
		{Name: "walking", steps: 14, act: (*sitting).walking},
		{Name: "cutting-off", steps: 14, act: (*sitting).cuttingOff},
		{Name: "splitting", act: (*sitting).splitting, width: 1920, height: 1080},
		{Name: "checks", steps: all, act: (*sitting).checks},
		{Name: "steps-upset", steps: all, act: (*sitting).stepsUpset},
		{Name: "sizes", act: (*sitting).sizes},
		{Name: "size-table", steps: all, act: (*sitting).sizeTable},
		{Name: "steps-taken", act: (*sitting).stepsTaken},
		{Name: "second-lesson", act: (*sitting).secondLesson},
		{Name: "fit", steps: all, act: (*sitting).fit},
		{Name: "number", steps: all, act: (*sitting).number},
		{Name: "print", steps: all, act: (*sitting).print},
		{Name: "dark", dark: true, steps: 5, act: (*sitting).turning},
		{Name: "inches", unit: unit.InchFractions, steps: all, act: (*sitting).choosing},
		{Name: "scale-2", scale: 2, steps: 6, act: (*sitting).taping},
		{Name: "wide", width: 1920, height: 1080, steps: 8, act: (*sitting).smoothing},
	}
	for i := range scenes {
		s := &scenes[i]
		if s.width == 0 {
			s.width, s.height = 1280, 800
		}
		if s.scale == 0 {
			s.scale = 1
		}
	}
	return scenes
}

// Pictures draws every scene without a display and writes it to a PNG of its
// name in the folder; told is called with each file written. The function
// newApp gives an application of the toolkit that needs no display.
func Pictures(newApp func() fyne.App, folder string, told func(path string)) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, s := range Scenes() {
		img, err := s.Picture(newApp)
		if err != nil {
			return fmt.Errorf("the picture %q: %w", s.Name, err)
		}
		path := filepath.Join(folder, s.Name+".png")
		if err := store.WriteFile(path, func(w io.Writer) error {
			return (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(w, img)
		}); err != nil {
			return err
		}
		told(path)
	}
	return nil
}

// Picture draws the scene with an application that newApp gives.
func (s Scene) Picture(newApp func() fyne.App) (img image.Image, err error) {
	done := make(chan struct{})
	go func() { // the program's first thread is kept by the toolkit for a display
		defer close(done)
		img, err = s.draw(newApp())
	}()
	<-done
	return img, err
}

func (s Scene) draw(a fyne.App) (image.Image, error) {
	quiet := &quietApp{App: a}
	quiet.driver = quietDriver{a.Driver(), make(chan func(), 16)}
	fyne.SetCurrentApp(quiet)
	a.Preferences().SetBool(prefDark, s.dark)
	if s.unit != "" {
		a.Preferences().SetString(prefUnit, string(s.unit))
	}
	run, err := demo.Tern()
	if err != nil {
		return nil, err
	}
	recipe := demo.TernInLace()
	doc := store.Document{Source: run, Recipe: recipe[:min(s.steps, len(recipe))]}
	d, err := desk.New(doc, "")
	if err != nil {
		return nil, err
	}
	if err := d.SetSize(pictured); err != nil {
		return nil, err
	}
	w := New(quiet, d)
	if c, ok := w.win.Canvas().(interface{ SetScale(float32) }); ok {
		c.SetScale(s.scale)
	}
	w.win.Resize(fyne.NewSize(s.width, s.height))
	w.win.Show()
	w.focusMat()
	w.mat.Fit()
	w.refresh()
	if err := s.act(&sitting{w, quiet.driver.queue}); err != nil {
		return nil, err
	}
	w.win.Canvas().Capture() // paragraphs and lists find their sizes while they are drawn
	return w.win.Canvas().Capture(), nil
}

// quietApp and quietDriver keep what other threads ask the window to do until
// the one that draws comes to it, as a display would.
type quietApp struct {
	fyne.App
	driver quietDriver
}

func (a *quietApp) Driver() fyne.Driver { return a.driver }

type quietDriver struct {
	fyne.Driver
	queue chan func()
}

func (d quietDriver) DoFromGoroutine(f func(), wait bool) {
	if !wait {
		d.queue <- f
		return
	}
	done := make(chan struct{})
	d.queue <- func() { f(); close(done) }
	<-done
}

// sitting is a window that sits for its picture.
type sitting struct {
	*Window
	queue chan func()
}

// take presses a tool of the tray.
func (s *sitting) take(name string) error {
	for i, t := range s.tools {
		if t.Name() == name {
			if b := s.inTray[key(name)]; b != nil {
				b.Tapped(&fyne.PointEvent{})
			} else {
				s.choose(i) // by its letter
			}
			return nil
		}
	}
	return fmt.Errorf("there is no tool %q", name)
}

func (s *sitting) mouse(at geom.Point) *desktop.MouseEvent {
	p := s.mat.Camera().ToScreen(at)
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: p, AbsolutePosition: p}, Button: desktop.MouseButtonPrimary}
}

func (s *sitting) press(at geom.Point) { s.mat.MouseDown(s.mouse(at)) }

func (s *sitting) drag(at geom.Point) {
	s.mat.Dragged(&fyne.DragEvent{PointEvent: s.mouse(at).PointEvent})
	for s.pending { // a drag is shown when there is time for it
		(<-s.queue)()
	}
}

func (s *sitting) click(at ...geom.Point) {
	for _, q := range at {
		s.press(q)
		s.mat.MouseUp(s.mouse(q))
	}
}

// spots finds spots of the pattern on the mat.
func (s *sitting) spots(spots ...pattern.Spot) ([]geom.Point, error) {
	out := make([]geom.Point, len(spots))
	for i, sp := range spots {
		at, err := s.desk.Pattern().Find(sp)
		if err != nil {
			return nil, err
		}
		out[i] = at.Mat
	}
	return out, nil
}

func along(piece, edge string, share float64) pattern.Spot {
	return pattern.Spot{Piece: piece, Edge: edge, Along: pattern.Along{Share: share}}
}

// near fits the mat to pieces that are spoken of.
func (s *sitting) near(pieces ...string) {
	p, box := s.desk.Pattern(), geom.NoBox()
	for _, name := range pieces {
		if pc := p.Piece(name); pc != nil {
			for i := range pc.Edges {
				box = box.Union(pc.Edges[i].Path.Transform(pc.Pose).Bounds())
			}
		}
	}
	s.mat.FitBox(box.Grow(around))
}

func (s *sitting) firstStart() error {
	s.startLesson()
	return nil
}

// turning has the cradle pinned and turned half the way.
func (s *sitting) turning() error {
	if err := s.take("pin"); err != nil {
		return err
	}
	s.near("bridge", "cradle")
	at, err := s.spots(pattern.AtEnd("cradle", "bridge seam", pattern.Start), pattern.AtEnd("cradle", "hem", pattern.End))
	if err != nil {
		return err
	}
	s.click(at[0])
	s.press(at[1])
	for _, deg := range []geom.Angle{-1, -3, -4.5} {
		s.drag(geom.Turn(deg*geom.Degree, at[0]).Apply(at[1]))
	}
	return nil
}

// taping has both edges chosen and waits to be accepted.
func (s *sitting) taping() error {
	if err := s.take("tape"); err != nil {
		return err
	}
	s.near("bridge", "cradle")
	at, err := s.spots(along("bridge", "cradle seam", 0.1), along("cradle", "bridge seam", 0.6))
	if err != nil {
		return err
	}
	s.click(at...)
	return nil
}

// smoothing has a handle of the kink in the wire line in the hand.
func (s *sitting) smoothing() error {
	if err := s.take("smooth"); err != nil {
		return err
	}
	s.near("frame")
	_, wire := s.desk.Pattern().Edge("frame", "wire")
	if wire == nil {
		return fmt.Errorf("the frame has no wire line")
	}
	kinks := wire.Path.Corners(pattern.SmoothTurn)
	if len(kinks) == 0 {
		return fmt.Errorf("the wire line has no kink")
	}
	l := wire.Length()
	spot := func(mm float64) pattern.Spot { return along("frame", "wire", (kinks[0]-mm)/l) }
	at, err := s.spots(spot(0), spot(25), spot(30), spot(0.16*l))
	if err != nil {
		return err
	}
	s.click(at[0])
	s.press(at[1])
	s.drag(at[2])
	s.drag(at[3])
	return nil
}

// walking rolls the inner cup along the outer ones to its notch, and drops the
// one that they lack there.
func (s *sitting) walking() error {
	if err := s.take("walk"); err != nil {
		return err
	}
	s.near("inner cup", "upper outer cup", "lower outer cup")
	at, err := s.spots(along("inner cup", "vertical seam", 0.5))
	if err != nil {
		return err
	}
	s.click(at[0])
	notch, err := s.desk.Pattern().Find(pattern.AtNotch("inner cup", "above apex"))
	if err != nil {
		return err
	}
	s.prompt.set("walked", unit.Format(notch.S, unit.Millimetres))
	s.key(&fyne.KeyEvent{Name: fyne.KeySpace})
	return nil
}

// cuttingOff has the neckline of the inner cup cut straight, and shows what
// becomes of the outer cup.
func (s *sitting) cuttingOff() error {
	if err := s.take("shears"); err != nil {
		return err
	}
	s.near("inner cup", "upper outer cup")
	at, err := s.spots(pattern.AtEnd("inner cup", "wire", pattern.Start), pattern.AtNotch("inner cup", "above apex"))
	if err != nil {
		return err
	}
	s.click(at...)
	return nil
}

// splitting has the upper outer cup split along a curve that is held by its
// middle.
func (s *sitting) splitting() error {
	if err := s.take("split"); err != nil {
		return err
	}
	s.near("upper outer cup")
	at, err := s.spots(along("upper outer cup", "cross seam", 0.5), along("upper outer cup", "neckline", 0.5))
	if err != nil {
		return err
	}
	s.click(at...)
	middle := at[0].Lerp(at[1], 0.5)
	s.press(middle)
	s.drag(middle.Add(at[1].Sub(at[0]).Perp().Mul(-0.06)))
	return nil
}

// checks leaves the sharing out undone, and goes to the place of the check
// that is broken thereby.
func (s *sitting) checks() error {
	if err := s.desk.Switch("share-out", true); err != nil {
		return err
	}
	for _, c := range s.column.checks {
		if c.Verdict == check.Broken {
			s.column.goTo(c)
			return nil
		}
	}
	return fmt.Errorf("no check is broken")
}

// stepsUpset leaves the taping out, which those after it need, and rolls the
// column to the steps.
func (s *sitting) stepsUpset() error {
	if err := s.desk.Switch("tape", true); err != nil {
		return err
	}
	s.column.open = "tape"
	s.refresh()
	s.roll("Steps", 0)
	return nil
}

// sizes shows the run beneath a piece, all of it laid on the edge that is selected.
func (s *sitting) sizes() error {
	s.setNesting(everySize)
	s.near("inner cup", "lower outer cup", "upper outer cup")
	at, err := s.spots(along("inner cup", "vertical seam", 0.4))
	if err != nil {
		return err
	}
	s.click(at...)
	end := pattern.AtEnd("inner cup", "vertical seam", pattern.End)
	s.nestOn = map[string]render.Common{"inner cup": {At: pattern.AtEnd("inner cup", "vertical seam", pattern.Start), Along: &end}}
	s.refresh()
	return nil
}

// sizeTable compares the sizes, one of which a step was meant for alone.
func (s *sitting) sizeTable() error {
	if err := s.desk.SetSizes("true-underarm", pictured); err != nil {
		return err
	}
	s.sizesPage()
	return nil
}

// secondLesson is at its third act.
func (s *sitting) secondLesson() error {
	s.startOn(lesson.Second())
	for range 2 {
		if err := s.lesson.Do(); err != nil {
			return err
		}
	}
	s.refresh()
	s.near("inner cup", "upper outer cup")
	return nil
}

// fit states wires and measures.
func (s *sitting) fit() error {
	s.fitPage()
	return nil
}

// stepsTaken fits the demo's steps to it as if they came from a pattern that
// calls the cradle a shell.
func (s *sitting) stepsTaken() error {
	steps := demo.TernInLace()
	for i := range steps {
		e, err := steps[i].Clone()
		if err != nil {
			return err
		}
		for _, m := range e.Mentions() {
			if m.Kind == step.NamePiece && m.Name.Name == "cradle" {
				m.Set("shell")
			}
		}
		steps[i] = e
	}
	s.stepsPage("lace.json", steps)
	return nil
}

// number has a number of an early step drawn along, of which each size has its
// own.
func (s *sitting) number() error {
	s.near("frame", "band")
	s.desk.SetOnly(true)
	s.column.open = "share-out"
	s.column.ways["share-out\x00amount"] = true
	r := s.desk.Document().Recipe
	i := r.Index("share-out")
	if i < 0 {
		return fmt.Errorf("nothing is shared out")
	}
	n := step.NumbersOf(r[i].Step)[0]
	next, err := r[i].WithNumber(n.Path, step.PerSize(s.column.everySize(n.Number, 0)))
	if err != nil {
		return err
	}
	if err := s.desk.Replace(next); err != nil {
		return err
	}
	s.roll("Steps", 11)
	for _, f := range reachable(s.column.list) {
		if d, ok := f.(*dial); ok {
			s.win.Canvas().Focus(d)
			for range 4 {
				d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
			}
			s.show()
			return nil
		}
	}
	return fmt.Errorf("the step has no number")
}

// roll brings the nth row after a heading of the column to its top.
func (s *sitting) roll(heading string, row int) {
	for i, o := range s.column.list.Objects {
		if t, ok := o.(*canvas.Text); ok && t.Text == heading {
			s.column.scroll.ScrollToOffset(s.column.list.Objects[i+row].Position())
		}
	}
}

// choosing has an edge of the frame selected.
func (s *sitting) choosing() error {
	at, err := s.spots(along("frame", "wire", 0.4))
	if err != nil {
		return err
	}
	s.click(at...)
	return nil
}

// print looks at the map of the pages.
func (s *sitting) print() error {
	s.printPage()
	return nil
}

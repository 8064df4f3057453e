package window

import (
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"truemat/app/desk"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// Scene is a state of the window that a picture is made of.
type Scene struct {
	Name          string
	width, height float32 // units
	scale         float32 // pixels to a unit
	dark          bool
	unit          unit.System
	steps         int // of the demo's recipe that are done
	size          string
	act           func(*sitting) error
}

// Sizes of the demo that are shown: that in which a first start opens it, and
// one from the middle of the run.
const (
	opened   = "65C"
	pictured = "75C"
)

// Scenes returns the states of the window that show what it is, each brought
// about by pointer and keys.
func Scenes() []Scene {
	all := 1000
	scenes := []Scene{
		{Name: "first-start", size: opened, act: (*sitting).firstStart},
		{Name: "turning", steps: 5, act: (*sitting).turning},
		{Name: "taping", steps: 6, act: (*sitting).taping},
		{Name: "smoothing", steps: 8, act: (*sitting).smoothing},
		{Name: "spreading", act: (*sitting).spreading},
		{Name: "reshaping", act: (*sitting).reshaping},
		{Name: "walking", steps: 13, act: (*sitting).walking},
		{Name: "cutting-off", steps: 13, act: (*sitting).cuttingOff},
		{Name: "splitting", act: (*sitting).splitting, width: 1920, height: 1080},
		{Name: "checks", steps: all, act: (*sitting).checks},
		{Name: "steps-upset", steps: all, act: (*sitting).stepsUpset},
		{Name: "sizes", act: (*sitting).sizes},
		{Name: "size-table", steps: all, act: (*sitting).sizeTable},
		{Name: "steps-taken", act: (*sitting).stepsTaken},
		{Name: "second-lesson", act: (*sitting).secondLesson},
		{Name: "fit", steps: all, act: (*sitting).fit},
		{Name: "cloth", steps: all, act: (*sitting).cloth},
		{Name: "cloth-lace", steps: all, act: (*sitting).clothLace},
		{Name: "cloth-wrong", steps: all, dark: true, act: (*sitting).clothWrong},
		{Name: "cloth-layers", steps: all, act: (*sitting).clothLayers},
		{Name: "cloth-suits", steps: all, act: (*sitting).clothSuits},
		{Name: "cloth-buy", steps: all, act: (*sitting).clothBuy},
		{Name: "cloth-elastic", steps: all, act: (*sitting).clothElastic},
		{Name: "cloth-notions", steps: all, unit: unit.InchFractions, act: (*sitting).clothNotions},
		{Name: "cloth-sewing", steps: all, act: (*sitting).clothSewing},
		{Name: "cloth-sheet", steps: all, act: (*sitting).clothSheet},
		{Name: "plan-lace", steps: all, act: (*sitting).planLace},
		{Name: "plan-over", steps: all, dark: true, act: (*sitting).planOver},
		{Name: "plan-cloth", steps: all, act: (*sitting).planCloth},
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
		if s.size == "" {
			s.size = pictured
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
	w, err := s.sit(a)
	if err != nil {
		return nil, err
	}
	return w.win.Canvas().Capture(), nil
}

// sit brings the window into the state of the scene.
func (s Scene) sit(a fyne.App) (*Window, error) {
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
	if err := d.SetSize(s.size); err != nil {
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
	if err := s.act(&sitting{w}); err != nil {
		return nil, err
	}
	w.win.Canvas().Capture() // paragraphs and lists find their sizes while they are drawn
	return w, nil
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
type sitting struct{ *Window }

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

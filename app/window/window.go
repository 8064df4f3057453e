// Package window is Truemat's window: the mat fills it, the maker's tools lie
// in a tray along the near edge, and a narrow column tells what is selected,
// what must hold and which steps were taken.
package window

import (
	"errors"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/app/desk"
	"truemat/app/lesson"
	"truemat/app/look"
	"truemat/app/mat"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/store"
	"truemat/ops/unit"
	"truemat/render"
)

// Window is the one window of the program.
type Window struct {
	app      fyne.App
	set      Settings
	win      fyne.Window
	desk     *desk.Desk
	mat      *mat.Mat
	later    bool   // a file is opened once the window is shown
	lastFile string // the file worked on last, while it is offered
	taken    string // what is told that a fraction is taken for
	tools    []tool.Tool
	active   int
	unit     unit.System
	palette  look.Palette
	dark     bool
	nested   nesting                  // which other sizes are shown
	nestOn   map[string]render.Common // what of a piece the other sizes lie on

	tray      *fyne.Container
	inTray    map[string]*touch // the tools that show in the tray, by their words
	opened    string            // the group of the tray that was opened last
	toolLeast float32           // width of a tool in the tray, or more
	trayLaid  string            // for what the tray was laid
	prompt    *prompt
	column    *column
	keysSheet *sheet // the page of the keys, open or not
	sheet     *sheet
	menus     menus
	cloths    *clothPage // as it was opened last, or nil
	clothAt   int        // the part of it that was seen last
	plans     *clothPlans
	printed   printKept

	library    string                // the file of the maker's own cloths, "" for none
	described  string                // the cloth whose form shows
	describing map[string]*clothForm // what is typed and not kept, by the name in the document
	elastic    string                // the elastic whose form shows
	elastics   map[string]*elasticForm
	noting     *notionsForm // nil until it is looked at
	sewing     sewing       // what its part of sewing remembers
	telling    telling      // what its part of the sheet does
	body       *fyne.Container

	lesson  *lesson.Watcher // nil when none is on
	byKeys  bool            // the lesson tells how its acts go by keys
	player  *lesson.Player  // the same
	paused  *lesson.Watcher // while the player is on
	done    deed            // what was done for her in the lesson
	ringed  []geom.Point    // places on the mat that are rung
	ringing time.Time       // since when
	ringOn  bool            // the next picture of the rings is on its way
	journal *journal        // nil when none is kept

	room      fyne.Size // of the window, for which the line above the tray was cut
	shown     preview
	larger    string        // the pieces of the preview for which the view was last fitted again
	keeping   bool          // steps are being added to the recipe
	rehearsal *rehearsal    // of an edit, or nil
	elsewhere elsewhere     // what it or the proposal would do in other sizes
	cost      time.Duration // what that took
	before    time.Duration // what the time before took
	pending   bool
	beat      *beat
	held      bool  // the button is down on the mat
	rolling   bool  // a tool goes on by itself
	task      *task // under way, for Escape to call off
	running   bool  // on a display, where long work must not hold up the window
	saves     saves
}

// Keys of the preferences.
const (
	prefDark   = "dark"
	prefUnit   = "unit"
	prefFolded = "column folded"
	prefRecent = "recent"
	prefFolder = "folder"
	prefScale  = "pixels per mm"
	prefPaper  = "paper"
	prefSize   = "size of " // with the path of a document behind it
)

// table is the desk as tools see it, which write lengths in the maker's unit.
type table struct {
	*desk.Desk
	w *Window
}

// Unit returns the unit the maker reads.
func (t table) Unit() unit.System { return t.w.unit }

// Marked returns the places of the lesson's act while its tool is in the hand,
// else for truing those of the turn whose check was pressed last, in mm on the mat.
func (t table) Marked() []geom.Point {
	name := t.w.tool().Name()
	if t.w.lesson != nil {
		if act, more := t.w.lesson.Current(); more && act.Where != nil && act.Tool == name {
			return act.Where(t.w.desk.Pattern())
		}
	}
	if name == "true" {
		return t.w.column.turnShown()
	}
	return nil
}

// Settings are what the maker set, kept from one start to the next.
type Settings interface {
	Bool(key string) bool
	SetBool(key string, v bool)
	Float(key string) float64
	SetFloat(key string, v float64)
	Int(key string) int
	SetInt(key string, v int)
	String(key string) string
	StringWithFallback(key, other string) string
	SetString(key, v string)
	StringList(key string) []string
	SetStringList(key string, v []string)
}

// New returns the window of an application with the document on the desk, and
// the settings of the application.
func New(a fyne.App, d *desk.Desk) *Window { return NewWith(a, a.Preferences(), d) }

// NewWith is New with settings kept elsewhere: the toolkit's are not written
// whole, so that of two windows one may read the half that the other wrote.
func NewWith(a fyne.App, set Settings, d *desk.Desk) *Window {
	w := &Window{app: a, set: set, win: a.NewWindow("Truemat"), unit: unit.System(set.StringWithFallback(prefUnit, string(unit.Millimetres)))}
	w.dark = set.Bool(prefDark)
	w.palette = look.New(w.dark).Palette
	a.Settings().SetTheme(look.New(w.dark))
	w.mat = mat.New(w.pointer)
	w.mat.OnKey, w.mat.OnRune = w.key, w.rune
	w.mat.OnCamera = func(mat.Camera) {
		if now := w.win.Canvas().Size(); now != w.room && w.tray != nil {
			w.room = now
			w.layTray()
			w.prompt.refresh()
			w.resized()
		}
	}
	if s := set.Float(prefScale); s > 0 {
		w.mat.SetPixelsPerMM(s)
	}
	w.prompt, w.beat = &prompt{w: w}, newBeat(w.show)
	w.column = &column{w: w, folded: set.Bool(prefFolded)}
	w.put(d)
	w.build()
	w.win.SetPadded(false)
	w.win.Resize(w.left())
	w.win.SetOnDropped(w.dropped)
	w.win.SetCloseIntercept(w.quit)
	w.win.Canvas().SetOnTypedKey(w.key)
	w.win.Canvas().SetOnTypedRune(w.rune)
	w.shortcuts()
	return w
}

// Window returns the toolkit's window.
func (w *Window) Window() fyne.Window { return w.win }

// Show opens the window on the display; an error says why there is none.
func (w *Window) Show() error {
	w.win.Show()
	if failed(w.win) {
		return errors.New("the display has no OpenGL (GLX), which the window is drawn with")
	}
	return nil
}

// Run keeps the window, which was shown, until it is closed.
func (w *Window) Run() {
	w.win.Canvas().Focus(w.mat)
	w.mat.Fit()
	dir, err := store.JournalFolder()
	w.complain(err)
	if err == nil {
		w.startJournal(dir)
	}
	w.offerLast()
	if w.sheet == nil && !w.set.Bool(prefLesson) && lesson.Fits(w.desk.Source()) && w.desk.Path() == "" {
		w.startLesson()
	}
	if w.library, err = store.LibraryPath(); err != nil {
		w.complain(err)
	}
	w.complain(w.logFrames())
	w.running = true
	w.app.Run()
}

// put lays another document on the mat.
func (w *Window) put(d *desk.Desk) {
	w.asLeft(d)
	w.desk, w.lesson, w.player, w.paused, w.rehearsal, w.nestOn, w.lastFile = d, nil, nil, nil, nil, nil, ""
	w.described, w.describing = "", map[string]*clothForm{}
	w.elastic, w.elastics, w.noting = "", map[string]*elasticForm{}, nil
	w.plans, w.printed = nil, printKept{}
	w.nestAnew()
	w.tools = tool.All(table{d, w})
	w.active = min(w.active, len(w.tools)-1)
	w.prompt.say(nil) // it was of another document
	w.prompt.clear()
	w.prompt.forget()
	w.column.forget()
	d.OnChange(func() {
		if w.desk == d {
			w.rehearsal = nil // it was of another state
			w.column.wrong = nil
			w.prompt.stale()
			w.refresh()
		}
	})
	if w.journal != nil {
		d.Keep(w.journal)
	}
}

// replace puts another document in the place of the one there is.
func (w *Window) replace(d *desk.Desk) {
	w.put(d)
	w.menu()
	w.refresh()
	w.mat.Fit()
	w.focusMat()
}

// build makes everything around the mat anew, in the colours of the theme.
func (w *Window) build() {
	p := mat.Light()
	if w.dark {
		p = mat.Dark()
	}
	p.Accent, p.OnAccent = w.palette.Accent, w.palette.OnAccent
	w.mat.SetPalette(p)
	w.tray = container.New(line{gap: shelfGap})
	bottom := container.New(overMat{w.prompt}, canvas.NewRectangle(w.palette.Ground),
		container.New(stack{}, rule(w.palette.Line), w.prompt.build(), container.New(inset{0, 0}, gap(0, 0), container.New(middle{}, w.tray)), gap(0, 8)))
	w.body = container.New(shell{w}, container.NewClip(w.mat), bottom, w.column.build())
	w.win.SetContent(w.body)
	w.menu()
	w.refresh()
}

// refresh shows the desk as it is now.
func (w *Window) refresh() {
	if w.tray == nil {
		return
	}
	w.layTray()
	w.show()
	w.column.refresh()
	if w.cloths != nil {
		w.cloths.follow()
	}
	w.title()
	w.enable()
}

// title tells the name, the size shown where there are several, whose words may
// be rolled out of view, and whether there is work that would be lost.
func (w *Window) title() {
	name := w.desk.Document().Source.Name
	if p := w.desk.Path(); p != "" {
		name = strings.TrimSuffix(filepath.Base(p), filepath.Ext(p))
	}
	if len(w.desk.Document().Source.Sizes) > 1 {
		name += ", size " + w.desk.Size()
	}
	if w.desk.WorthKeeping() {
		name += " • unsaved"
	}
	w.win.SetTitle(name + " — Truemat")
}

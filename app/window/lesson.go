package window

import (
	"fmt"
	"math"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/lesson"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/unit"
)

const (
	prefLesson   = "lesson offered"
	prefLessonOn = "lesson on" // its title, for work that is taken up again
)

// lessonAgain goes on with the lesson that was on when the work was left, if the
// work is that of the lesson; else it is closed, and begins from the menu.
func (w *Window) lessonAgain() {
	title := w.set.String(prefLessonOn)
	for _, l := range lesson.Lessons() {
		if l.Title == title && lesson.Begun(w.desk, l) {
			w.startOn(l)
			return
		}
	}
	w.set.SetString(prefLessonOn, "")
}

// startLesson shows the first guided lesson at the head of the column.
func (w *Window) startLesson() { w.startOn(lesson.First()) }

// startOn shows a guided lesson at the head of the column.
func (w *Window) startOn(l lesson.Lesson) {
	if !lesson.Open(w.desk, l) {
		w.leave(func() {
			if w.newTern() {
				w.startOn(l)
			}
		})
		return
	}
	w.player, w.paused, w.done = nil, nil, deed{}
	w.column.open, w.column.bounds = "", "" // what was looked at before is no place of the lesson
	if w.desk.Looking() >= 0 {
		w.desk.Look(-1)
	}
	w.lesson = lesson.Follow(w.desk, l)
	// The lesson learns of a step after the window did.
	w.lesson.OnChange(w.turnToAct)
	w.set.SetBool(prefLesson, true)
	w.set.SetString(prefLessonOn, l.Title)
	w.unfoldColumn()
	w.refresh()
	rollTo(w.column.scroll, fyne.Position{})
	w.seeAct()
}

// seeAct fits the mat where places of the act lie beyond the view.
func (w *Window) seeAct() {
	act, more := w.lesson.Current()
	if !more {
		return
	}
	box := geom.NoBox()
	for _, at := range act.Where(w.desk.Pattern()) {
		box = box.Union(geom.BoxOf(at))
	}
	if !w.mat.Sees(box) {
		w.mat.Fit()
	}
}

// letGo lets go of an edge that is selected for the tool in the hand when the act
// that is next is for another, so that its name covers no place of that.
func (w *Window) letGo() {
	act, more := w.lesson.Current()
	if more && act.Tool != w.tool().Name() && w.desk.Selection().Edge != "" {
		w.desk.Select(tool.Selection{})
	}
}

// turnToAct shows the act that is next, at the head of the column unless she is
// at work further down there.
func (w *Window) turnToAct() {
	w.layBack()
	w.letGo()
	elsewhere := false
	if now := w.win.Canvas().Focused(); now != nil {
		elsewhere = slices.Contains(reachable(w.column.list), now)
	}
	if !elsewhere {
		w.column.bounds = "" // its marks would stand beside those of the act
	}
	w.refresh()
	if !elsewhere {
		rollTo(w.column.scroll, fyne.Position{})
	}
}

// actOn is the act of the lesson that is on, if any.
func (w *Window) actOn() (lesson.Act, bool) {
	if w.lesson == nil {
		return lesson.Act{}, false
	}
	return w.lesson.Current()
}

// layBack lays the pieces back where they lie when the act that is next is for
// another tool, so that its places are seen.
func (w *Window) layBack() {
	act, more := w.lesson.Current()
	if l, ok := w.tool().(tool.Layer); ok && len(l.Lays()) > 0 && (!more || act.Tool != w.tool().Name()) {
		w.tool().Reset()
	}
}

// unfoldColumn shows the column, in which something is to be read.
func (w *Window) unfoldColumn() {
	if w.column.folded {
		w.column.folded = false
		w.build()
	}
}

// startPlay shows the steps one by one.
func (w *Window) startPlay() {
	if w.lesson != nil {
		w.paused, w.lesson = w.lesson, nil
	}
	p := lesson.Play(w.desk)
	w.player = &p
	w.unfoldColumn()
	w.refresh()
	rollTo(w.column.scroll, fyne.Position{})
}

// guide shows the lesson, or the player, when one is on.
func (c *column) guide() {
	w := c.w
	switch {
	case w.lesson != nil:
		done, of := w.lesson.Progress()
		c.heading("Lesson: " + w.lesson.Lesson().Title)
		act, more := w.lesson.Current()
		if !more {
			c.did()
			c.note(lesson.In(w.lesson.Lesson().End, w.unit), w.palette.Text)
			if w.byKeys {
				c.note(lesson.AfterByKeys, w.palette.Text)
			}
			acts := container.New(line{gap: 4, wrap: columnInner})
			for _, l := range lesson.Lessons() {
				if l.Title != w.lesson.Lesson().Title && lesson.Open(w.desk, l) {
					acts.Add(w.link("Next: "+l.Title, func() { w.startOn(l) }))
				}
			}
			acts.Add(w.link("Close the lesson", w.endLesson))
			c.add(acts)
			for _, told := range lesson.Remains(w.desk.Size(), c.checks) {
				c.note(unit.Restate(told, w.unit), w.palette.Look)
			}
			return
		}
		c.did()
		c.name(act.Title)
		if w.byKeys {
			c.note("By keys: "+lesson.In(act.Keys, w.unit), w.palette.Text)
		}
		c.note(lesson.In(act.Text, w.unit), w.palette.Text)
		if aside := w.lesson.Aside(); aside != "" {
			c.note(lesson.In(aside, w.unit), w.palette.Look)
		}
		c.note(fmt.Sprintf("Act %d of %d", done+1, of), w.palette.Faint)
		c.told("lesson")
		acts := container.New(line{gap: 4, wrap: columnInner})
		if act.Where != nil {
			acts.Add(w.link("Where?", w.showWhere))
		}
		if act.Do != nil {
			acts.Add(w.link("Do it for me", w.doAct))
		}
		keys := "By keys? F2"
		if w.byKeys {
			keys = "Not by keys. F2"
		}
		acts.Add(w.link(keys, w.tellKeys))
		acts.Add(w.link("Skip", func() { w.lesson.Skip(); w.refresh() }))
		acts.Add(w.link("Close the lesson", w.endLesson))
		c.add(acts)
	case w.player != nil:
		p := *w.player
		c.heading("Steps, one by one")
		acts := container.New(line{gap: 4})
		for _, a := range []struct {
			word string
			do   func()
		}{{"‹ Back", func() { p.Back() }}, {"Forward ›", func() { p.Forward() }}, {"Close", func() { w.stopPlay() }}} {
			l := w.link(a.word, a.do)
			l.name = "play " + a.word
			acts.Add(l)
		}
		c.add(acts) // above what is told, so that they stay where they are
		c.note(fmt.Sprintf("%d of %d", p.At(), p.Of()), w.palette.Faint)
		if s := p.Sentence(); s != "" {
			c.note(unit.Restate(s, w.unit), w.palette.Text)
		}
	}
}

// stopPlay shows all steps again, and the lesson that was on; it reports
// whether steps were shown one by one.
func (w *Window) stopPlay() bool {
	if w.player == nil {
		return false
	}
	p := w.player
	w.player = nil
	w.lesson, w.paused = w.paused, nil
	p.Stop()
	w.refresh()
	return true
}

// deed is what was done for the person, and which act it led to.
type deed struct {
	told string
	led  int
}

// did tells what was done for the person, until the next act is done.
func (c *column) did() {
	w := c.w
	if at, _ := w.lesson.Progress(); w.done.told != "" && w.done.led == at {
		c.note("Done for you: "+unit.Restate(w.done.told, w.unit), w.palette.Faint)
	}
}

// doAct does the act of the lesson for the person, and says what it did.
func (w *Window) doAct() {
	w.tool().Reset()
	w.seeAct()
	var places []geom.Point
	if act, more := w.lesson.Current(); more {
		places = act.Where(w.desk.Pattern())
	}
	if err := w.lesson.Do(); err != nil {
		w.column.fail("lesson", err)
		return
	}
	at, _ := w.lesson.Progress()
	if reports := w.desk.Reports(); len(reports) > 0 {
		w.done = deed{reports[len(reports)-1].Sentence, at}
	}
	w.prompt.say(nil)
	w.refresh()
	w.pulse(places)
}

// showWhere brings the places of the lesson's act into view and rings them.
func (w *Window) showWhere() {
	act, more := w.lesson.Current()
	if !more {
		return
	}
	p := w.desk.Pattern()
	box := geom.NoBox()
	for _, at := range act.Where(p) {
		box = box.Union(geom.BoxOf(at))
	}
	w.mat.FitBox(box.Grow(beyond))
	w.pulse(act.Where(p))
}

// Rings that close in on a place: how many, how long each takes and how wide
// it begins, in units.
const (
	rings    = 3
	ringTime = 900 * time.Millisecond
	ringWide = 56
)

// pulse rings places on the mat for a little while.
func (w *Window) pulse(places []geom.Point) {
	if len(places) == 0 {
		return
	}
	w.ringed, w.ringing = places, time.Now()
	w.soon()
}

// ring draws the ring of the moment, and asks for the next.
func (w *Window) ring(o *tool.Overlay) {
	if w.ringed == nil {
		return
	}
	gone := time.Since(w.ringing)
	if gone >= rings*ringTime {
		w.ringed = nil
		return
	}
	part := float64(gone%ringTime) / float64(ringTime)
	r := (ringWide*(1-part) + 14*part) / w.mat.Camera().Scale
	for _, at := range w.ringed {
		if path, err := geom.Arc(at, r, 0, 2*math.Pi); err == nil {
			o.Strokes = append(o.Strokes, tool.Stroke{Path: path, Style: tool.Chosen})
		}
	}
	if !w.ringOn {
		w.ringOn = true
		time.AfterFunc(w.pace(2*frame), func() {
			fyne.Do(func() {
				w.ringOn = false
				w.soon()
			})
		})
	}
}

// tellKeys tells from now on how the acts of the lesson go by keys, or no
// longer; the act is read at the head of the column.
func (w *Window) tellKeys() {
	if w.lesson == nil || w.sheet != nil {
		return
	}
	w.byKeys = !w.byKeys
	w.unfoldColumn()
	w.refresh()
	rollTo(w.column.scroll, fyne.Position{})
}

func (w *Window) endLesson() {
	w.lesson = nil
	w.set.SetString(prefLessonOn, "")
	w.refresh()
}

// pointOut numbers the places of the lesson's act on the mat.
func (w *Window) pointOut(o *tool.Overlay) {
	if w.lesson == nil {
		w.ringed = nil
		return
	}
	w.ring(o)
	if l, ok := w.tool().(tool.Layer); ok && len(l.Lays()) > 0 {
		return // the pieces lie elsewhere for now
	}
	act, more := w.lesson.Current()
	if !more || act.Where == nil || w.shown.asked && !act.Stay {
		return
	}
	if len(o.Signs) > 0 {
		return // the tool numbers its own
	}
	for i, at := range act.Where(w.desk.Pattern()) {
		o.Signs = append(o.Signs, tool.Sign{At: at, Text: fmt.Sprint(i + 1)})
	}
}

// checksPage tells what the checks are for.
func (w *Window) checksPage() {
	wide := w.pageWide(620)
	list := container.New(stack{gap: 12})
	seen := map[string]bool{}
	for _, c := range w.column.checks {
		if about := lesson.AboutCheck(c.ID); about != "" && !seen[c.ID] {
			seen[c.ID] = true
			list.Add(container.New(stack{gap: 2}, text(titled(c.ID), normal, true, w.palette.Text), para(about, wide-20, normal, false, w.palette.Text)))
		}
	}
	w.openSheet("The checks", wide, w.scrolled(list, wide))
}

// scrolled lets a long page roll within the window.
func (w *Window) scrolled(o fyne.CanvasObject, width float32) fyne.CanvasObject {
	s := container.NewVScroll(o)
	rolls(o, s)
	s.OnScrolled = func(fyne.Position) { veil(s) }
	return container.New(followed{layered{}, func() { veil(s) }}, w.within(s, width, 220, 200))
}

package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/lesson"
	"truemat/app/tool"
	"truemat/ops/unit"
)

const prefLesson = "lesson offered"

// startLesson shows the first guided lesson at the head of the column.
func (w *Window) startLesson() { w.startOn(lesson.First()) }

// startOn shows a guided lesson at the head of the column.
func (w *Window) startOn(l lesson.Lesson) {
	if !l.Fits(w.desk.Source()) {
		w.prompt.say(fmt.Errorf("the lesson is done on the Tern; begin with it by File, New"))
		w.show()
		return
	}
	w.player = nil
	w.lesson = lesson.Follow(w.desk, l)
	// The lesson learns of a step after the window did.
	w.lesson.OnChange(w.refresh)
	w.app.Preferences().SetBool(prefLesson, true)
	if w.column.folded {
		w.column.folded = false
		w.build()
	}
	w.refresh()
	w.column.scroll.ScrollToTop()
}

// startPlay shows the steps one by one.
func (w *Window) startPlay() {
	p := lesson.Play(w.desk)
	w.lesson, w.player = nil, &p
	w.refresh()
	w.column.scroll.ScrollToTop()
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
			c.note(w.lesson.Lesson().End, w.palette.Text)
			acts := container.New(line{gap: 4, wrap: columnInner})
			for _, l := range lesson.Lessons() {
				if l.Title != w.lesson.Lesson().Title && l.Fits(w.desk.Source()) {
					acts.Add(w.link("Next: "+l.Title, func() { w.startOn(l) }))
				}
			}
			acts.Add(w.link("Close the lesson", w.endLesson))
			c.add(acts)
			return
		}
		c.name(act.Title)
		c.note(act.Text, w.palette.Text)
		if aside := w.lesson.Aside(); aside != "" {
			c.note(unit.Restate(aside, w.unit), w.palette.Look)
		}
		c.note(fmt.Sprintf("Act %d of %d", done+1, of), w.palette.Faint)
		c.told("lesson")
		acts := container.New(line{gap: 4, wrap: columnInner})
		if act.Do != nil {
			acts.Add(w.link("Show me", func() {
				if err := w.lesson.Do(); err != nil {
					c.fail("lesson", err)
					return
				}
				w.refresh()
			}))
		}
		acts.Add(w.link("Skip", func() { w.lesson.Skip(); w.refresh() }))
		acts.Add(w.link("Close the lesson", w.endLesson))
		c.add(acts)
	case w.player != nil:
		p := *w.player
		c.heading("Steps, one by one")
		c.note(fmt.Sprintf("%d of %d", p.At(), p.Of()), w.palette.Faint)
		if s := p.Sentence(); s != "" {
			c.note(s, w.palette.Text)
		}
		c.add(container.New(line{gap: 4}, w.link("‹ Back", func() { p.Back() }), w.link("Forward ›", func() { p.Forward() }),
			w.link("End", func() { w.player = nil; p.Stop(); w.refresh() })))
	}
}

func (w *Window) endLesson() {
	w.lesson = nil
	w.refresh()
}

// pointOut marks the places of the lesson's act on the mat, numbered when there
// are several.
func (w *Window) pointOut(o *tool.Overlay) {
	if w.lesson == nil {
		return
	}
	act, more := w.lesson.Current()
	if !more || act.Where == nil || w.shown.asked && !act.Stay {
		return
	}
	places := act.Where(w.desk.Pattern())
	switch {
	case len(o.Signs) > 0: // the tool numbers its own
	case len(places) == 1:
		o.Dots = append(o.Dots, tool.Dot{At: places[0], Style: tool.Chosen})
	default:
		for i, at := range places {
			o.Signs = append(o.Signs, tool.Sign{At: at, Text: fmt.Sprint(i + 1)})
		}
	}
}

// checksPage tells what the checks are for.
func (w *Window) checksPage() {
	list := container.New(stack{gap: 12})
	seen := map[string]bool{}
	for _, c := range w.column.checks {
		if about := lesson.AboutCheck(c.ID); about != "" && !seen[c.ID] {
			seen[c.ID] = true
			list.Add(container.New(stack{gap: 2}, text(titled(c.ID), normal, true, w.palette.Text), para(about, 600, normal, false, w.palette.Text)))
		}
	}
	w.openSheet("The checks", 620, w.scrolled(list, 620))
}

// scrolled lets a long page roll within the window.
func (w *Window) scrolled(o fyne.CanvasObject, width float32) fyne.CanvasObject {
	s := container.NewVScroll(o)
	rolls(o, s)
	s.SetMinSize(fyne.NewSize(width, min(o.MinSize().Height, max(w.win.Canvas().Size().Height-220, 200))))
	return s
}

package lesson

import (
	"errors"
	"slices"

	"truemat/app/desk"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Watcher follows a lesson on a desk: how far it has come is read from the
// recipe, so that undo, redo and edits count as what they are. It is used from
// the desk's goroutine.
type Watcher struct {
	lesson    Lesson
	desk      *desk.Desk
	skipped   map[int]bool
	from      int // steps of the recipe that do not count
	at        int
	size      string
	stages    []Stage
	listeners []func()
}

// New returns a watcher of the first lesson that follows the desk. Steps that
// the document already has count as done.
func New(d *desk.Desk) *Watcher { return Follow(d, First()) }

// Follow is New for another lesson.
func Follow(d *desk.Desk, l Lesson) *Watcher {
	w := &Watcher{lesson: l, desk: d, skipped: map[int]bool{}}
	w.at = w.reached()
	d.OnChange(w.update)
	return w
}

// Open reports whether a lesson can be begun or gone on with on the desk: not
// all of it is done, and what its next act is about is there.
func Open(d *desk.Desk, l Lesson) bool {
	if !l.Fits(d.Source()) {
		return false
	}
	w := &Watcher{lesson: l, desk: d, skipped: map[int]bool{}}
	w.at = w.reached()
	act, more := w.Current()
	return more && len(act.Where(d.Pattern())) > 0
}

// OnChange calls f whenever the lesson moves to another act.
func (w *Watcher) OnChange(f func()) { w.listeners = append(w.listeners, f) }

// Lesson returns what is followed.
func (w *Watcher) Lesson() Lesson { return w.lesson }

// Current returns the act to be done now; false when all are.
func (w *Watcher) Current() (Act, bool) {
	if w.at >= len(w.lesson.Steps) {
		return Act{}, false
	}
	return w.lesson.Steps[w.at], true
}

// Aside tells what is to be known before the act to be done now, "" when there
// is nothing.
func (w *Watcher) Aside() string {
	act, ok := w.Current()
	if !ok || act.Aside == nil {
		return ""
	}
	w.follow()
	return act.Aside(w.stages[len(w.stages)-1])
}

// Progress returns how many acts are behind, and how many there are.
func (w *Watcher) Progress() (done, of int) { return w.at, len(w.lesson.Steps) }

// Skip passes over the act to be done now.
func (w *Watcher) Skip() {
	if w.at < len(w.lesson.Steps) {
		w.skipped[w.at] = true
		w.update()
	}
}

// Restart begins the lesson anew: only what is done from now on counts. It
// wants a pattern that Fits; what is taped already cannot be taped again.
func (w *Watcher) Restart() {
	w.skipped = map[int]bool{}
	w.from = len(w.desk.Document().Recipe)
	w.update()
}

// Do does the current act for the person, as a step of the document.
func (w *Watcher) Do() error {
	act, ok := w.Current()
	if !ok {
		return errors.New("the lesson is done")
	}
	w.follow()
	s := act.Do(w.stages[len(w.stages)-1])
	if s == nil {
		return errors.New("this cannot be done with the pattern as it is; take back what was done, or open the demo pattern anew")
	}
	return w.desk.Accept(s)
}

func (w *Watcher) update() {
	was := w.at
	w.at = w.reached()
	if w.at == was {
		return
	}
	for _, f := range w.listeners {
		f()
	}
}

// reached returns the act to be done now: each step of the recipe, in order,
// may do the act that is next.
func (w *Watcher) reached() int {
	w.follow()
	w.from = min(w.from, len(w.stages)-1)
	at := w.pass(0)
	for i := w.from + 1; i < len(w.stages) && at < len(w.lesson.Steps); i++ {
		if w.lesson.Steps[at].Done(w.stages[i-1], w.stages[i]) {
			at = w.pass(at + 1)
		}
	}
	return at
}

func (w *Watcher) pass(at int) int {
	for w.skipped[at] {
		at++
	}
	return at
}

// follow brings the stages up to the recipe and size shown; those of steps
// that are as they were stay.
func (w *Watcher) follow() {
	doc := w.desk.Document()
	size, ok := doc.Source.Size(w.desk.Size())
	if !ok {
		return
	}
	if w.size != size.Label || len(w.stages) == 0 {
		w.size, w.stages = size.Label, []Stage{{Source: size.Pattern, Pattern: size.Pattern}}
	}
	same, old := 0, w.stages[len(w.stages)-1].Recipe
	for same < min(len(old), len(doc.Recipe)) && alike(old[same], doc.Recipe[same]) {
		same++
	}
	w.stages = w.stages[:same+1]
	one := doc.Source
	one.Sizes = []pattern.Size{size}
	for n := same + 1; n <= len(doc.Recipe); n++ {
		r := doc.Recipe[:n]
		w.stages = append(w.stages, Stage{size.Pattern, r.Replay(one)[0].Size.Pattern, r})
	}
}

func alike(a, b step.Entry) bool {
	return a.ID == b.ID && a.Step == b.Step && a.Off == b.Off && slices.Equal(a.Sizes, b.Sizes)
}

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
	w := reachedOn(d, l)
	d.OnChange(w.update)
	return w
}

// reachedOn finds the act that is next.
func reachedOn(d *desk.Desk, l Lesson) *Watcher {
	w := &Watcher{lesson: l, desk: d, skipped: map[int]bool{}}
	w.at = w.reached()
	return w
}

// Open reports whether a lesson can be begun or gone on with on the desk: not
// all of it is done, and what its next act is about is there.
func Open(d *desk.Desk, l Lesson) bool {
	if !l.Fits(d.Source()) {
		return false
	}
	act, more := reachedOn(d, l).Current()
	return more && len(act.Where(d.Pattern())) > 0
}

// Begun reports whether what was done on the desk belongs to a lesson: one of its
// acts, or nothing as yet. Other work has no use for its marks.
func Begun(d *desk.Desk, l Lesson) bool {
	if !Open(d, l) {
		return false
	}
	done, _ := reachedOn(d, l).Progress()
	return done > 0 || len(d.Document().Recipe) == 0
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
// may do the act that is next. A lesson that is done stays so while one of its
// steps is switched off to look what it does.
func (w *Watcher) reached() int {
	w.follow()
	w.from = min(w.from, len(w.stages)-1)
	at := w.along(w.stages)
	recipe := w.desk.Document().Recipe
	off := func(e step.Entry) bool { return e.Off }
	if at == len(w.lesson.Steps) || !slices.ContainsFunc(recipe, off) {
		return at
	}
	on := slices.Clone(recipe)
	for i := range on {
		on[i].Off = false
	}
	first := w.stages[0]
	if all := w.along(replayed(one(w.desk.Document().Source, w.size), []Stage{first}, on)); all == len(w.lesson.Steps) {
		return all
	}
	return at
}

// along returns the act that is next after the steps that led to stages.
func (w *Watcher) along(stages []Stage) int {
	at := w.pass(0)
	for i := w.from + 1; i < len(stages) && at < len(w.lesson.Steps); i++ {
		if w.lesson.Steps[at].Done(stages[i-1], stages[i]) {
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
	w.stages = replayed(one(doc.Source, size.Label), w.stages[:same+1], doc.Recipe)
}

// one is a source with one of its sizes alone.
func one(s pattern.Run, label string) pattern.Run {
	if size, ok := s.Size(label); ok {
		s.Sizes = []pattern.Size{size}
	}
	return s
}

// replayed adds to the stages of the first steps of a recipe those of the rest.
func replayed(s pattern.Run, stages []Stage, recipe step.Recipe) []Stage {
	for n := len(stages); n <= len(recipe); n++ {
		r := recipe[:n]
		stages = append(stages, Stage{s.Sizes[0].Pattern, r.Replay(s)[0].Size.Pattern, r})
	}
	return stages
}

func alike(a, b step.Entry) bool {
	return a.ID == b.ID && a.Step == b.Step && a.Off == b.Off && slices.Equal(a.Sizes, b.Sizes)
}

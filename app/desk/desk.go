// Package desk owns the document that is being worked on: its history, the
// size shown, what is selected, the checks, and where it is saved. It knows no
// window; tools propose steps to it and panels read from it.
package desk

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"truemat/app/tool"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

// Desk is a document being worked on. It is used from one goroutine.
type Desk struct {
	history   store.History
	saved     int // version of the history that is on disk, −1 when none
	writing   int // version that is being saved, −1 when it is no more, see Saving
	opened    int // version as it came, −1 when another took its place
	path      string
	size      string
	look      int  // how many steps are shown; −1 for all
	only      bool // changes go to the size shown alone
	selection tool.Selection

	results   []step.Result
	past      map[int]replayed // versions near the one that is shown
	base      replayed         // what the last replay went on from
	shown     step.Result
	listeners []func()

	journal   Journal
	treasured bool // see Treasure
	trouble   error
}

// New returns a desk with the document, which came from path ("" when it was
// never saved). Undo takes its steps off one by one.
func New(doc store.Document, path string) (*Desk, error) {
	return NewContext(context.Background(), doc, path)
}

// NewContext is New that gives up once the context is done, with its error.
func NewContext(ctx context.Context, doc store.Document, path string) (*Desk, error) {
	if err := doc.Validate(); err != nil {
		return nil, err
	}
	d := &Desk{history: store.Unfolded(doc), path: path, size: doc.Source.Sizes[0].Label, look: -1}
	d.opened = d.history.Version()
	d.saved = d.opened
	if path == "" {
		d.saved = -1
	}
	d.past = map[int]replayed{}
	results, err := doc.ResultsContext(ctx)
	if err != nil {
		return nil, err
	}
	d.take(results)
	return d, nil
}

// OnChange calls f after every change of what the desk shows.
func (d *Desk) OnChange(f func()) { d.listeners = append(d.listeners, f) }

func (d *Desk) changed() {
	for _, f := range d.listeners {
		f()
	}
}

// pastMost is how many versions before and after the one shown keep their
// results, so that undo and redo answer without a replay.
const pastMost = 16

// replayed is a recipe with its results in every size.
type replayed struct {
	source  *pattern.Size // the first of the run; another fit makes other sizes
	recipe  step.Recipe
	results []step.Result
	checks  map[string][]check.Check // by size, of those that were asked for
}

// replay finds the results of a document, from those of the longest beginning
// of its recipe that are known.
func (d *Desk) replay(doc store.Document) []step.Result {
	var best replayed
	consider := func(k replayed) {
		if k.results != nil && k.source == &doc.Source.Sizes[0] && (best.results == nil || len(k.recipe) > len(best.recipe)) && begins(doc.Recipe, k.recipe) {
			best = k
		}
	}
	consider(d.base)
	for _, k := range d.past {
		consider(k)
	}
	if best.results == nil {
		return doc.Results()
	}
	d.base = best
	return doc.Recipe.Resume(best.results, len(best.recipe))
}

// begins reports whether a recipe begins with the very steps of another.
func begins(r, with step.Recipe) bool {
	return len(with) <= len(r) && slices.EqualFunc(r[:len(with)], with, func(a, b step.Entry) bool {
		return a.ID == b.ID && a.Step == b.Step && a.Off == b.Off && slices.Equal(a.Sizes, b.Sizes)
	})
}

// take shows the document with its results.
func (d *Desk) take(results []step.Result) {
	now := d.history.Version()
	d.past[now] = replayed{&d.Document().Source.Sizes[0], d.Document().Recipe, results, map[string][]check.Check{}}
	d.arrive()
}

// arrive shows the version that the history is at, whose results are known, and
// forgets those that are far from it.
func (d *Desk) arrive() {
	now := d.history.Version()
	for v := range d.past {
		if v < now-pastMost || v > now+min(pastMost, d.history.Ahead()) {
			delete(d.past, v)
		}
	}
	d.results = d.past[now].results
	d.show()
}

// show finds the result of the size shown, with the steps looked at.
func (d *Desk) show() {
	doc := d.Document()
	i := max(slices.Index(doc.Source.Labels(), d.size), 0)
	d.size = doc.Source.Labels()[i]
	d.shown = d.results[i]
	if d.look >= 0 && d.look < len(doc.Recipe) {
		one := doc.Source
		one.Sizes = one.Sizes[i : i+1]
		d.shown = doc.Recipe[:d.look].Replay(one)[0]
	}
	p := d.shown.Size.Pattern.Piece(d.selection.Piece)
	if p == nil || d.selection.Edge != "" && p.Edge(d.selection.Edge) == nil || d.selection.Notch != "" && p.Notch(d.selection.Notch) == nil ||
		d.selection.Inner != "" && p.InnerLine(d.selection.Inner) == nil {
		d.selection = tool.Selection{}
	}
}

// Before returns the pattern in the size shown as it is before the step at
// place i of the recipe.
func (d *Desk) Before(i int) pattern.Pattern {
	doc := d.Document()
	if i <= 0 {
		return d.Source()
	}
	at := max(slices.Index(doc.Source.Labels(), d.size), 0)
	one := doc.Source
	one.Sizes = one.Sizes[at : at+1]
	return doc.Recipe[:min(i, len(doc.Recipe))].Replay(one)[0].Size.Pattern
}

// Document returns the document as it is now.
func (d *Desk) Document() store.Document { return d.history.Current() }

// Pattern returns the pattern in the size shown, as altered.
func (d *Desk) Pattern() pattern.Pattern { return d.shown.Size.Pattern }

// Source returns the pattern in the size shown, as it came in.
func (d *Desk) Source() pattern.Pattern { return d.shown.Before }

// Size returns the label of the size shown.
func (d *Desk) Size() string { return d.size }

// Figures returns what the steps reported in the size shown.
func (d *Desk) Figures() step.Figures {
	return d.shown.Figures()
}

// Reports returns what each step did in the size shown; those beyond the one
// looked at included.
func (d *Desk) Reports() []step.Report {
	for _, r := range d.results {
		if r.Size.Label == d.size {
			return r.Reports
		}
	}
	return nil
}

// Checks returns the checks of the size shown. They are not to be written to.
func (d *Desk) Checks() []check.Check {
	run := func() []check.Check { return check.Run(d.Source(), d.Pattern(), d.Bounds()) }
	if d.look >= 0 {
		return run()
	}
	known := d.past[d.history.Version()].checks
	if _, ok := known[d.size]; !ok {
		known[d.size] = run()
	}
	return known[d.size]
}

// SizeState says how a size stands.
type SizeState struct {
	Label  string
	Behind bool
	Worst  check.Verdict
}

// SizeStates returns the state of every size.
func (d *Desk) SizeStates() []SizeState { return d.Judge()() }

// Judge returns what works out the state of every size as it is now; that may
// run in another goroutine while the desk is used on.
func (d *Desk) Judge() func() []SizeState {
	results, bounds := d.results, d.Document().Bounds.Bounds()
	return func() []SizeState {
		states := make([]SizeState, len(results))
		for i, r := range results {
			states[i] = SizeState{r.Size.Label, r.Behind(), check.Worst(check.Run(r.Before, r.Size.Pattern, bounds))}
		}
		return states
	}
}

// Results returns what became of every size by all steps, in the order of the
// run. It is not to be written to.
func (d *Desk) Results() []step.Result { return d.results }

// SetSize shows another size.
func (d *Desk) SetSize(label string) error {
	if _, ok := d.Document().Source.Size(label); !ok {
		return fmt.Errorf("there is no size %q; the pattern has %s", label, strings.Join(d.Document().Source.Labels(), ", "))
	}
	d.size = label
	d.show()
	d.changed()
	return nil
}

// Look shows the pattern after the first n steps; −1 after all of them.
func (d *Desk) Look(n int) {
	d.look = n
	d.show()
	d.changed()
}

// Looking returns how many steps are shown, −1 for all.
func (d *Desk) Looking() int { return d.look }

// Selection returns what is selected.
func (d *Desk) Selection() tool.Selection { return d.selection }

// Select selects something.
func (d *Desk) Select(s tool.Selection) {
	if s == d.selection {
		return
	}
	d.selection = s
	d.changed()
}

// Try applies steps after those shown, in the size shown alone, and keeps nothing.
func (d *Desk) Try(steps ...step.Step) (step.Result, error) { return d.shown.Try(steps...) }

// Accept adds steps to the recipe, in every size, or in the one shown when
// changes go to it alone; it is refused whole when one cannot apply in a size
// it is meant for. Pushing a piece about by hand leaves one move.
func (d *Desk) Accept(steps ...step.Step) error {
	doc := d.Document()
	var entries []step.Entry
	for _, s := range steps {
		entries = append(entries, step.Entry{ID: doc.Recipe.NewID(s.Kind(), entries), Sizes: d.meant(), Step: s})
	}
	next, results, err := doc.Recipe.Extend(doc.Source, d.results, entries...)
	if f := (*step.Failure)(nil); errors.As(err, &f) {
		return f.In(d.Size())
	}
	if err != nil {
		return err
	}
	if len(steps) == 1 && !d.Only() {
		if merged, ok := doc.Recipe.MergeMove(steps[0]); ok {
			next = merged
			doc.Recipe = next
			results = d.replay(doc)
		}
	}
	doc.Recipe = next
	d.put(doc, results)
	return nil
}

// Replace puts another step in the place of the one with its id; that and later
// steps which cannot apply then stay and are marked.
func (d *Desk) Replace(e step.Entry) error {
	return d.edit(func(r step.Recipe) (step.Recipe, error) { return r.Replace(e) })
}

// Amend is Replace with other numbers: it is refused, and changes nothing, when
// the step itself could not apply any more in a size in which it did.
func (d *Desk) Amend(e step.Entry) error {
	doc := d.Document()
	next, err := doc.Recipe.Replace(e)
	if err != nil {
		return err
	}
	if err := next.Validate(doc.Source); err != nil {
		return err
	}
	doc.Recipe = next
	results := d.replay(doc)
	if f := step.NewlyFailed(d.results, results, e.ID); f != nil {
		return f.In(d.Size())
	}
	d.put(doc, results)
	return nil
}

// Remove takes a step out of the recipe.
func (d *Desk) Remove(id string) error {
	return d.edit(func(r step.Recipe) (step.Recipe, error) { return r.Remove(id) })
}

// Switch leaves a step out of the recipe, or takes it in again.
func (d *Desk) Switch(id string, off bool) error {
	return d.edit(func(r step.Recipe) (step.Recipe, error) {
		i := r.Index(id)
		if i < 0 {
			return nil, fmt.Errorf("there is no step %q", id)
		}
		e := r[i]
		e.Off = off
		return r.Replace(e)
	})
}

func (d *Desk) edit(change func(step.Recipe) (step.Recipe, error)) error {
	doc := d.Document()
	next, err := change(doc.Recipe)
	if err != nil {
		return err
	}
	if err := next.Validate(doc.Source); err != nil {
		return err
	}
	doc.Recipe = next
	d.put(doc, d.replay(doc))
	return nil
}

// put makes doc, whose results are known, the document.
func (d *Desk) put(doc store.Document, results []step.Result) {
	d.look = -1
	d.history = d.history.Do(doc.Following(d.Document().Recipe))
	if d.saved >= d.history.Version() {
		d.saved = -1 // what was saved was taken back before this change
	}
	if d.writing >= d.history.Version() {
		d.writing = -1
	}
	if d.opened >= d.history.Version() {
		d.opened = -1
	}
	d.take(results)
	d.keep()
	d.changed()
}

// Undo goes back one change; it reports whether there was one.
func (d *Desk) Undo() bool { return d.travel(d.history.Undo()) }

// Redo takes a change up again that Undo took back.
func (d *Desk) Redo() bool { return d.travel(d.history.Redo()) }

func (d *Desk) travel(h store.History, ok bool) bool {
	if !ok {
		return false
	}
	d.history, d.look = h, -1
	if _, known := d.past[h.Version()]; known {
		d.arrive()
	} else {
		d.take(d.replay(d.Document()))
	}
	d.keep()
	d.changed()
	return true
}

// CanUndo reports whether there is a change to take back.
func (d *Desk) CanUndo() bool { return d.history.Version() > 0 }

// CanRedo reports whether there is a change to take up again.
func (d *Desk) CanRedo() bool { return d.history.Ahead() > 0 }

// Path returns where the document is saved, "" when nowhere.
func (d *Desk) Path() string { return d.path }

// Unsaved reports whether there are changes that are not on disk.
func (d *Desk) Unsaved() bool { return d.saved != d.history.Version() }

// Save writes the document to path and remembers it.
func (d *Desk) Save(path string) error {
	write, done := d.Saving(path)
	if err := write(); err != nil {
		return err
	}
	done()
	return nil
}

// Saving returns what writes the document as it is now to path, which may run
// in another goroutine while the desk is used on, and what remembers it once it
// is written. The next may be asked for when that is done with.
func (d *Desk) Saving(path string) (write func() error, done func()) {
	doc := d.Document()
	d.writing = d.history.Version()
	return func() error { return store.Save(path, doc) }, func() {
		d.path, d.saved, d.treasured = path, d.writing, false
		d.keep()
		d.changed()
	}
}

// StepNumber returns the number of a step as the list of steps counts; 0 when
// it is not there.
func (d *Desk) StepNumber(id string) int { return d.Document().Recipe.Index(id) + 1 }

package step

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"truemat/ops/pattern"
)

// Recipe is the ordered list of steps applied to a source. It is a value:
// its methods return a new one.
type Recipe []Entry

// Result is a recipe applied in one size.
type Result struct {
	Size    pattern.Size // with the altered pattern
	Before  pattern.Pattern
	Reports []Report // one for each entry
}

// Behind reports whether a step is upset in this size.
func (r Result) Behind() bool { return r.Upset() != nil }

// Upset returns the first report of an upset step, or nil.
func (r Result) Upset() *Report {
	for i := range r.Reports {
		if r.Reports[i].State == Upset {
			return &r.Reports[i]
		}
	}
	return nil
}

// Reason tells which step is upset in this size and why, "" when none is.
func (r Result) Reason() string {
	u := r.Upset()
	if u == nil {
		return ""
	}
	return fmt.Sprintf("step %d (%s) could not apply: %s", r.UpsetSteps()[0]+1, u.ID, u.Error)
}

// UpsetSteps are the places of the steps that are upset in this size.
func (r Result) UpsetSteps() (places []int) {
	for i := range r.Reports {
		if r.Reports[i].State == Upset {
			places = append(places, i)
		}
	}
	return places
}

// StepsInWords names steps by their places, counted from 1: "step 3", "steps 4
// to 7 and 9".
func StepsInWords(places []int) string {
	var parts []string
	for i := 0; i < len(places); i++ {
		first := i
		for i+1 < len(places) && places[i+1] == places[i]+1 {
			i++
		}
		switch i - first {
		case 0:
			parts = append(parts, fmt.Sprint(places[i]+1))
		case 1:
			parts = append(parts, fmt.Sprint(places[first]+1), fmt.Sprint(places[i]+1))
		default:
			parts = append(parts, fmt.Sprintf("%d to %d", places[first]+1, places[i]+1))
		}
	}
	word := "steps"
	if len(places) == 1 {
		word = "step"
	}
	if n := len(parts); n > 1 {
		return word + " " + strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
	}
	return word + " " + strings.Join(parts, "")
}

// Replay applies the recipe in every size of the source. A step that cannot
// apply is marked upset and passed over; those after it that still can, apply.
func (r Recipe) Replay(run pattern.Run) []Result {
	results, _ := r.ReplayContext(context.Background(), run)
	return results
}

// ReplayContext is Replay that gives up before the next step once the context
// is done, with the context's error.
func (r Recipe) ReplayContext(ctx context.Context, run pattern.Run) ([]Result, error) {
	results := make([]Result, len(run.Sizes))
	var wg sync.WaitGroup
	for i, size := range run.Sizes {
		size.Pattern = run.Fitted(size)
		wg.Go(func() { results[i] = r.replay(ctx, size) })
	}
	wg.Wait()
	return results, ctx.Err()
}

func (r Recipe) replay(ctx context.Context, size pattern.Size) Result {
	size.Pattern = size.Pattern.Guided()
	res := Result{Size: size, Before: size.Pattern}
	for _, e := range r {
		if ctx.Err() != nil {
			break
		}
		res = res.then(e)
	}
	return res
}

// Resume is Replay where the results of the first n steps in every size are known.
func (r Recipe) Resume(known []Result, n int) []Result {
	results := make([]Result, len(known))
	var wg sync.WaitGroup
	for i, res := range known {
		wg.Go(func() {
			for _, e := range r[n:] {
				res = res.then(e)
			}
			results[i] = res
		})
	}
	wg.Wait()
	return results
}

// origin is a step that alters nothing of what there was, but what that is
// called or what there is: before and after are compared by name.
type origin interface {
	// origin returns the pattern as it came in, as the step would have it.
	origin(before, after pattern.Pattern) (pattern.Pattern, error)
}

// then returns the result of one more entry.
func (r Result) then(e Entry) Result {
	before := r.Size.Pattern
	in := Input{Pattern: before, Size: r.Size.Label, Figures: r.Figures()}
	rep := Report{ID: e.ID, Kind: e.Step.Kind(), Sentence: Placed(e.Sentence(), before)}
	if s, err := e.in(in); err == nil {
		rep.Sentence = Told(s, before)
	}
	for i, done := range r.Reports { // by its place in the list, as the maker sees it
		rep.Sentence = strings.ReplaceAll(rep.Sentence, fmt.Sprintf("step %q", done.ID), fmt.Sprintf("step %d", i+1))
	}
	if e.Off || len(e.Sizes) > 0 && !slices.Contains(e.Sizes, r.Size.Label) {
		rep.State = Off
	} else if out, err := e.apply(in); err != nil {
		rep.State, rep.Error = Upset, r.told(err)
	} else {
		rep.State = Applied
		rep.Changes = Changes(before, out.Pattern)
		rep.Figures, rep.Notes = out.Figures, out.Notes
		r.Size.Pattern = out.Pattern
		if o, ok := e.Step.(origin); ok {
			if before, err := o.origin(r.Before, out.Pattern); err == nil {
				r.Before = before
			}
		}
	}
	r.Reports = append(slices.Clip(r.Reports), rep)
	return r
}

// told writes why an entry could not apply. A figure of a step that is there
// and did not apply itself is told by that step's place.
func (r Result) told(err error) string {
	var none absent
	if errors.As(err, &none) {
		id, _, _ := strings.Cut(none.figure, ".")
		for i, rep := range r.Reports {
			switch {
			case rep.ID != id:
			case rep.State == Off:
				return fmt.Sprintf("it uses a figure of step %d, which is switched off; switch that one on again, or write a number here", i+1)
			case rep.State == Upset:
				return fmt.Sprintf("it uses a figure of step %d, which could not apply either; mend that one first", i+1)
			}
		}
	}
	return err.Error()
}

func (e Entry) apply(in Input) (Output, error) {
	s, err := e.in(in)
	if err != nil {
		return Output{}, err
	}
	out, err := s.Apply(in)
	if err != nil {
		return out, err
	}
	out.Pattern = out.Pattern.Guided()
	return out, out.Pattern.ValidateAfter(in.Pattern)
}

// patternFigures stands before the full stop in the names of the figures that
// the pattern itself gives.
const patternFigures = "pattern"

// Figures returns what the pattern and the steps give for later steps to use.
func (r Result) Figures() Figures {
	figures := Figures{}
	for name, v := range r.Before.Figures {
		figures[patternFigures+"."+name] = v
	}
	for _, rep := range r.Reports {
		for name, v := range rep.Figures {
			figures[rep.ID+"."+name] = v
		}
	}
	return figures
}

// Try returns the result of more steps after r; it stops at the first that
// cannot apply and returns why.
func (r Result) Try(steps ...Step) (Result, error) {
	for _, s := range steps {
		r = r.then(Entry{ID: "try", Step: s})
		if rep := r.Reports[len(r.Reports)-1]; rep.State == Upset {
			return r, errors.New(rep.Error)
		}
	}
	return r, nil
}

// NewID returns an id for a new step that neither the recipe nor the entries
// about to be added have.
func (r Recipe) NewID(kind string, more []Entry) string {
	for n := len(r) + len(more) + 1; ; n++ {
		id := fmt.Sprintf("%s-%d", kind, n)
		if r.Index(id) < 0 && Recipe(more).Index(id) < 0 {
			return id
		}
	}
}

// Index returns the place of the step with that id, or −1.
func (r Recipe) Index(id string) int {
	return slices.IndexFunc(r, func(e Entry) bool { return e.ID == id })
}

// Pick returns the entries with those ids, in the order of the recipe.
func (r Recipe) Pick(ids []string) (Recipe, error) {
	for _, id := range ids {
		if r.Index(id) < 0 {
			return nil, r.unknown(id)
		}
	}
	var some Recipe
	for _, e := range r {
		if slices.Contains(ids, e.ID) {
			some = append(some, e)
		}
	}
	return some, nil
}

// Append adds steps at the end. It is refused whole when one of them cannot
// apply in a size it is meant for, naming the step, the size and the reason.
func (r Recipe) Append(run pattern.Run, entries ...Entry) (Recipe, []Result, error) {
	if err := slices.Concat(r, entries).Validate(run); err != nil {
		return nil, nil, err
	}
	return r.Extend(run, r.Replay(run), entries...)
}

// Extend is Append where the results of r in every size of the run are known,
// so that only the new steps have to be applied.
func (r Recipe) Extend(run pattern.Run, known []Result, entries ...Entry) (Recipe, []Result, error) {
	next := slices.Concat(r, entries)
	if err := next.Validate(run); err != nil {
		return nil, nil, err
	}
	results := next.Resume(known, len(r))
	for i := range next[len(r):] {
		if err := Failed(results, len(r)+i); err != nil {
			return nil, nil, err
		}
	}
	return next, results, nil
}

// Failed tells of the step at place i that it could not apply, by a [*Failure];
// nil when it could in every size it is meant for.
func Failed(results []Result, i int) error {
	var f Failure
	for k := range results {
		if rep := &results[k].Reports[i]; rep.State == Upset {
			f.ID, f.Kind = rep.ID, rep.Kind
			f.Sizes, f.Reasons = append(f.Sizes, results[k].Size.Label), append(f.Reasons, rep.Error)
		}
	}
	if len(f.Sizes) == 0 {
		return nil
	}
	return &f
}

// NewlyFailed tells of the step with that id that it could not apply in sizes in
// which it did before; nil when there is no such size.
func NewlyFailed(before, now []Result, id string) *Failure {
	stood := map[string]State{}
	for _, r := range before {
		for _, rep := range r.Reports {
			if rep.ID == id {
				stood[r.Size.Label] = rep.State
			}
		}
	}
	f := Failure{ID: id}
	for _, r := range now {
		for _, rep := range r.Reports {
			if rep.ID == id && rep.State == Upset && stood[r.Size.Label] == Applied {
				f.Kind = rep.Kind
				f.Sizes, f.Reasons = append(f.Sizes, r.Size.Label), append(f.Reasons, rep.Error)
			}
		}
	}
	if len(f.Sizes) == 0 {
		return nil
	}
	return &f
}

// Failure is a step that could not be applied, the sizes in which it could not
// and why in each.
type Failure struct {
	ID, Kind       string
	Sizes, Reasons []string
}

func (f *Failure) Error() string {
	return fmt.Sprintf("step %q (%s) %s", f.ID, f.Kind, f.where())
}

// In returns why the step failed as told to someone who looks at a size and has
// the step in the hand: the reason there, or else in the first size that has one.
func (f *Failure) In(size string) error {
	if i := slices.Index(f.Sizes, size); i >= 0 {
		return errors.New(f.Reasons[i])
	}
	return errors.New(f.where())
}

func (f *Failure) where() string {
	also := ""
	if len(f.Sizes) > 1 {
		also = fmt.Sprintf(" (it fails in %s as well)", words(f.Sizes[1:]))
	}
	return fmt.Sprintf("in size %s: %s%s", f.Sizes[0], f.Reasons[0], also)
}

// Replace puts other numbers, or another step, in the place of the entry with
// the same id. Later steps that this upsets stay and are marked by Replay.
func (r Recipe) Replace(e Entry) (Recipe, error) {
	i := r.Index(e.ID)
	if i < 0 {
		return nil, r.unknown(e.ID)
	}
	next := slices.Clone(r)
	next[i] = e
	return next, nil
}

// Remove takes the step with that id out of the recipe.
func (r Recipe) Remove(id string) (Recipe, error) {
	i := r.Index(id)
	if i < 0 {
		return nil, r.unknown(id)
	}
	return slices.Delete(slices.Clone(r), i, i+1), nil
}

func (r Recipe) unknown(id string) error {
	ids := make([]string, len(r))
	for i, e := range r {
		ids[i] = e.ID
	}
	return fmt.Errorf("the recipe has no step %q; it has %s", id, strings.Join(ids, ", "))
}

// maxSteps bounds a recipe, so that a hostile file cannot keep a machine busy.
const maxSteps = 2000

// Validate refuses a recipe whose ids are missing, unusable or not unique, or
// that names a size the run does not have.
func (r Recipe) Validate(run pattern.Run) error {
	if len(r) > maxSteps {
		return fmt.Errorf("the recipe has %d steps; at most %d are allowed", len(r), maxSteps)
	}
	seen := map[string]bool{patternFigures: true}
	for i, e := range r {
		switch {
		case e.ID == "":
			return fmt.Errorf("step %d has no id; give each step a short name of its own", i+1)
		case len(e.ID) > 80 || strings.ContainsFunc(e.ID, func(c rune) bool { return c < ' ' || c == '.' }):
			return fmt.Errorf("step %d: the id %q is over 80 long or holds a full stop", i+1, e.ID)
		case seen[e.ID]:
			return fmt.Errorf("step %d: the id %q is already used", i+1, e.ID)
		case e.Step == nil:
			return fmt.Errorf("step %q does nothing", e.ID)
		}
		seen[e.ID] = true
		for _, label := range e.Sizes {
			if _, ok := run.Size(label); !ok {
				return fmt.Errorf("step %q is meant for size %q, which the pattern does not have; it has %s", e.ID, label, strings.Join(run.Labels(), ", "))
			}
		}
		for _, n := range NumbersOf(e.Step) {
			for _, label := range sortedNames(n.Number.sizes) {
				if _, ok := run.Size(label); !ok {
					return fmt.Errorf("step %q has a number (%s) for size %q, which the pattern does not have; take it out of the table, which is for %s", e.ID, strings.Join(n.Path, " "), label, strings.Join(run.Labels(), ", "))
				}
			}
		}
	}
	return nil
}

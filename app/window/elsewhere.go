package window

import (
	"context"
	"reflect"
	"time"

	"fyne.io/fyne/v2"
	"truemat/app/desk"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// elsewhere is what would become of sizes that are not shown by what is
// proposed or rehearsed. It is looked for once that rests, away from the
// window's thread, and called off when something else is proposed.
type elsewhere struct {
	of   restingOn
	find func(context.Context) desk.Elsewhere
	off  context.CancelFunc
	told string // lengths in mm
}

// restingOn is what is proposed, and the state it would be done in.
type restingOn struct {
	size  string
	state *step.Result // the first of the results
	steps []step.Step
	entry step.Entry
}

func (r restingOn) same(o restingOn) bool {
	return r.size == o.size && r.state == o.state && reflect.DeepEqual(r.steps, o.steps) && reflect.DeepEqual(r.entry, o.entry)
}

// rest is how long a proposal stays as it is before it is tried elsewhere.
const rest = 250 * time.Millisecond

// lookElsewhere has what is proposed now tried in the other sizes, unless it is
// the same as before.
func (w *Window) lookElsewhere() {
	var now restingOn
	e := &w.elsewhere
	if w.shown.asked && w.shown.err == nil && !w.held && len(w.desk.Results()) > 1 {
		now = restingOn{size: w.desk.Size(), state: &w.desk.Results()[0]}
		if w.rehearsal != nil {
			now.entry = w.rehearsal.next
		} else if !w.desk.Only() {
			now.steps = w.shown.steps
		}
	}
	if e.of.same(now) {
		return
	}
	if e.off != nil {
		e.off()
	}
	*e = elsewhere{of: now}
	switch {
	case now.entry.Step != nil:
		e.find = w.desk.RehearseElsewhere(now.entry)
	case len(now.steps) > 0:
		e.find = w.desk.Elsewhere(now.steps...)
	default:
		return
	}
	var ctx context.Context
	ctx, e.off = context.WithCancel(context.Background())
	if w.running {
		time.AfterFunc(rest, func() { fyne.Do(func() { w.tryElsewhere(ctx) }) })
	}
}

// tryElsewhere tries it now and tells what comes of it above the tray.
func (w *Window) tryElsewhere(ctx context.Context) {
	if ctx.Err() != nil {
		return
	}
	find, said := w.elsewhere.find, ""
	w.away(func() { said = find(ctx).String() }, func() {
		if ctx.Err() != nil || said == "" {
			return
		}
		w.elsewhere.told = said
		w.prompt.refresh()
	})
}

// withElsewhere puts what would become of other sizes before a hint.
func (w *Window) withElsewhere(hint string) string {
	if w.elsewhere.told == "" {
		return hint
	}
	return unit.Restate(w.elsewhere.told, w.unit) + " " + hint
}

package window

import (
	"context"
	"reflect"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"truemat/app/desk"
	"truemat/app/lesson"
	"truemat/app/tool"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// elsewhere is what would be broken, and become of sizes that are not shown, by
// what is proposed or rehearsed. It is looked for once that rests, away from the
// window's thread, and called off when something else is proposed.
type elsewhere struct {
	of   restingOn
	find func(context.Context) desk.Elsewhere
	off  context.CancelFunc
	told string // lengths in mm, as those of
	here string // what would be broken in the size shown
}

// restingOn is what is proposed, and the state it would be done in.
type restingOn struct {
	size  string
	only  bool
	state *step.Result // the first of the results
	steps []step.Step
	entry step.Entry
}

func (r restingOn) same(o restingOn) bool {
	return r.size == o.size && r.only == o.only && r.state == o.state && reflect.DeepEqual(r.steps, o.steps) && reflect.DeepEqual(r.entry, o.entry)
}

// rest is how long a proposal stays as it is before it is tried elsewhere.
const rest = 250 * time.Millisecond

// lookElsewhere has what is proposed now tried in the other sizes, unless it is
// the same as before.
func (w *Window) lookElsewhere() {
	var now restingOn
	e := &w.elsewhere
	if w.shown.asked && w.shown.err == nil && !w.held {
		now = restingOn{size: w.desk.Size(), only: w.desk.Only(), state: &w.desk.Results()[0]}
		if w.rehearsal != nil {
			now.entry = w.rehearsal.next
		} else {
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
	find := w.elsewhere.find
	var found desk.Elsewhere
	w.away(func() { found = find(ctx) }, func() {
		here, told := found.Breaks(lesson.Called), found.String()
		if ctx.Err() != nil || here == "" && told == "" {
			return
		}
		w.elsewhere.here, w.elsewhere.told = here, told
		w.prompt.refresh()
	})
}

// withElsewhere puts what would be broken, and become of other sizes, before a
// hint. What the tool tells itself, or the act of a lesson, is not told twice.
func (w *Window) withElsewhere(hint string) string {
	if told := w.elsewhere.told; told != "" {
		hint = unit.Restate(told, w.unit) + " " + hint
	}
	if here := w.elsewhere.here; here != "" && !w.tellsBreaks() {
		here = unit.Restate(here, w.unit)
		hint = here + " " + withoutDifference(hint, here)
	}
	return hint
}

// withoutDifference leaves out of a hint by how much the sides of one seam then
// differ, where that is told already.
func withoutDifference(hint, told string) string {
	before, rest, _ := strings.Cut(hint, tool.SidesDiffer)
	said, after, _ := strings.Cut(rest+" ", ". ")
	seam, by, ok := strings.Cut(said, " by ")
	if !ok || strings.Contains(by, ", at ") || !strings.Contains(strings.ToLower(told), strings.ToLower(seam)) || !strings.Contains(told, "they differ by "+by) {
		return hint
	}
	return strings.TrimSpace(before + " " + after)
}

// tellsBreaks reports whether what would be broken is told already.
func (w *Window) tellsBreaks() bool {
	if w.lesson != nil {
		if _, more := w.lesson.Current(); more {
			return true
		}
	}
	return w.rehearsal == nil && strings.Contains(w.tool().Hint(), tool.WouldPutWrong)
}

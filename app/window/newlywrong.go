package window

import (
	"fmt"
	"slices"
	"strings"

	"truemat/app/lesson"
	"truemat/ops/check"
	"truemat/ops/step"
)

// upsetSteps are the places of the steps that could not apply in some size.
func (w *Window) upsetSteps() (places []int) {
	for _, r := range w.desk.Results() {
		places = append(places, r.UpsetSteps()...)
	}
	slices.Sort(places)
	return slices.Compact(places)
}

// wrongSince returns what tells which steps cannot be done and which checks are
// broken that were not when it was asked for, "" for none.
func (w *Window) wrongSince() func() string {
	checks, upset := w.column.checks, map[string]bool{}
	for _, i := range w.upsetSteps() {
		upset[w.desk.Document().Recipe[i].ID] = true
	}
	return func() string { return w.newlyUpset(upset) + newlyBroken(checks, w.column.checks) }
}

// newlyUpset names the steps that cannot apply any more, "" when there are none.
// Those before go by their id, since their places may be others now.
func (w *Window) newlyUpset(before map[string]bool) string {
	now := slices.DeleteFunc(w.upsetSteps(), func(i int) bool { return before[w.desk.Document().Recipe[i].ID] })
	if len(now) == 0 {
		return ""
	}
	return " " + titled(step.StepsInWords(now)) + " cannot be done any more."
}

// newlyBroken names the checks that are broken now and were not before, "" when
// there are none.
func newlyBroken(before, now []check.Check) string {
	broken := map[string]bool{}
	for _, ch := range before {
		broken[checkAt(ch)] = ch.Verdict == check.Broken
	}
	var names []string
	for _, ch := range now {
		if name := lesson.Called(ch); ch.Verdict == check.Broken && !broken[checkAt(ch)] && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	switch more := len(names) - brokenNamed; {
	case len(names) == 0:
		return ""
	case more > 0:
		names = append(names[:brokenNamed], fmt.Sprintf("%d more", more))
	}
	return " Red now: " + strings.Join(names, ", ") + "."
}

// brokenNamed is how many checks are named at most.
const brokenNamed = 3

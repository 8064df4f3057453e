package window

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/app/desk"
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

// since tells what became of the pattern since it was asked for: which steps
// cannot be done any more, which checks are broken and were not, and else which
// still are.
type since struct {
	w      *Window
	was    []step.Result
	checks []check.Check
	upset  map[string]bool // by id
	steps  int
	lays   bool // pieces were only laid elsewhere: what is still red is no news
}

func (w *Window) since() since {
	s := since{w: w, was: w.desk.Results(), checks: w.column.checks, upset: map[string]bool{}, steps: len(w.desk.Document().Recipe)}
	for _, i := range w.upsetSteps() {
		s.upset[w.desk.Document().Recipe[i].ID] = true
	}
	return s
}

// laysOnly reports whether steps lay pieces elsewhere on the mat and alter none.
func laysOnly(steps []step.Step) bool {
	return !slices.ContainsFunc(steps, func(s step.Step) bool {
		switch s.(type) {
		case *step.Move, *step.Place:
			return false
		}
		return true
	})
}

// kept says which steps were added to the recipe.
func (s since) kept() string {
	var places []int
	n := len(s.w.desk.Document().Recipe)
	for i := min(s.steps, n-1); i < n; i++ { // at least the last, which may have taken up what was done
		places = append(places, i)
	}
	is := "is"
	if len(places) > 1 {
		is = "are"
	}
	return titled(step.StepsInWords(places)) + " " + is + " kept."
}

// tell reports what was done and what is wrong since in the size shown, and
// once that is known in the others.
func (s since) tell(done string) {
	w := s.w
	here, tone := s.newlyUpset()+calledBy("Red now", newlyBroken(s.checks, w.column.checks), brokenNamed), check.Broken
	if here == "" {
		tone = check.Holds
		if !s.lays {
			here = calledBy("Still red", newlyBroken(nil, w.column.checks), stillNamed)
		}
		if here != "" {
			tone = check.Look
		}
	}
	w.prompt.reportWith(done+here, tone)
	if s.lays {
		return
	}
	state, find := &w.desk.Results()[0], w.desk.Since(s.was)
	var all []desk.Since
	w.away(func() { all = find() }, func() {
		if &w.desk.Results()[0] != state || w.prompt.news != done+here {
			return // something else is told by now
		}
		there, new := inOthers(all, w.desk.Size())
		if there == "" {
			return
		}
		if new {
			tone = check.Broken
		} else if tone == check.Holds {
			tone = check.Look
		}
		w.prompt.reportWith(done+here+there, tone)
	})
}

// newlyUpset names the steps that cannot apply any more, "" when there are none.
// Those before go by their id, since their places may be others now.
func (s since) newlyUpset() string {
	now := slices.DeleteFunc(s.w.upsetSteps(), func(i int) bool { return s.upset[s.w.desk.Document().Recipe[i].ID] })
	if len(now) == 0 {
		return ""
	}
	return " " + titled(step.StepsInWords(now)) + " cannot be done any more."
}

// newlyBroken names the checks that are broken now and were not before.
func newlyBroken(before, now []check.Check) (names []string) {
	broken := map[check.Thing]bool{} // whichever of its edges it led to
	for _, ch := range before {
		broken[ch.Thing()] = broken[ch.Thing()] || ch.Verdict == check.Broken
	}
	for _, ch := range now {
		if ch.Verdict == check.Broken && !broken[ch.Thing()] {
			names = append(names, lesson.Called(ch))
		}
	}
	return names
}

// inOthers tells what is broken in sizes that are not shown and not in the one
// shown alike: newly, which it reports, else more than before, or, where the one
// shown holds, still.
func inOthers(all []desk.Since, shown string) (string, bool) {
	var here desk.Since
	for _, s := range all {
		if s.Size == shown {
			here = s
		}
	}
	for _, kind := range []struct {
		said string
		new  bool
		of   func(desk.Since) []check.Check
		told []check.Check // in the size shown
	}{
		{"Red now in", true, func(s desk.Since) []check.Check { return s.Broken }, here.Broken},
		{"Worse in", true, func(s desk.Since) []check.Check { return s.Worse }, slices.Concat(here.Broken, here.Worse)},
		{"Still red in", false, func(s desk.Since) []check.Check { return s.Still }, nil},
	} {
		if !kind.new && len(here.Broken)+len(here.Worse)+len(here.Still) > 0 {
			continue
		}
		var names []string
		size, gravest, sizes := "", -1.0, 0
		for _, s := range all {
			found := slices.DeleteFunc(slices.Clone(kind.of(s)), func(c check.Check) bool {
				return slices.ContainsFunc(kind.told, func(o check.Check) bool { return o.Thing() == c.Thing() })
			})
			if s.Size == shown || len(found) == 0 {
				continue
			}
			sizes++
			for _, c := range found {
				if names = append(names, lesson.Called(c)); math.Abs(c.Measured) > gravest {
					size, gravest = s.Size, math.Abs(c.Measured)
				}
			}
		}
		switch {
		case sizes == 2:
			size += " and 1 size more"
		case sizes > 2:
			size += fmt.Sprintf(" and %d sizes more", sizes-1)
		}
		if s := calledBy(kind.said+" "+size, names, stillNamed); s != "" {
			return s, kind.new
		}
	}
	return "", false
}

// calledBy names some checks behind a word, each once and at most so many; "" when
// there are none.
func calledBy(word string, names []string, most int) string {
	var each []string
	for _, n := range names {
		if !slices.Contains(each, n) {
			each = append(each, n)
		}
	}
	switch more := len(each) - most; {
	case len(each) == 0:
		return ""
	case more > 0:
		each = append(each[:most], fmt.Sprintf("%d more", more))
	}
	return " " + word + ": " + strings.Join(each, ", ") + "."
}

// How many checks are named at most: of those that are new, and of others.
const (
	brokenNamed = 3
	stillNamed  = 2
)

package recipe

import (
	"errors"
	"fmt"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Trial is what would come of opening a recipe on a pattern.
type Trial struct {
	// Lacks are the names that the pattern is known to lack.
	Lacks []Lack
	// May are names that the pattern has not, but of which earlier steps may make
	// some; that is known once what is in Lacks is said.
	May []Lack
	// Err is why the steps cannot be done although no name is lacking: a [*Clash],
	// or a [*step.Failure] of the step at the place At; nil when they can.
	Err error
	At  int // −1 for no step

	opened Opened
}

// Clash is the error of a map by which two names of the steps become one.
type Clash struct{ A, B, To step.Name }

func (c *Clash) Error() string {
	return fmt.Sprintf("%s and %s would both become %s; give each a name of its own", c.A, c.B, c.To)
}

// Try tells what would come of [Open]. Of a name that an earlier step may have
// made it is told by doing the steps up to the one that speaks of it.
func Try(run pattern.Run, have step.Recipe, known []step.Result, add step.Recipe, m Map) Trial {
	t := Trial{At: -1}
	if len(add) == 0 {
		t.Err = errors.New("the recipe holds no step")
		return t
	}
	named, err := Rename(add, m, known)
	t.Err = err
	may := Lacks(add, m, known)
	for _, l := range may {
		if l.Sure {
			t.Lacks = append(t.Lacks, l)
		} else {
			t.May = append(t.May, l)
		}
	}
	if err != nil || len(t.Lacks) > 0 {
		return t
	}
	t.May = nil
	named, ids := free(have, named)
	next := slices.Concat(have, named)
	if t.Err = next.Validate(run); t.Err != nil {
		return t
	}
	results := known
	for i := range named {
		n := len(have) + i
		before := results
		results = next[:n+1].Resume(before, n)
		err := step.Failed(results, n)
		if err == nil {
			continue
		}
		if t.Lacks = missed(add, i, m, known, before, may); len(t.Lacks) == 0 {
			t.Err, t.At = err, i
		}
		for _, l := range may {
			if add.Index(l.Steps[0]) > i {
				t.May = append(t.May, l)
			}
		}
		return t
	}
	t.opened = Opened{next, results, len(named), ids}
	return t
}

// missed returns which of the names that earlier steps may have made the entry
// at place i does not find, in the results before it.
func missed(add step.Recipe, i int, m Map, known, before []step.Result, may []Lack) []Lack {
	t := newTrack(m, known)
	for _, e := range add[:i] {
		t.pass(e, e.Mentions())
	}
	find := finder{t, before}
	e := add[i]
	var lacks []Lack
	for _, l := range may {
		if !slices.Contains(l.Steps, e.ID) {
			continue
		}
		l.Sizes = nil
		meantFor := 0
		for _, r := range before {
			if !meant(e, m, r.Size.Label) {
				continue
			}
			meantFor++
			if !has(r.Size.Pattern, find.here(l.Name)) {
				l.Sizes = append(l.Sizes, r.Size.Label)
			}
		}
		if len(l.Sizes) == 0 {
			continue
		}
		if len(l.Sizes) == meantFor {
			l.Sizes = nil
		}
		l.Sure = true
		l.Near, l.Spoken = find.near(l, add)
		lacks = append(lacks, l)
	}
	return lacks
}

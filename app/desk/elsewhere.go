package desk

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Elsewhere is what a change would do in sizes that are not shown and does not
// do in the one shown, and what it would break in that one.
type Elsewhere struct {
	Here   []check.Check // newly broken in the size shown, the order that of the checks
	Size   string        // in which it is worst, "" when all are alike
	Cannot string        // why it cannot be done there, or
	Check  *check.Check  // what would not hold there, or
	Edge   *step.Change  // an edge that it alters the other way
	State  string        // of the check: "would be broken", "would get worse" or "would stay broken"
	Also   int           // how many sizes more have the same for their worst
	Astray []Astray      // notches that lie on another piece there
}

// String tells it in sentences, lengths in mm; "" when all are alike.
func (e Elsewhere) String() string {
	told := []string{}
	if e.Size != "" {
		told = append(told, e.worst())
	}
	for _, a := range e.Astray {
		told = append(told, a.String())
	}
	return strings.Join(told, " ")
}

// worst tells what becomes of the size in which it is worst.
func (e Elsewhere) worst() string {
	told := ""
	switch {
	case e.Cannot != "":
		told = "this cannot be done: " + strings.TrimSuffix(e.Cannot, ".")
	case e.Check != nil:
		found := e.Check.Found()
		told = "this " + e.State + ": " + strings.ToLower(found[:1]) + found[1:]
	default:
		does := "longer"
		if e.Edge.After < e.Edge.Before {
			does = "shorter"
		}
		told = fmt.Sprintf("%s of %s gets %s, by %s", e.Edge.Edge, e.Edge.Piece, does, unit.MM(math.Abs(e.Edge.After-e.Edge.Before)))
	}
	switch {
	case e.Also == 1:
		told += "; alike in 1 size more"
	case e.Also > 1:
		told += fmt.Sprintf("; alike in %d sizes more", e.Also)
	}
	return "In " + e.Size + " " + told + "."
}

// Breaks tells in a sentence what would be broken in the size shown, lengths in
// mm, the first in full and the one after it as it is called; "" when
// nothing is.
func (e Elsewhere) Breaks(called func(check.Check) string) string {
	if len(e.Here) == 0 {
		return ""
	}
	found := e.Here[0].Found()
	told := "This would break: " + strings.ToLower(found[:1]) + found[1:]
	if len(e.Here) > 1 {
		name := called(e.Here[1])
		told += "; also " + strings.ToLower(name[:1]) + name[1:]
	}
	switch more := len(e.Here) - 2; {
	case more == 1:
		told += ", and one thing more"
	case more > 1:
		told += fmt.Sprintf(", and %d things more", more)
	}
	return told + "."
}

// Elsewhere returns what finds what steps after those of the recipe would break
// in the size shown, and do in the other sizes they are meant for. It may run in
// another goroutine while the desk is used on, and gives up, finding nothing,
// once the context is done.
func (d *Desk) Elsewhere(steps ...step.Step) func(context.Context) Elsewhere {
	if d.look >= 0 || len(steps) == 0 {
		return func(context.Context) Elsewhere { return Elsewhere{} }
	}
	l := d.elsewhere(d.meant())
	return func(ctx context.Context) Elsewhere {
		return l.find(ctx, func(at int) (step.Result, string) {
			res, err := l.was[at].Try(steps...)
			if err != nil {
				return res, err.Error()
			}
			return res, ""
		})
	}
}

// RehearseElsewhere is Elsewhere for an edit of a step that is there already.
func (d *Desk) RehearseElsewhere(e step.Entry) func(context.Context) Elsewhere {
	doc := d.Document()
	i := doc.Recipe.Index(e.ID)
	next, err := doc.Recipe.Replace(e)
	if err != nil {
		return func(context.Context) Elsewhere { return Elsewhere{} }
	}
	l := d.elsewhere(e.Sizes)
	return func(ctx context.Context) Elsewhere {
		return l.find(ctx, func(at int) (step.Result, string) {
			one := doc.Source
			one.Sizes = one.Sizes[at : at+1]
			before, err := next[:i].ReplayContext(ctx, one)
			if err != nil {
				return step.Result{}, ""
			}
			res := next.Resume(before, i)[0]
			return res, newlyUpset(l.was[at], res)
		})
	}
}

// newlyUpset tells which step could be applied before and cannot any more.
func newlyUpset(was, is step.Result) string {
	for i, rep := range is.Reports {
		if rep.State == step.Upset && (i >= len(was.Reports) || was.Reports[i].State != step.Upset) {
			return fmt.Sprintf("step %d would no longer apply: %s", i+1, rep.Error)
		}
	}
	return ""
}

// others is what is needed to compare the sizes away from the desk.
type others struct {
	was    []step.Result // in every size, as it is now
	shown  int           // the size shown
	meant  []string      // nil for all
	bounds check.Bounds
}

func (d *Desk) elsewhere(meant []string) others {
	return others{d.results, max(slices.IndexFunc(d.results, func(r step.Result) bool { return r.Size.Label == d.size }), 0), meant, d.Bounds()}
}

// find tries the change in the size shown and then in all others.
func (o others) find(ctx context.Context, change func(at int) (step.Result, string)) (worst Elsewhere) {
	here, cannot := change(o.shown)
	if cannot != "" || ctx.Err() != nil {
		return Elsewhere{} // which is told already
	}
	checks := check.Run(here.Before, here.Size.Pattern, o.bounds)
	checksHere := byThing(checks)
	broken := o.broken(checks)
	gravest, kinds := 0.0, map[string]int{}
	var astray []Astray
	fresh := added(o.was[o.shown], here)
	for i, was := range o.was {
		if i == o.shown || len(o.meant) > 0 && !slices.Contains(o.meant, was.Size.Label) {
			continue
		}
		res, cannot := change(i)
		if ctx.Err() != nil {
			return Elsewhere{}
		}
		e, grave := Elsewhere{Cannot: cannot}, math.Inf(1)
		if cannot == "" {
			astray = strays(astray, was.Size.Label, fresh, added(was, res))
			e, grave = o.compare(was, res, o.was[o.shown], here, checksHere)
		}
		if grave == 0 {
			continue
		}
		kinds[e.kind()]++
		if e.Size = was.Size.Label; grave > gravest {
			worst, gravest = e, grave
		}
	}
	worst.Also, worst.Here, worst.Astray = max(kinds[worst.kind()]-1, 0), broken, astray
	return worst
}

// broken returns of the checks of the size shown those that are broken and were
// not before, one of each thing.
func (o others) broken(checks []check.Check) (all []check.Check) {
	was := o.was[o.shown]
	told := map[check.Thing]bool{}
	for thing, c := range byThing(check.Run(was.Before, was.Size.Pattern, o.bounds)) {
		told[thing] = c.Verdict == check.Broken
	}
	for _, c := range checks {
		if c.Verdict == check.Broken && !told[c.Thing()] {
			told[c.Thing()] = true
			all = append(all, c)
		}
	}
	return all
}

// kind is the same for what is alike in several sizes.
func (e Elsewhere) kind() string {
	switch {
	case e.Check != nil:
		return fmt.Sprint(e.Check.Thing(), e.State)
	case e.Edge != nil:
		return fmt.Sprint(e.Edge.Piece, e.Edge.Edge)
	}
	return ""
}

// compare tells the worst that becomes of a size and does not become of the one
// shown, and how grave that is: 0 when all is alike.
func (o others) compare(was, is, wasHere, isHere step.Result, here map[check.Thing]check.Check) (worst Elsewhere, gravest float64) {
	var before map[check.Thing]check.Check
	for thing, c := range byThing(check.Run(is.Before, is.Size.Pattern, o.bounds)) {
		if c.Verdict != check.Broken || alike(c, here[thing]) {
			continue
		}
		if before == nil {
			before = byThing(check.Run(was.Before, was.Size.Pattern, o.bounds))
		}
		b, there := before[thing]
		e := Elsewhere{Check: &c, State: "would be broken"}
		if there && b.Verdict == check.Broken {
			switch d := math.Abs(c.Measured) - math.Abs(b.Measured); {
			case math.Abs(c.Measured-b.Measured) < untouched:
				continue
			case d > 0:
				e.State = "would get worse"
			default:
				e.State = "would stay broken"
			}
		}
		grave := breaks + math.Abs(c.Measured)
		if c.Unit == "mm" {
			grave += inLength
		}
		if grave > gravest || grave == gravest && c.Text < worst.Check.Text {
			worst, gravest = e, grave
		}
	}
	if gravest > 0 {
		return worst, gravest
	}
	return contrary(lengthened(was.Size.Pattern, is.Size.Pattern), lengthened(wasHere.Size.Pattern, isHere.Size.Pattern))
}

// How what becomes of a size is weighed: that something breaks before an edge
// that goes another way, and of what breaks a length before other figures.
const (
	breaks   = 1e6
	inLength = 1e5
)

// untouched is the difference of a figure that no change made.
const untouched = 1e-3

// alike reports whether a check is broken in the size shown as well, the same
// way and by about as much.
func alike(c, here check.Check) bool {
	if here.Verdict != check.Broken {
		return false
	}
	return c.Unit == "" || c.Measured*here.Measured >= 0 && math.Abs(c.Measured-here.Measured) <= max(muchMore*math.Abs(here.Measured), 1)
}

// muchMore is the share by which a figure differs much from that of the size
// shown.
const muchMore = 0.5

// contrary finds the edge that is made longer by much in one size and shorter
// by much in the other.
func contrary(there, here map[[2]string]step.Change) (worst Elsewhere, gravest float64) {
	for at, c := range there {
		h, ok := here[at]
		d, other := c.After-c.Before, h.After-h.Before
		if ok && d*other < 0 && min(math.Abs(d), math.Abs(other)) > muchLonger && math.Abs(d) > gravest {
			worst, gravest = Elsewhere{Edge: &c}, math.Abs(d)
		}
	}
	return worst, gravest
}

// muchLonger is the change of length in mm that counts as much.
const muchLonger = 1

func lengthened(was, is pattern.Pattern) map[[2]string]step.Change {
	all := map[[2]string]step.Change{}
	for _, c := range step.Changes(was, is) {
		if c.What == "length" && c.Edge != "" && c.Before > 0 && c.After > 0 {
			all[[2]string{c.Piece, c.Edge}] = c
		}
	}
	return all
}

// byThing keeps of each thing that is checked the worst.
func byThing(checks []check.Check) map[check.Thing]check.Check {
	all := map[check.Thing]check.Check{}
	for _, c := range checks {
		t := c.Thing()
		if w, ok := all[t]; !ok || c.Verdict == check.Broken && (w.Verdict != check.Broken || math.Abs(c.Measured) > math.Abs(w.Measured)) {
			all[t] = c
		}
	}
	return all
}

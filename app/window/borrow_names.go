package window

import (
	"errors"
	"fmt"
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/recipe"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// asIs takes back what was said of a name.
const asIs = "as it is"

// ask shows the names that do not fit as they are, each with what stands for it
// or may; those of which only left-out steps speak are not asked for.
func (b *borrowing) ask() {
	lacks := b.trial.Lacks
	b.asked = slices.DeleteFunc(b.asked, func(a recipe.Lack) bool {
		return b.names[a.Name] == "" && !slices.ContainsFunc(lacks, func(l recipe.Lack) bool { return l.Name == a.Name })
	})
	for _, l := range lacks {
		if !slices.ContainsFunc(b.asked, func(a recipe.Lack) bool { return a.Name == l.Name }) {
			b.asked = append(b.asked, l)
		}
	}
	b.w.renew(b.list, func() {
		for i, a := range b.asked {
			at := slices.IndexFunc(lacks, func(l recipe.Lack) bool { return l.Name == a.Name })
			if at >= 0 {
				a, b.asked[i] = lacks[at], lacks[at] // what is offered may be other by now
			}
			if by := b.speaking(a.Name); len(by) > 0 {
				b.list.Add(b.row(a, by, at >= 0))
			}
		}
		rolls(b.list, b.rolls[1])
	})
}

// speaking are the ids of the steps to be done that speak of a name.
func (b *borrowing) speaking(n step.Name) (ids []string) {
	for _, e := range b.chosen() {
		if slices.ContainsFunc(e.Mentions(), func(m step.Mention) bool { return m.Name == n }) {
			ids = append(ids, e.ID)
		}
	}
	return ids
}

// outcome tells what would come of the steps, and in which ink.
func (b *borrowing) outcome(chosen step.Recipe) (string, color.NRGBA) {
	p, t := b.w.palette, b.trial
	var clash *recipe.Clash
	var failure *step.Failure
	word, ink := "Every name they speak of is here, and every step can be done.", p.Good
	switch {
	case len(chosen) == 0:
		return "Every step is left out.", p.Look
	case errors.As(t.Err, &clash):
		word, ink = fmt.Sprintf("%s and %s cannot both be %q here: choose another for one of them, or leave its steps out.", titled(clash.A.String()), clash.B, clash.To.Name), p.Poor
	case errors.As(t.Err, &failure):
		at, why := b.steps.Index(chosen[t.At].ID)+1, failure.In(b.w.desk.Size()).Error()
		word, ink = fmt.Sprintf("Step %d cannot be done here: %s. Leave that step out", at, strings.TrimSuffix(b.placed(unit.Restate(why, b.w.unit)), ".")), p.Poor
		if len(b.list.Objects) > 0 {
			word += ", or choose other names"
		}
		word += "."
	case t.Err != nil:
		word, ink = b.placed(sentence(t.Err)), p.Poor
	case len(t.Lacks) > 0 && !slices.ContainsFunc(t.Lacks, func(l recipe.Lack) bool { return !nothing(l) }):
		word, ink = "Something they speak of is not here, nor anything that could stand for it: leave those steps out, or make it first.", p.Poor
	case len(t.Lacks) == 1:
		word, ink = "One name is not here: say what it is called on this pattern, before anything is done.", p.Poor
	case len(t.Lacks) > 1:
		word, ink = fmt.Sprintf("%d names are not here: say what they are called on this pattern, before anything is done.", len(t.Lacks)), p.Poor
	}
	if len(t.Lacks) > 0 && t.Err == nil && len(t.May) > 0 {
		word += " More may be asked for then."
	}
	return word, ink
}

// nothing reports whether the pattern has nothing that could stand for a name.
func nothing(l recipe.Lack) bool { return !l.Taken && len(l.Near) == 0 && len(l.Spoken) == 0 }

// row shows a name, the steps that speak of it, and lets it be said what it is
// called here.
func (b *borrowing) row(l recipe.Lack, by []string, lacking bool) fyne.CanvasObject {
	w := b.w
	what := fmt.Sprintf("%s, in %s", b.placed(l.Name.String()), stepsSpoken(by, b.steps))
	sign, ink := "holds", w.palette.Good
	now := b.names[l.Name]
	other, shared := b.held(l.Name)[now]
	switch {
	case lacking || shared:
		sign, ink = "broken", w.palette.Poor
	case b.trial.At >= 0 && slices.Contains(by, b.chosen()[b.trial.At].ID):
		sign, ink = "look", w.palette.Look
	}
	none := lacking && nothing(l)
	switch {
	case l.Taken:
		what += "; this pattern has one already, so give it another name"
	case l.Doubt:
		what += "; of what is joined there several may be meant, so say which"
	case shared:
		what += fmt.Sprintf("; %s is %s already", now, other.Name)
	case none && l.Name.Kind == step.NameStep:
		what += fmt.Sprintf("; its figure is asked for there: take it in too, or leave %s out", stepsSpoken(by, b.steps))
		if b.steps.Index(l.Name.Name) < 0 {
			what = fmt.Sprintf("A figure of step %q, which is not in the file, is asked for in %s: leave that out", l.Name.Name, stepsSpoken(by, b.steps))
		}
	case none:
		what += fmt.Sprintf("; there is no %s here that could stand for it: leave %s out", l.Name.Kind, stepsSpoken(by, b.steps))
	}
	wide := b.wide - 300
	if none {
		wide = b.wide - 60
	}
	name := container.New(beside{}, icon(sign, ink, 16), para(what, wide, normal, false, w.palette.Text))
	if none {
		return container.New(atWidth{b.wide - besideBar}, name)
	}
	return container.New(atWidth{b.wide - besideBar}, container.New(ends{}, name, b.answer(l))) // beside the bar of what rolls
}

// answer is the field in which it is said what a name is called here.
func (b *borrowing) answer(l recipe.Lack) fyne.CanvasObject {
	set := func(now string) {
		now = strings.TrimSpace(now)
		if now == "" || now == l.Name.Name && !l.Taken && !l.Doubt {
			delete(b.names, l.Name)
		} else {
			b.names[l.Name] = now
		}
		b.look(b.lay) // a step may need what was left out no more
	}
	now := b.names[l.Name]
	if l.Taken {
		e := newEntry(now, 220, func(s string, changed bool) {
			if changed {
				set(s)
			}
		}, b.w.backOut)
		e.name = l.Name.String()
		return e
	}
	options, named := b.options(l)
	c := newChoice(options, now, func(option string) { set(named[option]) })
	c.PlaceHolder = "is called here …"
	c.wide, c.name = 220, l.Name.String()
	return c
}

// held is what other names of the steps are called here, and which of them it is.
func (b *borrowing) held(n step.Name) map[string]step.Name {
	return recipe.Standing(b.chosen(), b.names, b.w.desk.Results(), n)
}

// options are what a name may be called here, and by each which name that is;
// what another name stands for already comes last and says so.
func (b *borrowing) options(l recipe.Lack) (options []string, named map[string]string) {
	named = map[string]string{}
	now := b.names[l.Name]
	if now != "" {
		options = append(options, asIs)
		named[asIs] = ""
	}
	held := b.held(l.Name)
	all := slices.Concat(l.Near, l.Spoken)
	if now != "" && !slices.Contains(all, now) {
		all = append(all, now)
	}
	var last []string
	for _, name := range all {
		of, taken := held[name]
		if !taken || name == now {
			options, named[name] = append(options, name), name
			continue
		}
		option := fmt.Sprintf("%s (is %s of %s)", name, of.Name, stepsSpoken(b.speaking(of), b.steps))
		last, named[option] = append(last, option), name
	}
	return append(options, last...), named
}

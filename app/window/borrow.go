package window

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/pattern"
	"truemat/ops/recipe"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// borrowing is the page on which steps of another pattern are fitted to this one.
type borrowing struct {
	w     *Window
	wide  float32
	steps step.Recipe
	of    []pattern.Pattern // that they were made for, and this one: of the first that has it, what a step speaks of is told
	out   map[string]bool   // ids of the steps that are left out
	names recipe.Map
	trial recipe.Trial        // what would come of it, as it was looked for last
	wants map[string][]string // by the ids of steps to be done, the left-out ones that they need
	times int                 // how often that was looked for
	asked []recipe.Lack       // what did not fit at any time, in the order it was met
	sheet *sheet
	told  *fyne.Container
	words []*fyne.Container // of the steps, in these
	list  *fyne.Container
	rolls [2]*container.Scroll // of these
	state *fyne.Container
	foot  *fyne.Container
	do    *touch
	tall  struct{ all, steps, names float32 } // heights: of what is told, asked and said; of what shows of the first two
}

// Measures of the page in units: its width, and how tall what it says is at
// least, what shows of the steps when names need the room, and of a name.
const (
	borrowWide = 680
	twoLines   = 42
	leastSteps = 168
	leastNames = 80
	besideBar  = 14
	borrowRest = 196 // the title, the buttons and the gaps
	ofNames    = 0.45
	besideTick = 60 // the room beside the ticks of the steps
)

// stepsPage shows steps of another pattern, and which of the names they speak
// of this one lacks, each with what may stand for it. Of is the pattern they
// were made for, where it is known.
func (w *Window) stepsPage(name string, steps step.Recipe, of ...pattern.Pattern) *borrowing {
	b := &borrowing{w: w, wide: w.pageWide(borrowWide), steps: steps, of: append(of, w.desk.Pattern()), out: map[string]bool{}, names: recipe.Map{}}
	b.told = container.New(stack{gap: 4})
	b.list = container.New(stack{gap: 6})
	b.rolls = [2]*container.Scroll{container.NewVScroll(b.told), container.NewVScroll(b.list)}
	b.state = container.New(stack{})
	b.foot = container.New(line{})
	b.lines()
	b.look(func() {
		shows := func(tall *float32, roll *container.Scroll) fyne.CanvasObject {
			return container.New(roomy{func() fyne.Size { return fyne.NewSize(b.wide, *tall) }}, roll)
		}
		b.sheet = w.openSheet("Steps from "+name, b.wide,
			shows(&b.tall.steps, b.rolls[0]), rule(w.palette.Line),
			container.New(roomy{func() fyne.Size { return fyne.NewSize(b.wide, b.said()) }}, b.state),
			shows(&b.tall.names, b.rolls[1]),
			container.New(ends{}, w.button("Leave it", false, w.backOut), b.foot))
		b.sheet.room = func() {
			b.tall.all, b.tall.names = 0, 0
			b.share()
		}
		b.lay()
		if all := append(reachable(b.list), reachable(b.foot)...); len(all) > 0 {
			w.win.Canvas().Focus(all[0])
		}
	})
	return b
}

// chosen are the steps that are to be done.
func (b *borrowing) chosen() step.Recipe {
	return slices.DeleteFunc(slices.Clone(b.steps), func(e step.Entry) bool { return b.out[e.ID] })
}

// lines lists the steps, each with a tick that can be taken off.
func (b *borrowing) lines() {
	for i, e := range b.steps {
		words := container.New(stack{})
		b.words = append(b.words, words)
		b.told.Add(container.New(columns{besideTick}, newTick(strconv.Itoa(i+1), true, func(on bool) {
			b.out[e.ID] = !on
			b.look(b.lay)
		}), words))
	}
	rolls(b.told, b.rolls[0])
}

func (b *borrowing) wordsWide() float32 { return b.wide - besideTick - besideBar }

// tell tells the steps, and of one that is to be done which left-out one it needs.
func (b *borrowing) tell() {
	w := b.w
	for i, e := range b.steps {
		ink := w.palette.Text
		if b.out[e.ID] {
			ink = w.palette.Faint
		}
		b.words[i].RemoveAll()
		said := b.placed(unit.Restate(step.Told(e.Step, b.of...), w.unit))
		b.words[i].Add(para(said, b.wordsWide(), normal, false, ink))
		if needs := b.wants[e.ID]; len(needs) > 0 && !b.out[e.ID] {
			b.words[i].Add(para(fmt.Sprintf("It needs %s, left out: take that in again, leave this one out too, or say below what is meant here.", stepsSpoken(needs, b.steps)),
				b.wordsWide(), normal, false, w.palette.Poor))
		}
	}
	b.told.Refresh()
}

// placed is a text that names steps by their ids, with their places on the page.
func (b *borrowing) placed(text string) string {
	for i, e := range b.steps {
		text = strings.ReplaceAll(text, fmt.Sprintf("step %q", e.ID), fmt.Sprintf("step %d", i+1))
	}
	return text
}

// look finds out what would come of the steps as they are chosen and named now,
// and then does what follows from that.
func (b *borrowing) look(then func()) {
	b.times++
	now, chosen := b.times, b.chosen()
	try, with := b.w.desk.TryRecipe(chosen, b.names), map[string]func() recipe.Trial{}
	for _, e := range b.steps {
		if b.out[e.ID] {
			more := slices.DeleteFunc(slices.Clone(b.steps), func(s step.Entry) bool { return b.out[s.ID] && s.ID != e.ID })
			with[e.ID] = b.w.desk.TryRecipe(more, b.names)
		}
	}
	out := slices.DeleteFunc(slices.Clone(b.steps), func(e step.Entry) bool { return with[e.ID] == nil })
	var trial recipe.Trial
	var wants map[string][]string
	b.w.away(func() { trial = try(); wants = wanting(trial, out, with) }, func() {
		if now != b.times {
			return
		}
		b.trial, b.wants = trial, wants
		then()
	})
}

// wanting returns, by the ids of steps to be done, those of the left-out ones
// that make what they lack: by a name of their own, or as a trial with them tells.
func wanting(trial recipe.Trial, out step.Recipe, with map[string]func() recipe.Trial) map[string][]string {
	makers := map[step.Name]string{}
	for _, e := range out {
		makers[step.Name{Kind: step.NameStep, Name: e.ID}] = e.ID
		for _, m := range e.Mentions() {
			if m.Makes {
				makers[m.Name] = e.ID
			}
		}
	}
	wants := map[string][]string{}
	for _, l := range trial.Lacks {
		id, ok := makers[l.Name]
		if !ok {
			id, ok = makers[step.Name{Kind: step.NamePiece, Name: l.Name.Piece}]
		}
		for i := 0; i < len(out) && !ok; i++ {
			if out[i].CanMake(l.Name.Kind) {
				t := with[out[i].ID]()
				lacks := slices.ContainsFunc(append(t.Lacks, t.May...), func(o recipe.Lack) bool { return o.Name == l.Name })
				id, ok = out[i].ID, t.Err == nil && !lacks
			}
		}
		for _, by := range l.Steps {
			if ok && !slices.Contains(wants[by], id) {
				wants[by] = append(wants[by], id)
			}
		}
	}
	return wants
}

// lay shows what is known of the steps as they are chosen and named now.
func (b *borrowing) lay() {
	w := b.w
	chosen := b.chosen()
	b.tell()
	b.ask()
	word, ink := b.outcome(chosen)
	if w.desk.Only() {
		word += " They are done in size " + w.desk.Size() + " alone."
	}
	b.state.RemoveAll()
	b.state.Add(para(word, b.wide, normal, true, ink))
	b.state.Refresh()
	does := "Do all of them"
	if len(chosen) < len(b.steps) {
		does = fmt.Sprintf("Do %d of %d", len(chosen), len(b.steps))
	}
	able := len(b.trial.Lacks) == 0 && b.trial.Err == nil
	b.do = w.button(does, able, b.accept)
	b.do.able(able)
	w.renew(b.foot, func() { b.foot.Add(b.do) })
	b.share()
	b.sheet.say(nil)
}

// share gives the parts of the page their heights: all of them together stay as
// tall as they were once, so that nothing jumps, unless names need more room.
func (b *borrowing) share() {
	t, room := &b.tall, b.w.pageRoom().Height-borrowRest
	if len(b.asked) > 0 {
		t.names = max(t.names, min(max(b.list.MinSize().Height+4, leastNames), room*ofNames))
	}
	need := b.told.MinSize().Height
	if t.all == 0 {
		t.all = min(need+b.said()+t.names, room)
	}
	t.all = min(max(t.all, min(need, leastSteps)+b.said()+t.names), room)
	t.steps = max(t.all-b.said()-t.names, leastNames)
	for _, r := range b.rolls {
		r.Refresh()
	}
}

// said is how tall what the page says of the steps is.
func (b *borrowing) said() float32 { return max(b.state.MinSize().Height, twoLines) }

// stepsSpoken names steps by their places in the recipe.
func stepsSpoken(ids []string, steps step.Recipe) string {
	var at []string
	for _, id := range ids {
		if i := steps.Index(id); i >= 0 {
			at = append(at, strconv.Itoa(i+1))
		}
	}
	if len(at) == 1 {
		return "step " + at[0]
	}
	return "steps " + strings.Join(at, ", ")
}

// accept does the steps that are not left out, as one change.
func (b *borrowing) accept() {
	since := b.w.since()
	if _, err := b.w.desk.OpenRecipe(b.chosen(), recipe.Spoken(b.chosen(), b.names, b.w.desk.Results())); err != nil {
		b.sheet.say(fmt.Errorf("nothing was done: %w", err))
		return
	}
	b.sheet.close()
	b.w.show()
	done := fmt.Sprintf("%d steps are done; Ctrl+Z takes all of them back.", len(b.chosen()))
	if len(b.chosen()) == 1 {
		done = "1 step is done; Ctrl+Z takes it back."
	}
	since.tell(done)
}

package window

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/recipe"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
)

var stepFiles = fileKind{"Steps (.json)", []string{".json"}}

// saveSteps saves the steps of the document alone, to be done on another
// pattern.
func (w *Window) saveSteps() {
	steps := w.desk.Document().Recipe
	if len(steps) == 0 {
		w.prompt.say(fmt.Errorf("there are no steps to save yet"))
		w.show()
		return
	}
	w.filePage(fileAsk{title: "Save the steps alone", act: "Save", saving: true, name: w.stem() + " steps.json", kinds: []fileKind{stepFiles},
		take: func(path string, told func(error)) {
			err := store.WriteFile(path, func(out io.Writer) error { return store.WriteSteps(out, steps) })
			if err != nil {
				told(fmt.Errorf("not saved: %w", err))
				return
			}
			told(nil)
			w.prompt.report(filepath.Base(path) + " is saved.")
		}})
}

// stepsAsk asks for steps that were saved alone, or for a document whose steps
// are wanted.
func (w *Window) stepsAsk() {
	w.filePage(fileAsk{title: "Steps of another pattern", act: "Look at them", kinds: []fileKind{{"Steps (.json, .truemat)", []string{".json", ending}}, allFiles},
		take: func(path string, told func(error)) {
			steps, err := readSteps(path)
			if err != nil {
				told(fmt.Errorf("nothing was done: %w", err))
				return
			}
			told(nil)
			w.stepsPage(filepath.Base(path), steps)
		}})
}

func readSteps(path string) (step.Recipe, error) {
	name := filepath.Base(path)
	if strings.EqualFold(filepath.Ext(path), ending) {
		doc, err := store.Load(path)
		if err == nil && len(doc.Recipe) == 0 {
			err = fmt.Errorf("%s holds no steps", name)
		}
		return doc.Recipe, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	steps, err := store.ReadSteps(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return steps, nil
}

// borrowing is the page on which steps of another pattern are fitted to this one.
type borrowing struct {
	w     *Window
	wide  float32
	steps step.Recipe
	out   map[string]bool // ids of the steps that are left out
	names recipe.Map
	asked []recipe.Lack // what did not fit at any time, in the order it was met
	sheet *sheet
	told  *fyne.Container
	list  *fyne.Container
	rolls [2]*container.Scroll // of these
	state *fyne.Container
	foot  *fyne.Container
	do    *touch
}

// Measures of the page: its width, and the least height of the list of names.
const (
	borrowWide = 680
	leastNames = 80
	besideBar  = 14
)

// stepsPage shows steps of another pattern, and which of the names they speak
// of this one lacks, each with what may stand for it.
func (w *Window) stepsPage(name string, steps step.Recipe) *borrowing {
	b := &borrowing{w: w, wide: w.pageWide(borrowWide), steps: steps, out: map[string]bool{}, names: recipe.Map{}}
	b.told = container.New(stack{gap: 4})
	roll := container.NewVScroll(b.told)
	room := func() float32 { return w.win.Canvas().Size().Height }
	b.list = container.New(stack{gap: 6})
	names := container.NewVScroll(b.list)
	b.state = container.New(stack{})
	b.foot = container.New(line{})
	asked := func() float32 {
		if len(b.asked) == 0 {
			return 0
		}
		return min(max(b.list.MinSize().Height+4, leastNames), room()*0.3)
	}
	b.rolls = [2]*container.Scroll{roll, names}
	b.tell()
	b.sheet = w.openSheet("Steps from "+name, b.wide,
		container.New(roomy{func() fyne.Size { return fyne.NewSize(b.wide, min(b.told.MinSize().Height, room()*0.52-asked())) }}, roll),
		rule(w.palette.Line), b.state,
		container.New(roomy{func() fyne.Size { return fyne.NewSize(b.wide, asked()) }}, names),
		container.New(ends{}, w.button("Leave it", false, w.backOut), b.foot))
	b.lay()
	if all := append(reachable(b.list), reachable(b.foot)...); len(all) > 0 {
		w.win.Canvas().Focus(all[0])
	}
	return b
}

// chosen are the steps that are to be done.
func (b *borrowing) chosen() step.Recipe {
	return slices.DeleteFunc(slices.Clone(b.steps), func(e step.Entry) bool { return b.out[e.ID] })
}

// besideTick is the room beside the ticks of the steps.
const besideTick = 60

// tell lists the steps, each with a tick that can be taken off, and says of one
// that is to be done which left-out one it needs.
func (b *borrowing) tell() {
	w := b.w
	wants := b.wanting()
	w.renew(b.told, func() {
		for i, e := range b.steps {
			ink, said := w.palette.Text, unit.Restate(step.Told(e.Step, w.desk.Pattern()), w.unit)
			if b.out[e.ID] {
				ink, said = w.palette.Faint, "Left out: "+said
			}
			words := container.New(stack{}, para(said, b.wide-besideTick-besideBar, normal, false, ink))
			if needs := wants[e.ID]; len(needs) > 0 {
				words.Add(para(fmt.Sprintf("It needs %s, left out: take that in again, leave this one out too, or say below what is meant here.", stepsSpoken(needs, b.steps)),
					b.wide-besideTick-besideBar, normal, false, w.palette.Poor))
			}
			b.told.Add(container.New(columns{besideTick}, newTick(strconv.Itoa(i+1), !b.out[e.ID], func(on bool) {
				b.out[e.ID] = !on
				b.lay()
				b.tell()
			}), words))
		}
		rolls(b.told, b.rolls[0])
	})
	b.rolls[0].Refresh()
}

// wanting returns, by the ids of steps to be done, those that are left out and
// make what they speak of.
func (b *borrowing) wanting() map[string][]string {
	makers := map[step.Name]string{}
	for _, e := range b.steps {
		if !b.out[e.ID] {
			continue
		}
		makers[step.Name{Kind: step.NameStep, Name: e.ID}] = e.ID
		for _, m := range e.Mentions() {
			if m.Makes {
				makers[m.Name] = e.ID
			}
		}
	}
	wants := map[string][]string{}
	for _, l := range b.w.desk.Lacks(b.chosen(), b.names) {
		id, ok := makers[l.Name]
		if !ok {
			id, ok = makers[step.Name{Kind: step.NamePiece, Name: l.Name.Piece}]
		}
		for _, by := range l.Steps {
			if ok && !slices.Contains(wants[by], id) {
				wants[by] = append(wants[by], id)
			}
		}
	}
	return wants
}

// lay shows which names do not fit as they are mapped now.
func (b *borrowing) lay() {
	w := b.w
	chosen := b.chosen()
	lacks := b.w.desk.Lacks(chosen, b.names)
	b.asked = slices.DeleteFunc(b.asked, func(a recipe.Lack) bool {
		return b.names[a.Name] == "" && !slices.ContainsFunc(lacks, func(l recipe.Lack) bool { return l.Name == a.Name })
	})
	for _, l := range lacks {
		if !slices.ContainsFunc(b.asked, func(a recipe.Lack) bool { return a.Name == l.Name }) {
			b.asked = append(b.asked, l)
		}
	}
	sure := 0
	w.renew(b.list, func() {
		for i, a := range b.asked {
			at := slices.IndexFunc(lacks, func(l recipe.Lack) bool { return l.Name == a.Name })
			if at >= 0 {
				a, b.asked[i] = lacks[at], lacks[at] // what is offered may be other by now
			}
			if at >= 0 && a.Sure {
				sure++
			}
			b.list.Add(b.row(a, at >= 0))
		}
		rolls(b.list, b.rolls[1])
	})
	b.rolls[1].Refresh()
	word, ink := "Every name they speak of is here.", w.palette.Good
	switch {
	case sure == 1:
		word, ink = "One name is not here: say what it is called on this pattern, before anything is done.", w.palette.Poor
	case sure > 1:
		word, ink = fmt.Sprintf("%d names are not here: say what they are called on this pattern, before anything is done.", sure), w.palette.Poor
	case len(lacks) > 0 && sure == 0:
		word, ink = "Whether all names are here is known once the steps are done; if not, nothing is.", w.palette.Look
	}
	if sure > 0 && sure < len(lacks) {
		word += " Those with the yellow sign the steps may make themselves; that is known once they are done."
	}
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
	able := sure == 0 && len(chosen) > 0
	b.do = w.button(does, able, b.accept)
	b.do.able(able)
	w.renew(b.foot, func() { b.foot.Add(b.do) })
	b.sheet.say(nil)
}

// row shows a name, and lets it be said what it is called here.
func (b *borrowing) row(l recipe.Lack, lacking bool) fyne.CanvasObject {
	w := b.w
	sign, ink := "holds", w.palette.Good
	if lacking {
		sign, ink = "broken", w.palette.Poor
		if !l.Sure {
			sign, ink = "look", w.palette.Look
		}
	}
	what := fmt.Sprintf("%s, in %s", l.Name, stepsSpoken(l.Steps, b.steps))
	switch {
	case l.Taken:
		what += "; this pattern has one already, so give it another name"
	case l.Doubt:
		what += "; of what is joined there several may be meant, so say which"
	case lacking && len(l.Spoken) > 0:
		what += fmt.Sprintf("; %s cannot stand for it, since other steps speak of that too", strings.Join(l.Spoken, " or "))
	}
	name := container.New(beside{}, icon(sign, ink, 16), para(what, b.wide-300, normal, false, w.palette.Text))
	set := func(now string) {
		now = strings.TrimSpace(now)
		if now == "" || now == l.Name.Name && !l.Taken && !l.Doubt {
			delete(b.names, l.Name)
		} else {
			b.names[l.Name] = now
		}
		b.lay()
		b.tell() // a step may need what was left out no more
	}
	var answer fyne.CanvasObject
	if l.Taken || len(l.Near) == 0 {
		e := newEntry(b.names[l.Name], 220, func(s string, changed bool) {
			if changed {
				set(s)
			}
		}, w.backOut)
		e.name = l.Name.String()
		answer = e
	} else {
		options := slices.Clone(l.Near)
		now := b.names[l.Name]
		if now != "" && !slices.Contains(options, now) {
			options = append(options, now)
		}
		c := newChoice(options, now, set)
		c.PlaceHolder = "is called here …"
		c.wide, c.name = 220, l.Name.String()
		answer = c
	}
	return container.New(atWidth{b.wide - besideBar}, container.New(ends{}, name, answer)) // beside the bar of what rolls
}

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

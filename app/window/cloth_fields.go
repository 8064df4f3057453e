package window

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// lay lays out the fields, what they come to, and the drawing beside them.
func (f *clothForm) lay() fyne.CanvasObject {
	w := f.w
	f.begin()
	fields := container.New(stack{gap: 7})
	fields.Add(f.row("Name", formLabel, f.fields["name"], "name"))
	if f.sort == layersAsOne {
		f.layLayers(fields)
	} else {
		f.laySheet(fields)
	}
	fields.Add(f.acts)
	fields.Add(f.libraryLink())
	fields.Add(f.wrongs)
	fields.Add(f.told)
	right := container.New(stack{gap: 10}, container.New(atWidth{w.besideForm()}, f.picture), container.New(layered{}, gap(1, hintTall), f.hint), f.suits)
	f.look()
	return w.withDrawing(fields, right)
}

// resultTall is room for what a pull test comes to, so that nothing moves when
// it comes to nothing.
const resultTall = 19

// laySheet lays out the fields of a cloth that is bought.
func (f *clothForm) laySheet(fields *fyne.Container) {
	w := f.w
	pair := func(o ...fyne.CanvasObject) fyne.CanvasObject { return container.New(line{gap: 8}, o...) }
	quiet := func(s string) fyne.CanvasObject { return text(s, normal, false, w.palette.Text) }
	width := "Width"
	if f.sort == laceCloth {
		width = "Whole width"
	}
	fields.Add(f.row(width, formLabel, pair(f.fields["width"], gap(2, 1), quiet("Thickness, mm"), f.fields["thickness"]), "width", "thickness"))
	ways := []string{"lies either way up", "has one way up"}
	way := f.choice("one_way", ways, ways[0], f.oneWay, func(s string) { f.oneWay = s == ways[1] })
	fields.Add(f.row("Nap or motif", formLabel, container.New(line{}, way)))
	if f.sort == laceCloth {
		f.layLace(fields, pair, quiet)
	}
	fields.Add(rule(w.palette.Line))
	head := container.New(line{gap: 8})
	for _, s := range []string{"Before", "Under load", "After rest"} {
		head.Add(container.New(atWidth{formField1}, text(s, small, false, w.palette.Faint)))
	}
	fields.Add(container.New(columns{formLabel}, text("Your pull test", normal, true, w.palette.Faint), head))
	for _, name := range []string{"along", "across"} {
		label := "Along it"
		if name == "across" {
			label = "Across it"
		}
		fields.Add(f.row(label, formLabel, pair(f.fields[name+".before"], f.fields[name+".under"], f.fields[name+".after"]), name+".before", name+".under", name+".after"))
		fields.Add(container.New(columns{formLabel}, gap(1, 1), container.New(layered{}, gap(1, resultTall), f.results[name])))
	}
	fields.Add(para("Two marks on the cloth at rest, then pulled as hard as it is worn, then left to rest. A direction that is left empty counts as firm.", formWide, small, false, w.palette.Faint))
}

// layLace lays out what only a lace has.
func (f *clothForm) layLace(fields *fyne.Container, pair func(...fyne.CanvasObject) fyne.CanvasObject, quiet func(string) fyne.CanvasObject) {
	borders := []string{oneBorder, bothMirrored, bothShifted}
	pick := newChoice(borders, f.borders, func(s string) {
		f.borders = s
		f.left["lace.second"] = true
		f.w.cloths.again()
	})
	pick.name, pick.seen = "field lace.second", func() { f.light("lace.second") }
	fields.Add(f.row("Borders", formLabel, container.New(line{}, pick), "lace.second"))
	fields.Add(f.row("Repeat", formLabel, pair(f.fields["lace.repeat"], gap(2, 1), quiet("usable width"), f.results["usable"]), "lace.repeat"))
	deep := pair(f.fields["lace.depth"])
	if f.borders != oneBorder {
		deep = pair(f.fields["lace.depth"], quiet("second border"), f.fields["lace.second_depth"])
	}
	fields.Add(f.row("Scallops", formLabel, deep, "lace.depth", "lace.second_depth"))
	if f.borders == bothShifted {
		fields.Add(f.row("Shifted by", formLabel, pair(f.fields["lace.shift"]), "lace.shift"))
	}
}

// layLayers lays out the choices of the cloths that are handled as one.
func (f *clothForm) layLayers(fields *fyne.Container) {
	const none = "none"
	names := []string{none}
	for _, c := range f.w.desk.Goods().Cloths {
		if len(c.Of) == 0 {
			names = append(names, c.Name)
		}
	}
	for len(f.of) < 3 || len(f.of) < layersMost && !slices.Contains(f.of, "") {
		f.of = append(f.of, "")
	}
	for i := range f.of {
		label := []string{"Outermost", "Beneath", "And beneath"}[min(i, 2)]
		now := f.of[i]
		if now == "" || !slices.Contains(names, now) {
			now = none
		}
		c := newChoice(names, now, func(s string) {
			if f.of[i] = s; s == none {
				f.of[i] = ""
			}
			chosen := slices.DeleteFunc(slices.Clone(f.of), func(s string) bool { return s == "" })
			f.left["of"] = len(chosen) > 1 // one alone is still being added to
			if len(chosen) == len(f.of) && len(f.of) < layersMost {
				f.w.cloths.again() // with room for one more
				return
			}
			f.look()
		})
		c.name, c.wide = "field of."+label, formWide-formLabel
		if i > 2 {
			c.name += " " + strconv.Itoa(i+1)
		}
		fields.Add(f.row(label, formLabel, container.New(line{}, c)))
	}
	f.heard("of", nil)
	fields.Add(para("They are handled as one cloth, which stretches as little as the firmest of them.", formWide, small, false, f.w.palette.Faint))
}

// choice is a field with two answers.
func (f *clothForm) choice(name string, answers []string, now string, second bool, picked func(string)) *choice {
	if second {
		now = answers[1]
	}
	c := newChoice(answers, now, func(s string) {
		picked(s)
		f.look()
	})
	c.name, c.seen = "field "+name, func() { f.light(name) }
	return c
}

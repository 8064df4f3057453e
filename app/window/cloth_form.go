package window

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/suit"
	"truemat/ops/unit"
)

// clothForm is a cloth while it is described. It stays with the window until
// it is kept or put back, so that nothing typed is lost by looking elsewhere.
type clothForm struct {
	*form
	was  string      // its name in the document, "" for one more
	base cloth.Cloth // as it was when the form was opened
	now  cloth.Cloth // as the fields say, where they can be read
	sort sortOfCloth

	oneWay  bool
	borders string
	of      []string // of cloths handled as one

	results map[string]*fyne.Container // what follows from the fields
	title   *canvas.Text               // its name in the list
	picture *fyne.Container
	suits   *fyne.Container
	told    *fyne.Container // what is wrong with all of it
}

// sortOfCloth says which fields a cloth has.
type sortOfCloth string

const (
	plainCloth  sortOfCloth = "a plain cloth"
	laceCloth   sortOfCloth = "a lace"
	layersAsOne sortOfCloth = "layers bonded or sewn as one"
)

// The borders a lace can have.
const (
	oneBorder    = "one scalloped border"
	bothMirrored = "both, mirrored"
	bothShifted  = "both, shifted"
)

const (
	formWide   = 398
	formLabel  = 108
	formField1 = 90 // of a length
	formGauge  = 76 // of a thickness
)

// clothFormOf returns the form of a cloth of the document, or of one more when
// the name is empty.
func (w *Window) clothFormOf(name string) *clothForm {
	c, known := w.desk.Goods().Cloth(name)
	if f := w.describing[name]; f != nil && (name == "" || known && reflect.DeepEqual(f.base, c)) {
		return f
	}
	f := w.newClothForm(name, c)
	w.describing[name] = f
	return f
}

func (w *Window) newClothForm(was string, c cloth.Cloth) *clothForm {
	f := &clothForm{form: newForm(w, formWide), was: was, base: c, now: c, oneWay: c.OneWay, of: slices.Clone(c.Of), sort: plainCloth, borders: oneBorder,
		results: map[string]*fyne.Container{}, picture: container.New(stack{}), suits: container.New(stack{gap: 6}), told: container.New(stack{})}
	lace := cloth.Lace{}
	switch {
	case len(c.Of) > 0:
		f.sort = layersAsOne
	case c.Lace != nil:
		f.sort, lace = laceCloth, *c.Lace
		if lace.Both && lace.Second == cloth.Shifted {
			f.borders = bothShifted
		} else if lace.Both {
			f.borders = bothMirrored
		}
	}
	f.form.live, f.form.keep = f.look, f.keep
	f.field("name", c.Name, formWide-formLabel)
	f.measure("width", c.Width, formField1)
	f.gauge("thickness", c.Thickness, formGauge)
	for _, d := range []struct {
		name string
		pull cloth.Pull
	}{{"along", c.Along}, {"across", c.Across}} {
		f.measure(d.name+".before", d.pull.Before, formField1)
		f.measure(d.name+".under", d.pull.Under, formField1)
		f.measure(d.name+".after", d.pull.After, formField1)
		f.results[d.name] = container.New(stack{})
	}
	f.measure("lace.repeat", lace.Repeat, formField1)
	f.measure("lace.depth", lace.Depth, formField1)
	f.measure("lace.second_depth", lace.SecondDepth, formField1).PlaceHolder = "as the first"
	f.measure("lace.shift", lace.Shift, formField1)
	f.results["usable"] = container.New(stack{})
	return f
}

// read returns the cloth that the fields describe; a field that cannot be read
// counts as it was, and is told by its name.
func (f *clothForm) read() (cloth.Cloth, map[string]error) {
	wrong := map[string]error{}
	length := func(name string, was float64) float64 { return f.lengthOr(was, name, wrong) }
	c := cloth.Cloth{Name: f.said("name")}
	if f.sort == layersAsOne {
		c.Of = slices.DeleteFunc(slices.Clone(f.of), func(s string) bool { return s == "" })
		if len(c.Of) == 0 {
			wrong["of"] = fmt.Errorf("no layer is named; name two or more cloths")
		}
		return c, wrong
	}
	c.OneWay = f.oneWay
	c.Width, c.Thickness = length("width", f.now.Width), length("thickness", f.now.Thickness)
	c.Along = cloth.Pull{Before: length("along.before", f.now.Along.Before), Under: length("along.under", f.now.Along.Under), After: length("along.after", f.now.Along.After)}
	c.Across = cloth.Pull{Before: length("across.before", f.now.Across.Before), Under: length("across.under", f.now.Across.Under), After: length("across.after", f.now.Across.After)}
	if f.sort == laceCloth {
		was := cloth.Lace{}
		if f.now.Lace != nil {
			was = *f.now.Lace
		}
		l := cloth.Lace{Repeat: length("lace.repeat", was.Repeat), Depth: length("lace.depth", was.Depth)}
		if f.borders != oneBorder {
			l.SecondDepth = length("lace.second_depth", was.SecondDepth)
		}
		switch f.borders {
		case bothMirrored:
			l.Both, l.Second = true, cloth.Mirrored
		case bothShifted:
			l.Both, l.Second, l.Shift = true, cloth.Shifted, length("lace.shift", was.Shift)
		}
		c.Lace = &l
	}
	return c, wrong
}

// changed reports whether the fields say something else than the document.
func (f *clothForm) changed() bool {
	c, wrong := f.read()
	return len(wrong) > 0 || !reflect.DeepEqual(c, f.base)
}

// goods returns the goods with the cloth as described, and what is wrong.
func (f *clothForm) goods() (cloth.Goods, map[string]error) {
	c, wrong := f.read()
	f.now = c
	for _, at := range c.Wrongs() {
		if wrong[at.Field] == nil {
			wrong[at.Field] = at.Err
		}
	}
	if len(wrong) > 0 {
		return cloth.Goods{}, wrong
	}
	g, err := f.w.desk.Goods().WithCloth(f.was, c)
	wrongIn(wrong, err)
	return g, wrong
}

// look shows what follows from the fields as they are now.
func (f *clothForm) look() {
	g, wrong := f.goods()
	f.told.RemoveAll()
	doubts := map[string]error{}
	for _, d := range f.now.Doubts() {
		doubts[d.Field] = d.Err
	}
	if rest := f.tell(wrong, doubts); len(rest) > 0 && f.asked {
		f.told.Add(para(f.restated(rest[0]), formWide, small, false, f.w.palette.Poor))
	}
	f.pulled("along", f.now.Along)
	f.pulled("across", f.now.Across)
	if f.now.Lace != nil {
		show := ""
		if u := f.now.Usable(); u > 0 && f.now.Width > 0 {
			show = unit.Format(u, f.w.unit)
		}
		f.result("usable", show)
	}
	if s := f.said("name"); f.title != nil && s != "" {
		change(f.title, shortened(s, f.w.listWide()-20, normal))
	}
	f.draw()
	f.explain(f.w.besideForm())
	f.judge(g, len(wrong) == 0)
	f.layActs(f.was == "", f.changed(), f.keep, f.putBack, f.remove)
}

func (f *clothForm) result(name, said string) {
	box := f.results[name]
	box.RemoveAll()
	if said != "" {
		t := text(said, 13, true, f.w.palette.Text)
		for t.TextSize > 10 && t.MinSize().Width > formWide-formLabel {
			t.TextSize -= 0.5
		}
		box.Add(t)
	}
	box.Refresh()
}

// pulled shows what a pull test comes to.
func (f *clothForm) pulled(name string, p cloth.Pull) {
	said := ""
	if p.Measured() && p.Validate() == nil {
		said = pullWords(p)
	}
	f.result(name, said)
}

// pullWords tells stretch, growth and recovery.
func pullWords(p cloth.Pull) string {
	said := fmt.Sprintf("stretches %s %%", shortly(p.Stretch()))
	if v, ok := p.Growth(); ok {
		said += fmt.Sprintf(" · grows %s %%", shortly(v))
	}
	if v, ok := p.Recovery(); ok {
		said += fmt.Sprintf(" · goes back %s %%", shortly(v))
	}
	return said
}

// shortly writes a per cent to one decimal, without an idle nought.
func shortly(v float64) string { return plainly(math.Round(v*10) / 10) }

// judge tells whether the cloth as described would suit the pieces cut from it.
func (f *clothForm) judge(g cloth.Goods, good bool) {
	w := f.w
	f.suits.RemoveAll()
	defer f.suits.Refresh()
	if !good {
		return
	}
	wide := w.besideForm()
	cut, holds := 0, 0
	for _, m := range g.Made {
		if g.Cuts(m.Piece, f.now.Name) || slices.Contains(m.Cloths, f.now.Name) {
			cut++
		}
	}
	if offer := w.proposal(f.now.Name, wide); cut == 0 && offer != nil && !f.changed() {
		f.suits.Add(offer)
		return
	}
	if cut == 0 {
		f.suits.Add(para("No piece is cut from it yet; say so under Layers.", wide, normal, false, w.palette.Faint))
		return
	}
	for _, c := range suit.Run(g, w.desk.Pattern(), suit.Defaults()) {
		if !ofCloth(c) || !(g.Cuts(c.Piece, f.now.Name) || slices.ContainsFunc(g.Layers(c.Piece), func(l cloth.Cloth) bool { return l.Name == f.now.Name })) {
			continue
		}
		if c.Verdict == check.Holds {
			holds++
			continue
		}
		f.suits.Add(w.verdict(c, wide))
	}
	if holds > 0 {
		told := fmt.Sprintf("Suits: %d checks hold.", holds)
		if holds == 1 {
			told = "Suits: its check holds."
		}
		f.suits.Add(container.New(beside{}, icon(string(check.Holds), w.palette.Good, 18), text(told, normal, false, w.palette.Text)))
	}
}

// listWide is the width of the list beside a form.
func (w *Window) listWide() float32 {
	return min(clothList, w.cloths.wide-formWide-clothGap)
}

// besideForm is the width beside a list and a form; where that is too little
// for a drawing, what belongs there stands below the form and is as wide.
func (w *Window) besideForm() float32 {
	if wide := w.cloths.wide - w.listWide() - formWide - 2*clothGap; wide >= leastDrawing {
		return wide
	}
	return formWide
}

// leastDrawing is the width of a drawing in which its numbers can be read.
const leastDrawing = 236

// withDrawing lays a drawing and what follows from a form beside it, or below
// it.
func (w *Window) withDrawing(fields, right fyne.CanvasObject) fyne.CanvasObject {
	if w.cloths.wide-w.listWide()-formWide-2*clothGap < leastDrawing {
		return container.New(stack{gap: clothGap}, fields, right)
	}
	return container.New(across{[]float32{formWide}, clothGap}, fields, right)
}

// verdict is a check as a sign and a sentence.
func (w *Window) verdict(c check.Check, wide float32) fyne.CanvasObject {
	return container.New(beside{}, icon(string(c.Verdict), w.column.ink(c.Verdict), 18), para(unit.Restate(asSentence(c.Text), w.unit), wide-28, normal, false, w.palette.Text))
}

// ofCloth reports whether a check is of cloths and not of an elastic.
func ofCloth(c check.Check) bool {
	return c.ID == suit.Firm || c.ID == suit.Stretchy || c.ID == suit.LaceOver
}

// keep puts the cloth into the document, as one change.
func (f *clothForm) keep() {
	f.asked = true
	g, wrong := f.goods()
	if len(wrong) == 0 {
		if !f.changed() && f.was != "" {
			f.asked = false
			f.look()
			return
		}
		name := f.now.Name
		delete(f.w.describing, f.was)
		f.w.described = name
		if err := f.w.desk.SetGoods(g); err != nil {
			f.w.describing[f.was], f.w.described = f, f.was
			f.told.RemoveAll()
			f.told.Add(para(f.restated(err), formWide, small, false, f.w.palette.Poor))
		}
		return
	}
	f.look()
	f.refused(wrong)
	f.w.cloths.roll.Refresh()
}

// putBack forgets what was typed.
func (f *clothForm) putBack() {
	delete(f.w.describing, f.was)
	if f.was == "" {
		f.w.described = ""
		if all := f.w.desk.Goods().Cloths; len(all) > 0 {
			f.w.described = all[0].Name
		}
	}
	f.w.cloths.again()
}

// remove takes the cloth out of the document, as one change.
func (f *clothForm) remove() {
	g, err := f.w.desk.Goods().WithoutCloth(f.was)
	if err == nil {
		err = f.w.desk.SetGoods(g)
	}
	f.w.cloths.say(err)
}

package window

import (
	"errors"
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/unit"
)

// form holds fields by name while something is described in them. What is
// wrong with a field stands below what can be done with the form once the field
// was left, or all of it was to be kept, so that no field moves for it; the label
// of the field turns. What the field is about is lit while it has the keys.
type form struct {
	w      *Window
	fields map[string]*formField
	below  map[string]*fyne.Container // what is wrong, by field
	wrongs *fyne.Container            // all of it, in the order of the rows
	labels map[string]*canvas.Text    // of the row of a field
	order  []string                   // the fields by rows
	in     unit.System                // in which lengths stand in the fields
	left   map[string]bool            // fields that were changed and left
	asked  bool                       // all of it was to be kept
	lit    string                     // the field that has the keys
	wide   float32                    // of what is wrong
	hint   *fyne.Container            // what the lit field means
	acts   *fyne.Container            // what can be done with it
	state  string                     // for which acts are shown
	live   func()                     // shows what the fields say now
	keep   func()                     // Enter in a field
}

func newForm(w *Window, wide float32) *form {
	return &form{w: w, fields: map[string]*formField{}, below: map[string]*fyne.Container{}, left: map[string]bool{}, wide: wide, in: w.unit, wrongs: container.New(stack{}), hint: container.New(stack{}), acts: container.New(line{gap: 8}), live: func() {}, keep: func() {}}
}

// formField is a field of a form.
type formField struct {
	entry
	form *form
	of   string
	mm   float64 // what the text means to the last digit while it is as it was
	text string
	// in is the unit of a field that has one whatever she reads lengths in.
	in unit.System
}

// begin makes ready for the rows to be laid out, with lengths as she reads them
// now where nothing else was typed.
func (f *form) begin() {
	f.below, f.labels, f.order = map[string]*fyne.Container{}, map[string]*canvas.Text{}, nil
	f.wrongs.RemoveAll()
	if f.in == f.w.unit {
		return
	}
	f.in = f.w.unit
	for _, e := range f.fields {
		if e.mm != 0 && e.in == "" && e.Text == e.text {
			e.text = f.w.column.exact(e.mm)
			e.was, e.Text = e.text, e.text
			e.Refresh()
		}
	}
}

// refused gives the keys to the first field with which something is wrong.
func (f *form) refused(wrong map[string]error) {
	for _, name := range f.order {
		if e := f.fields[name]; e != nil && wrong[name] != nil {
			f.w.win.Canvas().Focus(e)
			return
		}
	}
}

// field adds a field of a name with a text to begin with.
func (f *form) field(name, value string, width float32) *formField {
	e := &formField{form: f, of: name, text: value}
	e.was, e.width, e.Text = value, width, value
	e.name = "field " + name
	e.Scroll = container.ScrollHorizontalOnly
	e.submit = func(string, bool) { f.left[name] = true; f.live() }
	e.escape = f.w.backOut
	e.ExtendBaseWidget(e)
	e.OnSubmitted = func(string) { f.keep() }
	e.OnChanged = func(string) { f.live() }
	f.fields[name] = e
	return e
}

// measure adds a field for a length in mm, empty when it is not stated.
func (f *form) measure(name string, mm float64, width float32) *formField {
	written := ""
	if mm != 0 {
		written = f.w.column.exact(mm)
	}
	e := f.field(name, written, width)
	e.mm = mm
	f.w.counting(&e.entry)
	return e
}

// gauge adds a field for a thickness in mm: the trade states it in mm wherever
// cloth is sold by cm or by inches.
func (f *form) gauge(name string, mm float64, width float32) *formField {
	written := ""
	if mm != 0 {
		written = unit.MM(mm)
	}
	e := f.field(name, written, width)
	e.mm, e.in = mm, unit.Millimetres
	e.taken = func(typed string) { f.w.tellTaken(unit.Taken(typed, e.in)) }
	return e
}

// MinSize is as wide as asked for; longer words roll.
func (e *formField) MinSize() fyne.Size { return fyne.NewSize(e.width, e.Entry.MinSize().Height) }

// FocusGained lights what the field is about.
func (e *formField) FocusGained() {
	e.Entry.FocusGained()
	e.selectUntouched()
	e.reveal(e)
	e.form.light(e.of)
}

// FocusLost tells what is wrong with what was typed.
func (e *formField) FocusLost() {
	e.Entry.FocusLost()
	e.tells("")
	if e.form.lit == e.of {
		e.form.lit = ""
	}
	if e.Text != e.was {
		e.done(e.Text)
		return
	}
	e.form.live()
}

func (f *form) light(field string) {
	f.lit = field
	f.live()
}

// said returns what is typed in a field, without the blanks around it.
func (f *form) said(name string) string {
	if e := f.fields[name]; e != nil {
		return strings.TrimSpace(e.Text)
	}
	return ""
}

// readLength reads a field, 0 when it is empty.
func (f *form) readLength(name string) (float64, error) {
	e, s := f.fields[name], f.said(name)
	switch {
	case e == nil || s == "":
		return 0, nil
	case s == e.text && s != "" && e.mm != 0:
		return e.mm, nil
	case e.in != "":
		return unit.ParseIn(s, e.in)
	}
	return f.w.read(s)
}

// lengthOr reads a field of a length in mm; one that cannot be read counts as it
// was and is put with what is wrong, by its name.
func (f *form) lengthOr(was float64, name string, wrong map[string]error) float64 {
	v, err := f.readLength(name)
	if err != nil {
		wrong[name] = err
		return was
	}
	return v
}

// readNumber reads a field that counts something else, 0 when it is empty.
func (f *form) readNumber(name string) (float64, error) {
	s := strings.TrimSpace(strings.TrimSuffix(f.said(name), "%"))
	if s == "" {
		return 0, nil
	}
	return bare.read(s, f.w.unit)
}

// layActs shows what can be done with the form as it stands: one more thing
// that is new, a change that is not kept, or a thing as the document has it,
// which is removed where that makes sense.
func (f *form) layActs(fresh, changed bool, keep, putBack, remove func()) {
	state := "kept"
	switch {
	case fresh:
		state = "new"
	case changed:
		state = "open"
	}
	if state == f.state {
		return
	}
	f.state = state
	f.w.renew(f.acts, func() {
		act := func(word string, main bool, do func()) *touch {
			b := f.w.button(word, main, do)
			b.name = "act " + word
			return b
		}
		done := container.New(line{gap: 8})
		switch state {
		case "new":
			done.Add(act("Keep it", true, keep))
			done.Add(act("Drop it", false, putBack))
		case "open":
			done.Add(act("Keep the change", true, keep))
			done.Add(act("Put back", false, putBack))
		case "kept":
			done.Add(container.New(inset{0, 8}, gap(0, 0), text("Kept as it stands.", small, false, f.w.palette.Faint)))
		}
		f.acts.Add(container.New(atWidth{doneWide}, done))
		if !fresh && remove != nil {
			f.acts.Add(act("Remove", false, remove))
		}
	})
	rolls(f.acts, f.w.cloths.roll)
}

// doneWide is the room of the acts that keep and put back. To remove stands
// beyond it, where no press lies that was meant for one of them, whatever the
// form has become by then.
const doneWide = 300

// tell shows what is wrong with the fields, and by their labels with which; it
// returns what belongs to none of them. What is doubtful is told in the same
// place, as a question, and hinders nothing.
func (f *form) tell(wrong, doubts map[string]error) (rest []error) {
	inks := map[*canvas.Text]color.Color{}
	for name, box := range f.below {
		box.RemoveAll()
		l := f.labels[name]
		if inks[l] == nil {
			inks[l] = f.w.palette.Text
		}
		if err := wrong[name]; err != nil && (f.asked || f.left[name] && f.lit != name) {
			box.Add(para(f.restatedFor(name, err), f.wide, small, false, f.w.palette.Poor))
			box.Add(gap(1, 4))
			inks[l] = f.w.palette.Poor
		} else if doubt := doubts[name]; err == nil && doubt != nil {
			box.Add(para(f.restatedFor(name, doubt), f.wide, small, false, f.w.palette.Look))
			box.Add(gap(1, 4))
			if inks[l] != f.w.palette.Poor {
				inks[l] = f.w.palette.Look
			}
		}
		box.Refresh()
	}
	for l, ink := range inks {
		if l != nil && l.Color != ink {
			l.Color = ink
			l.Refresh()
		}
	}
	f.wrongs.Refresh()
	for name, err := range wrong {
		if f.below[name] == nil {
			rest = append(rest, err)
		}
	}
	return rest
}

// meaning is what the numbers of the forms mean, by the last part of a field's name.
var meaning = map[string]string{
	"width":        "Across, from selvedge to selvedge or between the outermost points of a lace; of an elastic without its loops.",
	"thickness":    "In mm, as the tags of shops say it. Of one layer, between the jaws of a gauge; ten layers together, divided by ten, are surer.",
	"one_way":      "A nap, a sheen or a motif with an up and a down: then every piece is laid the same way up.",
	"before":       "Two marks on the cloth at rest, this far apart; a hand's breadth or more.",
	"under":        "The same marks while it is pulled as hard as it is worn.",
	"after":        "The same marks when it has rested without the load. What is longer than before stays.",
	"repeat":       "From a point of the motif to the next one like it, along the lace.",
	"second_depth": "The scallops of the second border, when they are not as deep as those of the first.",
	"depth":        "From the valley line, through the innermost points between the scallops, to the outermost points.",
	"second":       "Mirrored, the scallops of both borders lie opposite each other; shifted, one lags behind.",
	"shift":        "How far along the lace the second border lags behind the first.",
	"line":         "The line of the pattern that it is sewn to; its length is taken from the pieces, in each size.",
	"put_on":       "Turned it wants an allowance of its width; behind a lace and folded over the cut edge it wants none.",
	"loops":        "How far the picots of its edge stand out beyond the width.",
	"overlap":      "What its ends, both together, are longer, to be sewn over each other or into the closure.",
	"cut":          "By how many per cent it is shorter than the line there; worn, it is stretched by r/(1 − r). Write none where it does not run.",
}

// hintTall is room for two lines of it, so that nothing moves when the keys do.
const hintTall = 32

// explain tells what the lit field means.
func (f *form) explain(wide float32) {
	field := f.lit[strings.LastIndex(f.lit, ".")+1:]
	if strings.HasPrefix(f.lit, "cut.") {
		field = "cut"
	}
	f.hint.RemoveAll()
	if said := meaning[field]; said != "" {
		f.hint.Add(para(said, wide, small, false, f.w.palette.Faint))
	}
	f.hint.Refresh()
}

func (f *form) size(mm float64) string { return unit.Format(mm, f.w.unit) }

// onTape writes a length that is measured out.
func (f *form) onTape(mm float64) string { return unit.Brief(unit.MM(mm), f.w.unit) }

func (f *form) restated(err error) string { return unit.Restate(sentence(err), f.w.unit) }

// restatedFor tells an error of a field in the unit of that field.
func (f *form) restatedFor(name string, err error) string {
	if e := f.fields[name]; e != nil && e.in != "" {
		return unit.Restate(sentence(err), e.in)
	}
	return f.restated(err)
}

// row is a label and what stands behind it, the fields of these names.
func (f *form) row(label string, labelWide float32, body fyne.CanvasObject, names ...string) fyne.CanvasObject {
	head := text(label, normal, false, f.w.palette.Text)
	for _, name := range names {
		f.heard(name, head)
	}
	return container.New(columns{labelWide}, head, body)
}

// heard makes room for what is wrong with a field, under the label it has.
func (f *form) heard(name string, label *canvas.Text) {
	f.below[name], f.labels[name] = container.New(stack{}), label
	f.order = append(f.order, name)
	f.wrongs.Add(f.below[name])
}

// wrongIn puts an error of the goods to the field it names; to the form as a
// whole when it names none.
func wrongIn(wrong map[string]error, err error) {
	if err == nil {
		return
	}
	var at cloth.Wrong
	if errors.As(err, &at) {
		wrong[at.Field] = at.Err
		return
	}
	wrong[""] = err
}

// across lays objects beside each other at given widths, at the top; the last
// has what is left.
type across struct {
	widths []float32
	gap    float32
}

func (a across) Layout(o []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for i, c := range o {
		w := size.Width - x
		if i < len(a.widths) {
			w = a.widths[i]
		}
		lay(c, fyne.NewPos(x, 0), fyne.NewSize(w, c.MinSize().Height))
		x += w + a.gap
	}
}

func (a across) MinSize(o []fyne.CanvasObject) (m fyne.Size) {
	for i, c := range o {
		s := c.MinSize()
		if i < len(a.widths) {
			s.Width = a.widths[i]
		}
		m = fyne.NewSize(m.Width+s.Width, max(m.Height, s.Height))
	}
	return fyne.NewSize(m.Width+a.gap*float32(max(len(o)-1, 0)), m.Height)
}

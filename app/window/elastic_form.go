package window

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/cloth/suit"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// elasticForm is an elastic while it is described; it stays with the window
// until it is kept or put back.
type elasticForm struct {
	*form
	was       string
	base, now cloth.Elastic
	line      string
	putOn     cloth.PutOn
	pieces    []string // along the line
	parts     map[string]*fyne.Container
	cut       *fyne.Container
	picture   *fyne.Container
	suits     *fyne.Container
	told      *fyne.Container
}

// putOnWords are the ways of putting an elastic on as they are told.
var putOnWords = []struct {
	how  cloth.PutOn
	word string
}{{cloth.Turned, "turned to the inside"}, {cloth.BehindLace, "behind the lace"}, {cloth.FoldedOver, "folded over the cut edge"}}

func (w *Window) elasticFormOf(name string) *elasticForm {
	var e cloth.Elastic
	known := false
	for _, x := range w.desk.Goods().Elastics {
		if x.Name == name {
			e, known = x, true
		}
	}
	if f := w.elastics[name]; f != nil && (name == "" || known && reflect.DeepEqual(f.base, e)) {
		return f
	}
	f := w.newElasticForm(name, e)
	w.elastics[name] = f
	return f
}

func (w *Window) newElasticForm(was string, e cloth.Elastic) *elasticForm {
	f := &elasticForm{form: newForm(w, formWide), was: was, base: e, now: e, line: e.Line, putOn: e.PutOn, parts: map[string]*fyne.Container{},
		cut: container.New(stack{}), picture: container.New(stack{}), suits: container.New(stack{gap: 6}), told: container.New(stack{})}
	f.form.live, f.form.keep = f.look, f.keep
	f.field("name", e.Name, formWide-formLabel)
	f.field("sort", e.Sort, formWide-formLabel)
	f.measure("width", e.Width, formField1)
	f.measure("loops", e.Loops, formField1)
	f.measure("overlap", e.Overlap, formField1)
	f.follow(was == "")
	return f
}

// follow gives every piece along the line a field for its reduction: what was
// stated, or what is usual.
func (f *elasticForm) follow(usual bool) {
	p := f.w.desk.Pattern()
	f.pieces = nil
	l := p.Line(f.line)
	if l == nil {
		return
	}
	for _, pt := range l.Parts {
		if slices.Contains(f.pieces, pt.Piece) {
			continue
		}
		f.pieces = append(f.pieces, pt.Piece)
		r := f.base.Reduction(pt.Piece)
		if usual {
			r, _, _ = cloth.UsualReduction(p.Piece(pt.Piece), l.Kind)
		}
		written := ""
		switch {
		case !usual && !f.base.RunsOn(pt.Piece):
			written = notHere
		case r != 0:
			written = plainly(r) + " %"
		}
		f.field("cut."+pt.Piece, written, 72)
		f.parts[pt.Piece] = container.New(stack{})
	}
}

// notHere is written for a piece along the line on which it does not run.
const notHere = "none"

func (f *elasticForm) read() (cloth.Elastic, map[string]error) {
	wrong := map[string]error{}
	length := func(name string, was float64) float64 { return f.lengthOr(was, name, wrong) }
	e := cloth.Elastic{Name: f.said("name"), Sort: f.said("sort"), Line: f.line, PutOn: f.putOn,
		Width: length("width", f.now.Width), Loops: length("loops", f.now.Loops), Overlap: length("overlap", f.now.Overlap)}
	var on []string
	for _, piece := range f.pieces {
		if strings.EqualFold(f.said("cut."+piece), notHere) {
			continue
		}
		on = append(on, piece)
		r, err := f.readNumber("cut." + piece)
		if err != nil {
			wrong["cut."+piece] = err
			r = f.now.Reduction(piece)
		}
		if r == 0 {
			continue
		}
		i := slices.IndexFunc(e.Stretches, func(x cloth.Reduced) bool { return x.Percent == r })
		if i < 0 {
			e.Stretches = append(e.Stretches, cloth.Reduced{Percent: r})
			i = len(e.Stretches) - 1
		}
		e.Stretches[i].Pieces = append(e.Stretches[i].Pieces, piece)
	}
	switch {
	case len(f.pieces) > 0 && len(on) == 0:
		wrong["cut."+f.pieces[0]] = errors.New("it would run nowhere; say on one piece by how much it is shorter, or 0")
	case len(on) < len(f.pieces):
		e.On = on
	}
	return e, wrong
}

// changed reports whether the fields say something else than the document.
func (f *elasticForm) changed() bool {
	e, wrong := f.read()
	if len(wrong) > 0 {
		return true
	}
	for _, piece := range f.pieces {
		if e.Reduction(piece) != f.base.Reduction(piece) || e.RunsOn(piece) != f.base.RunsOn(piece) {
			return true
		}
	}
	e.On, e.Stretches = f.base.On, f.base.Stretches
	return !reflect.DeepEqual(e, f.base)
}

func (f *elasticForm) goods() (cloth.Goods, map[string]error) {
	e, wrong := f.read()
	f.now = e
	for _, at := range e.Wrongs() {
		field := at.Field
		var i int
		if n, _ := fmt.Sscanf(field, "stretches.%d", &i); n == 1 && i < len(e.Stretches) {
			for _, piece := range e.Stretches[i].Pieces {
				wrong["cut."+piece] = at.Err
			}
			continue
		}
		if wrong[field] == nil {
			wrong[field] = at.Err
		}
	}
	if len(wrong) > 0 {
		return cloth.Goods{}, wrong
	}
	g, err := f.w.desk.Goods().WithElastic(f.was, e)
	wrongIn(wrong, err)
	return g, wrong
}

// The widths of what is told beside the fields of an elastic.
const (
	cutWide  = 300
	partWide = 225
)

// look shows what follows from the fields as they are now.
func (f *elasticForm) look() {
	g, wrong := f.goods()
	f.told.RemoveAll()
	if rest := f.tell(wrong, nil); len(rest) > 0 && f.asked {
		f.told.Add(para(f.restated(rest[0]), formWide, small, false, f.w.palette.Poor))
	}
	p := f.w.desk.Pattern()
	cut, err := f.now.Cut(p)
	f.cut.RemoveAll()
	for _, box := range f.parts {
		box.RemoveAll()
	}
	if err == nil && len(wrong) == 0 {
		run, _ := cut.Each()
		f.cut.Add(para(unit.Brief("cut "+cut.Told(unit.MM)+" for "+unit.MM(run)+" of line", f.w.unit), cutWide, 13, true, f.w.palette.Text))
		for _, part := range byPiece(cut.Parts) {
			if box := f.parts[part.Piece]; box != nil {
				box.Add(para(unit.Brief(fmt.Sprintf("%s, +%s %%", part.Told(unit.MM), shortly(part.Strain)), f.w.unit), partWide, small, false, f.w.palette.Faint))
			}
		}
	}
	f.cut.Refresh()
	for _, box := range f.parts {
		box.Refresh()
	}
	f.draw()
	f.explain(f.w.besideForm())
	f.suits.RemoveAll()
	if len(wrong) == 0 {
		for _, c := range suit.Run(g, p, suit.Defaults()) {
			if slices.Contains([]string{suit.ElasticTurned, suit.ElasticRoom, suit.ElasticShort}, c.ID) && slices.Contains(f.pieces, c.Piece) && (c.Line == "" || c.Line == f.line) {
				f.suits.Add(f.w.verdict(c, f.w.besideForm()))
			}
		}
	}
	f.suits.Refresh()
	f.layActs(f.was == "", f.changed(), f.keep, f.putBack, f.remove)
}

// byPiece adds up the parts of an elastic that lie on one piece.
func byPiece(parts []cloth.CutStretch) []cloth.CutStretch {
	var out []cloth.CutStretch
	for _, p := range parts {
		i := slices.IndexFunc(out, func(q cloth.CutStretch) bool { return q.Piece == p.Piece })
		if i < 0 {
			out = append(out, p)
			continue
		}
		out[i].Run += p.Run
		out[i].Length += p.Length
	}
	return out
}

func (f *elasticForm) keep() {
	f.asked = true
	g, wrong := f.goods()
	if len(wrong) > 0 {
		f.look()
		f.refused(wrong)
		return
	}
	if f.was != "" && !f.changed() {
		f.asked = false
		f.look()
		return
	}
	delete(f.w.elastics, f.was)
	f.w.elastic = f.now.Name
	if err := f.w.desk.SetGoods(g); err != nil {
		f.w.elastics[f.was], f.w.elastic = f, f.was
		f.told.RemoveAll()
		f.told.Add(para(f.restated(err), formWide, small, false, f.w.palette.Poor))
	}
}

func (f *elasticForm) putBack() {
	delete(f.w.elastics, f.was)
	f.w.cloths.again()
}

func (f *elasticForm) remove() {
	g, err := f.w.desk.Goods().WithoutElastic(f.was)
	if err == nil {
		err = f.w.desk.SetGoods(g)
	}
	f.w.cloths.say(err)
}

// lay lays out the fields, what they come to, and the drawing beside them.
func (f *elasticForm) lay() fyne.CanvasObject {
	w := f.w
	f.begin()
	fields := container.New(stack{gap: 7})
	fields.Add(f.row("Name", formLabel, f.fields["name"], "name"))
	var lines []string
	for _, l := range w.desk.Pattern().Lines {
		if l.Kind != pattern.LineWire || l.Name == f.line {
			lines = append(lines, l.Name)
		}
	}
	along := newChoice(lines, f.line, func(s string) {
		if f.line = s; f.was == "" && !f.left["name"] {
			f.fields["name"].SetText(s + " elastic")
		}
		f.follow(true)
		w.cloths.again()
	})
	along.name, along.seen = "field line", func() { f.light("line") }
	fields.Add(f.row("Runs along", formLabel, container.New(line{}, along), "line"))
	fields.Add(f.row("What it is", formLabel, f.fields["sort"]))
	fields.Add(f.row("Width", formLabel, container.New(line{gap: 8}, f.fields["width"], gap(2, 1), text("Loops", normal, false, w.palette.Text), f.fields["loops"]), "width", "loops"))
	var words []string
	now := ""
	for _, p := range putOnWords {
		if words = append(words, p.word); p.how == f.putOn {
			now = p.word
		}
	}
	how := newChoice(words, now, func(s string) {
		f.putOn = putOnWords[slices.Index(words, s)].how
		f.look()
	})
	how.name, how.seen = "field put_on", func() { f.light("put_on") }
	fields.Add(f.row("Put on", formLabel, container.New(line{}, how), "put_on"))
	fields.Add(rule(w.palette.Line))
	fields.Add(text("Shorter than the line by", normal, true, w.palette.Faint))
	p := w.desk.Pattern()
	for _, piece := range f.pieces {
		usual := ""
		if l := p.Line(f.line); l != nil {
			_, from, to := cloth.UsualReduction(p.Piece(piece), l.Kind)
			usual = fmt.Sprintf("usual %g to %g %%", from, to)
		}
		fields.Add(f.row("on "+shortened(piece, formLabel-28, normal), formLabel, container.New(line{gap: 8}, f.fields["cut."+piece], container.New(stack{}, text(usual, small, false, w.palette.Faint), f.parts[piece])), "cut."+piece))
	}
	fields.Add(f.row("Ends overlap", formLabel, container.New(line{gap: 8}, f.fields["overlap"]), "overlap"))
	fields.Add(container.New(columns{formLabel}, text("In "+pattern.SizeWords(w.desk.Size()), normal, false, w.palette.Text), f.cut))
	fields.Add(f.acts)
	fields.Add(f.wrongs)
	fields.Add(f.told)
	right := container.New(stack{gap: 10}, container.New(atWidth{w.besideForm()}, f.picture), container.New(layered{}, gap(1, hintTall), f.hint), f.suits)
	f.look()
	return w.withDrawing(fields, right)
}

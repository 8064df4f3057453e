package window

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// notionsForm is where straps, closure, channelling and thread are stated.
type notionsForm struct {
	*form
	base   cloth.Notions
	rows   []*stitchRow
	needs  map[string]*fyne.Container // what follows, by field
	told   *fyne.Container
	length []*fyne.Container // of thread, by row
}

// stitchRow is a stitch and what is sewn with it.
type stitchRow struct {
	class       string
	sewn        cloth.Sewing // what it sews
	rows, ratio *formField
}

func (w *Window) newNotionsForm() *notionsForm {
	n := w.desk.Goods().Notions
	f := &notionsForm{form: newForm(w, w.cloths.wide-w.listWide()-clothGap), base: n, needs: map[string]*fyne.Container{}, told: container.New(stack{})}
	f.form.live, f.form.keep = f.look, f.keep
	f.measure("channel_ends", n.ChannelEnds, formField1)
	f.count("straps.count", n.Straps.Count)
	f.measure("straps.width", n.Straps.Width, formField1)
	f.measure("straps.length", n.Straps.Length, formField1)
	f.count("eyes.columns", n.Eyes.Columns)
	f.measure("eyes.spacing", n.Eyes.Spacing, formField1)
	f.count("eyes.worn", n.Eyes.Worn)
	waste := ""
	if n.Waste != 0 {
		waste = plainly(n.Waste) + " %"
	}
	f.field("waste", waste, 64)
	for _, s := range n.Sewing {
		f.addRow(s)
	}
	for _, name := range []string{"channel", "straps", "eyes"} {
		f.needs[name] = container.New(stack{})
	}
	return f
}

func (f *notionsForm) count(name string, n int) {
	s := ""
	if n != 0 {
		s = fmt.Sprint(n)
	}
	f.field(name, s, 64)
}

func (f *notionsForm) addRow(s cloth.Sewing) {
	r := &stitchRow{class: s.Class, sewn: s}
	rows, ratio := "", ""
	if s.Rows != 0 {
		rows = fmt.Sprint(s.Rows)
	}
	if s.Ratio != 0 {
		ratio = plainly(s.Ratio)
	}
	r.rows, r.ratio = f.field("", rows, 52), f.field("", ratio, 64)
	f.rows = append(f.rows, r)
	f.name()
}

// name gives the fields of the stitches their names, by their places.
func (f *notionsForm) name() {
	for name := range f.fields {
		if name == "" || strings.HasPrefix(name, "sewing.") {
			delete(f.fields, name)
		}
	}
	for i, r := range f.rows {
		for part, e := range map[string]*formField{"rows": r.rows, "ratio": r.ratio} {
			e.of = fmt.Sprintf("sewing.%d.%s", i, part)
			e.name = "field " + e.of
			e.submit = func(string, bool) { f.left[e.of] = true; f.look() }
			f.fields[e.of] = e
		}
	}
}

// stale reports whether the document says something else by now.
func (f *notionsForm) stale() bool { return !reflect.DeepEqual(f.base, f.w.desk.Goods().Notions) }

func (f *notionsForm) read() (cloth.Notions, map[string]error) {
	wrong := map[string]error{}
	length := func(name string) float64 {
		v, err := f.readLength(name)
		if err != nil {
			wrong[name] = err
		}
		return v
	}
	number := func(name string) float64 {
		v, err := f.readNumber(name)
		if err != nil {
			wrong[name] = err
		}
		return v
	}
	whole := func(name string) int {
		v := number(name)
		if v != float64(int(v)) {
			wrong[name] = fmt.Errorf("%g is no whole number; count them", v)
		}
		return int(v)
	}
	n := cloth.Notions{ChannelEnds: length("channel_ends"), Waste: number("waste"),
		Straps: cloth.Straps{Count: whole("straps.count"), Width: length("straps.width"), Length: length("straps.length")},
		Eyes:   cloth.Eyes{Columns: whole("eyes.columns"), Spacing: length("eyes.spacing"), Worn: whole("eyes.worn")}}
	for _, r := range f.rows {
		s := r.sewn
		s.Class, s.Rows, s.Ratio = r.class, whole(r.rows.of), number(r.ratio.of)
		n.Sewing = append(n.Sewing, s)
	}
	return n, wrong
}

func (f *notionsForm) changed() bool {
	n, wrong := f.read()
	return len(wrong) > 0 || !reflect.DeepEqual(n, f.base)
}

// goods returns the goods with the notions as stated, and what is wrong.
func (f *notionsForm) goods() (cloth.Goods, map[string]error) {
	n, wrong := f.read()
	g := f.w.desk.Goods()
	g.Notions = n
	if len(wrong) == 0 {
		wrongIn(wrong, n.Validate())
	}
	if len(wrong) == 0 {
		wrongIn(wrong, g.Fits(f.w.desk.Pattern()))
	}
	return g, wrong
}

// look shows what follows from the fields as they are now.
func (f *notionsForm) look() {
	g, wrong := f.goods()
	f.told.RemoveAll()
	if rest := f.tell(wrong, nil); len(rest) > 0 {
		f.told.Add(para(f.restated(rest[0]), f.wide, small, false, f.w.palette.Poor))
	}
	f.told.Refresh()
	p := f.w.desk.Pattern()
	f.need("channel", channelWords(f.form, p, g.Notions))
	f.need("straps", f.strapWords(g.Notions.Straps))
	f.need("eyes", f.eyeWords())
	for i, box := range f.length {
		box.RemoveAll()
		one := g
		if i < len(g.Notions.Sewing) {
			one.Notions.Sewing = g.Notions.Sewing[i : i+1]
			if t, err := one.Threads(p); err == nil && len(t) > 0 && len(wrong) == 0 {
				box.Add(text(fmt.Sprintf("%.1f m of thread", t[0].Long/1000), normal, true, f.w.palette.Text))
			} else if err != nil && len(wrong) == 0 {
				box.Add(text(shortened(sentence(err), 190, small), small, false, f.w.palette.Poor))
			}
		}
		box.Refresh()
	}
	f.layActs(false, f.changed(), f.keep, f.putBack, nil)
}

func (f *notionsForm) need(name, said string) {
	box := f.needs[name]
	box.RemoveAll()
	if said != "" {
		box.Add(text(said, small, false, f.w.palette.Faint))
	}
	box.Refresh()
}

// channelWords tells how long the channellings are cut, and which wires go in.
func channelWords(f *form, p pattern.Pattern, n cloth.Notions) string {
	var said []string
	for _, l := range p.Lines {
		if l.Kind == pattern.LineWire && n.ChannelEnds >= 0 {
			said = append(said, fmt.Sprintf("cut %d of %s", max(l.Count, 1), f.onTape(p.Length(l.Parts)+n.ChannelEnds)))
		}
	}
	if wire := p.Figures[pattern.FigureWire]; wire > 0 {
		said = append(said, "for wires "+f.onTape(wire)+" long")
	}
	return strings.Join(said, ", ")
}

func (f *notionsForm) strapWords(s cloth.Straps) string {
	if s.Count < 1 || !(s.Length > 0) {
		return ""
	}
	return "strap elastic, together " + f.onTape(float64(s.Count)*s.Length)
}

func (f *notionsForm) eyeWords() string {
	h := f.w.desk.Pattern().Figures[pattern.FigureClosure]
	if h == 0 {
		return ""
	}
	return "closure " + f.onTape(h) + " high"
}

func (f *notionsForm) keep() {
	f.asked = true
	g, wrong := f.goods()
	if len(wrong) > 0 || !f.changed() {
		f.asked = len(wrong) > 0
		f.look()
		f.refused(wrong)
		return
	}
	f.w.noting = nil
	if err := f.w.desk.SetGoods(g); err != nil {
		f.w.noting = f
		f.told.RemoveAll()
		f.told.Add(para(f.restated(err), f.wide, small, false, f.w.palette.Poor))
	}
}

func (f *notionsForm) putBack() {
	f.w.noting = nil
	f.w.cloths.again()
}

// lay lays out the fields.
func (f *notionsForm) lay() fyne.CanvasObject {
	w := f.w
	f.begin()
	f.wide = w.cloths.wide - w.listWide() - clothGap
	box := container.New(stack{gap: 8})
	word := func(s string) fyne.CanvasObject { return text(s, normal, false, w.palette.Text) }
	row := func(label string, need string, names []string, o ...fyne.CanvasObject) {
		box.Add(f.row(label, 128, container.New(line{gap: 8, wrap: f.wide - 128}, append(o, gap(4, 1), f.needs[need])...), names...))
	}
	row("Channelling", "channel", []string{"channel_ends"}, word("longer than its line by"), f.fields["channel_ends"])
	row("Straps", "straps", []string{"straps", "straps.count", "straps.width", "straps.length"}, f.fields["straps.count"], word("each"), f.fields["straps.width"], word("wide, cut"), f.fields["straps.length"], word("long"))
	row("Hooks and eyes", "eyes", []string{"eyes.columns", "eyes.spacing", "eyes.worn"}, f.fields["eyes.columns"], word("columns of eyes, apart"), f.fields["eyes.spacing"], word("worn in column"), f.fields["eyes.worn"])
	box.Add(rule(w.palette.Line))
	heads := container.New(line{gap: 8})
	for _, h := range []struct {
		word string
		wide float32
	}{{"Stitch (ISO 4915)", stitchWide}, {"sews", sewnWide}, {"rows", 52}, {"thread to seam", 88}} {
		heads.Add(container.New(atWidth{h.wide}, text(h.word, small, false, w.palette.Faint)))
	}
	box.Add(heads)
	f.length = nil
	for i := range f.rows {
		box.Add(f.stitchRow(i))
	}
	add := w.link("Add a stitch", func() {
		f.addRow(cloth.Sewing{Class: cloth.Stitches()[0].Class})
		w.cloths.again()
	})
	add.name = "Add a stitch"
	box.Add(container.New(line{}, add))
	box.Add(f.row("More thread, for waste", 168, container.New(line{}, f.fields["waste"]), "waste"))
	box.Add(para("An empty ratio is the usual one of its class, from memory: unpick a hand's breadth of your own seam, measure the thread and write down how many times longer it is.", f.wide, small, false, w.palette.Faint))
	box.Add(f.acts)
	box.Add(f.wrongs)
	box.Add(f.told)
	f.look()
	return box
}

const (
	stitchWide = 232
	sewnWide   = 196
)

// stitchRow lays out a stitch, what it sews and how much thread that takes.
func (f *notionsForm) stitchRow(i int) fyne.CanvasObject {
	r, w := f.rows[i], f.w
	var classes []string
	now := r.class
	for _, s := range cloth.Stitches() {
		said := s.Class + " " + s.Name
		if classes = append(classes, said); s.Class == r.class {
			now = said
			r.ratio.SetPlaceHolder(plainly(s.Ratio))
		}
	}
	if !slices.Contains(classes, now) {
		classes = append(classes, now)
	}
	class := newChoice(classes, now, func(s string) {
		r.class, _, _ = strings.Cut(s, " ")
		w.cloths.again()
	})
	class.wide, class.name = stitchWide, fmt.Sprintf("field sewing.%d.class", i)
	words, sews := f.sewnWords(r.sewn)
	what := newChoice(words, words[slices.IndexFunc(sews, func(s cloth.Sewing) bool { return sameWork(s, r.sewn) })], func(s string) {
		r.sewn = sews[slices.Index(words, s)]
		f.look()
	})
	what.wide, what.name = sewnWide, fmt.Sprintf("field sewing.%d.sews", i)
	r.rows.SetPlaceHolder("1")
	length := container.New(stack{})
	f.length = append(f.length, length)
	out := w.link("Remove", func() {
		f.rows = slices.Delete(f.rows, i, i+1)
		f.name()
		w.cloths.again()
	})
	return f.row("", 0, container.New(line{gap: 8, wrap: f.wide}, container.New(atWidth{stitchWide}, class), container.New(atWidth{sewnWide}, what), r.rows, container.New(atWidth{88}, container.New(line{}, r.ratio)), out, length),
		fmt.Sprintf("sewing.%d.class", i), r.rows.of, r.ratio.of)
}

func sameWork(a, b cloth.Sewing) bool {
	return slices.Equal(a.Seams, b.Seams) && slices.Equal(a.Lines, b.Lines) && slices.Equal(a.Elastics, b.Elastics)
}

// sewnWords are what a stitch can sew, and what it sews now.
func (f *notionsForm) sewnWords(now cloth.Sewing) (words []string, sews []cloth.Sewing) {
	add := func(word string, s cloth.Sewing) { words, sews = append(words, word), append(sews, s) }
	p := f.w.desk.Pattern()
	add("all seams", cloth.Sewing{})
	for _, e := range f.w.desk.Goods().Elastics {
		add("elastic: "+e.Name, cloth.Sewing{Elastics: []string{e.Name}})
	}
	for _, s := range p.Seams {
		add("seam: "+s.Name, cloth.Sewing{Seams: []string{s.Name}})
	}
	for _, l := range p.Lines {
		add("line: "+l.Name, cloth.Sewing{Lines: []string{l.Name}})
	}
	if !slices.ContainsFunc(sews, func(s cloth.Sewing) bool { return sameWork(s, now) }) {
		add(strings.Join(slices.Concat(now.Seams, now.Lines, now.Elastics), ", "), now)
	}
	return words, sews
}

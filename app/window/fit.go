package window

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// fitForm is the page of wires and body measures while it is filled in.
type fitForm struct {
	w     *Window
	sheet *sheet
	list  *fyne.Container
	roll  *container.Scroll

	wires     []wireFields
	sizes     []sizeFields
	reduction *entry
	closure   *entry
	wide      float32
	stated    map[*entry]stated // what a field showed first, to the last digit
	told      []*fyne.Container // of each size, how the pattern fits what the fields say
	measured  map[string]check.FitSize
	fastened  float64 // what the closure added to the hems measured
}

// stated is a measure and how it was written.
type stated struct {
	text string
	mm   float64
}

// wireFields are the fields of a wire of the table.
type wireFields struct{ name, length, start, end *entry }

// sizeFields are those of a size; its wire is the place in the table, −1 for none.
type sizeFields struct {
	label     string
	wire      int
	underbust *entry
}

const noWire = "none"

// fitPage lets the wires and body measures be stated that the checks compare
// with. All of it is one change.
func (w *Window) fitPage() *fitForm {
	f := &fitForm{w: w, list: container.New(stack{gap: 8}), wide: w.pageWide(760), stated: map[*entry]stated{}, measured: map[string]check.FitSize{}}
	for _, r := range w.desk.Results() {
		f.measured[r.Size.Label] = check.FitNumbers(r.Size, r.Before, w.desk.Bounds())
	}
	fit, sizes := w.desk.Fit()
	f.fastened = fit.Closure
	for _, wire := range fit.Wires {
		f.wires = append(f.wires, f.wireFields(wire))
	}
	for _, label := range w.desk.Document().Source.Labels() {
		of := sizes[label]
		at := slices.IndexFunc(fit.Wires, func(x pattern.Wire) bool { return x.Name == of.Wire })
		f.sizes = append(f.sizes, sizeFields{label, at, f.length(of.Underbust)})
	}
	reduction := ""
	if fit.Reduction != 0 {
		reduction = plainly(fit.Reduction) + " %"
	}
	f.reduction, f.closure = f.field(reduction, 108), f.length(fit.Closure)
	f.roll = container.NewVScroll(f.list)
	f.lay()
	f.sheet = w.openSheet("Wires and measures", f.wide,
		para("The checks compare the pattern with what you state here; no piece changes. Measure the wire you have along its curve, and follow what its maker says of the room it needs.", f.wide, normal, false, w.palette.Faint),
		w.within(f.roll, f.wide, 340, 200), rule(w.palette.Line),
		container.New(line{gap: 8, wrap: f.wide}, text("The finished hem is shorter than the body by", normal, false, w.palette.Faint), f.reduction, text("and the closure, fastened, adds", normal, false, w.palette.Faint), f.closure),
		container.New(ends{}, w.link("Add a wire", f.addWire), w.button("Keep all of it", true, f.keep)))
	if len(f.wires) > 0 {
		w.win.Canvas().Focus(f.wires[0].name)
	}
	return f
}

// nameWide is the width of the names of wires, which give way in a narrow window
// so that a wire stands on one line.
func (f *fitForm) nameWide() float32 { return min(190, f.wide-470) }

func (f *fitForm) field(value string, width float32) *entry {
	e := newEntry(value, width, func(string, bool) {}, f.w.backOut)
	e.OnChanged = func(string) { f.compare() }
	return e
}

// length is a field with a measure, empty for one that is not stated.
func (f *fitForm) length(mm float64) *entry {
	written := ""
	if mm != 0 {
		written = f.w.column.exact(mm)
	}
	e := f.w.counting(f.field(written, 108))
	f.stated[e] = stated{written, mm}
	return e
}

func (f *fitForm) wireFields(wire pattern.Wire) wireFields {
	fields := wireFields{f.field(wire.Name, f.nameWide()), f.length(wire.Length), f.length(wire.PlayStart), f.length(wire.PlayEnd)}
	fields.name.submit = func(string, bool) { f.lay() } // the sizes choose by name
	return fields
}

// lay lays the fields out.
func (f *fitForm) lay() {
	w := f.w
	w.renew(f.list, func() {
		faint := func(s string) fyne.CanvasObject { return text(s, small, false, w.palette.Faint) }
		heads := container.New(line{gap: 8, wrap: f.wide})
		for _, h := range []struct {
			word string
			wide float32
		}{{"Wire", f.nameWide()}, {"Length along it", 108}, {"Play where it starts", 124}, {"Play where it ends", 124}} {
			heads.Add(container.New(atWidth{h.wide}, faint(h.word)))
		}
		f.list.Add(heads)
		names := []string{noWire}
		for i, wire := range f.wires {
			names = append(names, strings.TrimSpace(wire.name.Text))
			row := container.New(line{gap: 8, wrap: f.wide}, wire.name, wire.length, container.New(atWidth{124}, wire.start), container.New(atWidth{124}, wire.end), w.link("Remove", func() { f.removeWire(i) }))
			f.list.Add(row)
		}
		if len(f.wires) == 0 {
			f.list.Add(text("No wire is stated yet.", normal, false, w.palette.Text))
		}
		f.list.Add(rule(w.palette.Line))
		heads = container.New(line{gap: 8, wrap: f.wide})
		for _, h := range []struct {
			word string
			wide float32
		}{{"Size", 44}, {"Its wire", 150}, {"Body under the bust", 124}, {"What the pattern has", 300}} {
			heads.Add(container.New(atWidth{h.wide}, faint(h.word)))
		}
		f.list.Add(heads)
		f.told = nil
		for i := range f.sizes {
			size := &f.sizes[i]
			pick := newChoice(names, names[size.wire+1], nil)
			pick.OnChanged = func(string) {
				size.wire = pick.SelectedIndex() - 1
				f.compare()
			}
			pick.wide = 150
			told := container.New(stack{})
			f.told = append(f.told, told)
			f.list.Add(container.New(line{gap: 8, wrap: f.wide}, container.New(atWidth{44}, text(size.label, normal, size.label == w.desk.Size(), w.palette.Text)), pick, container.New(atWidth{124}, size.underbust), told))
		}
		f.compare()
		rolls(f.list, f.roll)
	})
}

// compare tells of each size what the pattern has beside what the fields say,
// as far as they can be read.
func (f *fitForm) compare() {
	fit, sizes, err := f.read()
	if err != nil {
		return
	}
	taller := false
	for i, told := range f.told {
		was := len(told.Objects)
		told.RemoveAll()
		for _, line := range f.fits(f.sizes[i].label, fit, sizes[f.sizes[i].label]) {
			told.Add(text(line, small, false, f.w.palette.Text))
		}
		if doubt := check.DoubtUnderbust(sizes[f.sizes[i].label].Underbust); doubt != "" {
			told.Add(para(unit.Restate(titled(doubt)+".", f.w.unit), f.wide-44-150-124-3*8-12, small, false, f.w.palette.Look))
		}
		told.Refresh()
		taller = taller || len(told.Objects) != was
	}
	if taller {
		f.list.Refresh()
		f.roll.Refresh()
	}
}

// fits says how the wire line takes a wire, and how much shorter than the body
// the hem is, in a size.
func (f *fitForm) fits(label string, fit pattern.Fit, of pattern.SizeFit) []string {
	m := f.measured[label]
	var lines []string
	if m.LineLength > 0 {
		said := "Wire line " + unit.MM(m.LineLength)
		if wire := fit.Wire(of.Wire); wire != nil && wire.Length > 0 {
			over := (m.LineLength - wire.Length - wire.PlayStart - wire.PlayEnd) / 2
			said += fmt.Sprintf(", play %s and %s", unit.MM(wire.PlayStart+over), unit.MM(wire.PlayEnd+over))
		}
		lines = append(lines, unit.Brief(said, f.w.unit))
	}
	if m.Hem > 0 {
		hem := m.Hem - f.fastened + fit.Closure
		said := "Hem, closed, " + unit.Brief(unit.MM(hem), f.w.unit)
		if of.Underbust > 0 {
			less := (1 - hem/of.Underbust) * 100
			said += fmt.Sprintf(", %.1f %% less than the body", less)
			if less < 0 {
				said = strings.Replace(said, fmt.Sprintf("%.1f %% less", less), fmt.Sprintf("%.1f %% more", -less), 1)
			}
		}
		lines = append(lines, said)
	}
	return lines
}

func (f *fitForm) addWire() {
	f.wires = append(f.wires, f.wireFields(pattern.Wire{Name: fmt.Sprintf("wire %d", len(f.wires)+1)}))
	f.lay()
	f.w.win.Canvas().Focus(f.wires[len(f.wires)-1].name)
}

func (f *fitForm) removeWire(at int) {
	f.wires = slices.Delete(f.wires, at, at+1)
	for i := range f.sizes {
		switch s := &f.sizes[i]; {
		case s.wire == at:
			s.wire = -1
		case s.wire > at:
			s.wire--
		}
	}
	f.lay()
}

// keep states what the fields say, as one change.
func (f *fitForm) keep() {
	fit, sizes, err := f.read()
	if was, of := f.w.desk.Fit(); err == nil && !(reflect.DeepEqual(was, fit) && maps.Equal(of, sizes)) {
		err = f.w.desk.SetFit(fit, sizes)
	}
	if err != nil {
		f.sheet.say(err)
		return
	}
	f.sheet.close()
}

// read reads the fields.
func (f *fitForm) read() (pattern.Fit, map[string]pattern.SizeFit, error) {
	var fit pattern.Fit
	var err error
	read := func(e *entry, what string) float64 {
		s := strings.TrimSpace(e.Text)
		if s == "" || err != nil {
			return 0
		}
		if was := f.stated[e]; was.text == s {
			return was.mm
		}
		mm, wrong := f.w.read(s)
		if wrong != nil {
			err = fmt.Errorf("%s: %w", what, wrong)
		}
		return mm
	}
	for _, x := range f.wires {
		name := strings.TrimSpace(x.name.Text)
		fit.Wires = append(fit.Wires, pattern.Wire{Name: name, Length: read(x.length, name+", its length"),
			PlayStart: read(x.start, name+", its play"), PlayEnd: read(x.end, name+", its play")})
	}
	sizes := map[string]pattern.SizeFit{}
	for _, s := range f.sizes {
		of := pattern.SizeFit{Underbust: read(s.underbust, "size "+s.label)}
		if s.wire >= 0 {
			of.Wire = fit.Wires[s.wire].Name
		}
		sizes[s.label] = of
	}
	fit.Closure = read(f.closure, "the closure")
	if s := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(f.reduction.Text), "%")); s != "" && err == nil {
		if fit.Reduction, err = bare.read(s, f.w.unit); err != nil {
			err = fmt.Errorf("how much shorter the hem is: %w", err)
		}
	}
	return fit, sizes, err
}

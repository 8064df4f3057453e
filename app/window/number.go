package window

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// The ways in which a step can have a number.
const (
	oneNumber = "one number"
	perSize   = "a number for each size"
	aFigure   = "a figure, times a factor"
)

// numberRows shows the numbers of the step at place i of the recipe. Tab goes from
// number to number, and after the last to the signs at their sides.
func (c *column) numberRows(i int, e step.Entry) {
	before := len(c.list.Objects)
	c.numberFields(i, e)
	rows := slices.Clone(c.list.Objects[before:])
	c.list.Objects = c.list.Objects[:before]
	box := container.New(signsLast{stack{gap: columnGap}, c.signed}, rows...)
	for _, s := range c.signed {
		box.Add(s.sign)
	}
	c.signed = nil
	if len(rows) > 0 {
		c.add(box)
	}
}

func (c *column) numberFields(i int, e step.Entry) {
	p := c.w.desk.Before(i)
	of := append(step.NumbersOf(e.Step), e.Varies...)
	for _, n := range of {
		if secondOf(e.Step, n.Path) {
			continue
		}
		c.numberRow(i, e, p, n)
	}
	for _, n := range numbers(e) {
		if n.kind != 'n' || slices.ContainsFunc(of, func(at step.NumberAt) bool { return slices.Equal(at.Path, n.path) }) {
			continue
		}
		if ofPlace(n.path) {
			c.numberRow(i, e, p, step.NumberAt{Path: n.path, Number: step.Lit(n.value)})
			continue
		}
		with := func(v float64) (step.Entry, error) { return n.with(e, strconv.FormatFloat(v, 'g', -1, 64)) }
		if place, ok := placeOf(e, p, n.path); ok {
			c.placeRow(e.ID, strings.Join(n.path, " "), nil, place, n.value, with)
			continue
		}
		c.dialRow(e.ID, strings.Join(n.path, " "), numberName(e.Step, n.path), nil, counts(e.Step.Kind(), n.path), n.value, with)
	}
	if r, ok := e.Step.(*step.Reshape); ok {
		c.knotRows(e, r, p)
	}
}

// rowName is what a number is called: in whole, and beside its field when the
// whole has no room there.
type rowName struct{ whole, short string }

// dialRow shows a name and a number that can be drawn along; a sign for more may
// stand behind it.
func (c *column) dialRow(id, path string, called rowName, more fyne.CanvasObject, kind measure, v float64, with func(float64) (step.Entry, error)) *dial {
	name := called.whole
	if fyne.MeasureText(name, normal, fyne.TextStyle{}).Width > gripWidth-besideGrip {
		c.add(para(name, columnInner, small, false, c.w.palette.Faint))
		name = called.short
		if name == "" {
			name = lastWord(called.whole)
		}
	}
	width := float32(columnInner - gripWidth)
	if more != nil {
		width -= more.MinSize().Width + 4
	}
	at := id + " " + path
	d := c.newDial(kind, v, width, func(v float64) error {
		next, err := with(v)
		if err == nil {
			c.w.rehearse(next, at)
		}
		return err
	}, func(err error) { c.fail(at, err) })
	d.name = at
	row := container.New(line{gap: 4}, d)
	shown := container.New(columns{gripWidth}, c.newGrip(name, d), row)
	c.add(shown)
	if more != nil {
		c.signed = append(c.signed, signedRow{shown, more})
	}
	c.told(at)
	return d
}

// signedRow is a row with a sign at its end.
type signedRow struct{ row, sign fyne.CanvasObject }

// signsLast is a stack of rows whose last objects are signs that stand at the ends
// of some of them, so that the keys come to them after all the rows.
type signsLast struct {
	stack
	of []signedRow
}

func (l signsLast) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.stack.Layout(o[:len(o)-len(l.of)], size)
	for _, s := range l.of {
		m, row := s.sign.MinSize(), s.row
		lay(s.sign, fyne.NewPos(columnInner-m.Width, row.Position().Y+down((row.Size().Height-m.Height)/2)), m)
	}
}

func (l signsLast) MinSize(o []fyne.CanvasObject) fyne.Size {
	return l.stack.MinSize(o[:len(o)-len(l.of)])
}

// numberRow shows a number of a step, in the way in which the step has it,
// and the other ways when they are asked for.
func (c *column) numberRow(i int, e step.Entry, p pattern.Pattern, n step.NumberAt) {
	name, path, kind := numberName(e.Step, n.Path), strings.Join(n.Path, " "), counts(e.Step.Kind(), n.Path)
	id := e.ID + "\x00" + strings.Join(n.Path, "\x00")
	sign := "unfold out"
	if c.ways[id] {
		sign = "fold away"
	}
	more := newTouch(c.w.palette, icon(sign, c.w.palette.Faint, 14), c.w.palette.Ground, 5, 8, func() {
		c.ways[id] = !c.ways[id]
		c.refresh()
	})
	more.name = "ways of " + id
	more.hover = func(in bool) {
		told := ""
		if in {
			told = "The number may be one for all sizes, one for each size, or a figure of the pattern or an earlier step."
		}
		c.w.prompt.explain(told)
	}
	with := func(next step.Number) (step.Entry, error) { return withNumber(e, n.Path, next) }
	literal, one := n.Number.Literal()
	figure, times := n.Number.Of()
	table := n.Number.Table()
	place, placed := placeOf(e, p, n.Path)
	if placed {
		name = place.name
	} else if walked, ok := walkedName(e.Step, p, n.Path); ok {
		name = walked
	}
	var first *dial
	switch {
	case one && placed:
		c.placeRow(e.ID, path, more, place, literal, func(v float64) (step.Entry, error) { return with(c.meant(n.Number, v)) })
	case one:
		c.dialRow(e.ID, path, name, more, kind, literal, func(v float64) (step.Entry, error) { return with(c.meant(n.Number, v)) })
	case table != nil:
		first = c.dialRow(e.ID, path, name, more, kind, table[c.w.desk.Size()], func(v float64) (step.Entry, error) {
			return with(inTable(table, c.w.desk.Size(), v))
		})
	default:
		name = rowName{name.whole + " ×", cmp.Or(name.short, lastWord(name.whole)) + " ×"}
		c.dialRow(e.ID, path, name, more, bare, times, func(v float64) (step.Entry, error) { return with(step.Figure(figure, v)) })
		product := func(n step.Number) []string {
			v, err := c.valueIn(n, c.w.desk.Size())
			if err != nil {
				return nil
			}
			told := kind.write(v, c)
			if kind == lengths {
				told = c.write(v)
			}
			return []string{fmt.Sprintf("Times %s it is %s in %s.", c.figureWords(figure), told, pattern.SizeWords(c.w.desk.Size()))}
		}
		c.retell(c.w.palette.Faint, product(n.Number), func(r *rehearsal) []string {
			for _, next := range append(step.NumbersOf(r.next.Step), r.next.Varies...) {
				if slices.Equal(next.Path, n.Path) {
					return product(next.Number)
				}
			}
			return nil
		})
	}
	if !c.ways[id] {
		return
	}
	c.waysOf(i, e, n, kind, first)
}

// waysOf lets the way be chosen in which a step has a number, and shows the
// rest of it: the numbers of all sizes, or the figures there are. That of the size
// shown stands in the first field, too.
func (c *column) waysOf(i int, e step.Entry, n step.NumberAt, kind measure, first *dial) {
	set := func(next step.Number) {
		edited, err := withNumber(e, n.Path, next)
		if err == nil {
			err = c.w.desk.Amend(edited)
		}
		c.edit(e.ID, err)
	}
	now, ways := oneNumber, []string{oneNumber, perSize}
	figure, times := n.Number.Of()
	table := n.Number.Table()
	figures := c.figuresBefore(i)
	if len(figures) > 0 {
		ways = append(ways, aFigure)
	}
	if table != nil {
		now = perSize
	} else if figure != "" {
		now = aFigure
	}
	value, err := c.valueIn(n.Number, c.w.desk.Size())
	c.add(newChoice(ways, now, func(way string) {
		switch {
		case way == now:
		case err != nil:
			c.edit(e.ID, err)
		case way == oneNumber:
			set(step.Lit(value))
		case way == perSize:
			set(step.PerSize(c.everySize(n.Number, value)))
		case len(figures) > 0: // the number stays what it is in the size shown
			first := figures[0]
			set(step.Figure(first.name, value/first.value))
		}
	}))
	switch now {
	case perSize:
		box := container.New(line{gap: 8, wrap: columnInner + 1})
		for _, l := range c.w.desk.Document().Source.Labels() {
			at := fmt.Sprint(e.ID, " ", n.Path, " ", l)
			d := c.newDial(kind, table[l], (columnInner-8)/2-sizeWidth, func(v float64) error {
				next, err := withNumber(e, n.Path, inTable(table, l, v))
				if err == nil {
					c.w.rehearse(next, at)
				}
				return err
			}, func(err error) { c.fail(at, err) })
			d.name = at
			if l == c.w.desk.Size() && first != nil {
				d.like, first.like = first, d
			}
			box.Add(container.New(columns{sizeWidth}, text(l, normal, l == c.w.desk.Size(), c.w.palette.Faint), d))
		}
		c.add(box)
		for _, l := range c.w.desk.Document().Source.Labels() {
			c.told(fmt.Sprint(e.ID, " ", n.Path, " ", l))
		}
	case aFigure:
		var options []string
		at := ""
		for _, f := range figures {
			options = append(options, f.words)
			if f.name == figure {
				at = f.words
			}
		}
		c.add(newChoice(options, at, func(words string) {
			for _, f := range figures {
				if f.words == words && f.name != figure {
					set(step.Figure(f.name, times))
				}
			}
		}))
	}
}

const sizeWidth = 40

// meant is a number that is the same in every size with another value: in all
// of them, or in the size shown alone.
func (c *column) meant(n step.Number, v float64) step.Number {
	if !c.w.desk.Only() {
		return step.Lit(v)
	}
	was, _ := n.Literal()
	return inTable(c.everySize(n, was), c.w.desk.Size(), v)
}

func inTable(table map[string]float64, size string, v float64) step.Number {
	next := maps.Clone(table)
	next[size] = v
	return step.PerSize(next)
}

// everySize returns a number in every size; where it has none, another.
func (c *column) everySize(n step.Number, other float64) map[string]float64 {
	table := map[string]float64{}
	for _, l := range c.w.desk.Document().Source.Labels() {
		v, err := c.valueIn(n, l)
		if err != nil {
			v = other
		}
		table[l] = v
	}
	return table
}

// valueIn returns a number of a step in a size.
func (c *column) valueIn(n step.Number, size string) (float64, error) {
	in := step.Input{Size: size}
	for _, r := range c.w.desk.Results() {
		if r.Size.Label == size {
			in.Figures = r.Figures()
		}
	}
	return n.In(in)
}

// known is a figure that a number can be taken from.
type known struct {
	name, words string
	value       float64 // in the size shown, not 0
}

// figuresBefore lists what the pattern and the steps before place i give.
func (c *column) figuresBefore(i int) []known {
	ids := map[string]int{"pattern": 0}
	for at, e := range c.w.desk.Document().Recipe[:i] {
		ids[e.ID] = at + 1
	}
	all := c.w.desk.Figures()
	var out []known
	for _, name := range slices.Sorted(maps.Keys(all)) {
		id, _, _ := strings.Cut(name, ".")
		if _, ok := ids[id]; ok && all[name] != 0 {
			out = append(out, known{name, c.figureWords(name), all[name]})
		}
	}
	slices.SortStableFunc(out, func(a, b known) int {
		at := func(k known) int { id, _, _ := strings.Cut(k.name, "."); return ids[id] }
		return at(b) - at(a) // the nearest first
	})
	return out
}

// figureWords says what a figure is, as "overlap of step 7".
func (c *column) figureWords(name string) string {
	id, what, _ := strings.Cut(name, ".")
	what = strings.NewReplacer("_deg", " in degrees", "_mm2", " in mm²", "_mm", "", "_", " ", ".", " ").Replace(what)
	if i := c.w.desk.Document().Recipe.Index(id); i >= 0 {
		return fmt.Sprintf("%s of step %d", what, i+1)
	}
	return what + " of the pattern"
}

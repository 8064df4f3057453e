package window

import (
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

// numberRows shows the numbers of the step at place i of the recipe.
func (c *column) numberRows(i int, e step.Entry) {
	of := append(step.NumbersOf(e.Step), e.Varies...)
	for _, n := range of {
		c.numberRow(i, e, n)
	}
	for _, n := range numbers(e) {
		if n.kind != 'n' || slices.ContainsFunc(of, func(at step.NumberAt) bool { return slices.Equal(at.Path, n.path) }) {
			continue
		}
		if ofPlace(n.path) {
			c.numberRow(i, e, step.NumberAt{Path: n.path, Number: step.Lit(n.value)})
			continue
		}
		c.dialRow(e.ID, strings.Join(n.path, " "), label(n.path), nil, counts(e.Step.Kind(), n.path), n.value, func(v float64) (step.Entry, error) {
			return n.with(e, strconv.FormatFloat(v, 'g', -1, 64))
		})
	}
}

// ofPlace tells whether a plain number says where a place or a datum lies, and
// so may vary by size as the step's own do.
func ofPlace(path []string) bool {
	return len(path) > 1 && slices.Contains([]string{"mm", "share", "x", "y", "degrees"}, path[len(path)-1])
}

// counts tells what the number at a path counts.
func counts(kind string, path []string) measure {
	last := path[len(path)-1]
	switch {
	case last == "degrees" || last == "by" && kind == "turn" || strings.Contains(last, "angle"):
		return degrees
	case last == "reach" && len(path) > 1 || path[0] == "notches":
		return bare // shares of a cut
	case last == "share" || last == "part":
		return shares
	case last == "times" || last == "count" || last == "along" || last == "off":
		return bare
	}
	return lengths
}

// label is where a value stands, in words: "Slash 1, from: share along".
func label(path []string) string {
	var words []string
	for i, p := range path {
		last := i == len(path)-1
		switch n, err := strconv.Atoi(p); {
		case err == nil:
			p = strconv.Itoa(n + 1)
			if i+1 < len(path) && i > 0 {
				p += ","
			}
		case i > 0 && p == "spot":
			continue // the place of what was named
		case last && i > 0 && measured[p] != "" && (p != "from" || ofSpot[path[i-1]]):
			of := &words[len(words)-1]
			*of = strings.TrimSuffix(*of, ",") + ":"
			p = measured[p]
		case i+1 < len(path) && manyOf[p] != "":
			p = manyOf[p]
		case stepWords[p] != "":
			p = stepWords[p]
		}
		words = append(words, strings.ReplaceAll(p, "_", " "))
	}
	return titled(strings.TrimSuffix(strings.Join(words, " "), ","))
}

// measured is how a value within a place is called.
var measured = map[string]string{"share": "share along", "mm": "distance along", "from": "counted from"}

// ofSpot are the keys of places, within which "from" is an end of an edge.
var ofSpot = map[string]bool{"from": true, "to": true, "at": true, "spot": true}

// manyOf calls one of several by what it is.
var manyOf = map[string]string{"slashes": "slash", "notches": "notch", "drop": "drop", "onto": "gets a part", "hinges": "hinge", "points": "point"}

// stepWords are words for what a step's own stand for.
var stepWords = map[string]string{"a": "first side", "b": "second side", "onto": "against", "until": "until", "bend": "bends", "press": "pressed", "hold": "holds still",
	"dx": "across", "dy": "up", "curve_to": "curve", "hinge_spot": "hinge"}

// dialRow shows a name and a number that can be drawn along; more may stand
// behind it.
func (c *column) dialRow(id, path, name string, more fyne.CanvasObject, kind measure, v float64, with func(float64) (step.Entry, error)) {
	if fyne.MeasureText(name, normal, fyne.TextStyle{}).Width > gripWidth-besideGrip {
		c.add(para(name, columnInner, small, false, c.w.palette.Faint))
		words := strings.Fields(name)
		at, _, placed := strings.Cut(name, " on ")
		if name = titled(words[len(words)-1]); placed {
			words = strings.Fields(at)
			name = titled(words[len(words)-1])
		}
	}
	width := float32(columnInner - gripWidth)
	if more != nil {
		width -= more.MinSize().Width + 4
	}
	d := c.newDial(kind, v, width, func(v float64) error {
		next, err := with(v)
		if err == nil {
			c.w.rehearse(next)
		}
		return err
	}, func(err error) { c.fail(id, err) })
	d.name = id + " " + path
	row := container.New(line{gap: 4}, d)
	if more != nil {
		row.Add(more)
	}
	c.add(container.New(columns{gripWidth}, c.newGrip(name, d), row))
}

// numberRow shows a number of a step, in the way in which the step has it,
// and the other ways when they are asked for.
func (c *column) numberRow(i int, e step.Entry, n step.NumberAt) {
	name, path, kind := label(n.Path), strings.Join(n.Path, " "), counts(e.Step.Kind(), n.Path)
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
	with := func(next step.Number) (step.Entry, error) { return e.WithNumber(n.Path, next) }
	literal, one := n.Number.Literal()
	figure, times := n.Number.Of()
	table := n.Number.Table()
	place, placed := c.stretchOf(i, e, n.Path)
	if placed {
		name = place.words(n.Path)
	}
	switch {
	case one && placed:
		c.placeRow(e.ID, path, name, more, place, literal, func(v float64) (step.Entry, error) { return with(c.meant(n.Number, v)) })
	case one:
		c.dialRow(e.ID, path, name, more, kind, literal, func(v float64) (step.Entry, error) { return with(c.meant(n.Number, v)) })
	case table != nil:
		c.dialRow(e.ID, path, name, more, kind, table[c.w.desk.Size()], func(v float64) (step.Entry, error) {
			return with(inTable(table, c.w.desk.Size(), v))
		})
	default:
		c.dialRow(e.ID, path, name+" ×", more, bare, times, func(v float64) (step.Entry, error) { return with(step.Figure(figure, v)) })
		if v, err := c.valueIn(n.Number, c.w.desk.Size()); err == nil {
			told := kind.write(v, c)
			if kind == lengths {
				told = c.write(v)
			}
			c.note(fmt.Sprintf("Times %s it is %s in %s.", c.figureWords(figure), told, pattern.SizeWords(c.w.desk.Size())), c.w.palette.Faint)
		}
	}
	if !c.ways[id] {
		return
	}
	c.waysOf(i, e, n, kind)
}

// waysOf lets the way be chosen in which a step has a number, and shows the
// rest of it: the numbers of all sizes, or the figures there are.
func (c *column) waysOf(i int, e step.Entry, n step.NumberAt, kind measure) {
	set := func(next step.Number) {
		edited, err := e.WithNumber(n.Path, next)
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
		default:
			// The number stays what it is in the size shown.
			first := figures[0]
			set(step.Figure(first.name, value/first.value))
		}
	}))
	switch now {
	case perSize:
		box := container.New(line{gap: 8, wrap: columnInner + 1})
		for _, l := range c.w.desk.Document().Source.Labels() {
			d := c.newDial(kind, table[l], (columnInner-8)/2-sizeWidth, func(v float64) error {
				next, err := e.WithNumber(n.Path, inTable(table, l, v))
				if err == nil {
					c.w.rehearse(next)
				}
				return err
			}, func(err error) { c.fail(e.ID, err) })
			d.name = fmt.Sprint(e.ID, " ", n.Path, " ", l)
			box.Add(container.New(columns{sizeWidth}, text(l, normal, l == c.w.desk.Size(), c.w.palette.Faint), d))
		}
		c.add(box)
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

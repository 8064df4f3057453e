package window

import (
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/render"
)

// nesting is which other sizes lie on the mat under the one shown.
type nesting int

const (
	alone      nesting = iota
	neighbours         // in the order of the list
	nextBands          // with the same cup
	nextCups           // with the same band
	everySize
)

// nestings are the choices for this pattern, with a word and a longer one each.
func (w *Window) nestings() []nestingChoice {
	labels := w.desk.Document().Source.Labels()
	all := []nestingChoice{{alone, "none", "None"}}
	if pattern.AllBandsAndCups(labels) {
		all = append(all, nestingChoice{nextBands, "bands", "The next bands, same cup"}, nestingChoice{nextCups, "cups", "The next cups, same band"})
	} else {
		all = append(all, nestingChoice{neighbours, "the next", "The next smaller and larger"})
	}
	return append(all, nestingChoice{everySize, "all", "All"})
}

// nestAnew keeps to the choices of another pattern.
func (w *Window) nestAnew() {
	if all := w.nestings(); !slices.ContainsFunc(all, func(c nestingChoice) bool { return c.n == w.nested }) {
		w.nested = all[1].n
	}
}

type nestingChoice struct {
	n          nesting
	word, menu string
}

// beneathAre returns the labels of the sizes that a choice shows.
func (w *Window) beneathAre(n nesting) []string {
	labels := w.desk.Document().Source.Labels()
	switch n {
	case neighbours:
		return pattern.NextSizes(labels, w.desk.Size())
	case nextBands:
		return pattern.NextBands(labels, w.desk.Size())
	case nextCups:
		return pattern.NextCups(labels, w.desk.Size())
	case everySize:
		return slices.DeleteFunc(labels, func(s string) bool { return s == w.desk.Size() })
	}
	return nil
}

// setNesting shows other sizes faintly under the one shown.
func (w *Window) setNesting(n nesting) {
	w.nested = n
	w.menu()
	w.refresh()
	w.mat.FitAgain()
}

// others returns the pieces of the other sizes that are shown, each piece laid
// on what she chose of it, or as it lies in its size.
func (w *Window) others() [][]pattern.Piece {
	if w.nested == alone {
		return nil
	}
	results := w.desk.Results()
	var out [][]pattern.Piece
	for _, label := range w.beneathAre(w.nested) {
		r := results[slices.IndexFunc(results, func(r step.Result) bool { return r.Size.Label == label })]
		pieces := slices.Clone(r.Size.Pattern.Pieces)
		for j := range pieces {
			if on, ok := w.nestOn[pieces[j].Name]; ok {
				if m, ok := onto(r.Size.Pattern, w.desk.Pattern(), on); ok {
					pieces[j].Pose = pieces[j].Pose.Then(m)
				}
			}
		}
		out = append(out, pieces)
	}
	return out
}

// onto returns what moves a piece of another size on the mat so that what is
// common lies on itself; false when one of the sizes has it not.
func onto(other, shown pattern.Pattern, on render.Common) (geom.Motion, bool) {
	from, err := other.Find(on.At)
	to, err2 := shown.Find(on.At)
	if err != nil || err2 != nil {
		return geom.Motion{}, false
	}
	if on.Along != nil {
		a, err := other.Find(*on.Along)
		b, err2 := shown.Find(*on.Along)
		if err == nil && err2 == nil {
			if m, err := geom.Carry(from.Mat, a.Mat, to.Mat, b.Mat); err == nil {
				return m, true
			}
		}
	}
	return geom.Shift(to.Mat.Sub(from.Mat)), true
}

// beneath lets her say which other sizes are shown.
func (c *column) beneath() {
	w := c.w
	if len(w.desk.Document().Source.Sizes) < 2 {
		return
	}
	box := container.New(line{gap: 4, wrap: columnInner}, container.New(inset{0, 4}, gap(0, 0), text("Show also", small, false, w.palette.Faint)))
	for _, o := range w.nestings() {
		b := c.option(o.word, o.n == w.nested, func() { w.setNesting(o.n) })
		b.hover = func(in bool) {
			told := ""
			if labels := w.beneathAre(o.n); in && len(labels) > 0 {
				told = "Shown faintly on the mat beneath " + w.desk.Size() + ": " + strings.Join(labels, ", ") + "."
			} else if in && o.n != alone {
				told = "There is none beside " + w.desk.Size() + "."
			}
			w.prompt.explain(told)
		}
		box.Add(b)
	}
	c.add(box)
	c.add(container.New(line{}, w.link("Checks in every size…", w.sizesPage)))
}

// option is a word of several, of which one holds.
func (c *column) option(word string, holds bool, tap func()) *touch {
	fill := color.Color(color.Transparent)
	if holds {
		fill = c.w.palette.Soft
	}
	return newTouch(c.w.palette, text(word, small, holds, c.w.palette.Text), fill, 8, 4, tap)
}

// layOn offers to lay the sizes of a piece on a place of it, in words such as
// "this corner"; where they lie on one place already, also along the line from
// there to another.
func (c *column) layOn(where string, on render.Common) {
	w := c.w
	if len(w.desk.Document().Source.Sizes) < 2 {
		return
	}
	lay := func(word string, lie func()) {
		c.add(container.New(line{}, w.link(word, func() {
			lie()
			if w.nested == alone {
				w.nested = w.nestings()[1].n
				w.menu()
			}
			w.refresh()
		})))
	}
	set := func(on render.Common) func() {
		return func() {
			if w.nestOn == nil {
				w.nestOn = map[string]render.Common{}
			}
			w.nestOn[on.At.Piece] = on
		}
	}
	now, laid := w.nestOn[on.At.Piece]
	here := laid && (now.At == on.At && (now.Along == nil) == (on.Along == nil) || now.Along != nil && on.Along == nil && *now.Along == on.At)
	if here {
		lay("Let the sizes lie as they do", func() { delete(w.nestOn, on.At.Piece) })
		return
	}
	lay("Lay the sizes on "+where, set(on))
	if laid && on.Along == nil && now.At != on.At {
		lay("Turn them along the line to "+where, set(render.Common{At: now.At, Along: &on.At}))
	}
}

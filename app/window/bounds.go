package window

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/lesson"
	"truemat/ops/check"
)

// checkAt tells a check from the others, also after it came out otherwise.
func checkAt(ch check.Check) string {
	return strings.Join([]string{"check", ch.ID, ch.Piece, ch.Edge, ch.Seam, ch.Line}, " ")
}

// toCheck takes the keys to the row of a check and brings it and the bounds
// below it into view.
func (c *column) toCheck(at string) {
	var row, last fyne.CanvasObject
	for _, f := range reachable(c.list) {
		switch f := f.(type) {
		case *touch:
			if f.name == at {
				c.w.win.Canvas().Focus(f)
				row, last = f, f
			}
		case *entry:
			if row != nil && strings.HasPrefix(f.name, boundField) {
				last = f
			}
		}
	}
	if row != nil {
		revealAll(c.scroll, row, last)
	}
}

const boundField = "bound " // before the names of the fields

// boundRows shows by what a check decides, and lets it be set anew for the
// document.
func (c *column) boundRows(ch check.Check) {
	if lesson.Stated(ch.ID) && ch.Verdict != check.Holds {
		there := c.w.link("Open Wires and measures", func() { c.w.fitPage() })
		there.name = "state " + checkAt(ch)
		c.add(container.New(line{}, there))
	}
	c.note("What decides here, only to be set where you want another limit:", c.w.palette.Faint)
	own := c.w.desk.OwnBounds()
	settings := c.w.desk.Bounds().Settings(ch.ID)
	if len(settings) == 0 {
		c.note("It holds or it does not; there is no bound to set.", c.w.palette.Faint)
	}
	usual := true
	for _, s := range settings {
		if s.Of != "" {
			c.add(text(titled(s.Of), small, false, c.w.palette.Faint))
		}
		words := []string{"Holds up to", "Broken beyond"}
		if s.Least {
			words = []string{"Holds from", "Broken under"}
		} else if len(s.Values) == 1 {
			words = []string{"At most"}
		}
		values := s.Values
		if ch.ID == check.LineCorner && ch.Line == "" {
			values = values[:1] // in a sewn edge it deserves a look, and is never broken
		}
		for i, v := range values {
			c.boundRow(checkAt(ch), s, words[i], i, v)
		}
		usual = usual && own[s.Name] == nil
	}
	if !usual {
		back := c.w.link("As usual", func() {
			next, err := own, error(nil)
			for _, s := range settings {
				if err == nil {
					next, err = next.With(s.Name)
				}
			}
			if err == nil {
				err = c.w.desk.SetBounds(next)
			}
			c.edit(checkAt(ch), err)
		})
		back.name = "usual " + checkAt(ch)
		c.add(container.New(line{}, back))
	}
	c.told(checkAt(ch))
}

// boundRow shows one value of a bound; where what holds passes what deserves a
// look, that goes along.
func (c *column) boundRow(at string, s check.Setting, word string, i int, v float64) {
	kind, unit := bare, " "+s.Unit
	switch s.Unit {
	case "mm":
		kind, unit = lengths, ""
	case "deg":
		kind, unit = degrees, ""
	}
	e := newEntry(kind.write(v, c)+unit, columnInner-gripWidth, func(typed string, changed bool) {
		if !changed {
			return
		}
		v, err := kind.read(strings.TrimSuffix(strings.TrimSpace(typed), strings.TrimSpace(unit)), c.w.unit)
		values := slices.Clone(s.Values)
		if values[i] = v; i == 0 && len(values) > 1 && (values[1] < v) != s.Least {
			values[1] = v
		}
		next := c.w.desk.OwnBounds()
		if err == nil {
			next, err = next.With(s.Name, values...)
		}
		if err == nil {
			err = c.w.desk.SetBounds(next)
		}
		c.edit(at, err)
	}, c.w.backOut)
	if kind == lengths {
		c.w.counting(e)
	}
	e.name = fmt.Sprint(boundField, s.Name, " ", i)
	c.add(container.New(columns{gripWidth}, text(word, normal, false, c.w.palette.Faint), e))
}

package handout

import (
	"fmt"
	"math"
	"slices"

	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/render"
)

// steps tells every step in words and numbers, with a picture of the pieces
// that it touched.
func (s *sheet) steps() []render.Part {
	if len(s.doc.Recipe) == 0 {
		return nil
	}
	var all render.Entries
	for n, r := range s.last().Reports {
		e := render.Entry{Number: n + 1, Text: r.Sentence}
		switch r.State {
		case step.Off:
			e.Below = []string{"Left out in this size."}
		case step.Upset:
			e.Below = []string{"Could not apply: " + r.Error}
		default:
			e.Below = append(measures(r), r.Notes...)
			e.Picture = touched(s.stages[n].Size.Pattern, s.stages[n+1].Size.Pattern)
		}
		all = append(all, e)
	}
	return []render.Part{render.Heading("The steps"), all}
}

// mostMeasures bounds how many measures a step tells.
const mostMeasures = 4

// measures tells the lengths that a step changed, the greatest change first.
func measures(r step.Report) []string {
	var out []string
	for _, c := range r.Changes {
		if c.Sewn != nil && c.Edge == c.Sewn.Edges[0] && c.Sewn.Before > 0 && c.Sewn.After > 0 {
			out = append([]string{fmt.Sprintf("%s of %s, across the dart as sewn: %s, was %s", c.Edge, c.Piece, unit.MM(c.Sewn.After), unit.MM(c.Sewn.Before))}, out...)
		}
		if c.Sewn != nil || c.What != "length" || c.Before == 0 || c.After == 0 || math.Abs(c.After-c.Before) < changedLeast {
			continue
		}
		what := c.Edge + " of " + c.Piece
		if c.Line != "" {
			what = "line " + c.Line
		}
		if len(out) < mostMeasures {
			out = append(out, fmt.Sprintf("%s: %s, was %s", what, unit.MM(c.After), unit.MM(c.Before)))
		}
	}
	return out
}

// touched draws the pieces that differ; nothing when none does.
func touched(before, after pattern.Pattern) render.Drawing {
	var was, is []pattern.Piece
	for _, pc := range after.Pieces {
		if o := before.Piece(pc.Name); o == nil || !same(*o, pc) {
			is = append(is, pc)
		}
	}
	for _, pc := range before.Pieces {
		if o := after.Piece(pc.Name); o == nil || !same(pc, *o) {
			was = append(was, pc)
		}
	}
	if len(is) == 0 {
		return nil
	}
	return render.BeforeAfter(was, is, nil)
}

// same reports whether two states of a piece are drawn alike.
func same(a, b pattern.Piece) bool {
	if len(a.Edges) != len(b.Edges) || a.Pose != b.Pose || !slices.Equal(a.Notches, b.Notches) || len(a.Marks) != len(b.Marks) || len(a.Inner) != len(b.Inner) {
		return false
	}
	for i := range a.Edges {
		if a.Edges[i].Allowance != b.Edges[i].Allowance || a.Edges[i].Role != b.Edges[i].Role || a.Edges[i].Path.String() != b.Edges[i].Path.String() {
			return false
		}
	}
	return true
}

// checked tells what is broken or deserves a look, and counts what holds.
func (s *sheet) checked() []render.Part {
	parts := []render.Part{render.Heading("Checks")}
	held := 0
	table := render.Table{Head: []string{"", "what was found"}}
	for _, v := range []check.Verdict{check.Broken, check.Look} {
		for _, c := range s.checks() {
			if c.Verdict == v {
				table.Rows = append(table.Rows, []string{string(v), c.Text})
			}
		}
	}
	for _, c := range s.checks() {
		if c.Verdict == check.Holds {
			held++
		}
	}
	if len(table.Rows) > 0 {
		parts = append(parts, table)
	}
	return append(parts, render.Words(fmt.Sprintf("%s hold.", counted(held, "check"))))
}

// sizes is a table of the checks that do not hold everywhere, size by size.
func (s *sheet) sizes() []render.Part {
	if len(s.all) < 2 {
		return nil
	}
	t := check.Tabulate(s.columns())
	parts := []render.Part{render.Heading("All sizes")}
	table := render.Table{Head: []string{"check"}}
	for _, c := range t.Columns {
		table.Head = append(table.Head, c.Size)
	}
	for _, row := range t.Rows {
		if row.Worst == check.Holds {
			continue
		}
		of, by, digits := s.measuredIn(row.Unit)
		cells := []string{fmt.Sprintf("%s, %s (%s)", row.What(), row.Place(), of)}
		for _, c := range row.Cells {
			cells = append(cells, cell(c, by, digits))
		}
		table.Rows = append(table.Rows, cells)
	}
	for _, c := range t.Columns {
		if c.Behind != "" {
			parts = append(parts, render.Words(fmt.Sprintf("Size %s is behind: %s", c.Size, c.Behind)))
		}
	}
	if len(table.Rows) == 0 {
		return append(parts, render.Words("Every check holds in every size."))
	}
	return append(parts, render.Words("What was measured, where a check does not hold in every size: ? deserves a look, ! is broken."), table)
}

// columns returns the checks of every size.
func (s *sheet) columns() []check.SizeChecks {
	var out []check.SizeChecks
	for _, r := range s.all {
		out = append(out, check.SizeChecks{Size: r.Size.Label, Behind: r.Reason(), Checks: check.Run(r.Before, r.Size.Pattern, s.doc.Bounds.Bounds())})
	}
	return out
}

// measuredIn returns the unit in which the sheet writes what is measured in
// another, by how much it is divided, and with how many decimals.
func (s *sheet) measuredIn(of string) (as string, by float64, digits int) {
	switch {
	case of != "mm":
		return of, 1, 1
	case s.units == unit.Centimetres:
		return "cm", 10, 3
	case s.units == unit.InchFractions:
		return "in", unit.Inch, 3
	}
	return of, 1, 2
}

func cell(c *check.Check, by float64, digits int) string {
	if c == nil {
		return "–"
	}
	sign := map[check.Verdict]string{check.Look: "?", check.Broken: "!"}[c.Verdict]
	return fmt.Sprintf("%.*f%s", digits, c.Measured/by, sign)
}

package command

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"truemat/ops/check"
)

// tableWidth is how many characters a line of a table takes at most; more
// sizes go on below.
const tableWidth = 100

// signs stand behind a measured value; what holds has none.
var signs = map[check.Verdict]string{check.Holds: " ", check.Look: "?", check.Broken: "!"}

// printTable prints the checks of several sizes as a table, worst first, then
// a sentence for each row that does not hold.
func (all checked) printTable(c *call) error {
	sizes := make([]check.SizeChecks, len(all.Sizes))
	for i, s := range all.Sizes {
		sizes[i] = check.SizeChecks{Size: s.Size, Behind: s.Reason, Checks: s.Checks}
	}
	t := check.Tabulate(sizes)
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %d sizes: %d checks hold in all of them, %d to look at, %d broken\n", all.Pattern, len(t.Columns), t.Count(check.Holds), t.Count(check.Look), t.Count(check.Broken))
	for _, col := range t.Columns {
		if col.Behind != "" {
			fmt.Fprintf(&b, "size %s* is behind: %s\n", col.Size, col.Behind)
		}
	}
	rows := t.Rows
	if !c.yes("full") {
		rows = slices.DeleteFunc(slices.Clone(rows), func(r check.Row) bool { return r.Worst == check.Holds })
	}
	if len(rows) > 0 {
		b.WriteString("\n! broken  ? look  - not in this size\n\n")
		writeTable(&b, t.Columns, rows)
	}
	for _, r := range rows {
		if r.Worst == check.Holds {
			continue
		}
		worst, i := r.WorstCell()
		fmt.Fprintf(&b, "\n%-6s  %s, %s (first in size %s)\n        %s\n", r.Worst, r.What(), r.Place(), t.Columns[i].Size, worst.Text)
	}
	_, err := fmt.Fprint(c.out, b.String())
	return err
}

// writeTable writes the rows with their measured values, in as many blocks of
// columns as tableWidth asks for.
func writeTable(b *strings.Builder, columns []check.Column, rows []check.Row) {
	names := make([]string, len(rows))
	first, wide := 0, 0
	for i, r := range rows {
		names[i] = r.What() + ", " + r.Place()
		if r.Unit != "" {
			names[i] += " (" + r.Unit + ")"
		}
		first = max(first, utf8.RuneCountInString(names[i]))
		for _, cell := range r.Cells {
			wide = max(wide, len(cellText(cell)))
		}
	}
	heads := make([]string, len(columns))
	for i, col := range columns {
		heads[i] = col.Size + " "
		if col.Behind != "" {
			heads[i] = col.Size + "*"
		}
		wide = max(wide, utf8.RuneCountInString(heads[i]))
	}
	perBlock := max(1, (tableWidth-first)/(wide+1))
	blocks := (len(columns) + perBlock - 1) / perBlock
	perBlock = (len(columns) + blocks - 1) / blocks // evenly
	for from := 0; from < len(columns); from += perBlock {
		to := min(from+perBlock, len(columns))
		if from > 0 {
			b.WriteByte('\n')
		}
		line := func(name string, cells func(i int) string) {
			text := padded(name, -first)
			for i := from; i < to; i++ {
				text += " " + padded(cells(i), wide)
			}
			b.WriteString(strings.TrimRight(text, " ") + "\n")
		}
		line("", func(i int) string { return heads[i] })
		for k, r := range rows {
			line(names[k], func(i int) string { return cellText(r.Cells[i]) })
		}
	}
}

// padded fills text with blanks up to a width in characters: before it, or
// after it when the width is below 0.
func padded(text string, width int) string {
	n := width
	if n < 0 {
		n = -n
	}
	fill := strings.Repeat(" ", max(0, n-utf8.RuneCountInString(text)))
	if width < 0 {
		return text + fill
	}
	return fill + text
}

// cellText writes a measured value and the sign of its verdict.
func cellText(c *check.Check) string {
	if c == nil {
		return "- "
	}
	if c.Unit == "" {
		return fmt.Sprintf("%.0f", c.Measured) + signs[c.Verdict]
	}
	v := math.Round(c.Measured*100) / 100
	return fmt.Sprintf("%.2f", v+0) + signs[c.Verdict]
}

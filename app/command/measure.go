package command

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"github.com/spf13/pflag"
	"truemat/ops/pattern"
)

var measureCommand = command{
	name:  "measure",
	use:   "FILE [--size S | --all] [--json]",
	short: "every edge, seam, line and area, in mm",
	long: `
Applies the document's steps and lists the length of every edge, seam and line
and the area of every piece. A seam's difference is side A less side B less the
ease it is meant to have: 0 when both sides fit.

Example: the wire line of size 75C
  truemat measure tern.truemat --size 75C`,
	flags: func(f *pflag.FlagSet) {
		sizeFlags(f)
		f.Bool("json", false, "as JSON, for scripts")
	},
	run: func(c *call) error {
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		c.warnBehind(results)
		all := struct {
			Pattern string         `json:"pattern"`
			Sizes   []measuredSize `json:"sizes"`
		}{Pattern: doc.Source.Name}
		for _, r := range results {
			m, err := pattern.MeasureSize(r.Size)
			if err != nil {
				return fmt.Errorf("size %s: %w", r.Size.Label, err)
			}
			all.Sizes = append(all.Sizes, measuredSize{m, r.Behind(), r.Reason()})
		}
		if c.yes("json") {
			return printJSON(c.out, all)
		}
		for _, m := range all.Sizes {
			if err := printMeasures(c.out, all.Pattern, m.Measures); err != nil {
				return err
			}
		}
		return nil
	},
}

type measuredSize struct {
	pattern.Measures
	Behind bool   `json:"behind,omitempty"` // a step could not apply
	Reason string `json:"reason,omitempty"` // which and why
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

func printMeasures(out io.Writer, name string, m pattern.Measures) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(w, "%s, %s (mm)\n", name, pattern.SizeWords(m.Size))
	for _, p := range m.Pieces {
		fmt.Fprintf(w, "\n%s\tarea %.1f cm²\tcut %.1f cm²\t\n", p.Name, p.Area/100, p.CutArea/100)
		for _, e := range p.Edges {
			shape := ""
			if e.Straight {
				shape = "straight"
			}
			fmt.Fprintf(w, "  %s\t%s\t%.2f\tallowance %.2f\t%s\n", e.Name, e.Role, e.Length, e.Allowance, shape)
		}
		for _, n := range p.Notches {
			fmt.Fprintf(w, "  notch %s\ton %s\t%.2f\t\t\n", n.Name, n.Edge, n.At)
		}
	}
	fmt.Fprintln(w)
	for _, s := range m.Seams {
		fmt.Fprintf(w, "seam %s\ta %.2f\tb %.2f\tease %.2f\tdifference %+.3f\n", s.Name, s.A, s.B, s.Ease, math.Round(s.Difference*1000)/1000+0) // no −0.000
	}
	for _, l := range m.Lines {
		fmt.Fprintf(w, "line %s\t%s\t%.2f\t\t\n", l.Name, l.Kind, l.Length)
	}
	fmt.Fprintln(w)
	return w.Flush()
}

package command

import (
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"github.com/spf13/pflag"
	"truemat/ops/pattern"
	"truemat/ops/walk"
)

var walkCommand = command{
	name:  "walk",
	use:   "FILE --seam NAME [--size S | --all] [--from start|end] [--json]",
	short: "a seam from notch to notch: both sides, difference, ease",
	long: `
Walks one side of a seam along the other, as paper is walked on paper, and
tells how long both sides are from each notch to the next, by how much they
differ, and how much ease is stated there. A difference is side A less side B
less the ease: 0 when the notches meet. Notches are matched in their order;
those without a partner are named, with the place across from them.

With --json one size gives {"size", "seam", "side_a", "side_b",
"walked_from", "rows", "a_mm", "b_mm", "difference_mm", "ease_mm", "unmatched"}, where each of the rows is
{"from", "to", "a_mm", "b_mm", "difference_mm", "ease_mm"}, with "from_b" and
"to_b" where side B calls its notch otherwise. With --all it gives
{"pattern", "sizes"}: the same for each size in a list.

Examples: the cup along the wire line of the frame; in all sizes, for a script
  truemat walk tern.truemat --seam "wire seam" --size 75C
  truemat walk tern.truemat --seam "wire seam" --all --json`,
	flags: func(f *pflag.FlagSet) {
		sizeFlags(f)
		f.String("seam", "", "the seam, by its name")
		f.String("from", "start", "the end from which it is walked: start or end")
		f.Bool("json", false, "as JSON, for scripts")
	},
	run: func(c *call) error {
		seam, err := c.required("seam")
		if err != nil {
			return err
		}
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		c.warnBehind(results)
		all := struct {
			Pattern string       `json:"pattern"`
			Sizes   []walkedSize `json:"sizes"`
		}{Pattern: doc.Source.Name}
		for _, r := range results {
			w, err := walk.Seam(r.Size.Pattern, seam, walk.Way{From: pattern.EndName(c.text("from"))})
			if err != nil {
				return err
			}
			all.Sizes = append(all.Sizes, walkedSize{r.Size.Label, w.Table()})
		}
		switch {
		case c.yes("json") && (c.yes("all") || len(all.Sizes) > 1):
			return printJSON(c.out, all)
		case c.yes("json"):
			return printJSON(c.out, all.Sizes[0])
		}
		for _, s := range all.Sizes {
			if err := s.print(c.out, all.Pattern); err != nil {
				return err
			}
		}
		return nil
	},
}

// walkedSize is a seam walked in one size.
type walkedSize struct {
	Size string `json:"size"`
	walk.Table
}

func (s walkedSize) print(out io.Writer, name string) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintf(out, "%s, %s: seam %s, walked from %s (mm)\n", name, pattern.SizeWords(s.Size), s.Seam, s.From)
	fmt.Fprintf(out, "  side A: %s; side B: %s\n", s.SideA, s.SideB)
	fmt.Fprintln(w, "from\tto\tside A\tside B\tdifference\tease\t")
	row := func(from, to string, a, b, difference, ease float64) {
		difference = math.Round(difference*100)/100 + 0 // no −0.00
		fmt.Fprintf(w, "%s\t%s\t%.2f\t%.2f\t%+.2f\t%.2f\t\n", from, to, a, b, difference, ease)
	}
	for _, r := range s.Rows {
		row(both(r.From, r.FromB), both(r.To, r.ToB), r.A, r.B, r.Difference, r.Ease)
	}
	row("", "the whole", s.A, s.B, s.Difference, s.Ease)
	if err := w.Flush(); err != nil {
		return err
	}
	for _, l := range s.Unmatched {
		fmt.Fprintf(out, "  %s of %s has no partner: it lies at %.2f and falls at %.2f of the other side\n", pattern.NotchSaid(l.Notch), l.Piece, l.At, l.Other)
	}
	_, err := fmt.Fprintln(out)
	return err
}

// both names a pair of notches.
func both(a, b string) string {
	if b == "" {
		return a
	}
	return a + " / " + b
}

package command

import (
	"fmt"

	"github.com/spf13/pflag"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/store"
)

var checkCommand = command{
	name:  "check",
	use:   "FILE [--size S | --all] [--bound NAME=VALUE] [--out FILE] [--json]",
	short: "what must hold after the alteration, with the remedy where it does not",
	long: `
Compares the altered pattern with the one that came in: wire line, seams and
their notches, lines across seams, hems, lace edges, cut lines, marks. What
holds is counted; what deserves a look or is broken is told in a sentence.
Several sizes come as a table of what was measured, worst first, with the
sentence for the size in which it is worst. The exit code is 1 when a
check is broken or a step could not apply.

A bound is set by --bound NAME=HOLDS,LOOK, as often as needed: up to the first
value a measure holds, up to the second it deserves a look, beyond it is
broken; with one value nothing lies between. A name that is none lists all
there are with their values. It counts for this once, before what the document
says; --out writes the document with it, for every later check, and
--bound NAME=usual takes it back.

Examples: all sizes at once; seams that must match within 0.2 mm, once and
from now on
  truemat check tern.truemat --all
  truemat check tern.truemat --bound seam-length=0.2,0.5
  truemat check tern.truemat --bound seam-length=0.2,0.5 --out mine.truemat`,
	flags: func(f *pflag.FlagSet) {
		sizeFlags(f)
		f.Bool("json", false, "as JSON, every check with its figure")
		f.StringArray("bound", nil, "a bound of her own, as NAME=HOLDS,LOOK")
		f.String("out", "", "the document to write, with these bounds")
		f.Bool("full", false, "list the checks that hold as well")
	},
	run: func(c *call) error {
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		given, _ := c.flags.GetStringArray("bound")
		for _, text := range given {
			if doc.Bounds, err = doc.Bounds.Set(text); err != nil {
				return err
			}
		}
		bounds := doc.Bounds.Bounds()
		if out := c.text("out"); out != "" {
			if err := store.Save(out, doc); err != nil {
				return err
			}
		}
		c.warnBehind(results)
		all := checked{Pattern: doc.Source.Name}
		broken := false
		for _, r := range results {
			checks := check.Run(r.Before, r.Size.Pattern, bounds)
			all.Sizes = append(all.Sizes, checkedSize{Size: r.Size.Label, Behind: r.Behind(), Reason: r.Reason(), Checks: checks})
			broken = broken || r.Behind() || check.Worst(checks) == check.Broken
		}
		switch {
		case c.yes("json"):
			err = printJSON(c.out, all)
		case len(all.Sizes) > 1:
			err = all.printTable(c)
		default:
			err = all.print(c)
		}
		if err == nil && broken {
			return errBroken
		}
		return err
	},
}

type checked struct {
	Pattern string        `json:"pattern"`
	Sizes   []checkedSize `json:"sizes"`
}

type checkedSize struct {
	Size   string        `json:"size"`
	Behind bool          `json:"behind,omitempty"` // a step could not apply
	Reason string        `json:"reason,omitempty"` // which and why
	Checks []check.Check `json:"checks"`
}

func (all checked) print(c *call) error {
	for _, s := range all.Sizes {
		count := map[check.Verdict]int{}
		for _, ch := range s.Checks {
			count[ch.Verdict]++
		}
		if _, err := fmt.Fprintf(c.out, "%s, %s: %d hold, %d to look at, %d broken\n", all.Pattern, pattern.SizeWords(s.Size), count[check.Holds], count[check.Look], count[check.Broken]); err != nil {
			return err
		}
		for _, v := range []check.Verdict{check.Broken, check.Look, check.Holds} {
			for _, ch := range s.Checks {
				if ch.Verdict == v && (v != check.Holds || c.yes("full")) {
					fmt.Fprintf(c.out, "  %-6s  %s\n", v, ch.Text)
				}
			}
		}
	}
	return nil
}

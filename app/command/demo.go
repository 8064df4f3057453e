package command

import (
	"fmt"

	"github.com/spf13/pflag"
	"truemat/ops/demo"
	"truemat/ops/store"
)

var demoCommand = command{
	name:  "demo",
	use:   "--out FILE [--altered]",
	short: "the demo pattern as a document, plain or with its recipe",
	long: `
Writes the Tern, a demo bra of our own draft in all its sizes, as a document.
With --altered the recipe "Tern in lace" comes with it, kept as steps: the hem
allowance off, bridge and cradle joined, a straight hem for the lace border; and
the cloths, elastic and thread it is made with.

Example:
  truemat demo --out tern-lace.truemat --altered`,
	flags: func(f *pflag.FlagSet) {
		f.String("out", "", "the document to write")
		f.Bool("altered", false, "with the lace recipe")
	},
	run: func(c *call) error {
		if len(c.args) > 0 {
			return usageError(fmt.Sprintf("%q is not wanted", c.args[0]))
		}
		out, err := c.required("out")
		if err != nil {
			return err
		}
		run, err := demo.Tern()
		if err != nil {
			return err
		}
		doc := store.Document{Source: run}
		if c.yes("altered") {
			if doc.Recipe, _, err = doc.Recipe.Append(run, demo.TernInLace()...); err != nil {
				return err
			}
			doc.Goods = demo.Goods()
		}
		if err := store.Save(out, doc); err != nil {
			return err
		}
		fmt.Fprintf(c.out, "%s: %s, %s, %s\n", out, run.Name, counted(len(run.Sizes), "size"), counted(len(doc.Recipe), "step"))
		return nil
	},
}

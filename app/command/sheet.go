package command

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/render"
	"truemat/render/handout"
)

var sheetCommand = command{
	name:  "sheet",
	use:   "FILE --out X.pdf [--paper a4|letter] [--size S] [--units mm|cm|in] [--without PARTS] [--json]",
	short: "a few pages that tell another maker what was altered, cut and sewn",
	long: `
Writes one PDF: before and after drawn over each other with the lengths that
changed, every step in words and numbers with a small picture, the checks, all
sizes, what is cut and bought, the lace and cloth plans, the pieces as worn, the
order of sewing with thick seams cut across, and cautions. --without leaves out
parts, by name, apart by commas: before and after, steps, checks, sizes,
cutting, buying, sewing. --units says how lengths are written. It is drawn in
thin lines, light enough to print at home. The pieces themselves are printed at
true size by "truemat print".

--json gives what it tells as data, lengths in mm, instead of the PDF or, with
--out, beside it.

Example:
  truemat sheet tern-lace.truemat --size 75C --paper letter --out tern-lace.pdf`,
	flags: func(f *pflag.FlagSet) {
		f.String("out", "", "the PDF to write")
		f.String("paper", "a4", "a4 or letter, or another paper as for print")
		f.String("without", "", "parts to leave out, apart by commas")
		f.String("size", "", "the size, by its label (the first one when not given)")
		f.String("units", "mm", "mm, cm or in: how lengths are written, but in --json")
		f.Bool("json", false, "what it tells as JSON, for scripts")
	},
	run: func(c *call) error {
		out := c.text("out")
		if out == "" && !c.yes("json") {
			return usageError("--out is missing")
		}
		units, err := c.units()
		if err != nil {
			return err
		}
		paper, err := render.ParsePaper(c.text("paper"))
		if err != nil {
			return err
		}
		without, err := handout.ParseParts(c.text("without"))
		if err != nil {
			return usageError(err.Error())
		}
		path, err := c.one("FILE")
		if err != nil {
			return err
		}
		doc, err := store.Load(path)
		if err != nil {
			return err
		}
		size := strings.TrimSpace(c.text("size"))
		if size == "" {
			size = doc.Source.Sizes[0].Label
		}
		wish := handout.Wish{Size: size, Paper: paper, Units: units, Called: strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)), Without: without}
		if out != "" {
			if err := store.WriteFile(out, func(w io.Writer) error { return handout.Write(w, doc, wish) }); err != nil {
				return err
			}
		}
		if c.yes("json") {
			told, err := handout.Tell(doc, wish)
			if err != nil {
				return err
			}
			return printJSON(c.out, told)
		}
		fmt.Fprintf(c.out, "%s: %s, %s, on %s\n", out, doc.Source.Name, pattern.SizeWords(size), paper.Name)
		return nil
	},
}

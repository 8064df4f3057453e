package command

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/pattern"
	"truemat/ops/recipe"
	"truemat/ops/step"
	"truemat/ops/store"
)

var alterCommand = command{
	name:  "alter",
	use:   "FILE --steps STEPS.json --out FILE [--name OLD=NEW] [--only S[,S]] [--json]",
	short: "add steps to a document, kept as steps",
	long: `
Adds the steps of a JSON list to the document's recipe, provided that each of
them applies in every size it is meant for; otherwise nothing is written. What
each step changed is listed for the first size.

Names in the steps that the pattern does not have are all told first, with the
nearest it has; --name and --names say what they are called here. --only does
the steps in some sizes and leaves the others as they are.

Example: take the hem allowance off the bridge and make it a lace edge
  echo '[{"id": "hem-off", "do": "allow", "piece": "bridge",
          "edges": ["hem"], "width": 0, "role": "lace-edge"}]' > steps.json
  truemat alter tern.truemat --steps steps.json --out altered.truemat`,
	flags: func(f *pflag.FlagSet) {
		f.String("steps", "", "the steps to add, a JSON list")
		f.String("out", "", "the document to write")
		nameFlags(f)
		f.String("only", "", "the sizes to alter, by their labels (all when not given)")
		f.Bool("json", false, "what each step changed, in every size, as JSON")
	},
	run: func(c *call) error {
		path, err := c.one("FILE")
		if err != nil {
			return err
		}
		stepsPath, err := c.required("steps")
		if err != nil {
			return err
		}
		out, err := c.required("out")
		if err != nil {
			return err
		}
		doc, err := store.Load(path)
		if err != nil {
			return err
		}
		f, err := openFile(stepsPath)
		if err != nil {
			return err
		}
		defer f.Close()
		steps, err := store.ReadSteps(f)
		if err != nil {
			return fmt.Errorf("%s: %w", stepsPath, err)
		}
		names, err := c.nameMap()
		if err != nil {
			return err
		}
		first := 0
		if c.text("only") != "" {
			only, err := pick(doc.Source, strings.Split(c.text("only"), ","))
			if err != nil {
				return err
			}
			labels := make([]string, len(only))
			for i, s := range only {
				labels[i] = s.Label
			}
			if steps, err = recipe.Only(steps, labels); err != nil {
				return err
			}
			first = slices.Index(doc.Source.Labels(), labels[0])
		}
		had, was := len(doc.Recipe), doc.Recipe
		opened, err := recipe.Open(doc.Source, doc.Recipe, doc.Results(), steps, names)
		var lacking *recipe.Lacking
		if errors.As(err, &lacking) {
			return fmt.Errorf("%w\nNames are given by --name, or in a file by --names", err)
		}
		if err != nil {
			return err
		}
		for _, id := range slices.Sorted(maps.Keys(opened.IDs)) {
			fmt.Fprintf(c.errOut, "the id %s is taken; the new step is %s\n", id, opened.IDs[id])
		}
		results := opened.Results
		doc.Recipe = opened.Recipe
		doc = doc.Following(was)
		if err := store.Save(out, doc); err != nil {
			return err
		}
		if c.yes("json") {
			return printJSON(c.out, reportsOf(doc.Source.Name, results, had))
		}
		printReports(c, results[first], had)
		return nil
	},
}

type sizeReports struct {
	Size  string        `json:"size"`
	Steps []step.Report `json:"steps"`
}

func reportsOf(name string, results []step.Result, from int) any {
	all := struct {
		Pattern string        `json:"pattern"`
		Sizes   []sizeReports `json:"sizes"`
	}{Pattern: name}
	for _, r := range results {
		all.Sizes = append(all.Sizes, sizeReports{r.Size.Label, r.Reports[from:]})
	}
	return all
}

func printReports(c *call, r step.Result, from int) {
	fmt.Fprintf(c.out, "%s (mm)\n", pattern.SizeWords(r.Size.Label))
	for _, rep := range r.Reports[from:] {
		fmt.Fprintf(c.out, "%s: %s\n", rep.ID, rep.Sentence)
		for _, ch := range rep.Changes {
			what, unit := ch.Line, "mm"
			switch {
			case ch.Edge != "":
				what = ch.Edge + " of " + ch.Piece
			case ch.Piece != "":
				what, unit = "area of "+ch.Piece, "mm²"
			}
			sewn := ""
			if ch.Sewn != nil {
				sewn = fmt.Sprintf(", across the dart as sewn %.2f → %.2f mm", ch.Sewn.Before, ch.Sewn.After)
			}
			fmt.Fprintf(c.out, "  %s: %.2f → %.2f %s%s\n", what, ch.Before, ch.After, unit, sewn)
		}
		for _, name := range sortedKeys(rep.Figures) {
			fmt.Fprintf(c.out, "  %s %.3f\n", name, rep.Figures[name])
		}
		for _, n := range slices.Compact(slices.Clone(rep.Notes)) {
			fmt.Fprintf(c.out, "  %s\n", n)
		}
	}
}

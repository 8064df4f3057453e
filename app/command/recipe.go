package command

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/recipe"
	"truemat/ops/step"
	"truemat/ops/store"
)

var recipeCommand = command{
	name:  "recipe",
	use:   "FILE [--out R.json] [--step ID[,ID]]",
	short: "the steps of a document on their own, to be done on another",
	long: `
Lists the steps of a document and the names that they take from its pattern.
With --out the steps are saved on their own, as a list that "alter --steps"
does on another pattern with the same names, or with other names by --name.

Example: the lace recipe of the Tern on a pattern that calls the cradle a frame
  truemat recipe lace.truemat --out lace.json
  truemat alter other.truemat --steps lace.json --name "cradle=frame" --out other.truemat`,
	flags: func(f *pflag.FlagSet) {
		f.String("out", "", "the list of steps to write")
		f.StringSlice("step", nil, "only these steps, by their ids (all when not given)")
	},
	run: func(c *call) error {
		path, err := c.one("FILE")
		if err != nil {
			return err
		}
		doc, err := store.Load(path)
		if err != nil {
			return err
		}
		steps := doc.Recipe
		if ids, _ := c.flags.GetStringSlice("step"); len(ids) > 0 {
			if steps, err = doc.Recipe.Pick(ids); err != nil {
				return err
			}
		}
		if len(steps) == 0 {
			return fmt.Errorf("%s holds no step yet; alter it first", path)
		}
		if out := c.text("out"); out != "" {
			if err := store.WriteFile(out, func(w io.Writer) error { return store.WriteSteps(w, steps) }); err != nil {
				return err
			}
			_, err := fmt.Fprintf(c.out, "%s: %s of %s\n", out, counted(len(steps), "step"), doc.Source.Name)
			return err
		}
		return printRecipe(c, doc.Source.Name, steps)
	},
}

// printRecipe lists steps and the names that they take from the pattern.
func printRecipe(c *call, name string, steps step.Recipe) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %s\n", name, counted(len(steps), "step"))
	for _, e := range steps {
		more := ""
		if len(e.Sizes) > 0 {
			more = " (only " + strings.Join(e.Sizes, ", ") + ")"
		}
		if e.Off {
			more += " (off)"
		}
		fmt.Fprintf(&b, "  %s: %s%s\n", e.ID, e.Sentence(), more)
	}
	b.WriteString("\nnames that they take from the pattern\n")
	last := step.NameKind("")
	for _, n := range recipe.Needs(steps) {
		if n.Kind != last {
			last = n.Kind
			fmt.Fprintf(&b, "  %s\n", plural(string(last)))
		}
		pair, _, _ := strings.Cut(recipe.Pair(n, ""), "=")
		fmt.Fprintf(&b, "    %s\n", pair)
	}
	_, err := fmt.Fprint(c.out, b.String())
	return err
}

// nameFlags are the flags that map the names of steps to a pattern's own.
func nameFlags(f *pflag.FlagSet) {
	f.StringArray("name", nil, "what a name of the steps is called here: \"old=new\", \"piece/edge=new\", \"notch piece/old=new\", also seam, line, inner line, figure, size")
	f.String("names", "", "a JSON file of such names: {\"old\": \"new\", …}")
}

// nameMap returns the map of names that --names and --name give.
func (c *call) nameMap() (recipe.Map, error) {
	m := recipe.Map{}
	if path := c.text("names"); path != "" {
		f, err := openFile(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		if m, err = recipe.ReadMap(f); err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
	}
	pairs, _ := c.flags.GetStringArray("name")
	for n, now := range m {
		pairs = append(pairs, recipe.Pair(n, now))
	}
	m, err := recipe.ParseMap(pairs...)
	if err != nil {
		return nil, usageError("--name: " + err.Error())
	}
	return m, nil
}

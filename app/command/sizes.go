package command

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

func sizeFlags(f *pflag.FlagSet) {
	f.String("size", "", "the size, by its label (the first one when not given)")
	f.Bool("all", false, "every size")
}

// open reads the document that is the command's only argument and applies its
// recipe in the sizes that --size and --all ask for.
func (c *call) open() (store.Document, []step.Result, error) {
	path, err := c.one("FILE")
	if err != nil {
		return store.Document{}, nil, err
	}
	if c.yes("all") && c.text("size") != "" {
		return store.Document{}, nil, usageError("--all and --size exclude each other")
	}
	doc, err := store.Load(path)
	if err != nil {
		return store.Document{}, nil, err
	}
	chosen := doc.Source
	chosen.Sizes = chosen.Sizes[:1]
	switch {
	case c.yes("all"):
		chosen.Sizes = doc.Source.Sizes
	case c.text("size") != "":
		if chosen.Sizes, err = pick(doc.Source, strings.Split(c.text("size"), ",")); err != nil {
			return store.Document{}, nil, err
		}
	}
	return doc, doc.Recipe.Replay(chosen), nil
}

func pick(run pattern.Run, labels []string) ([]pattern.Size, error) {
	var chosen []pattern.Size
	for _, label := range labels {
		label = strings.TrimSpace(label)
		size, ok := run.Size(label)
		if !ok {
			return nil, fmt.Errorf("there is no size %q; the pattern has %s", label, strings.Join(run.Labels(), ", "))
		}
		if slices.ContainsFunc(chosen, func(have pattern.Size) bool { return have.Label == label }) {
			return nil, usageError(fmt.Sprintf("size %s is named twice", label))
		}
		chosen = append(chosen, size)
	}
	return chosen, nil
}

// warnBehind tells of sizes in which a step of the recipe could not apply.
func (c *call) warnBehind(results []step.Result) {
	for _, r := range results {
		if r.Behind() {
			fmt.Fprintf(c.errOut, "size %s is behind: %s\n", r.Size.Label, r.Reason())
		}
	}
}

// counted writes a number of things, as "1 notch" or "3 notches".
func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %s", n, plural(thing))
}

// plural writes the word for several things.
func plural(thing string) string {
	if strings.HasSuffix(thing, "ch") {
		thing += "e"
	}
	return thing + "s"
}

func sortedKeys(m map[string]float64) []string { return slices.Sorted(maps.Keys(m)) }

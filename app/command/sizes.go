package command

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/pflag"
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
	results := doc.Results()
	if c.yes("all") {
		return doc, results, nil
	}
	if c.text("size") == "" {
		return doc, results[:1], nil
	}
	var chosen []step.Result
	for _, label := range strings.Split(c.text("size"), ",") {
		r, err := pick(results, strings.TrimSpace(label))
		if err != nil {
			return store.Document{}, nil, err
		}
		if slices.ContainsFunc(chosen, func(have step.Result) bool { return have.Size.Label == r.Size.Label }) {
			return store.Document{}, nil, usageError(fmt.Sprintf("--size names %s twice", r.Size.Label))
		}
		chosen = append(chosen, r)
	}
	return doc, chosen, nil
}

func pick(results []step.Result, label string) (step.Result, error) {
	labels := make([]string, len(results))
	for i, r := range results {
		if r.Size.Label == label {
			return r, nil
		}
		labels[i] = r.Size.Label
	}
	return step.Result{}, fmt.Errorf("there is no size %q; the pattern has %s", label, strings.Join(labels, ", "))
}

// warnBehind tells of sizes in which a step of the recipe could not apply.
func (c *call) warnBehind(results []step.Result) {
	for _, r := range results {
		if u := r.Upset(); u != nil {
			fmt.Fprintf(c.errOut, "size %s is behind: step %q (%s) could not apply: %s\n", r.Size.Label, u.ID, u.Kind, u.Error)
		}
	}
}

// counted writes a number of things, as "1 notch" or "3 notches".
func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	if strings.HasSuffix(thing, "ch") {
		thing += "e"
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

func sortedKeys(m map[string]float64) []string { return slices.Sorted(maps.Keys(m)) }

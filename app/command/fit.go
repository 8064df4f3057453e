package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"

	"github.com/spf13/pflag"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/ops/unit"
)

var fitCommand = command{
	name:  "fit",
	use:   "FILE [--wire NAME=LENGTH] [--play NAME=LENGTH[,LENGTH]] [--take SIZE=NAME] [--underbust SIZE=LENGTH] [--reduction 9%] [--closure 50mm] [--out FILE] [--json]",
	short: "wires and body measures, and how the sizes fit them",
	long: `
Shows the table of wires, which size takes which, the play that the wires have
in their lines, and how much shorter the finished hem is than the body.

With --out it states some of it and keeps the rest: --wire the length along a
wire from tip to tip, --play the room wanted for it where the wire line starts
and, when it differs, where it ends; --take the wire of a size ("75C=" takes
none); --underbust the body measure of a size; --reduction how much shorter the
hem is meant to be; --closure what the closure, fastened, adds to the hem.
--without takes a wire out. --from reads all of it from a JSON file as --json
writes it: {"wires": [{"name", "length", "play_start", "play_end"}],
"reduction", "closure", "sizes": {"75C": {"wire", "underbust"}}}.

Follow the wire maker's instructions for play, and try the wire in the sewn line.

Example: a longer wire for 75C
  truemat fit tern.truemat --wire "W4=231mm" --play "W4=6mm" --take "75C=W4" --out tern.truemat`,
	flags: func(f *pflag.FlagSet) {
		f.StringArray("wire", nil, "a wire's length, as NAME=LENGTH")
		f.StringArray("play", nil, "the play wanted at both ends of a wire, as NAME=LENGTH or NAME=LENGTH,LENGTH")
		f.StringArray("take", nil, "the wire that a size takes, as SIZE=NAME")
		f.StringArray("underbust", nil, "the body measure of a size, as SIZE=LENGTH")
		f.StringArray("without", nil, "a wire to take out of the table")
		f.String("reduction", "", "how much shorter than the body the hem is meant to be, in per cent")
		f.String("closure", "", "what the closure, fastened, adds to the hem")
		f.String("from", "", "a JSON file with all of it")
		f.String("out", "", "the document to write")
		f.Bool("json", false, "the fit and its numbers as JSON")
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
		fit, changed, err := c.stated(doc.Source)
		if err != nil {
			return err
		}
		out := c.text("out")
		switch {
		case changed && out == "":
			return usageError("--out is missing: it names the document in which this is stated")
		case !changed && out != "":
			return usageError("nothing is stated; leave --out away to see the fit")
		}
		if changed {
			if doc, err = doc.SetFit(fit.Fit, fit.Sizes); err != nil {
				return err
			}
			if err := store.Save(out, doc); err != nil {
				return err
			}
		}
		return c.printFit(doc)
	},
}

// statedFit is a fit as a file states it.
type statedFit struct {
	pattern.Fit
	Sizes map[string]pattern.SizeFit `json:"sizes"`
}

// stated returns the fit of a run with what the flags say, and whether they
// say anything.
func (c *call) stated(run pattern.Run) (f statedFit, changed bool, err error) {
	f = statedFit{run.Fit, run.SizeFits()}
	f.Wires = append([]pattern.Wire(nil), f.Wires...)
	if path := c.text("from"); path != "" {
		changed = true
		if f, err = c.readFit(path); err != nil {
			return f, changed, err
		}
	}
	for _, flag := range []struct {
		name  string
		state func(f *statedFit, name, value string) error
	}{{"wire", (*statedFit).wire}, {"play", (*statedFit).play}, {"take", (*statedFit).take}, {"underbust", (*statedFit).underbust}, {"without", (*statedFit).without}} {
		texts, _ := c.flags.GetStringArray(flag.name)
		for _, text := range texts {
			changed = true
			name, value, ok := strings.Cut(text, "=")
			if ok == (flag.name == "without") {
				return f, changed, usageError(fmt.Sprintf("--%s %q is not of the form that the help shows", flag.name, text))
			}
			if err := flag.state(&f, strings.TrimSpace(name), strings.TrimSpace(value)); err != nil {
				return f, changed, usageError(fmt.Sprintf("--%s %q: %v", flag.name, text, err))
			}
		}
	}
	if text := c.text("reduction"); text != "" {
		changed = true
		v, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(text, "%")), 64)
		if err != nil {
			return f, changed, usageError(fmt.Sprintf("--reduction %q is not a number of per cent; write it as 9%%", text))
		}
		f.Reduction = v
	}
	if c.text("closure") != "" {
		changed = true
		if f.Closure, err = c.length("closure"); err != nil {
			return f, changed, err
		}
	}
	return f, changed, nil
}

// maxFit is the largest fit file accepted, in bytes.
const maxFit = 1 << 20

func (c *call) readFit(path string) (statedFit, error) {
	file, err := openFile(path)
	if err != nil {
		return statedFit{}, err
	}
	defer file.Close()
	d := json.NewDecoder(io.LimitReader(file, maxFit))
	d.DisallowUnknownFields()
	var f struct {
		statedFit
		Pattern string          `json:"pattern"` // of what --json writes, not wanted here
		Numbers json.RawMessage `json:"numbers"`
	}
	if err := d.Decode(&f); err != nil {
		return f.statedFit, fmt.Errorf("%s: %w", path, err)
	}
	if f.Sizes == nil {
		f.Sizes = map[string]pattern.SizeFit{}
	}
	return f.statedFit, nil
}

func (f *statedFit) wire(name, value string) error {
	length, err := unit.Parse(value)
	if err != nil {
		return err
	}
	if w := f.Wire(name); w != nil {
		w.Length = length
		return nil
	}
	f.Wires = append(f.Wires, pattern.Wire{Name: name, Length: length})
	return nil
}

func (f *statedFit) play(name, value string) error {
	w := f.Wire(name)
	if w == nil {
		return fmt.Errorf("there is no wire %q; state its length by --wire", name)
	}
	first, second, two := strings.Cut(value, ",")
	start, err := unit.Parse(first)
	if err != nil {
		return err
	}
	end := start
	if two {
		if end, err = unit.Parse(second); err != nil {
			return err
		}
	}
	w.PlayStart, w.PlayEnd = start, end
	return nil
}

func (f *statedFit) size(label string, change func(s *pattern.SizeFit)) error {
	s, ok := f.Sizes[label]
	if !ok {
		return fmt.Errorf("there is no size %q", label)
	}
	change(&s)
	f.Sizes[label] = s
	return nil
}

func (f *statedFit) take(label, wire string) error {
	return f.size(label, func(s *pattern.SizeFit) { s.Wire = wire })
}

func (f *statedFit) underbust(label, value string) error {
	v, err := unit.Parse(value)
	if err != nil {
		return err
	}
	return f.size(label, func(s *pattern.SizeFit) { s.Underbust = v })
}

func (f *statedFit) without(name, _ string) error {
	for i, w := range f.Wires {
		if w.Name == name {
			f.Wires = append(f.Wires[:i], f.Wires[i+1:]...)
			return nil
		}
	}
	return errors.New("there is no such wire")
}

// printFit shows what is stated and how the sizes fit it.
func (c *call) printFit(doc store.Document) error {
	all := struct {
		Pattern string `json:"pattern"`
		statedFit
		Numbers []check.FitSize `json:"numbers"`
	}{Pattern: doc.Source.Name, statedFit: statedFit{doc.Source.Fit, doc.Source.SizeFits()}}
	results := doc.Results()
	c.warnBehind(results)
	for _, r := range results {
		all.Numbers = append(all.Numbers, check.FitNumbers(r.Size, r.Before, doc.Bounds.Bounds()))
	}
	if c.yes("json") {
		return printJSON(c.out, all)
	}
	w := tabwriter.NewWriter(c.out, 0, 0, 2, ' ', 0)
	fmt.Fprintf(w, "%s: the hem is meant to be %s shorter than the body; the closure adds %s\n", all.Pattern, unlessNought(all.Reduction, "%.4g %%", "(not stated)"), unlessNought(all.Closure, "%.1f mm", "nothing"))
	if len(all.Wires) > 0 {
		fmt.Fprintf(w, "\nwire\tlength\tplay wanted\tin sizes\n")
	}
	for _, wire := range all.Wires {
		var sizes []string
		for _, s := range doc.Source.Sizes {
			if s.Wire == wire.Name {
				sizes = append(sizes, s.Label)
			}
		}
		play := "not stated"
		if wire.PlayStart > 0 || wire.PlayEnd > 0 {
			play = fmt.Sprintf("%.1f and %.1f", wire.PlayStart, wire.PlayEnd)
		}
		fmt.Fprintf(w, "%s\t%.2f\t%s\t%s\n", wire.Name, wire.Length, play, strings.Join(sizes, ", "))
	}
	fmt.Fprintf(w, "\nsize\twire\twire line\tplay at each end\tcup − line\tunderbust\them, closed\tless\n")
	for _, f := range all.Numbers {
		play, cup, less := "-", "-", "-"
		for _, ch := range f.Checks {
			cell := cellText(&ch)
			switch ch.ID {
			case check.WirePlay:
				if play = cell; f.PlayStart != f.PlayEnd {
					play = fmt.Sprintf("%.2f and %.2f%s", f.PlayStart, f.PlayEnd, signs[ch.Verdict])
				}
			case check.CupWire:
				cup = cell
			case check.HemBody:
				less = fmt.Sprintf("%.1f %%%s", f.Less, signs[ch.Verdict])
			}
		}
		if less == "-" && f.Less != 0 {
			less = fmt.Sprintf("%.1f %%", f.Less)
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", f.Size, wireCell(f), unlessNought(f.LineLength, "%.1f", "-"), play, cup, unlessNought(f.Underbust, "%.1f", "-"), unlessNought(f.Hem, "%.1f", "-"), less)
	}
	fmt.Fprint(w, "\nlengths in mm; ! broken, ? look: \"truemat check\" tells what to do\n")
	return w.Flush()
}

func wireCell(f check.FitSize) string {
	if f.Wire == "" {
		return unlessNought(f.WireLength, "%.1f", "-")
	}
	return f.Wire
}

// unlessNought writes a number, or a word in the place of none.
func unlessNought(v float64, format, none string) string {
	if v == 0 {
		return none
	}
	return fmt.Sprintf(format, v)
}

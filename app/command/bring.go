package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/intake"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/ops/unit"
)

var bringCommand = command{
	name:  "bring",
	use:   "IN.svg [--with COMPANION] --out FILE [--allowance 1/4in]",
	short: "a drawing in: its outlines become pieces",
	long: `
Makes a document of an SVG drawing. Each group, or single closed line, becomes a
piece; its outline is divided into edges at the corners; short strokes across it
are notches, other lines inner lines. The drawn line is the sew line, or the cut
line when an allowance is given. What cannot be used is listed.

The companion is a small text file that says what the lines mean: which group is
which size and piece, the names and roles of edges, allowances, seams, lines:

  pattern "Heron frame"
  allowance 1/4in
  size 75B in "Size 34"
  piece bridge
    cut 1
    edges clockwise from top-left: top wire seam hem fold
    edge fold role fold
    edge hem  role hem allow 12mm
  seam "bridge seam": seam of bridge = seam of cradle

A drawing that does not say how large it is needs --known: a shape by its id and
its true length.

Example:
  truemat bring frame.svg --with frame.txt --out frame.truemat`,
	flags: func(f *pflag.FlagSet) {
		f.String("with", "", "the companion")
		f.String("out", "", "the document to write")
		f.String("allowance", "", "the drawn lines are cut lines with this allowance")
		f.String("known", "", "a shape of known length, as ID=LENGTH, for drawings without a size")
	},
	run: func(c *call) error {
		in, err := c.one("IN.svg")
		if err != nil {
			return err
		}
		out, err := c.required("out")
		if err != nil {
			return err
		}
		opt := intake.Options{Name: strings.TrimSuffix(filepath.Base(in), filepath.Ext(in))}
		if c.text("allowance") != "" {
			if opt.Allowance, err = c.length("allowance"); err != nil {
				return err
			}
		}
		if known := c.text("known"); known != "" {
			id, length, _ := strings.Cut(known, "=")
			opt.Size.Known.Name = id
			if opt.Size.Known.MM, err = unit.Parse(length); err != nil {
				return usageError("--known: " + err.Error())
			}
		}
		companion, err := readCompanion(c.text("with"))
		if err != nil {
			return err
		}
		f, err := openFile(in)
		if err != nil {
			return err
		}
		defer f.Close()
		res, err := intake.Bring(f, companion, opt)
		if err != nil {
			return fmt.Errorf("%s: %w", in, err)
		}
		if err := store.Save(out, store.Document{Source: res.Run}); err != nil {
			return err
		}
		printBrought(c, out, res)
		return nil
	},
}

func readCompanion(path string) (*intake.Companion, error) {
	if path == "" {
		return nil, nil
	}
	f, err := openFile(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	companion, err := intake.ReadCompanion(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return companion, nil
}

func openFile(path string) (*os.File, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no file %s", path)
	}
	return f, err
}

func printBrought(c *call, out string, res intake.Result) {
	fmt.Fprintf(c.out, "%s: %s, %s (%s)\n", out, res.Run.Name, counted(len(res.Run.Sizes), "size"), strings.Join(res.Run.Labels(), ", "))
	for _, b := range res.Pieces {
		fmt.Fprintf(c.out, "  %s, %s: %s, %s", b.Piece, pattern.SizeWords(b.Size), counted(b.Notches, "notch"), counted(b.Inner, "inner line"))
		if b.Drawn {
			fmt.Fprintf(c.out, "; drawn and computed cut line differ by at most %.3f mm", b.CutError)
		}
		if b.Gap > 0 {
			fmt.Fprintf(c.out, "; a gap of %.3f mm was closed", b.Gap)
		}
		fmt.Fprintln(c.out)
	}
	for _, n := range res.Notes {
		fmt.Fprintf(c.out, "  %s\n", n)
	}
	for _, l := range res.LeftOut {
		fmt.Fprintf(c.out, "  left out: %s\n", l)
	}
}

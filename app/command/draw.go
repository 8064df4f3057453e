package command

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/store"
	"truemat/render"
)

var drawCommand = command{
	name:  "draw",
	use:   "FILE --out X.svg|X.png|X.pdf [--size S] [--before]",
	short: "one true-size sheet with the pieces as they lie",
	long: `
Draws the altered pieces of one size as they lie on the mat: cut line solid, sew
line dashed. With --before the original pieces lie faintly beneath them. SVG
and PDF are at true size; a PNG is a picture to look at.

Example:
  truemat draw tern.truemat --size 75C --before --out tern.png`,
	flags: func(f *pflag.FlagSet) {
		f.String("out", "", "the drawing to write; its ending says what it is")
		f.String("size", "", "the size, by its label (the first one when not given)")
		f.Bool("before", false, "the original pieces faintly beneath")
		f.Bool("whole", false, "pieces on the fold unfolded")
		f.Float64("dpi", 150, "dots per inch of a PNG")
	},
	run: func(c *call) error {
		out, err := c.required("out")
		if err != nil {
			return err
		}
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		if len(results) != 1 {
			return usageError("one size is drawn at a time; print several with \"print\"")
		}
		c.warnBehind(results)
		r := results[0]
		opt := render.Options{Pattern: doc.Source.Name, Size: r.Size.Label, FoldWhole: c.yes("whole")}
		if c.yes("before") {
			opt.Ghost = r.Before.Pieces
		}
		scene, err := render.PatternScene(r.Size.Pattern, opt)
		if err != nil {
			return err
		}
		title := fmt.Sprintf("%s, size %s", doc.Source.Name, r.Size.Label)
		dpi, _ := c.flags.GetFloat64("dpi")
		var write func(io.Writer) error
		switch strings.ToLower(filepath.Ext(out)) {
		case ".svg":
			write = func(w io.Writer) error { return render.WriteSVG(w, title, scene) }
		case ".pdf":
			write = func(w io.Writer) error { return render.WritePDF(w, title, scene) }
		case ".png":
			write = func(w io.Writer) error { return render.WritePNG(w, scene, dpi) }
		default:
			return usageError(fmt.Sprintf("%s ends neither in .svg nor .png nor .pdf", out))
		}
		if err := store.WriteFile(out, write); err != nil {
			return err
		}
		fmt.Fprintf(c.out, "%s: %s, %.0f × %.0f mm\n", out, title, scene.Box.Width(), scene.Box.Height())
		return nil
	},
}

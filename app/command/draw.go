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
)

var drawCommand = command{
	name:  "draw",
	use:   "FILE --out X.svg|X.png|X.pdf [--size S[,S] | --all] [--before] [--on SPOT [--along SPOT]]",
	short: "one true-size sheet with the pieces as they lie",
	long: `
Draws the altered pieces of one size as they lie on the mat: cut line solid, sew
line dashed. With --before the original pieces lie faintly beneath them. SVG
and PDF are at true size; a PNG is a picture to look at.
` + onHelp + `
Example: one size; and all sizes of every piece, the cradles lying on their hem
  truemat draw tern.truemat --size 75C --before --out tern.png
  truemat draw tern.truemat --all --on "cradle: hem start" --along "cradle: hem end" --out nest.svg`,
	flags: func(f *pflag.FlagSet) {
		f.String("out", "", "the drawing to write; its ending says what it is")
		sizeFlags(f)
		onFlags(f)
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
		c.warnBehind(results)
		on, err := c.common()
		if err != nil {
			return err
		}
		labels := make([]string, len(results))
		for i, r := range results {
			labels[i] = r.Size.Label
		}
		opt := render.Options{Pattern: doc.Source.Name, Size: labels[0], FoldWhole: c.yes("whole"), On: on}
		var scene render.Scene
		switch {
		case len(results) > 1 && c.yes("before"):
			return usageError("--before goes with one size")
		case len(results) > 1:
			var sizes []render.SizePieces
			if sizes, err = sizePieces(doc.Goods, results, nil); err == nil {
				scene, err = render.NestScene(sizes, opt)
			}
		case len(on) > 0:
			return usageError("--on says how several sizes lie on each other; name them by --size or --all")
		default:
			if c.yes("before") {
				opt.Ghost = results[0].Before.Pieces
			}
			p := results[0].Size.Pattern
			p.Pieces = doc.Goods.Named(p.Pieces)
			scene, err = render.PatternScene(p, opt)
		}
		if err != nil {
			return err
		}
		title := fmt.Sprintf("%s, %s", doc.Source.Name, pattern.SizeWords(labels...))
		if err := c.writeScene(out, title, scene); err != nil {
			return err
		}
		fmt.Fprintf(c.out, "%s: %s, %.0f × %.0f mm\n", out, title, scene.Box.Width(), scene.Box.Height())
		return nil
	},
}

// writeScene writes a drawing as what the ending of the file says.
func (c *call) writeScene(out, title string, scene render.Scene) error {
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
	return store.WriteFile(out, write)
}

// drawn draws what --out asks for, if it does.
func (c *call) drawn(title string, draw func() (render.Scene, error)) error {
	out := c.text("out")
	if out == "" {
		return nil
	}
	scene, err := draw()
	if err != nil {
		return err
	}
	return c.writeScene(out, title, scene)
}

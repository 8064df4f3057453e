package command

import (
	"fmt"

	"github.com/spf13/pflag"
	"truemat/ops/cloth"
	"truemat/ops/cloth/cutting"
	"truemat/render"
)

var cuttingCommand = command{
	name:  "cutting",
	use:   "FILE [--cloth NAME] [--size S] [--out X.svg|X.png|X.pdf] [--paper P] [--json]",
	short: "what is cut from which cloth, laid out in its width",
	long: `
Lists by cloth and layer what is cut, how often and which way up, and lays the
pieces out in the width of each plain cloth, or of the one that --cloth names:
pairs mirrored, arrows kept, nothing overlapping; the length to buy is told.
The layout is a simple one: each piece as far to one end as it goes, those that
were pinned by hand for the size ("pins") where they were pinned. --paper makes
--out a PDF page of a4 or letter at a small scale.

Example:
  truemat cutting tern-lace.truemat --size 75C --cloth "power net" --out net.svg`,
	flags: func(f *pflag.FlagSet) {
		f.String("cloth", "", "the plain cloth to lay out, by its name")
		f.String("size", "", "the size, by its label (the first one when not given)")
		f.String("out", "", "a drawing of the layout to write; its ending says what it is")
		f.Float64("dpi", 72, "dots per inch of a PNG")
		f.String("paper", "", "a page of a4 or letter with the layout at a small scale")
		f.Bool("json", false, "as JSON, for scripts")
	},
	run: func(c *call) error {
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		c.warnBehind(results)
		p := results[0].Size.Pattern
		report := struct {
			Pattern string          `json:"pattern"`
			Size    string          `json:"size"`
			Cut     []cutting.Entry `json:"cut"`
			*laidOut
			Laid []laidOut `json:"laid,omitempty"`
		}{Pattern: doc.Source.Name, Size: results[0].Size.Label, Cut: cutting.List(p, doc.Goods)}
		if c.text("cloth") != "" || c.text("out") != "" {
			plain, err := c.chosen(doc.Goods, "cloth", func(o cloth.Cloth) bool { return o.Lace == nil && len(o.Of) == 0 })
			if err != nil {
				return err
			}
			l, err := cutting.Of(doc.Goods, plain, p, report.Size)
			if err != nil {
				return err
			}
			if len(l.Placed) == 0 {
				return fmt.Errorf("no piece is cut from %q; say which are under Layers, or by \"made\" in the file that \"truemat cloth --take\" reads", plain.Name)
			}
			report.laidOut = layoutOf(l)
			if err := c.planned(doc, report.Size, plain.Name, func() (render.Scene, error) { return render.LayoutScene(l, p) }); err != nil {
				return err
			}
		} else {
			for _, plain := range doc.Goods.Cloths {
				if plain.Lace != nil || len(plain.Of) > 0 {
					continue
				}
				l, err := cutting.Of(doc.Goods, plain, p, report.Size)
				if err != nil {
					fmt.Fprintf(c.errOut, "truemat cutting: %v\n", err)
				} else if len(l.Placed) > 0 {
					report.Laid = append(report.Laid, *layoutOf(l))
				}
			}
		}
		if c.yes("json") {
			return printJSON(c.out, report)
		}
		if len(doc.Goods.Cloths) == 0 {
			fmt.Fprintln(c.errOut, "truemat cutting: "+cloth.NoneDescribed(p))
		}
		last := ""
		for _, e := range report.Cut {
			if e.Cloth != last || last == "" {
				last = e.Cloth
				name := e.Cloth
				if name == "" {
					name = "cloth not named"
				}
				fmt.Fprintf(c.out, "%s\n", name)
			}
			fmt.Fprintf(c.out, "  %d × %s, layer %d: %s\n", e.Count, e.Piece, e.Layer, e.Way)
		}
		laid := report.Laid
		if report.laidOut != nil {
			laid = append(laid, *report.laidOut)
		}
		for _, l := range laid {
			fmt.Fprintf(c.out, "%s laid out: %.0f mm; buy %s\n", l.Cloth, l.Length, cloth.Buy(l.Length))
		}
		return nil
	},
}

// laidOut is a plain cloth with the pieces laid on it.
type laidOut struct {
	Cloth  string   `json:"cloth"`
	Length float64  `json:"length_mm"`
	Placed []spread `json:"placed"`
}

func layoutOf(l cutting.Layout) *laidOut {
	out := laidOut{Cloth: l.Cloth.Name, Length: l.Length}
	for _, o := range l.Placed {
		box := o.Outline.Bounds()
		out.Placed = append(out.Placed, spread{o.Piece, o.Layer, o.Turned, o.Half, box.Min.X, box.Min.Y, box.Width(), box.Height(), o.Pinned})
	}
	return &out
}

// spread is a piece laid on plain cloth: the lower left corner of its extent
// along and across the cloth, and how large that is.
type spread struct {
	Piece  string  `json:"piece"`
	Layer  int     `json:"layer"`
	Turned bool    `json:"turned_over"`
	Half   bool    `json:"half_round"`
	X      float64 `json:"along_mm"`
	Y      float64 `json:"across_mm"`
	Width  float64 `json:"length_mm"`
	Height float64 `json:"width_mm"`
	ByHand bool    `json:"by_hand"`
}

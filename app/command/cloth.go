package command

import (
	"fmt"
	"io"
	"os"
	"text/tabwriter"

	"github.com/spf13/pflag"
	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/order"
	"truemat/ops/cloth/shop"
	"truemat/ops/cloth/suit"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

var clothCommand = command{
	name:  "cloth",
	use:   "FILE [--take GOODS.json | --from-library CLOTH] [--out FILE] [--to-library CLOTH] [--size S | --all] [--json]\n  truemat cloth --library [--drop CLOTH] [--json]",
	short: "cloths and elastics: do they suit the pieces, how much to buy",
	long: `
Tells of every cloth how far it stretches, grows and goes back, from
its pull test; whether the cloths and elastics suit the pieces; how long each
elastic is cut; how the hem closes round the body in every column of eyes; and
what to buy, in centimetres and yards as it is sold.

--take reads what the garment is made of from a file and keeps it in the
document written by --out. Such a file says, in millimetres:

  {"cloths": [
     {"name": "power net", "width": 1500, "thickness": 0.45,
      "along": {"before": 250, "under": 310, "after": 256}},
     {"name": "heron lace", "width": 230, "along": {"before": 100, "under": 130},
      "lace": {"repeat": 96, "depth": 11, "both": true, "second": "mirrored"}}],
   "made": [{"piece": "band", "cloths": ["power net"]}],
   "elastics": [{"name": "hem elastic", "line": "hem", "width": 10, "put_on": "behind-lace",
      "stretches": [{"pieces": ["band"], "percent": 12}], "overlap": 20}],
   "notions": {"eyes": {"columns": 3, "spacing": 19, "worn": 1}}}

Column 1 of the eyes is the loosest; what the closure adds to the hem, and the
body's measure, are stated by "truemat fit". Worn, a reduction of r is a strain
of r/(1 − r).

Cloths of your own are kept beyond one document in a library, the file
truemat/cloths.json in the folder for configuration. --to-library puts a cloth
of the document into it, with those it is made of; --from-library takes one
into the document written by --out; --library lists it, with --drop it forgets
a cloth first.

The exit code is 1 when a cloth or elastic does not suit.

Example:
  truemat cloth tern-lace.truemat --size 75C`,
	flags: func(f *pflag.FlagSet) {
		sizeFlags(f)
		f.String("take", "", "a file that says what the garment is made of")
		f.String("from-library", "", "a cloth of your library to take into the document")
		f.String("out", "", "the document to write it to")
		f.String("to-library", "", "a cloth of the document to put into your library")
		f.Bool("library", false, "list your library instead")
		f.String("drop", "", "with --library: a cloth to take out of it")
		f.Bool("json", false, "as JSON, for scripts")
	},
	run: func(c *call) error {
		if c.yes("library") || c.text("drop") != "" {
			return c.library()
		}
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		if err := c.takeGoods(&doc, results); err != nil {
			return err
		}
		c.warnBehind(results)
		report := clothReport{Pattern: doc.Source.Name, Cloths: describe(doc.Goods)}
		broken := false
		for _, r := range results {
			s := clothSize{Size: r.Size.Label, Checks: suit.Run(doc.Goods, r.Size.Pattern, suit.Defaults()), Elastics: []cloth.CutElastic{}}
			for _, e := range doc.Goods.Elastics {
				cut, err := e.Cut(r.Size.Pattern)
				if err != nil {
					return fmt.Errorf("size %s: %w", r.Size.Label, err)
				}
				s.Elastics = append(s.Elastics, cut)
			}
			if closing, ok := suit.Close(doc.Goods, r.Size.Pattern); ok {
				s.Closing = &closing
			}
			if s.Buy, err = shop.List(doc.Goods, r.Size.Pattern, r.Size.Label); err != nil {
				return fmt.Errorf("size %s: %w", r.Size.Label, err)
			}
			broken = broken || check.Worst(s.Checks) == check.Broken
			report.Sizes = append(report.Sizes, s)
		}
		if err := c.keepGoods(doc); err != nil {
			return err
		}
		if err := c.toLibrary(doc.Goods); err != nil {
			return err
		}
		if c.yes("json") {
			err = printJSON(c.out, report)
		} else {
			err = report.print(c.out)
		}
		if err == nil && broken {
			return errBroken
		}
		return err
	},
}

// takeGoods reads what --take or --from-library names into the document; without
// them it asks that the document says what the
// garment is made of.
func (c *call) takeGoods(doc *store.Document, results []step.Result) error {
	from, name, out := c.text("take"), c.text("from-library"), c.text("out")
	switch {
	case from != "" && name != "":
		return usageError("--take and --from-library exclude each other")
	case from == "" && name == "" && out != "":
		return usageError("--out goes with --take or --from-library")
	case from != "" && out == "":
		return usageError("--take wants --out, the document to write")
	case name != "" && out == "":
		return usageError("--from-library wants --out, the document to write")
	case from == "" && name == "":
		if len(doc.Goods.Cloths) == 0 {
			return fmt.Errorf("%s; describe each in a file and give it by --take (\"truemat help cloth\" shows one)", cloth.NoneDescribed(results[0].Size.Pattern))
		}
		return fits(doc.Goods, results)
	}
	goods, err := c.goodsFrom(from, name, doc.Goods)
	if err != nil {
		return err
	}
	if *doc, err = doc.SetGoods(goods); err != nil {
		return fmt.Errorf("%s: %w", from+name, err)
	}
	if err := order.Possible(order.Acts(results[0].Size.Pattern, goods), goods.Order); err != nil {
		return fmt.Errorf("%s: %w", from, err)
	}
	return nil
}

// keepGoods writes a document with other goods to --out.
func (c *call) keepGoods(doc store.Document) error {
	out := c.text("out")
	if out == "" {
		return nil
	}
	if err := store.Save(out, doc); err != nil {
		return err
	}
	fmt.Fprintf(c.errOut, "%s: %s, %s\n", out, doc.Source.Name, counted(len(doc.Goods.Cloths), "cloth"))
	return nil
}

// goodsFrom returns the goods of a file, or those there are with a cloth of the
// library.
func (c *call) goodsFrom(from, name string, there cloth.Goods) (cloth.Goods, error) {
	if name != "" {
		return takenFromLibrary(there, name)
	}
	f, err := os.Open(from)
	if err != nil {
		return cloth.Goods{}, err
	}
	defer f.Close()
	goods, err := store.ReadGoods(f)
	if err != nil {
		return cloth.Goods{}, fmt.Errorf("%s: %w; \"truemat help cloth\" shows such a file", from, err)
	}
	return goods, nil
}

func fits(g cloth.Goods, results []step.Result) error {
	for _, r := range results {
		if err := g.Fits(r.Size.Pattern); err != nil {
			return fmt.Errorf("size %s: %w", r.Size.Label, err)
		}
	}
	return nil
}

type clothReport struct {
	Pattern string       `json:"pattern"`
	Cloths  []clothFacts `json:"cloths"`
	Sizes   []clothSize  `json:"sizes"`
}

type clothSize struct {
	Size     string             `json:"size"`
	Checks   []check.Check      `json:"checks"`
	Elastics []cloth.CutElastic `json:"elastics"`
	Closing  *suit.Closing      `json:"closing,omitempty"`
	Buy      []cloth.Wanted     `json:"buy"`
}

type clothFacts struct {
	Name      string    `json:"name"`
	Width     float64   `json:"width_mm,omitempty"`
	Thickness float64   `json:"thickness_mm,omitempty"`
	Along     stretches `json:"along"`
	Across    stretches `json:"across"`
}

// stretches is a pull test worked out, in per cent; what was not measured is left out.
type stretches struct {
	Stretch  *float64 `json:"stretch_percent,omitempty"`
	Growth   *float64 `json:"growth_percent,omitempty"`
	Recovery *float64 `json:"recovery_percent,omitempty"`
}

func describe(g cloth.Goods) []clothFacts {
	facts := []clothFacts{}
	for _, c := range g.Cloths {
		f := clothFacts{Name: c.Name, Width: c.Width, Thickness: g.Thickness(c), Along: worked(c.Along), Across: worked(c.Across)}
		along, across := g.Stretch(c)
		pulledAlong, pulledAcross := g.Pulled(c)
		if pulledAlong {
			f.Along.Stretch = &along
		}
		if pulledAcross {
			f.Across.Stretch = &across
		}
		facts = append(facts, f)
	}
	return facts
}

func worked(p cloth.Pull) stretches {
	var s stretches
	if v, ok := p.Growth(); ok {
		s.Growth = &v
	}
	if v, ok := p.Recovery(); ok {
		s.Recovery = &v
	}
	return s
}

func (s stretches) String() string {
	if s.Stretch == nil {
		return "not pulled"
	}
	text := fmt.Sprintf("%.0f %%", *s.Stretch)
	if s.Growth != nil {
		text += fmt.Sprintf(", grows %.1f %%", *s.Growth)
	}
	if s.Recovery != nil {
		text += fmt.Sprintf(", goes back %.0f %%", *s.Recovery)
	}
	return text
}

// printCloths tells of each cloth what its pull test came to.
func printCloths(out io.Writer, facts []clothFacts) error {
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "Cloth\twidth\tthick\tstretch along\tacross")
	for _, c := range facts {
		width := "–"
		if c.Width > 0 {
			width = fmt.Sprintf("%.0f mm", c.Width)
		}
		fmt.Fprintf(w, "%s\t%s\t%.2f mm\t%s\t%s\n", c.Name, width, c.Thickness, c.Along, c.Across)
	}
	return w.Flush()
}

func (r clothReport) print(out io.Writer) error {
	if err := printCloths(out, r.Cloths); err != nil {
		return err
	}
	for _, s := range r.Sizes {
		fmt.Fprintf(out, "\n%s, %s\n", r.Pattern, pattern.SizeWords(s.Size))
		for _, v := range []check.Verdict{check.Broken, check.Look, check.Holds} {
			for _, ch := range s.Checks {
				if ch.Verdict == v {
					fmt.Fprintf(out, "  %-6s  %s\n", v, ch.Text)
				}
			}
		}
		for _, e := range s.Elastics {
			run, _ := e.Each()
			fmt.Fprintf(out, "  cut %s: %s, for %.0f mm along the %s:\n", e.Name, e.Told(wholeMM), run, e.Line)
			for _, part := range e.Parts {
				fmt.Fprintf(out, "    %s of %s, %g %% shorter, stretched by %.1f %%\n", part.Told(wholeMM), part.Piece, part.Percent, part.Strain)
			}
		}
		if s.Closing != nil {
			if err := printClosing(out, *s.Closing); err != nil {
				return err
			}
		}
		fmt.Fprintln(out, "  To buy:")
		w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
		for _, b := range s.Buy {
			switch {
			case b.Metric != "":
				fmt.Fprintf(w, "    %s\t%s\tor %s\n", b.Told(), b.Metric, b.Yards)
			default:
				fmt.Fprintf(w, "    %d × %s\t%.0f mm\t\n", b.Count, b.What, b.Length)
			}
		}
		if err := w.Flush(); err != nil {
			return err
		}
		fmt.Fprintf(out, "  %s\n", cloth.SpareTold)
	}
	return nil
}

func printClosing(out io.Writer, c suit.Closing) error {
	fmt.Fprintf(out, "  %s closed round a body of %.0f mm, %.0f mm of it firm:\n", c.Line, c.Underbust, c.Firm)
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "    column\thooks and eyes\tround\twith elastic\tless\tstretched\tband alone\telastic")
	for _, col := range c.Columns {
		mark := ""
		if col.Worn {
			mark = ", worn"
		}
		if col.Column == c.Nearest {
			mark += ", nearest"
		}
		fmt.Fprintf(w, "    %d%s\t%.0f mm\t%.0f mm\t%.0f mm\t%.1f %%\t%.1f %%\t%.1f %%\t%.1f %%\n", col.Column, mark, col.Fastened, col.Girth, col.Drawn, col.Reduction, col.Strain, col.Band, col.Elastic)
	}
	return w.Flush()
}

// wholeMM writes a length in whole millimetres.
func wholeMM(mm float64) string { return fmt.Sprintf("%.0f mm", mm) }

package command

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/render"
	"truemat/render/handout"
)

var laceCommand = command{
	name:  "lace",
	use:   "FILE [--lace NAME] [--size S] [--out X.svg|X.png|X.pdf] [--paper P] [--json]",
	short: "the pieces on the borders of a lace, and how much lace to buy",
	long: `
Lays the lace edges of the pieces on the borders of a lace, their sew lines on
the valley line: left and right on mirrored places of the motif, pieces on the
fold whole, both borders used, nothing overlapping, on as short a length as can
be found. What is laid how is kept in the document ("laces" in the file that
"truemat cloth" takes); otherwise every piece with a lace edge that is made of
the lace is laid, wherever in the motif it takes the least. What was laid by hand
for the size ("places") stays where it is, the rest around it.

--out draws the lace at true size; with --paper it is a PDF page of a4 or letter
with the plan at a small scale and where each piece lies.

Examples:
  truemat lace tern-lace.truemat --size 75C --out plan.svg
  truemat lace tern-lace.truemat --size 75C --paper a4 --out plan.pdf`,
	flags: func(f *pflag.FlagSet) {
		f.String("lace", "", "the lace, by its name (needed when there are several)")
		f.String("size", "", "the size, by its label (the first one when not given)")
		f.String("out", "", "a drawing of the plan to write; its ending says what it is")
		f.Float64("dpi", 100, "dots per inch of a PNG")
		f.String("paper", "", "a page of a4 or letter with the plan at a small scale")
		f.Bool("json", false, "as JSON, for scripts")
	},
	run: func(c *call) error {
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		c.warnBehind(results)
		lace, err := c.chosen(doc.Goods, "lace", func(o cloth.Cloth) bool { return o.Lace != nil })
		if err != nil {
			return err
		}
		p := results[0].Size.Pattern
		plan, err := border.Of(doc.Goods, lace, p, results[0].Size.Label)
		if err != nil {
			return err
		}
		if err := c.planned(doc, results[0].Size.Label, lace.Name, func() (render.Scene, error) { return render.BorderScene(plan, p) }); err != nil {
			return err
		}
		type place struct {
			Piece  string      `json:"piece"`
			Hand   border.Hand `json:"hand"`
			Border int         `json:"border"`
			At     float64     `json:"at_mm"`
			Motif  float64     `json:"motif_mm"`
			ByHand bool        `json:"by_hand"`
		}
		report := struct {
			Pattern string   `json:"pattern"`
			Size    string   `json:"size"`
			Lace    string   `json:"lace"`
			Length  float64  `json:"length_mm"`
			Least   bool     `json:"least"`
			Without []string `json:"without,omitempty"`
			Placed  []place  `json:"placed"`
		}{doc.Source.Name, results[0].Size.Label, lace.Name, plan.Length, plan.Least, plan.Without, nil}
		for _, o := range plan.Placed {
			n := 1
			if o.Second {
				n = 2
			}
			report.Placed = append(report.Placed, place{o.Piece, o.Hand, n, o.X, o.Motif, o.ByHand})
		}
		if c.yes("json") {
			return printJSON(c.out, report)
		}
		byHand := slices.ContainsFunc(plan.Placed, func(o border.Placed) bool { return o.ByHand })
		how := "the shortest found (pieces are too many to go through all plans)"
		if plan.Least {
			how = "the least possible"
		}
		if byHand {
			how += " around what is laid by hand"
		}
		fmt.Fprintf(c.out, "%s, %s, on %s: %.0f mm of lace, %s; buy %s\n", report.Pattern, pattern.SizeWords(report.Size), lace.Name, plan.Length, how, cloth.Buy(plan.Length))
		if lacks := plan.Lacks(); lacks != "" {
			fmt.Fprintf(c.out, "  %s\n", lacks)
		}
		for _, o := range report.Placed {
			by := ""
			if o.ByHand {
				by = ", by hand"
			}
			fmt.Fprintf(c.out, "  %s (%s) on border %d, %.0f mm along, %.1f mm behind a motif point%s\n", o.Piece, o.Hand, o.Border, o.At, o.Motif, by)
		}
		return nil
	},
}

// planned writes the plan that --out asks for: at true size, or with --paper on
// a page.
func (c *call) planned(doc store.Document, size, name string, draw func() (render.Scene, error)) error {
	out := c.text("out")
	if c.text("paper") == "" {
		return c.drawn(fmt.Sprintf("%s on %s", doc.Source.Name, name), draw)
	}
	if !strings.EqualFold(filepath.Ext(out), ".pdf") {
		return usageError("--paper wants --out with a name that ends in .pdf")
	}
	paper, err := render.ParsePaper(c.text("paper"))
	if err != nil {
		return err
	}
	return store.WriteFile(out, func(w io.Writer) error { return handout.WritePlan(w, doc, size, name, paper) })
}

// chosen returns the cloth that a flag names, or the only one of its kind.
func (c *call) chosen(g cloth.Goods, flag string, of func(cloth.Cloth) bool) (cloth.Cloth, error) {
	var names []string
	var only cloth.Cloth
	for _, o := range g.Cloths {
		if of(o) {
			if o.Name == c.text(flag) {
				return o, nil
			}
			names, only = append(names, o.Name), o
		}
	}
	switch {
	case len(names) == 0 && c.text(flag) == "":
		return cloth.Cloth{}, fmt.Errorf("the document describes no %s; see \"truemat help cloth\"", flag)
	case c.text(flag) != "":
		return cloth.Cloth{}, notChosen(g, flag, c.text(flag), names)
	case len(names) > 1:
		return cloth.Cloth{}, usageError(fmt.Sprintf("--%s is missing; there are %s", flag, inQuotes(names)))
	}
	return only, nil
}

// notChosen says why a name is not that of a cloth of the kind, and what is.
func notChosen(g cloth.Goods, flag, name string, names []string) error {
	there, known := g.Cloth(name)
	switch {
	case known && len(there.Of) > 0:
		return fmt.Errorf("%q is not cut as one; lay out what it is made of, %s", name, inQuotes(there.Of))
	case known && there.Lace != nil:
		return fmt.Errorf("%q is a lace; lay it out by \"truemat lace --lace\"", name)
	case known:
		return fmt.Errorf("%q is no lace; lay it out by \"truemat cutting --cloth\"", name)
	case len(names) == 0:
		return fmt.Errorf("there is no %s %q, and none is described; see \"truemat help cloth\"", flag, name)
	}
	return fmt.Errorf("there is no %s %q; there are %s", flag, name, inQuotes(names))
}

// inQuotes lists names for a sentence.
func inQuotes(names []string) string {
	quoted := make([]string, len(names))
	for i, n := range names {
		quoted[i] = strconv.Quote(n)
	}
	return strings.Join(quoted, ", ")
}

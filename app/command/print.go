package command

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/suit"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
	"truemat/render"
)

var printCommand = command{
	name:  "print",
	use:   "FILE --paper a4|letter|both|a3|a0|WxH --out X.pdf [--size S[,S] | --all] [--units mm|cm|in]",
	short: "the pieces at true size, in tiles to glue together",
	long: `
Prints the altered pieces at true size. The first page shows the map of the
pages and two test squares: measure them after printing and again after gluing.
It tells as well which checks are broken in what is printed.
Several sizes lie on each other as layers that a viewer can switch off. "both"
is one layout that fits A4 and US Letter; WxH is any paper in mm. --border
draws along the lace edges how the border of the lace lies there by its plan
("truemat lace"), valley line and scallops, so that the paper is laid on the
motif.
` + onHelp + `
Example: size 75C on A4, pieces on the fold printed whole (lace is not cut on a
doubled fold)
  truemat print tern.truemat --paper a4 --size 75C --whole --out tern.pdf`,
	flags: func(f *pflag.FlagSet) {
		sizeFlags(f)
		onFlags(f)
		f.String("paper", "a4", "a4, letter, both, a3, a0, or width x height in mm")
		f.String("out", "", "the PDF to write")
		f.String("margin", "10mm", "white around every page")
		f.String("overlap", "10mm", "shared by neighbouring pages")
		f.StringSlice("piece", nil, "only these pieces (all when not given)")
		f.Bool("whole", false, "pieces on the fold unfolded")
		f.String("units", "mm", "mm, cm or in: how lengths are written")
		f.Bool("border", false, "the border of the lace along lace edges")
	},
	run: func(c *call) error {
		out, err := c.required("out")
		if err != nil {
			return err
		}
		if !strings.EqualFold(filepath.Ext(out), ".pdf") {
			return usageError(fmt.Sprintf("%s does not end in .pdf", out))
		}
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		c.warnBehind(results)
		job := render.Print{Pattern: doc.Source.Name, FoldWhole: c.yes("whole"), Altered: render.AlterationOf(results), Date: render.Today()}
		if job.Units, err = c.units(); err != nil {
			return err
		}
		doubts := suit.Doubts(results, doc.Bounds.Bounds(), doc.Goods)
		job.Doubts = &doubts
		if job.Paper, err = render.ParsePaper(c.text("paper")); err != nil {
			return err
		}
		if job.Margin, err = c.length("margin"); err != nil {
			return err
		}
		if job.Margin == 0 {
			job.Margin = render.NoMargin
		}
		if job.Overlap, err = c.length("overlap"); err != nil {
			return err
		}
		if job.Overlap == 0 {
			return usageError("--overlap: pages that do not overlap cannot be glued; give 5mm or more")
		}
		only, _ := c.flags.GetStringSlice("piece")
		if job.Sizes, err = sizePieces(doc.Goods, results, only); err != nil {
			return err
		}
		if job.On, err = c.common(); err != nil {
			return err
		}
		if c.yes("border") {
			if job.Laces, err = borders(doc.Goods, results); err != nil {
				return err
			}
		}
		plan, err := render.PlanTiles(job)
		if err != nil {
			return err
		}
		if err := store.WriteFile(out, func(w io.Writer) error { return render.Tile(w, job) }); err != nil {
			return err
		}
		labels := make([]string, len(job.Sizes))
		for i, s := range job.Sizes {
			labels[i] = s.Label
		}
		fmt.Fprintf(c.out, "%s: %s, %s; %s of %s, with tiles in %s and %s; measure the test squares before cutting\n", out, doc.Source.Name, pattern.SizeWords(labels...),
			counted(plan.Pages(), "page"), plan.Paper.Name, counted(plan.Rows, "row"), counted(plan.Cols, "column"))
		return nil
	},
}

// borders returns the plans of the laces by size; the error says when there is
// none.
func borders(g cloth.Goods, results []step.Result) (map[string][]border.Plan, error) {
	all := map[string][]border.Plan{}
	found := false
	for _, r := range results {
		plans, err := border.All(g, r.Size.Pattern, r.Size.Label)
		if err != nil {
			return nil, fmt.Errorf("size %s: %w", r.Size.Label, err)
		}
		all[r.Size.Label] = plans
		found = found || len(plans) > 0
	}
	if !found {
		return nil, fmt.Errorf("no piece is laid on a lace, so there is no border to draw; see \"truemat help lace\"")
	}
	return all, nil
}

// length reads a flag that holds a length.
func (c *call) length(flag string) (float64, error) {
	v, err := unit.Parse(c.text(flag))
	if err != nil {
		return 0, usageError("--" + flag + ": " + err.Error())
	}
	return v, nil
}

func choose(p pattern.Pattern, names []string) ([]pattern.Piece, error) {
	if len(names) == 0 {
		return p.Pieces, nil
	}
	var chosen []pattern.Piece
	for _, n := range names {
		pc := p.Piece(n)
		if pc == nil {
			return nil, fmt.Errorf("there is no piece %q to print", n)
		}
		chosen = append(chosen, *pc)
	}
	return chosen, nil
}

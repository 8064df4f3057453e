package command

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/cloth/bulk"
	"truemat/ops/cloth/order"
	"truemat/ops/cloth/worn"
	"truemat/ops/pattern"
	"truemat/ops/store"
	"truemat/ops/unit"
	"truemat/render"
)

// sectionsWide is the width in mm of the picture of thick places.
const sectionsWide = 180

var sewingCommand = command{
	name:  "sewing",
	use:   "FILE [--size S] [--press SEAM=open|PIECE ...] [--move ACT=N ...] [--keep FILE] [--limit MM] [--out X.svg|X.png|X.pdf] [--worn X.svg|X.png|X.pdf] [--units mm|cm|in] [--dpi N] [--json]",
	short: "in which order to sew, and where the seams grow thick",
	long: `
Works out from the seams in which order the garment is sewn: a seam waits for
every seam that it runs across. For each act it tells lengths, ease, allowance,
to which side the seam is pressed, how it is topstitched, what must lie under
it, and which edges turn back where no lining hides them. --move puts an act, by
the name that --json gives it, to another place; one that must wait for another
is not put before it. --press says where a seam is pressed, open or to the side
of a piece, as a step that lets its allowances end there; a dart whose cloth
stays folded lies to one side, in the words in which that is told. --keep writes
the document with that.

It tells where more than --limit mm of cloth lie on each other, edges that are
folded back or turned under counted, and how the allowances there step down;
--out draws each such place cut across, before and after trimming. --worn draws the
pieces as they lie in the finished garment, both halves.

Wires, adhesives and the fit on a healing body: follow their makers and ask a
professional fitter.

Example:
  truemat sewing tern-lace.truemat --size 75C
  truemat sewing tern-lace.truemat --move "join side seam=3" --keep tern-lace.truemat`,
	flags: func(f *pflag.FlagSet) {
		f.String("size", "", "the size, by its label (the first one when not given)")
		f.Float64("limit", bulk.Defaults().Thickness, "mm of cloth that may lie on each other")
		f.StringArray("press", nil, "a seam and where it is pressed, as SEAM=open or SEAM=PIECE; can be given several times")
		f.StringArray("move", nil, "an act and its new place, as ACT=N; can be given several times")
		f.String("keep", "", "the document to write the order and the pressing to")
		f.String("out", "", "the picture of the thick places to write")
		f.String("worn", "", "the picture of the pieces as they are worn to write")
		f.String("units", "mm", "mm, cm or in: how lengths are written, but in --json")
		f.Float64("dpi", 150, "dots per inch of a PNG")
		f.Bool("json", false, "as JSON, for scripts")
	},
	run: func(c *call) error {
		doc, results, err := c.open()
		if err != nil {
			return err
		}
		if results, err = c.press(&doc, results); err != nil {
			return err
		}
		c.warnBehind(results)
		units, err := c.units()
		if err != nil {
			return err
		}
		limits := bulk.DefaultsIn(units)
		limits.Thickness, _ = c.flags.GetFloat64("limit")
		if !(limits.Thickness > 0) {
			return usageError(fmt.Sprintf("--limit %g is no thickness; give millimetres above 0", limits.Thickness))
		}
		p := results[0].Size.Pattern
		acts, err := order.Sorted(order.Acts(p, doc.Goods), doc.Goods.Order)
		if err != nil {
			return err
		}
		if acts, err = c.reorder(&doc, acts); err != nil {
			return err
		}
		places := bulk.Places(p, doc.Goods, limits)
		if c.text("out") != "" && !slices.ContainsFunc(places, func(pl bulk.Place) bool { return pl.Over }) {
			return fmt.Errorf("nowhere do more than %g mm of cloth lie on each other, so there is nothing to draw; a smaller --limit shows more", limits.Thickness)
		}
		if err := c.drawn(doc.Source.Name+", thick seams", func() (render.Scene, error) { return render.Sections(places, sectionsWide, units), nil }); err != nil {
			return err
		}
		lay, err := worn.Lay(p)
		if err != nil {
			return err
		}
		if worn := c.text("worn"); worn != "" {
			if err := c.writeScene(worn, doc.Source.Name+", as worn", wornScene(lay, order.Letters(p, acts))); err != nil {
				return err
			}
		}
		told := order.Tell(p, doc.Goods, acts, check.Run(results[0].Before, p, doc.Bounds.Bounds()))
		if c.yes("json") {
			return printJSON(c.out, struct {
				Pattern string       `json:"pattern"`
				Size    string       `json:"size"`
				Acts    []order.Told `json:"acts"`
				Bulk    []bulk.Place `json:"bulk"`
				Worn    []worn.Way   `json:"worn"`
			}{doc.Source.Name, results[0].Size.Label, told, places, worn.Ways(p, lay)})
		}
		fmt.Fprintf(c.out, "%s, %s\n", doc.Source.Name, pattern.SizeWords(results[0].Size.Label))
		for i, t := range told {
			fmt.Fprintf(c.out, "%3d. %s\n", i+1, unit.Restate(strings.Join(slices.Concat([]string{t.Sentence}, t.Broken), " "), units))
		}
		if lone := order.Lone(p); lone != "" {
			fmt.Fprintf(c.out, "\n%s\n", unit.Restate(lone, units))
		}
		var thick []string
		for _, pl := range places {
			if pl.Over {
				thick = append(thick, "  "+unit.Restate(pl.Advice(), units))
			}
		}
		if len(thick) > 0 {
			fmt.Fprintf(c.out, "\nMore than %s thick:\n%s\n", unit.Format(limits.Thickness, units), strings.Join(thick, "\n"))
		}
		if lacking := bulk.Unmeasured(p, doc.Goods); len(lacking) > 0 {
			fmt.Fprintf(c.out, "\nHow thick it grows counts these for nothing, since no thickness is described: %s.\n", strings.Join(lacking, "; "))
		}
		return nil
	},
}

// wornScene is the picture of the pieces as they are worn.
func wornScene(lay worn.Layout, letters map[string]string) render.Scene {
	box := geom.Box{Max: geom.Pt(sectionsWide, sectionsWide*0.6)}
	return render.Scene{Box: box, Layers: []render.Layer{render.Worn(lay, letters)(box)}}
}

// reorder moves acts as --move says, and keeps the order in a document when
// --keep names one.
func (c *call) reorder(doc *store.Document, acts []order.Act) ([]order.Act, error) {
	moves, _ := c.flags.GetStringArray("move")
	for _, m := range moves {
		at := strings.LastIndex(m, "=")
		to, err := strconv.Atoi(strings.TrimSpace(m[at+1:]))
		if at < 0 || err != nil {
			return nil, usageError(fmt.Sprintf("--move %q is not an act and its place, such as \"join side seam=3\"", m))
		}
		if acts, err = order.Moved(acts, strings.TrimSpace(m[:at]), to-1); err != nil {
			return nil, err
		}
	}
	keep := c.text("keep")
	if keep == "" {
		return acts, nil
	}
	pressed, _ := c.flags.GetStringArray("press")
	if len(moves)+len(pressed) == 0 {
		return nil, usageError("--keep goes with --move or --press")
	}
	if len(moves) > 0 {
		goods := doc.Goods
		goods.Order = order.IDs(acts)
		next, err := doc.SetGoods(goods)
		if err != nil {
			return nil, err
		}
		*doc = next
	}
	if err := store.Save(keep, *doc); err != nil {
		return nil, err
	}
	fmt.Fprintf(c.errOut, "%s: %s, sewn so\n", keep, doc.Source.Name)
	return acts, nil
}

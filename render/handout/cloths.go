package handout

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/cloth"
	"truemat/render"
)

// cloths is a table of the cloths that the garment is made of, as they were
// measured; nil when none is.
func cloths(g cloth.Goods) []render.Part {
	table := render.Table{Head: []string{"cloth", "wide", "thick, mm", "gives along", "gives across", "besides"}}
	for _, c := range used(g) {
		if len(c.Of) > 0 {
			table.Rows = append(table.Rows, []string{c.Name, "", "", "", "", strings.Join(c.Of, " and ") + ", handled as one"})
			continue
		}
		thick, besides := "", ""
		if c.Thickness > 0 {
			thick = fmt.Sprint(c.Thickness) // in mm whatever her units, as it is asked for
		}
		switch {
		case c.Lace != nil:
			besides = fmt.Sprintf("the motif comes again every %g mm, scallops %s mm deep", c.Lace.Repeat, c.Lace.Depths())
		case c.OneWay:
			besides = "has an up and a down"
		}
		table.Rows = append(table.Rows, []string{c.Name, fmt.Sprintf("%g mm", c.Width), thick, pulled(c.Along), pulled(c.Across), besides})
	}
	if len(table.Rows) == 0 {
		return nil
	}
	return []render.Part{render.Heading("The cloths"), table}
}

// used returns the cloths that the garment is made of.
func used(g cloth.Goods) []cloth.Cloth {
	return slices.DeleteFunc(slices.Clone(g.Cloths), func(c cloth.Cloth) bool {
		return !slices.ContainsFunc(g.Made, func(m cloth.Made) bool { return slices.Contains(m.Cloths, c.Name) || g.Cuts(m.Piece, c.Name) })
	})
}

// pulled tells a pull test: the stretch, and what remained of it.
func pulled(p cloth.Pull) string {
	if !p.Measured() {
		return "not pulled"
	}
	said := fmt.Sprintf("%.0f %%", p.Stretch())
	if grown, ok := p.Growth(); ok {
		said += fmt.Sprintf(", %.1f %% stays", grown)
	}
	return said
}

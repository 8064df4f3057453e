package cloth

import (
	"strings"

	"truemat/ops/pattern"
)

// Proposed returns for each piece of which no layer is stated the described
// cloth of the very name that the piece itself carries, capitals and blanks
// around it aside, in the order of the pieces.
func (g Goods) Proposed(p pattern.Pattern) []Made {
	var out []Made
	for _, pc := range p.Pieces {
		if len(g.Layers(pc.Name)) > 0 {
			continue
		}
		for _, c := range g.Cloths {
			if name := strings.TrimSpace(pc.Cut.Cloth); name != "" && strings.EqualFold(name, strings.TrimSpace(c.Name)) {
				out = append(out, Made{pc.Name, []string{c.Name}})
				break
			}
		}
	}
	return out
}

// Accepting returns the goods with what was proposed stated; refused is what
// [Goods.Validate] refuses.
func (g Goods) Accepting(proposed []Made) (Goods, error) {
	var err error
	for _, m := range proposed {
		if g, err = g.WithLayers(m.Piece, m.Cloths...); err != nil {
			return g, err
		}
	}
	return g, g.Validate()
}

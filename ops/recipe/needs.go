package recipe

import (
	"fmt"
	"slices"

	"truemat/ops/step"
)

// Needs returns the names that a recipe takes from the pattern and does not
// make itself, by kind, piece and name. What is on a piece that the recipe
// makes is left out: it comes from the pieces that this is made of.
func Needs(r step.Recipe) []step.Name {
	t := newTrack(nil, nil)
	var needs []step.Name
	for _, e := range r {
		mentions := e.Mentions()
		for _, m := range mentions {
			_, moved := t.from[m.Piece]
			if m.Makes || moved || m.Kind == step.NameStep || t.makes(m.Name) || slices.Contains(needs, m.Name) {
				continue
			}
			needs = append(needs, m.Name)
		}
		t.pass(e, mentions)
	}
	slices.SortFunc(needs, compare)
	return needs
}

// Only returns the recipe meant for those sizes alone. It is refused when a
// step says itself for which sizes it is meant.
func Only(r step.Recipe, sizes []string) (step.Recipe, error) {
	next := slices.Clone(r)
	for i, e := range next {
		if len(e.Sizes) > 0 {
			return nil, fmt.Errorf("step %q says itself for which sizes it is meant; take its \"sizes\" out, or do not ask for some sizes only", e.ID)
		}
		next[i].Sizes = slices.Clone(sizes)
	}
	return next, nil
}

package desk

import (
	"truemat/ops/recipe"
	"truemat/ops/step"
)

// Lacks returns which of the names that a recipe takes from a pattern the
// document lacks as it is now, when its names are mapped so.
func (d *Desk) Lacks(steps step.Recipe, names recipe.Map) []recipe.Lack {
	return recipe.Lacks(steps, names, d.results)
}

// OpenRecipe adds the steps of a recipe, their names mapped, after those there
// are, as one change that can be taken back, in the sizes they are meant for, or
// in the one shown when changes go to it alone. It returns the new ids of steps
// whose own were taken. A refusal changes nothing; it is a [recipe.Lacking] when
// the document lacks names.
func (d *Desk) OpenRecipe(steps step.Recipe, names recipe.Map) (map[string]string, error) {
	doc := d.Document()
	if d.Only() {
		only, err := recipe.Only(steps, d.meant())
		if err != nil {
			return nil, err
		}
		steps = only
	}
	opened, err := recipe.Open(doc.Source, doc.Recipe, d.results, steps, names)
	if err != nil {
		return nil, err
	}
	doc.Recipe = opened.Recipe
	d.put(doc, opened.Results)
	return opened.IDs, nil
}

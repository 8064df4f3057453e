package desk

import (
	"maps"

	"truemat/ops/recipe"
	"truemat/ops/step"
)

// TryRecipe returns what tells what would come of [Desk.OpenRecipe], as the
// document is now, with those of the names of which the steps speak. That may
// take long; it can be asked away from the thread that changes the document.
func (d *Desk) TryRecipe(steps step.Recipe, names recipe.Map) func() recipe.Trial {
	doc, known := d.Document(), d.results
	meant, err := d.meantRecipe(steps)
	if err != nil {
		return func() recipe.Trial { return recipe.Trial{Err: err, At: -1} }
	}
	names = maps.Clone(names)
	return func() recipe.Trial {
		return recipe.Try(doc.Source, doc.Recipe, known, meant, recipe.Spoken(meant, names, known))
	}
}

// meantRecipe is a recipe meant for the size shown, when changes go to it alone.
func (d *Desk) meantRecipe(steps step.Recipe) (step.Recipe, error) {
	if d.Only() {
		return recipe.Only(steps, d.meant())
	}
	return steps, nil
}

// OpenRecipe adds the steps of a recipe, their names mapped, after those there
// are, as one change that can be taken back, in the sizes they are meant for, or
// in the one shown when changes go to it alone. It returns the new ids of steps
// whose own were taken. A refusal changes nothing; it is a [recipe.Lacking] when
// the document lacks names.
func (d *Desk) OpenRecipe(steps step.Recipe, names recipe.Map) (map[string]string, error) {
	doc := d.Document()
	steps, err := d.meantRecipe(steps)
	if err != nil {
		return nil, err
	}
	opened, err := recipe.Open(doc.Source, doc.Recipe, d.results, steps, names)
	if err != nil {
		return nil, err
	}
	doc.Recipe = opened.Recipe
	d.put(doc, opened.Results)
	return opened.IDs, nil
}

package window

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

var stepFiles = fileKind{"Steps (.json)", []string{".json"}}

// saveSteps saves the steps of the document alone, to be done on another
// pattern.
func (w *Window) saveSteps() {
	steps := w.desk.Document().Recipe
	if len(steps) == 0 {
		w.prompt.say(fmt.Errorf("there are no steps to save yet"))
		w.show()
		return
	}
	w.filePage(fileAsk{title: "Save the steps alone", act: "Save", saving: true, name: w.stem() + " steps.json", kinds: []fileKind{stepFiles},
		take: func(path string, told func(error)) {
			err := store.WriteFile(path, func(out io.Writer) error { return store.WriteSteps(out, steps) })
			if err != nil {
				told(fmt.Errorf("not saved: %w", err))
				return
			}
			told(nil)
			w.prompt.report(filepath.Base(path) + " is saved.")
		}})
}

// stepsAsk asks for steps that were saved alone, or for a document whose steps
// are wanted.
func (w *Window) stepsAsk() {
	w.filePage(fileAsk{title: "Steps of another pattern", act: "Look at them", kinds: []fileKind{{"Steps (.json, .truemat)", []string{".json", ending}}, allFiles},
		take: func(path string, told func(error)) {
			steps, of, err := readSteps(path)
			if err != nil {
				told(fmt.Errorf("nothing was done: %w", err))
				return
			}
			told(nil)
			w.stepsPage(filepath.Base(path), steps, of...)
		}})
}

// readSteps reads steps that were saved alone, or those of a document with the
// pattern they were made for.
func readSteps(path string) (steps step.Recipe, of []pattern.Pattern, err error) {
	name := filepath.Base(path)
	if strings.EqualFold(filepath.Ext(path), ending) {
		doc, err := store.Load(path)
		if err != nil {
			return nil, nil, err
		}
		if len(doc.Recipe) == 0 {
			return nil, nil, fmt.Errorf("%s holds no steps", name)
		}
		return doc.Recipe, []pattern.Pattern{doc.Source.Sizes[0].Pattern}, nil
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	steps, err = store.ReadSteps(f)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	return steps, nil, nil
}

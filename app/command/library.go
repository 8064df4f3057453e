package command

import (
	"fmt"

	"truemat/ops/cloth"
	"truemat/ops/store"
)

type libraryReport struct {
	File   string       `json:"file"`
	Cloths []clothFacts `json:"cloths"`
}

// library lists the maker's own cloths, after --drop took one out.
func (c *call) library() error {
	if len(c.args) > 0 || c.text("take")+c.text("from-library")+c.text("to-library")+c.text("out") != "" {
		return usageError("--library is used alone, or with --drop and --json")
	}
	if !c.yes("library") {
		return usageError("--drop goes with --library")
	}
	path, err := store.LibraryPath()
	if err != nil {
		return err
	}
	if name := c.text("drop"); name != "" {
		if err := store.DropCloth(path, name); err != nil {
			return err
		}
	}
	all, err := store.ReadLibrary(path)
	if err != nil {
		return err
	}
	facts := describe(cloth.Goods{Cloths: all})
	if c.yes("json") {
		return printJSON(c.out, libraryReport{path, facts})
	}
	if len(all) == 0 {
		fmt.Fprintln(c.out, "Your library holds no cloth yet; --to-library puts one in.")
		return nil
	}
	return printCloths(c.out, facts)
}

// toLibrary puts the cloth that --to-library names into the library.
func (c *call) toLibrary(g cloth.Goods) error {
	name := c.text("to-library")
	if name == "" {
		return nil
	}
	path, err := store.LibraryPath()
	if err != nil {
		return err
	}
	aside, err := store.KeepCloth(path, g, name)
	if err != nil {
		return err
	}
	if aside != "" {
		fmt.Fprintf(c.errOut, "what was there could not be read; it was put aside as %s\n", aside)
	}
	fmt.Fprintf(c.errOut, "%s: %q is kept\n", path, name)
	return nil
}

// takenFromLibrary returns the goods with a cloth of the library.
func takenFromLibrary(g cloth.Goods, name string) (cloth.Goods, error) {
	path, err := store.LibraryPath()
	if err != nil {
		return g, err
	}
	all, err := store.ReadLibrary(path)
	if err != nil {
		return g, err
	}
	g, err = g.Taking(all, name)
	if err != nil {
		return g, fmt.Errorf("your library, %s: %w", path, err)
	}
	return g, nil
}

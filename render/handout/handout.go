// Package handout tells on a few pages what was altered and how, for another
// maker: before and after, steps, checks, sizes, cutting, buying and sewing.
package handout

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/ops/unit"
	"truemat/render"
)

// Part is a part of the sheet that may be left out.
type Part string

// The parts of the sheet; the cautions are never left out.
const (
	Shapes  Part = "before and after"
	Steps   Part = "steps"
	Checks  Part = "checks"
	Sizes   Part = "sizes"
	Cutting Part = "cutting"
	Buying  Part = "buying"
	Sewing  Part = "sewing"
)

// Parts lists the parts in the order in which they are read.
var Parts = []Part{Shapes, Steps, Checks, Sizes, Cutting, Buying, Sewing}

// ParseParts reads names of parts, apart by commas.
func ParseParts(text string) ([]Part, error) {
	var out []Part
	for _, name := range strings.Split(text, ",") {
		p := Part(strings.TrimSpace(name))
		if p == "" {
			continue
		}
		if !slices.Contains(Parts, p) {
			return nil, fmt.Errorf("the sheet has no part %q; it has %q", p, Parts)
		}
		out = append(out, p)
	}
	return out, nil
}

// Write writes the sheet of a document as a PDF.
func Write(w io.Writer, doc store.Document, wish Wish) error {
	l, err := leaflet(doc, wish)
	if err != nil {
		return err
	}
	return render.WriteLeaflet(w, l)
}

// Pages returns the pages that [Write] writes, each a scene of the paper's size.
func Pages(doc store.Document, wish Wish) ([]render.Scene, error) {
	l, err := leaflet(doc, wish)
	if err != nil {
		return nil, err
	}
	return l.Pages()
}

func leaflet(doc store.Document, wish Wish) (render.Leaflet, error) {
	s, err := newSheet(doc, wish)
	if err != nil {
		return render.Leaflet{}, err
	}
	parts, err := s.parts(wish.Without)
	if err != nil {
		return render.Leaflet{}, err
	}
	name, of := doc.Source.Name, ""
	if wish.Called != "" && !strings.EqualFold(wish.Called, name) {
		name, of = wish.Called, "From the pattern "+name+". "
	}
	return render.Leaflet{
		Title:    fmt.Sprintf("%s, %s", name, pattern.SizeWords(wish.Size)),
		Subtitle: of + s.summary(),
		Paper:    wish.Paper,
		Parts:    restated(parts, s.units),
	}, nil
}

// sheet is what is told about.
type sheet struct {
	doc    store.Document
	size   string
	units  unit.System
	stages []step.Result // before the first step, and after each
	all    []step.Result // every size, after all steps
}

func newSheet(doc store.Document, wish Wish) (*sheet, error) {
	size, units := wish.Size, wish.Units
	if units == "" {
		units = unit.Millimetres
	}
	one, ok := doc.Source.Size(size)
	if !ok {
		return nil, fmt.Errorf("there is no size %q; the pattern has %s", size, strings.Join(doc.Source.Labels(), ", "))
	}
	run := doc.Source
	run.Sizes = []pattern.Size{one}
	s := &sheet{doc: doc, size: size, units: units, all: doc.Results()}
	known := step.Recipe{}.Replay(run)
	s.stages = append(s.stages, known[0])
	for n := range doc.Recipe {
		known = doc.Recipe[:n+1].Resume(known, n)
		s.stages = append(s.stages, known[0])
	}
	return s, nil
}

func (s *sheet) last() step.Result { return s.stages[len(s.stages)-1] }

func (s *sheet) before() pattern.Pattern { return s.stages[0].Size.Pattern }

func (s *sheet) after() pattern.Pattern { return s.last().Size.Pattern }

func (s *sheet) checks() []check.Check {
	return check.Run(s.last().Before, s.after(), s.doc.Bounds.Bounds())
}

// summary says in a sentence what the sheet is about.
func (s *sheet) summary() string {
	did := 0
	for _, r := range s.last().Reports {
		if r.State == step.Applied {
			did++
		}
	}
	text := fmt.Sprintf("%s, %s in this size. Lengths are along the sew lines.", counted(len(s.after().Pieces), "piece"), counted(did, "alteration"))
	if s.last().Behind() {
		text += " This size is behind: " + s.last().Upset().Error
	}
	return text
}

// parts returns everything in the order in which it is read, the cautions first.
func (s *sheet) parts(without []Part) ([]render.Part, error) {
	plain := func(tell func() []render.Part) func() ([]render.Part, error) {
		return func() ([]render.Part, error) { return tell(), nil }
	}
	tellers := map[Part]func() ([]render.Part, error){
		Shapes: plain(s.shapes), Steps: plain(s.steps), Checks: plain(s.checked), Sizes: plain(s.sizes),
		Cutting: s.goods, Buying: s.buying, Sewing: s.sewing,
	}
	parts := cautions()
	for _, p := range Parts {
		if slices.Contains(without, p) {
			continue
		}
		more, err := tellers[p]()
		if err != nil {
			return nil, err
		}
		parts = append(parts, more...)
	}
	return parts, nil
}

// changed is an edge whose length an alteration changed.
type changed struct {
	render.Numbered
	was, is float64
	sewn    bool // across its darts, as sewn
}

// words names the edge.
func (c changed) words() string {
	if c.sewn {
		return c.Edge + " of " + c.Piece + ", across the dart as sewn"
	}
	return c.Edge + " of " + c.Piece
}

// changes returns the edges that are new or have another length, numbered.
func (s *sheet) changes() []changed {
	var out []changed
	var told [][2]string // edges that are told across their darts
	for _, c := range step.Changes(s.before(), s.after()) {
		if c.What != "length" || c.Edge == "" || c.After == 0 || math.Abs(c.After-c.Before) < changedLeast {
			continue
		}
		if c.Sewn != nil {
			if slices.Contains(told, [2]string{c.Piece, c.Sewn.Edges[0]}) {
				continue
			}
			told = append(told, [2]string{c.Piece, c.Sewn.Edges[0]})
			c.Before, c.After = c.Sewn.Before, c.Sewn.After
		}
		out = append(out, changed{render.Numbered{Piece: c.Piece, Edge: c.Edge, Number: len(out) + 1}, c.Before, c.After, c.Sewn != nil})
	}
	return out
}

// changedLeast is the difference in mm below which an edge is not listed:
// what can be neither drawn nor cut.
const changedLeast = 0.05

func (s *sheet) shapes() []render.Part {
	changes := s.changes()
	var numbers []render.Numbered
	table := render.Table{Head: []string{"", "edge", "before", "after", "difference"}}
	for _, c := range changes {
		numbers = append(numbers, c.Numbered)
		was, diff := "new", ""
		if c.was > 0 {
			was, diff = s.both(c.was), s.signed(c.is-c.was)
		}
		table.Rows = append(table.Rows, []string{fmt.Sprint(c.Number), c.words(), was, s.both(c.is), diff})
	}
	parts := []render.Part{
		render.Heading("Before and after"),
		render.Small{Picture: render.BeforeAfter(s.before().Pieces, s.after().Pieces, numbers), Height: 95,
			Caption: "Cut lines as they are (solid) and as they were (broken, faint); sew lines dashed. Not at true size."},
	}
	for _, c := range s.lines() {
		table.Rows = append(table.Rows, []string{"", "line " + c.Line + ", whole", s.both(c.Before), s.both(c.After), s.signed(c.After - c.Before)})
	}
	if len(table.Rows) == 0 {
		return append(parts, render.Words("No edge has another length than before."))
	}
	return append(parts, table)
}

// signed writes a difference with its sign.
func (s *sheet) signed(mm float64) string {
	told := unit.Format(mm, s.units)
	if s.units == unit.InchFractions && told != unit.Format(0, s.units) {
		told = unit.MM(mm)
	}
	if mm < 0 || told == unit.Format(0, s.units) {
		return told
	}
	return "+" + told
}

// both writes a length as it is measured, and to the nearest sixteenth of an
// inch where that is another one; for inches in mm, which are restated by the row.
func (s *sheet) both(mm float64) string {
	if s.units == unit.InchFractions {
		return unit.MM(mm)
	}
	exact, inches := unit.Format(mm, s.units), unit.Inches(mm, unit.Sixteenths)
	if exact == inches {
		return exact
	}
	return fmt.Sprintf("%s (%s)", exact, inches)
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func cautions() []render.Part {
	return []render.Part{
		render.Heading("Before you begin"),
		render.Words("Wires: a wire lies in its line without force. A wire line that was altered can make a wire press: for choosing, fitting and cutting wires the maker's instructions and a professional fitter go first, the more so on a healing, pregnant or sensitive body. Stop wearing what presses, pricks or numbs."),
		render.Words("Adhesive: spray in fresh air, away from flames and sparks, as its label says; pins or removable tape do as well. Skin and latex: some elastics hold latex; leave them off a skin that does not bear it."),
		render.Words("Blades: cut away from your fingers and close rotary cutters and knives as soon as you put them down. Print the pieces at true size, measure the test squares, and sew a toile before the good lace."),
	}
}

package handout

import (
	"math"
	"slices"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/bulk"
	"truemat/ops/cloth/cutting"
	"truemat/ops/cloth/order"
	"truemat/ops/cloth/shop"
	"truemat/ops/cloth/suit"
	"truemat/ops/cloth/worn"
	"truemat/ops/step"
	"truemat/ops/store"
	"truemat/render"
)

// Told is what a sheet tells, as data for scripts, lengths in mm. Parts that are
// left out are not there.
type Told struct {
	Pattern string `json:"pattern"`
	Size    string `json:"size"`
	Summary string `json:"summary"`
	Pages   int    `json:"pages"` // on the paper that was chosen

	BeforeAfter []Changed     `json:"before_after,omitempty"`
	Steps       []step.Report `json:"steps,omitempty"`
	Checks      []check.Check `json:"checks,omitempty"`
	Sizes       []SizeTold    `json:"sizes,omitempty"`

	Cut     []cutting.Entry    `json:"cut,omitempty"`
	Suits   []check.Check      `json:"suits,omitempty"` // whether the cloths do
	Cloths  []cloth.Cloth      `json:"cloths,omitempty"`
	Plans   []Plan             `json:"plans,omitempty"`
	Buy     []cloth.Wanted     `json:"buy,omitempty"`
	Elastic []cloth.CutElastic `json:"elastics,omitempty"`
	Closing *suit.Closing      `json:"closing,omitempty"`

	Worn     []worn.Way        `json:"worn,omitempty"`
	Letters  map[string]string `json:"letters,omitempty"` // of each seam
	Acts     []order.Told      `json:"acts,omitempty"`
	Thick    []bulk.Place      `json:"thick,omitempty"`
	Cautions []string          `json:"cautions"`
}

// Changed is a length that the alterations changed. Number is its mark on the
// picture of before and after, 0 for a whole line.
type Changed struct {
	Number int     `json:"number,omitempty"`
	Piece  string  `json:"piece,omitempty"`
	Edge   string  `json:"edge,omitempty"`
	Line   string  `json:"line,omitempty"`
	Before float64 `json:"before_mm"` // 0 when there was none
	After  float64 `json:"after_mm"`
	// Sewn says that it is the length across the darts beside the edge, as sewn.
	Sewn bool `json:"sewn,omitempty"`
}

// SizeTold is the state of the checks in a size.
type SizeTold struct {
	Size   string        `json:"size"`
	Behind string        `json:"behind,omitempty"`
	Worst  check.Verdict `json:"worst"`
	// Checks are those that hold not everywhere.
	Checks []check.Check `json:"checks,omitempty"`
}

// Plan says how much the pieces take of a cloth or lace.
type Plan struct {
	Cloth  string  `json:"cloth"`
	Length float64 `json:"length_mm"`
	Metric string  `json:"metric"`
	Yards  string  `json:"yards"`
}

// Tell returns what the sheet of a document tells, as data.
func Tell(doc store.Document, wish Wish) (Told, error) {
	s, err := newSheet(doc, wish)
	if err != nil {
		return Told{}, err
	}
	pages, err := Pages(doc, wish)
	if err != nil {
		return Told{}, err
	}
	t := Told{Pattern: doc.Source.Name, Size: wish.Size, Summary: s.summary(), Pages: len(pages)}
	tell := map[Part]func() error{
		Shapes:  func() error { t.BeforeAfter = s.lengths(); return nil },
		Steps:   func() error { t.Steps = s.last().Reports; return nil },
		Checks:  func() error { t.Checks = s.checks(); return nil },
		Sizes:   func() error { t.Sizes = s.eachSize(); return nil },
		Cutting: func() error { return s.tellCutting(&t) },
		Buying:  func() error { return s.tellBuying(&t) },
		Sewing:  func() error { return s.tellSewing(&t) },
	}
	for _, p := range Parts {
		if slices.Contains(wish.Without, p) {
			continue
		}
		if err := tell[p](); err != nil {
			return Told{}, err
		}
	}
	for _, p := range cautions() {
		if words, ok := p.(render.Words); ok {
			t.Cautions = append(t.Cautions, string(words))
		}
	}
	return t, nil
}

// lengths returns what the picture and the table of before and after tell.
func (s *sheet) lengths() []Changed {
	var out []Changed
	for _, c := range s.changes() {
		out = append(out, Changed{Number: c.Number, Piece: c.Piece, Edge: c.Edge, Before: c.was, After: c.is, Sewn: c.sewn})
	}
	for _, c := range s.lines() {
		out = append(out, Changed{Line: c.Line, Before: c.Before, After: c.After})
	}
	return out
}

// lines returns the lines whose length changed.
func (s *sheet) lines() []step.Change {
	var out []step.Change
	for _, c := range step.Changes(s.before(), s.after()) {
		if c.What == "length" && c.Line != "" && c.Before > 0 && c.After > 0 && math.Abs(c.After-c.Before) >= changedLeast {
			out = append(out, c)
		}
	}
	return out
}

func (s *sheet) eachSize() []SizeTold {
	columns := s.columns()
	t := check.Tabulate(columns)
	var out []SizeTold
	for i, c := range t.Columns {
		told := SizeTold{Size: c.Size, Behind: c.Behind, Worst: check.Worst(columns[i].Checks)}
		for _, row := range t.Rows {
			if row.Worst != check.Holds && row.Cells[i] != nil {
				told.Checks = append(told.Checks, *row.Cells[i])
			}
		}
		out = append(out, told)
	}
	return out
}

func (s *sheet) tellCutting(t *Told) error {
	p, g := s.after(), s.doc.Goods
	t.Cut, t.Cloths = cutting.List(p, g), used(g)
	if len(g.Cloths) == 0 {
		return nil
	}
	t.Suits = suit.Run(g, p, suit.Defaults())
	for _, c := range shop.Cloths(g, p, s.size) {
		if c.Err != nil {
			return c.Err
		}
		t.Plans = append(t.Plans, Plan{c.Cloth.Name, c.Length, cloth.Metric(c.Length + cloth.Spare), cloth.Yards(c.Length + cloth.Spare)})
	}
	return nil
}

func (s *sheet) tellBuying(t *Told) error {
	p, g := s.after(), s.doc.Goods
	if len(g.Cloths) == 0 {
		return nil
	}
	var err error
	if t.Buy, err = shop.List(g, p, s.size); err != nil {
		return err
	}
	for _, e := range g.Elastics {
		cut, err := e.Cut(p)
		if err != nil {
			return err
		}
		t.Elastic = append(t.Elastic, cut)
	}
	if c, ok := suit.Close(g, p); ok {
		t.Closing = &c
	}
	return nil
}

func (s *sheet) tellSewing(t *Told) error {
	p, g := s.after(), s.doc.Goods
	acts, err := order.Sorted(order.Acts(p, g), g.Order)
	if err != nil {
		return err
	}
	lay, err := worn.Lay(p)
	if err != nil {
		return err
	}
	t.Worn, t.Letters, t.Acts = worn.Ways(p, lay), order.Letters(p, acts), order.Tell(p, g, acts, s.checks())
	for _, pl := range bulk.Places(p, g, bulk.DefaultsIn(s.units)) {
		if pl.Over {
			t.Thick = append(t.Thick, pl)
		}
	}
	return nil
}

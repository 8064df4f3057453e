package tool

import (
	"math"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// writtenLength says that the edge gets the length that is written.
const writtenLength = "that length"

// fitting is a seam whose other side the edge can be made to fit.
type fitting struct {
	seam  string
	label string  // among the choices
	other string  // the pieces of the other side
	mm    float64 // of the edge, in the size shown
}

// fittings are the seams in which the edge is sewn on one side.
func (s *Spread) fittings(c cuts) (all []fitting) {
	p := s.pattern()
	for _, seam := range p.Seams {
		mm, err := step.Fitting(p, c.pc.Name, c.edge.Name, seam.Name)
		if err != nil || !(mm > 0) {
			continue
		}
		words := sideWords(&seam)
		other := words[1]
		if slices.ContainsFunc(seam.B, func(pt pattern.Part) bool { return pt.Piece == c.pc.Name && pt.Edge == c.edge.Name }) {
			other = words[0]
		}
		f := fitting{seam.Name, "to fit " + other, other, mm}
		if slices.ContainsFunc(all, func(o fitting) bool { return o.label == f.label }) {
			f.label += " in " + seam.Name
		}
		all = append(all, f)
	}
	return all
}

// fit lets the edge follow the other side in every size where the length is
// that which it has in the size shown.
func (s *Spread) fit(mm float64) {
	c, ok := s.cuts()
	if !ok {
		return
	}
	for _, f := range s.fittings(c) {
		if math.Abs(f.mm-mm) <= writtenSlack {
			s.fits = f.seam
			return
		}
	}
}

// writtenSlack is by how much in mm a length that was read off may differ.
const writtenSlack = 0.05

// fitsField lets her choose between the length as it is written and that of
// the other side.
func (s *Spread) fitsField(c cuts) []Field {
	all := s.fittings(c)
	if len(all) == 0 {
		return nil
	}
	f := Field{Name: "fits", Label: "In every size", Text: writtenLength, Options: []string{writtenLength}}
	if s.by != bySpreadLength {
		f.Text, f.Options[0] = spreadFree, spreadFree
	}
	for _, o := range all {
		f.Options = append(f.Options, o.label)
		if s.by == bySpreadLength && s.fits == o.seam {
			f.Text = o.label
		}
	}
	return []Field{f}
}

func (s *Spread) setFits(c cuts, text string) error {
	f := s.fitsField(c)
	if len(f) == 0 || c.needs != needsNothing {
		return unknownField("spread", "fits")
	}
	o, err := picked(text, f[0].Options)
	if err != nil {
		return err
	}
	if o == f[0].Options[0] {
		if s.by == bySpreadLength {
			s.fits = ""
		}
		return nil
	}
	for _, k := range s.fittings(c) {
		if k.label == o {
			s.by, s.value, s.fits = bySpreadLength, k.mm, k.seam
		}
	}
	return nil
}

// untilWords tell what a length that is spread to is in other sizes, as a
// sentence with a blank before it, and of one that fits whether the notches meet.
func (s *Spread) untilWords(c cuts, res step.Result) string {
	if s.by != bySpreadLength || !severalSizes(s.table) {
		return ""
	}
	if s.fits == "" {
		return " In every size " + c.edge.Name + " then has " + unit.MM(s.value) + "."
	}
	for _, f := range s.fittings(c) {
		if f.seam == s.fits {
			return " In every size " + c.edge.Name + " then fits " + f.other + " there" + apart(s.table, res.Size.Pattern, s.fits) + "."
		}
	}
	return ""
}

package step

import (
	"fmt"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func init() { register("sew", func() Step { return &Sew{} }) }

// Sew declares a seam by its two sides, changes the sides, the ease or the
// pressing of one there is, takes one apart, or names a line that runs on through seams. A
// part that gives neither from nor to is the whole edge.
type Sew struct {
	Name string         `json:"name,omitempty"` // of the seam
	A    []pattern.Part `json:"a,omitempty"`
	B    []pattern.Part `json:"b,omitempty"`
	// Ease is how much longer side A is meant to be, in mm.
	Ease *Number `json:"ease,omitempty"`
	// Press says where its allowances are pressed.
	Press pattern.Press `json:"press,omitempty"`
	Apart bool          `json:"apart,omitempty"`
	// Line declares or changes a line instead.
	Line *SewLine `json:"line,omitempty"`
}

// SewLine is a line to be named: its kind, the edges it runs along, and how
// often it is in the garment.
type SewLine struct {
	Name  string           `json:"name"`
	Kind  pattern.LineKind `json:"kind,omitempty"`
	Parts []pattern.Part   `json:"parts,omitempty"`
	Count int              `json:"count,omitempty"`
}

// Kind returns "sew".
func (s *Sew) Kind() string { return "sew" }

// Sentence tells what the step does.
func (s *Sew) Sentence() string {
	switch {
	case s.Line != nil:
		return sentence(fmt.Sprintf("name the line %q along %s", s.Line.Name, partWords(s.Line.Parts)))
	case s.Apart:
		return sentence(fmt.Sprintf("take seam %q apart", s.Name))
	case len(s.A) == 0 && len(s.B) == 0 && s.Ease != nil:
		return sentence(fmt.Sprintf("make the ease of seam %q %s", s.Name, s.Ease) + pressWords(" and press it", s.Press))
	case len(s.A) == 0 && len(s.B) == 0 && s.Press != "":
		return sentence(fmt.Sprintf("press seam %q", s.Name) + pressWords("", s.Press))
	}
	return sentence(fmt.Sprintf("sew %s to %s as seam %q", partWords(s.A), partWords(s.B), s.Name) + pressWords(", pressed", s.Press))
}

// pressWords says where a seam is pressed, after the verb, or nothing.
func pressWords(verb string, press pattern.Press) string {
	switch press {
	case "":
		return ""
	case pattern.PressedOpen:
		return verb + " open"
	}
	return verb + " to side " + string(press)
}

// Apply changes the seam or line. A seam reports a_mm, b_mm and difference,
// side A less side B less the ease; a line reports length.
func (s *Sew) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	if s.Line != nil {
		if s.Name != "" || len(s.A) > 0 || len(s.B) > 0 || s.Ease != nil || s.Press != "" || s.Apart {
			return Output{}, fmt.Errorf("the step names line %q and also speaks of a seam; make it two steps", s.Line.Name)
		}
		return s.Line.apply(p)
	}
	if s.Name == "" {
		return Output{}, fmt.Errorf("the seam needs a \"name\"")
	}
	i := slices.IndexFunc(p.Seams, func(o pattern.Seam) bool { return o.Name == s.Name })
	if s.Apart {
		return s.apart(p, i)
	}
	if len(s.A) == 0 && len(s.B) == 0 && s.Ease == nil && s.Press == "" {
		return Output{}, fmt.Errorf("nothing is to be changed on seam %q; give its sides \"a\" and \"b\", its \"ease\" or how to \"press\" it", s.Name)
	}
	if s.Press != "" && !slices.Contains(pattern.Presses, s.Press) {
		return Output{}, fmt.Errorf("seam %q cannot be pressed to %q; there are %q", s.Name, s.Press, pattern.Presses)
	}
	if i < 0 {
		if len(s.A) == 0 || len(s.B) == 0 {
			return Output{}, fmt.Errorf("there is no seam %q yet; to declare it give both sides, \"a\" and \"b\"; there are %q", s.Name, seamNames(p))
		}
		i = len(p.Seams)
		p.Seams = append(p.Seams, pattern.Seam{Name: s.Name})
	}
	seam := &p.Seams[i]
	var err error
	if len(s.A) > 0 {
		if seam.A, err = wholeParts(p, s.A); err != nil {
			return Output{}, fmt.Errorf("seam %q, first side: %w", s.Name, err)
		}
	}
	if len(s.B) > 0 {
		if seam.B, err = wholeParts(p, s.B); err != nil {
			return Output{}, fmt.Errorf("seam %q, second side: %w", s.Name, err)
		}
	}
	if s.Ease != nil {
		if seam.Ease, err = s.Ease.In(in); err != nil {
			return Output{}, err
		}
		seam.Stretches = nil
	}
	if s.Press != "" {
		seam.Press = s.Press
	}
	notes := p.Unstretch()
	a, b := p.Length(seam.A), p.Length(seam.B)
	if s.Ease != nil {
		if err := sewable(p, seam, seam.Ease, a, b); err != nil {
			return Output{}, err
		}
	}
	diff := a - b - seam.Ease
	return Output{
		Pattern: p,
		Figures: map[string]float64{"a_mm": a, "b_mm": b, "difference": diff},
		Notes: append(notes, fmt.Sprintf("Seam %q: %s is %s, %s %s; with %s of ease they differ by %s.",
			s.Name, partWords(seam.A), unit.MM(a), partWords(seam.B), unit.MM(b), unit.MM(seam.Ease), unit.MM(diff))),
	}, nil
}

func (s *Sew) apart(p pattern.Pattern, i int) (Output, error) {
	switch {
	case i < 0:
		return Output{}, fmt.Errorf("there is no seam %q to take apart; there are %q", s.Name, seamNames(p))
	case len(s.A) > 0 || len(s.B) > 0 || s.Ease != nil || s.Press != "":
		return Output{}, fmt.Errorf("seam %q is to be taken apart; leave out its sides, ease and pressing", s.Name)
	}
	p.Seams = slices.Delete(p.Seams, i, i+1)
	return Output{Pattern: p}, nil
}

func (l *SewLine) apply(p pattern.Pattern) (Output, error) {
	if l.Name == "" {
		return Output{}, fmt.Errorf("the line needs a \"name\"")
	}
	i := slices.IndexFunc(p.Lines, func(o pattern.Line) bool { return o.Name == l.Name })
	if i < 0 {
		if l.Kind == "" || len(l.Parts) == 0 {
			return Output{}, fmt.Errorf("there is no line %q yet; to name it give its \"kind\" and \"parts\"", l.Name)
		}
		i = len(p.Lines)
		p.Lines = append(p.Lines, pattern.Line{Name: l.Name})
	}
	line := &p.Lines[i]
	if l.Kind != "" {
		line.Kind = l.Kind
	}
	if l.Count != 0 {
		line.Count = l.Count
	}
	if len(l.Parts) > 0 {
		parts, err := wholeParts(p, l.Parts)
		if err != nil {
			return Output{}, fmt.Errorf("line %q: %w", l.Name, err)
		}
		line.Parts = parts
	}
	return Output{Pattern: p, Figures: map[string]float64{"length": p.Length(line.Parts)}}, nil
}

// wholeParts returns a copy of the parts, those without from and to made
// whole; it refuses edges that are not there and parts without length.
func wholeParts(p pattern.Pattern, parts []pattern.Part) ([]pattern.Part, error) {
	parts = slices.Clone(parts)
	for i := range parts {
		pt := &parts[i]
		if _, _, err := edgeIn(p, pt.Piece, pt.Edge); err != nil {
			return nil, err
		}
		if pt.From == 0 && pt.To == 0 {
			pt.To = 1
		}
		if !(min(pt.From, pt.To) >= 0 && max(pt.From, pt.To) <= 1 && pt.From != pt.To) {
			return nil, fmt.Errorf("the part of %s of %s goes from %g to %g; shares of an edge lie between 0 and 1 and differ", pt.Edge, pt.Piece, pt.From, pt.To)
		}
	}
	return parts, nil
}

func partWords(parts []pattern.Part) string {
	names := make([]string, len(parts))
	for i, pt := range parts {
		names[i] = pt.Edge + " of " + pt.Piece
	}
	return words(names)
}

func seamNames(p pattern.Pattern) []string {
	names := make([]string, len(p.Seams))
	for i := range p.Seams {
		names[i] = p.Seams[i].Name
	}
	return names
}

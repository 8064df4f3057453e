package tool

import (
	"fmt"

	"truemat/ops/pattern"
)

const (
	keepLarger  = "the larger part"
	keepSmaller = "the smaller part"

	notchesGo   = "go"
	notchesStay = "stay"
)

// keeps returns the parts by their words, that left of the way first.
func (s *Shears) keeps(c cut) (left, right string) {
	p := s.pattern()
	there, _ := between(p, c.from, c.to)
	back, _ := between(p, c.to, c.from)
	if loopArea(there.path) > loopArea(back.path) {
		return keepSmaller, keepLarger
	}
	return keepLarger, keepSmaller
}

// Fields are the part kept, what the new edge is, the spots, and what becomes
// of the partner when there is one.
func (s *Shears) Fields() []Field {
	c, ok := s.laid()
	if !ok {
		return nil
	}
	name, role, allowance := s.would(c)
	left, right := s.keeps(c)
	keep := Field{Name: "keep", Label: "Keep", Text: left, Options: []string{keepLarger, keepSmaller}}
	if c.keep == keepRight {
		keep.Text = right
	}
	out := []Field{
		{Name: "role", Label: "The edge is", Text: role.Word(), Options: roles()},
		{Name: "allowance", Label: "Allowance", Text: written(s.table, allowance)},
		{Name: "name", Label: "New edge", Text: name},
		keep,
	}
	out = append(out, s.shapeFields(&s.base, c.out())...)
	if res, err := s.try.of(s.table, s.Proposal()...); err == nil {
		if rests := s.rests(res); len(rests) > 0 {
			rest := s.partner
			if rest.Rest == "" {
				rest.Rest = rests[0].Edge
			}
			if rest.Role == "" {
				rest.Role = pattern.TurnedBack
			}
			if rest.Notch == "" {
				rest.Notch = name + " end"
			}
			out = append(out,
				Field{Name: "rest", Label: "Rest of " + rests[0].Piece, Text: rest.Rest, Seldom: true},
				Field{Name: "rest role", Label: "The rest is", Text: rest.Role.Word(), Options: roles(), Seldom: true},
				Field{Name: "notch", Label: "Notch at its end", Text: rest.Notch, Seldom: true})
			if rest.KeepNotches || len(s.going(res)) > 0 {
				out = append(out, Field{Name: "old notches", Label: "Old notches", Text: map[bool]string{false: notchesGo, true: notchesStay}[rest.KeepNotches], Options: []string{notchesGo, notchesStay}, Seldom: true})
			}
		}
	}
	return append(out, s.fields(&s.base)...)
}

// Set takes a name, role, allowance, the shape of the cut, the part kept, what becomes of the
// partner's rest and of its old notches, or a spot.
func (s *Shears) Set(field, text string) error {
	c, ok := s.laid()
	if !ok {
		return unknownField("the shears", field)
	}
	switch field {
	case "name":
		name, err := typedName(text)
		if err != nil {
			return err
		}
		if pc := s.pattern().Piece(c.from.Piece); unused(pc, name, c.gone.whole) != name {
			return fmt.Errorf("%s already has an edge %q; give the new one another name", c.from.Piece, name)
		}
		s.name = name
		return nil
	case "rest", "notch":
		name, err := typedName(text)
		if err != nil {
			return err
		}
		if field == "rest" {
			s.partner.Rest = name
		} else {
			s.partner.Notch = name
		}
		return nil
	case "role", "rest role":
		o, err := roleOf(text, roles())
		if err != nil {
			return err
		}
		if field == "role" {
			s.role = o
		} else {
			s.partner.Role = o
		}
		return nil
	case "old notches":
		o, err := picked(text, []string{notchesGo, notchesStay})
		if err == nil {
			s.partner.KeepNotches = o == notchesStay
		}
		return err
	case "allowance":
		w, err := typedAllowance(s.table, text)
		if err == nil {
			s.allowance = &w
		}
		return err
	case "bulge", "lean from", "lean to":
		return s.setShape(&s.base, c.out(), field, text)
	case "keep":
		o, err := picked(text, []string{keepLarger, keepSmaller})
		if err != nil {
			return err
		}
		left, _ := s.keeps(c)
		if s.keep = keepLeft; o != left {
			s.keep = keepRight
		}
		return nil
	case "from", "to":
		return s.set(&s.base, field, text)
	}
	return unknownField("the shears", field)
}

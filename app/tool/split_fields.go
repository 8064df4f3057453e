package tool

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"truemat/ops/unit"
)

// Where notches along the new seam are offered.
const (
	notchNone     = "none"
	notchMiddle   = "in the middle"
	notchThirds   = "at thirds"
	notchQuarters = "at quarters"
	notchOwn      = "at places of their own"
)

var notchPlaces = map[string][]float64{
	notchNone:     nil,
	notchMiddle:   {0.5},
	notchThirds:   {1.0 / 3, 2.0 / 3},
	notchQuarters: {0.25, 0.5, 0.75},
}

// notches returns where notches are made: in the middle unless told otherwise.
func (s *Split) notches() []float64 {
	if s.told {
		return s.places
	}
	return notchPlaces[notchMiddle]
}

// Fields are the names of the parts and the seam, its allowance, notches and
// shape, and the spots.
func (s *Split) Fields() []Field {
	if _, to := s.ends(s.pattern()); to == nil {
		return nil
	}
	kept, other := s.called()
	at := s.notches()
	word := notchOwn
	for w, places := range notchPlaces {
		if slices.Equal(places, at) {
			word = w
		}
	}
	shares := make([]string, len(at))
	for i, v := range at {
		shares[i] = strconv.FormatFloat(v*100, 'f', -1, 64)
		if r := strconv.FormatFloat(v*100, 'f', 1, 64); len(shares[i]) > len(r) {
			shares[i] = r
		}
		shares[i] += " %"
	}
	options := []string{notchMiddle, notchThirds, notchQuarters, notchNone}
	if word == notchOwn {
		options = append(options, notchOwn)
	}
	out := []Field{
		{Name: "kept", Label: "One part", Text: kept},
		{Name: "other", Label: "The other", Text: other},
		{Name: "seam", Label: "Their seam", Text: s.sewn()},
		{Name: "notches", Label: "Notches", Text: word, Options: options},
		{Name: "places", Label: "Notched at", Text: strings.Join(shares, ", "), Seldom: true},
	}
	if w, ok := s.width(); ok {
		out = append(out, Field{Name: "allowance", Label: "Allowance", Text: written(s.table, w)})
	}
	out = append(out, Field{Name: "apart", Label: "Lay apart by", Text: written(s.table, s.apart), Seldom: true})
	out = append(out, s.shapeFields(&s.base, 1)...)
	return append(out, s.fields(&s.base)...)
}

// width returns the allowance on both sides of the seam.
func (s *Split) width() (mm float64, ok bool) {
	if s.allowance != nil {
		return *s.allowance, true
	}
	res, err := s.try.of(s.table, s.Proposal()...)
	if err != nil {
		return 0, false
	}
	_, other := s.called()
	_, e := res.Size.Pattern.Edge(other, s.sewn())
	if e == nil {
		return 0, false
	}
	return e.Allowance, true
}

// Set takes a name, the allowance, where notches are made, the shape of the
// seam, or a spot.
func (s *Split) Set(field, text string) error {
	p := s.pattern()
	from, to := s.ends(p)
	if to == nil {
		return unknownField("split", field)
	}
	switch field {
	case "kept", "other", "seam":
		name, err := typedName(text)
		if err != nil {
			return err
		}
		return s.call(from.Piece, field, name)
	case "notches":
		o, err := picked(text, []string{notchMiddle, notchThirds, notchQuarters, notchNone, notchOwn})
		if err == nil && o != notchOwn {
			s.places, s.told = notchPlaces[o], true
		}
		return err
	case "places":
		at, err := typedShares(text)
		if err == nil {
			s.places, s.told = at, true
		}
		return err
	case "allowance":
		w, err := typedAllowance(s.table, text)
		if err == nil {
			s.allowance = &w
		}
		return err
	case "apart":
		v, err := typedLength(s.table, text)
		if err == nil && !(v >= 0 && v <= mostReach) {
			err = fmt.Errorf("the parts cannot lie %s apart; give a length up to %s", unit.MM(v), unit.MM(mostReach))
		}
		if err == nil {
			s.apart = v
		}
		return err
	case "bulge", "lean from", "lean to":
		return s.setShape(&s.base, 1, field, text)
	case "from", "to":
		return s.set(&s.base, field, text)
	}
	return unknownField("split", field)
}

// call gives a part or the seam a name that is not taken.
func (s *Split) call(piece, field, name string) error {
	p := s.pattern()
	kept, other := s.called()
	switch {
	case field == "seam" && p.Seam(name) != nil:
		return fmt.Errorf("there is a seam %q already; give the new one another name", name)
	case field != "seam" && name != piece && p.Piece(name) != nil:
		return fmt.Errorf("there is a piece %q already; give that part another name", name)
	case field == "kept" && name == other || field == "other" && name == kept:
		return fmt.Errorf("both parts would be called %q; names of pieces must differ", name)
	}
	switch field {
	case "kept":
		s.kept = name
	case "other":
		s.other = name
	default:
		s.name = name
	}
	return nil
}

// typedShares reads places as shares: "50 %", "33%; 67%", "0.25 0.75".
func typedShares(text string) ([]float64, error) {
	fields := strings.FieldsFunc(strings.ReplaceAll(text, " %", "%"), func(r rune) bool { return r == ' ' || r == ';' || r == ',' })
	var out []float64
	for _, f := range fields {
		whole, percent := strings.CutSuffix(f, "%")
		v, err := strconv.ParseFloat(whole, 64)
		if percent {
			v /= 100
		}
		if err != nil || !(v > 0 && v < 1) {
			return nil, fmt.Errorf("%q is no place along the seam; write shares such as 50 %% or 33 %%, 67 %%, each between its ends", f)
		}
		if slices.Contains(out, v) {
			return nil, fmt.Errorf("%q stands there twice; each notch needs a place of its own", f)
		}
		out = append(out, v)
	}
	slices.Sort(out)
	return out, nil
}

package tool

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/step"
)

const (
	holdNone   = "neither"
	holdCorner = "the corner" // the end of the seam stays where it is
)

// holdWords are what a step calls the choices of holds.
var holdWords = []string{"", "a", "b"}

// names tells the two sides of the end apart.
func (s seamEnd) names() [2]string {
	a, b := s.sides[0], s.sides[1]
	switch {
	case a.Piece != b.Piece:
		return [2]string{a.Piece, b.Piece}
	case a.Edge != b.Edge:
		return [2]string{a.Edge + " of " + a.Piece, b.Edge + " of " + b.Piece}
	}
	return [2]string{a.Piece + ", first side", b.Piece + ", second side"}
}

// sides tells what becomes of both sides; where that cannot be told, as if both
// were blended.
func (t *True) sides() [2]step.Trued {
	sides, err := (&step.True{Seam: t.seam, End: t.end, Hold: t.hold}).Sides(t.pattern())
	if err != nil {
		return [2]step.Trued{{Blended: true}, {Blended: true}}
	}
	return sides
}

// blended are the sides, 0 and 1, on which the reach has an effect.
func (t *True) blended() (out []int) {
	for k, side := range t.sides() {
		if side.Blended {
			out = append(out, k)
		}
	}
	return out
}

// hold is a choice of what stays as it is.
type hold struct{ words, hold string }

// holds returns the choices of what stays as it is; the first is what the step
// does when nothing is said.
func (t *True) holds(s seamEnd) []hold {
	names := s.names()
	sides, err := (&step.True{Seam: s.seam, End: s.end}).Sides(t.pattern())
	for k := range sides {
		if sides[k].Lace {
			names[k] += laceWords
		}
	}
	for k := range sides {
		if err == nil && sides[k].Stays {
			return []hold{{names[k], ""}, {names[1-k], holdWords[2-k]}}
		}
	}
	choices := []hold{{holdNone, ""}, {names[0], "a"}, {names[1], "b"}}
	if err == nil && !sides[0].Lace && !sides[1].Lace {
		choices = append(choices, hold{holdCorner, "corner"})
	}
	return choices
}

// laceWords stand after the name of a side that is a lace edge.
const laceWords = ", lace edge"

// Fields are what stays as it is, the reach where there is one, and the end of
// the seam.
func (t *True) Fields() []Field {
	end := Field{Name: "end", Label: "End of a seam", Text: noSeamWords}
	for _, o := range t.all() {
		end.Options = append(end.Options, o.label())
	}
	s, ok := t.chosen()
	if !ok {
		return []Field{end}
	}
	end.Text = s.label()
	stays := Field{Name: "hold", Label: "Stays as it is"}
	for _, o := range t.holds(s) {
		stays.Options = append(stays.Options, o.words)
		if o.hold == t.hold || stays.Text == "" {
			stays.Text = o.words
		}
	}
	var out []Field
	for _, k := range t.blended() {
		out = append(out, Field{Name: reachFields[k], Label: "Reach into " + s.names()[k], Text: written(t.table, t.reach[k])})
	}
	return append(out, stays, end)
}

var reachFields = [2]string{"reach a", "reach b"}

// Set takes the reach on both sides ("reach") or on one, what is held, or the
// end of a seam.
func (t *True) Set(field, text string) error {
	s, ok := t.chosen()
	if !ok && field != "end" {
		return unknownField("true", field)
	}
	switch field {
	case "reach", reachFields[0], reachFields[1]:
		return t.setReach(s, field, text)
	case "hold":
		return t.setHold(s, text)
	case "end":
		var labels []string
		all := t.all()
		for _, o := range all {
			labels = append(labels, o.label())
		}
		o, err := picked(text, labels)
		if err != nil {
			return err
		}
		for i, l := range labels {
			if l == o {
				t.take(all[i])
			}
		}
		return nil
	}
	return unknownField("true", field)
}

// setReach takes the reach of the sides that are blended; of a side that keeps
// its line it is refused.
func (t *True) setReach(s seamEnd, field, text string) error {
	v, err := typedReach(t.table, text)
	if err != nil {
		return err
	}
	blended := t.blended()
	if k := slices.Index(reachFields[:], field); k >= 0 {
		if !slices.Contains(blended, k) {
			return t.noReach(s, k)
		}
		blended = []int{k}
	}
	if len(blended) == 0 {
		return t.noReach(s, 0)
	}
	for _, k := range blended {
		t.reach[k] = v
	}
	return nil
}

// noReach tells why a side has no reach.
func (t *True) noReach(s seamEnd, k int) error {
	name, side := s.names()[k], t.sides()[k]
	if side.Stays {
		return fmt.Errorf("%s stays as it is, so it has no reach", name)
	}
	return fmt.Errorf("%s of %s is a lace edge and keeps straight, so it has no reach", side.Edge, s.sides[k].Piece)
}

// setHold takes what stays as it is; a lace edge may be called by its piece alone.
func (t *True) setHold(s seamEnd, text string) error {
	var words []string
	choices := t.holds(s)
	for _, o := range choices {
		words = append(words, o.words)
	}
	o, err := picked(text, words)
	if err != nil {
		var short error
		if o, short = picked(strings.TrimSpace(text)+laceWords, words); short != nil {
			return err
		}
	}
	t.hold = choices[slices.Index(words, o)].hold
	return nil
}

package step

import (
	"fmt"
	"math"
	"strings"

	"truemat/geom"
)

func init() { register("share-out", func() Step { return &ShareOut{} }) }

// ShareOut gives an amount that an edge lost, mostly the overlap that taping
// recorded, back in parts on named edges: 1/4 in lost is 1/8 in on each of
// two edges, nothing at the top (common practice). Each part is added as
// [Add] does, tapering to nothing at the other end of its edge. A negative
// amount, a gap, is taken in.
//
// Figures: given_back, the sum of the parts in mm, and partner_difference.<seam>
// as with Add.
type ShareOut struct {
	Amount Number  `json:"amount"` // mm
	Onto   []Share `json:"onto"`
	Limit  *Number `json:"limit,omitempty"` // as with Add
}

// Share is the end of an edge that gets a part of the amount.
type Share struct {
	EdgeEnd
	// Part of the amount; the shares without one share equally what is left.
	Part *float64 `json:"part,omitempty"`
}

// partSlack is how far the parts may add up to more than the whole by rounding.
const partSlack = 1e-9

// Kind returns "share-out".
func (s *ShareOut) Kind() string { return "share-out" }

// Sentence tells in plain words what the step does.
func (s *ShareOut) Sentence() string {
	ends := make([]string, len(s.Onto))
	parts, err := s.parts()
	for i, on := range s.Onto {
		ends[i] = on.EdgeEnd.String()
		if err == nil {
			ends[i] = shareWord(parts[i]) + " at " + ends[i]
		}
	}
	if len(s.Onto) == 1 && err == nil && parts[0] == 1 {
		return fmt.Sprintf("Give back %s at %s.", s.Amount, s.Onto[0].EdgeEnd)
	}
	return fmt.Sprintf("Give back %s: %s.", s.Amount, words(ends))
}

// shareWord tells a part of the amount: "half of it", "40 % of it".
func shareWord(part float64) string {
	switch word := partWord(part); {
	case part == 0.5:
		return "half of it"
	case strings.HasSuffix(word, " of"):
		return word + " it"
	}
	return fmt.Sprintf("%.4g %% of it", 100*part)
}

// Apply adds the parts one after the other.
func (s *ShareOut) Apply(in Input) (Output, error) {
	amount, err := s.Amount.In(in)
	if err != nil {
		return Output{}, err
	}
	limit, err := limitIn(in, s.Limit)
	if err != nil {
		return Output{}, err
	}
	parts, err := s.parts()
	if err != nil {
		return Output{}, err
	}
	r := newRedraw(in.Pattern)
	sum := 0.0
	for i, on := range s.Onto {
		if err := r.add(on.EdgeEnd, amount*parts[i], false, limit); err != nil {
			return Output{}, err
		}
		sum += amount * parts[i]
	}
	out, err := r.addOutput(map[string]float64{"given_back": sum}, "give it back at the other end of that edge, or at another edge")
	if err == nil && math.Abs(amount-sum) > geom.Coincident {
		out.Notes = append(out.Notes, fmt.Sprintf("%.4g mm of %.4g mm are not given back.", amount-sum, amount))
	}
	return out, err
}

// parts returns the part of the amount that each share gets.
func (s *ShareOut) parts() ([]float64, error) {
	if len(s.Onto) == 0 {
		return nil, fmt.Errorf(`nothing is named to give the amount back on; name ends of edges by "onto"`)
	}
	left, open := 1.0, 0
	for _, on := range s.Onto {
		switch {
		case on.Part == nil:
			open++
		case !(*on.Part >= 0):
			return nil, fmt.Errorf("the part given back at %s is %g; it must be 0 or more", on.EdgeEnd, *on.Part)
		default:
			left -= *on.Part
		}
	}
	if left < -partSlack {
		return nil, fmt.Errorf("the parts given back add up to %.4g; all of it is 1", 1-left)
	}
	parts := make([]float64, len(s.Onto))
	for i, on := range s.Onto {
		if parts[i] = max(left, 0) / float64(max(open, 1)); on.Part != nil {
			parts[i] = *on.Part
		}
	}
	return parts, nil
}

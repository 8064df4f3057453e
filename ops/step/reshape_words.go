package step

import (
	"cmp"
	"fmt"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Sentence tells in plain words what the step does.
func (r *Reshape) Sentence() string { return r.sentence(0, "its start") }

// SentenceOn is Sentence with how far the knots lie from the straight line
// between the ends of the run.
func (r *Reshape) SentenceOn(p pattern.Pattern) string {
	way, err := r.Chord(p)
	if err != nil {
		return r.Sentence()
	}
	from := "where the run starts"
	if r.From == nil {
		from = cmp.Or(p.Piece(r.Piece).Meets(r.Edge, pattern.Start), "its start")
	}
	return r.sentence(way, from)
}

// Chord returns the length in mm of the straight line between the ends of the
// run, along and off which its knots lie.
func (r *Reshape) Chord(p pattern.Pattern) (float64, error) {
	_, e, err := edgeIn(p, r.Piece, r.Edge)
	if err != nil {
		return 0, err
	}
	ends, err := r.ends(e.Length())
	if err != nil {
		return 0, err
	}
	way := e.Path.At(ends[0]).Dist(e.Path.At(ends[1]))
	if way < leastEdge {
		return 0, fmt.Errorf("the ends of the run on %s of %s lie at the same place", r.Edge, r.Piece)
	}
	return way, nil
}

// sentence tells the step, with the places of its knots where the straight line
// between the ends is of some length in mm.
func (r *Reshape) sentence(way float64, from string) string {
	text := fmt.Sprintf("Reshape %s of %s", r.Edge, r.Piece)
	if r.From != nil || r.To != nil {
		text = fmt.Sprintf("Reshape a run of %s of %s", r.Edge, r.Piece)
	}
	switch n := len(r.Knots) - 2; {
	case n == 1:
		text += " by its handles and one knot between"
	case n > 1:
		text += fmt.Sprintf(" by its handles and %d knots between", n)
	default:
		text += " by its handles"
	}
	if told := r.told(way, from); told != "" {
		text += ", " + told
	}
	switch a, b := r.Start != TangentFree, r.End != TangentFree; {
	case !a && !b:
		text += ", its tangents free"
	case !a:
		text += ", the tangent at its start free"
	case !b:
		text += ", the tangent at its end free"
	}
	if r.Keep == keepLength {
		text += ", then as much more or less as keeps its length"
	}
	return text + "."
}

// toldKnots is of how many knots the places are told one by one.
const toldKnots = 2

// told tells how far the knots between lie along and off the straight line, or
// how long the handles are when there is none; "" when that is not known.
func (r *Reshape) told(way float64, from string) string {
	if way == 0 || len(r.Knots) < 2 {
		return ""
	}
	side := func(off float64) string {
		if off < 0 {
			return unit.MM(-off*way) + " out"
		}
		return unit.MM(off*way) + " in"
	}
	between := r.Knots[1 : len(r.Knots)-1]
	for _, k := range r.Knots {
		for _, o := range []*Offset{&k.Offset, k.In, k.Out} {
			if o != nil && (o.AlongMM != nil || o.OffMM != nil) {
				return ""
			}
		}
	}
	if len(between) == 0 {
		a, b := r.Knots[0].Out, r.Knots[1].In
		if a == nil || b == nil {
			return ""
		}
		return fmt.Sprintf("%s and %s long", unit.MM(a.plain().Norm()*way), unit.MM(b.plain().Norm()*way))
	}
	if len(between) > toldKnots {
		lo, hi := 0.0, 0.0
		for _, k := range between {
			lo, hi = min(lo, k.Off), max(hi, k.Off)
		}
		switch {
		case lo == 0:
			return "up to " + side(hi) + " from the straight line"
		case hi == 0:
			return "up to " + side(lo) + " from the straight line"
		}
		return "up to " + side(hi) + " and " + side(lo) + " from the straight line"
	}
	at := make([]string, len(between))
	for i, k := range between {
		at[i] = fmt.Sprintf("%s from the straight line at %s from %s", side(k.Off), unit.MM(k.Along*way), from)
	}
	return words(at)
}

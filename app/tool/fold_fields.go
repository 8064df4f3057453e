package tool

import (
	"fmt"
	"math"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// halves names the halves left and right of the fold, seen along it, as they
// lie on the mat.
func (f *Fold) halves(pc *pattern.Piece) [2]string {
	out := [2]string{"left", "right"}
	steps := f.Proposal()
	if len(steps) == 0 {
		return out
	}
	fold, ok := steps[0].(*step.Fold)
	if !ok {
		return out
	}
	a, b, err := fold.Axis(step.Input{Pattern: f.pattern(), Size: f.table.Size(), Figures: f.table.Figures()})
	if err != nil {
		return out
	}
	if fold.Keep == "right" { // it is told the other way then
		a, b = b, a
	}
	left := pc.Pose.Vector(b.Sub(a).Perp())
	other := left.X > 0
	if math.Abs(left.Y) > math.Abs(left.X) {
		out, other = [2]string{"upper", "lower"}, left.Y < 0
	}
	if other {
		out[0], out[1] = out[1], out[0]
	}
	return out
}

// Fields are what is done, and the numbers and choices of that.
func (f *Fold) Fields() []Field {
	pc := f.chosen()
	if pc == nil {
		return nil
	}
	out := []Field{{Name: "do", Label: "Do", Text: f.doing(pc), Options: dos(pc)}}
	switch f.doing(pc) {
	case doFold:
		halves := f.halves(pc)
		keep := halves[0]
		if f.keep == "right" {
			keep = halves[1]
		}
		out = append(out,
			Field{Name: "along", Label: "Fold along", Text: f.axis(pc), Options: axes(pc)},
			Field{Name: "keep", Label: "Keep the half", Text: keep, Options: halves[:]},
			Field{Name: "tolerance", Label: "Halves may differ by", Text: written(f.table, f.slack)})
	case doMirror:
		out = append(out, Field{Name: "mirror", Label: "As", Text: f.mirroring(pc), Options: mirrorings(pc)})
		if f.mirroring(pc) != mirrorTurn {
			out = append(out, Field{Name: "name", Label: "Called", Text: f.imageName(pc)})
		}
	case doLine:
		out = append(out, f.liningFields(pc)...)
	}
	return out
}

// Set takes a choice or number.
func (f *Fold) Set(field, text string) error {
	pc := f.chosen()
	if pc == nil {
		return unknownField("fold", field)
	}
	known := false
	for _, o := range f.Fields() {
		known = known || o.Name == field
	}
	if !known {
		return unknownField("fold", field)
	}
	var err error
	switch field {
	case "do":
		if text, err = picked(text, dos(pc)); err == nil {
			f.do = text
		}
	case "along":
		if text, err = picked(text, axes(pc)); err == nil {
			f.along, f.way = text, way{}
		}
	case "keep":
		halves := f.halves(pc)
		if text, err = picked(text, halves[:]); err == nil {
			f.keep = []string{"left", "right"}[slices.Index(halves[:], text)]
		}
	case "tolerance":
		f.slack, err = f.width(text, f.slack, 10)
	case "mirror":
		if text, err = picked(text, mirrorings(pc)); err == nil {
			f.mirror = text
		}
	case "pull", "turned", "sewn", "cloth", "edge", "finished", "in":
		return f.setLining(pc, field, text)
	case "name":
		if text, err = typedName(text); err != nil {
			return err
		}
		if f.pattern().Piece(text) != nil {
			return fmt.Errorf("there already is a piece %q; write another name", text)
		}
		if f.doing(pc) == doLine {
			f.lining.name = text
		} else {
			f.image = text
		}
	}
	return err
}

// width reads a width from nothing to most mm.
func (f *Fold) width(text string, was, most float64) (float64, error) {
	w, err := typedLength(f.table, text)
	if err == nil && !(w >= 0 && w <= most) {
		err = fmt.Errorf("%s is not between 0 and %g mm", unit.MM(w), most)
	}
	if err != nil {
		return was, err
	}
	return w, nil
}

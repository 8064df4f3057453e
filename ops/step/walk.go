package step

import (
	"errors"
	"fmt"

	"truemat/ops/pattern"
	"truemat/ops/walk"
)

func init() { register("walk", func() Step { return &Walk{} }) }

// Walk walks one side of a seam along the other and drops notches where they
// meet, states the ease, or moves notches so that it is spread evenly. Instead
// of a Seam two runs may be given, A and B, each walked from the end they share:
// a corner of one piece, ends that seams or a line bring together, or that lie
// on each other on the mat. Others need the places that are laid on each other.
//
// It is walked from the end From of the seam, or from two places that are laid
// on each other, StartA and StartB, towards the seam's end, or towards its
// start when From is the end. Ease is stated first, then spread, then notches
// are dropped.
//
// Figures: a_mm and b_mm, the lengths of both sides from where the walk starts;
// difference, side A less side B less the ease; at_mm.<notch> of each notch
// dropped, in mm from the start of its edge, also as at_mm of the last; moved,
// the furthest that spreading moved a notch.
type Walk struct {
	Seam   string          `json:"seam,omitempty"`
	A      []pattern.Part  `json:"a,omitempty"`
	B      []pattern.Part  `json:"b,omitempty"`
	From   pattern.EndName `json:"from,omitempty"`
	StartA *pattern.Spot   `json:"start_a,omitempty"`
	StartB *pattern.Spot   `json:"start_b,omitempty"`
	Drop   []Drop          `json:"drop,omitempty"`
	// Ease is how much longer side A is meant to be, in mm: of the whole seam,
	// spread evenly, or of the stretch Between. Then the ease of the rest stays
	// and that of the seam changes by as much.
	Ease    *Number  `json:"ease,omitempty"`
	Between *Between `json:"between,omitempty"`
	// Spread moves the notches of that side between the ends of the seam, or
	// Between, to where those of the other side fall when all of the difference
	// is spread evenly.
	Spread walk.Hand `json:"spread,omitempty"`
}

// Between bounds a stretch of a seam by notches of either side; one that is
// left out is the end of the seam.
type Between struct {
	From pattern.NotchName `json:"from,omitzero"`
	To   pattern.NotchName `json:"to,omitzero"`
}

// Drop is a notch to be dropped on the side On, at exactly one of: MM walked
// on that side; a Spot of either side; All notches of the other side that have
// no partner; the End of the other side, where this side runs on.
type Drop struct {
	On walk.Hand `json:"on"`
	// Name of the notch; that of the notch across when left out. With All it
	// is put before those names.
	Name string        `json:"name,omitempty"`
	MM   *Number       `json:"mm,omitempty"`
	Spot *pattern.Spot `json:"spot,omitempty"`
	All  bool          `json:"all,omitempty"`
	End  bool          `json:"end,omitempty"`
	// Cut is "single" or "double"; when left out it is as the notch across, or single.
	Cut string `json:"cut,omitempty"`
}

// Kind returns "walk".
func (w *Walk) Kind() string { return "walk" }

// Apply walks the seam.
func (w *Walk) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	if len(w.Drop) == 0 && w.Ease == nil && w.Spread == "" {
		return Output{}, errors.New("the walk leaves nothing behind; give notches to \"drop\", an \"ease\" to state, or the side on which to \"spread\" it")
	}
	if w.Between != nil && w.Ease == nil && w.Spread == "" {
		return Output{}, errors.New("\"between\" says where an \"ease\" is stated or on which notches it is \"spread\"; give one of them, or leave it out")
	}
	out := Output{Pattern: p, Figures: map[string]float64{}}
	if w.Ease != nil {
		if err := w.stateEase(in, &out); err != nil {
			return Output{}, err
		}
	}
	if w.Spread != "" {
		if err := w.spread(&out); err != nil {
			return Output{}, err
		}
	}
	wk, err := w.walked(p)
	if err != nil {
		return Output{}, err
	}
	for i, d := range w.Drop {
		if err := d.apply(in, wk, &out); err != nil {
			return Output{}, fmt.Errorf("notch %d to be dropped: %w", i+1, err)
		}
		if wk, err = w.walked(p); err != nil { // with the notches dropped so far
			return Output{}, err
		}
	}
	t := wk.Table()
	out.Figures["a_mm"], out.Figures["b_mm"], out.Figures["difference"] = t.A, t.B, t.Difference
	return out, nil
}

// walked returns the walk on the pattern.
func (w *Walk) walked(p pattern.Pattern) (*walk.Walk, error) {
	return w.going(p, walk.Way{From: w.From, StartA: w.StartA, StartB: w.StartB})
}

// whole returns the walk from the start of the seam to its end.
func (w *Walk) whole(p pattern.Pattern) (*walk.Walk, error) { return w.going(p, walk.Way{}) }

func (w *Walk) going(p pattern.Pattern, way walk.Way) (*walk.Walk, error) {
	switch runs := len(w.A) > 0 && len(w.B) > 0; {
	case w.Seam != "" && len(w.A)+len(w.B) > 0:
		return nil, fmt.Errorf("seam %q has its sides; leave out \"a\" and \"b\", or the seam", w.Seam)
	case w.Seam != "":
		return walk.Seam(p, w.Seam, way)
	case !runs:
		return nil, errors.New("say what is walked: a \"seam\", or two runs \"a\" and \"b\", each from the end they share")
	}
	s, err := w.runs(p)
	if err != nil {
		return nil, err
	}
	wk, err := walk.New(p, s, way)
	if errors.Is(err, walk.ErrNoSharedStart) {
		err = fmt.Errorf("%w, or say by \"start_a\" and \"start_b\" which two places are laid on each other", err)
	}
	return wk, err
}

// runs returns the two runs as a seam without a name.
func (w *Walk) runs(p pattern.Pattern) (s pattern.Seam, err error) {
	if s.A, err = wholeParts(p, w.A); err != nil {
		return s, fmt.Errorf("the first run: %w", err)
	}
	if s.B, err = wholeParts(p, w.B); err != nil {
		return s, fmt.Errorf("the second run: %w", err)
	}
	return s, nil
}

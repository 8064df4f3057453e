package pattern

import (
	"fmt"
	"maps"
	"slices"

	"truemat/geom"
)

// Fit is what the maker states of the wires she buys and of the body, beside
// the pieces: it is no part of the shapes, and the checks compare them with it.
type Fit struct {
	// Wires is the pattern's own table of wires; a size names its wire.
	Wires []Wire `json:"wires,omitempty"`
	// Reduction is how much shorter the finished hem is meant to be than the
	// body measure under the bust, in per cent of that; 0 when not stated.
	Reduction float64 `json:"reduction,omitempty"`
	// Closure is how much the bought closure, fastened, adds to the hem, in mm.
	Closure float64 `json:"closure,omitempty"`
}

// Wire is a wire of the table.
type Wire struct {
	Name   string  `json:"name"`
	Length float64 `json:"length"` // along the wire, in mm
	// PlayStart and PlayEnd are the room in mm wanted for the wire at the end
	// where the wire line starts and where it ends; 0 when not stated: then the
	// bounds of the checks hold.
	PlayStart float64 `json:"play_start,omitempty"`
	PlayEnd   float64 `json:"play_end,omitempty"`
}

// SizeFit is what is stated of one size.
type SizeFit struct {
	Wire      string  `json:"wire,omitempty"`      // name of its wire in the table, "" when none
	Underbust float64 `json:"underbust,omitempty"` // body measure in mm, 0 when not stated
}

// Names of figures that a fit gives to the patterns of a run, see
// [Run.Fitted]: they stand in [Pattern.Figures] beside the pattern's own.
const (
	FigurePlayStart = "wire-play-start" // room wanted for the wire where its line starts, mm
	FigurePlayEnd   = "wire-play-end"   // and where it ends
	FigureReduction = "reduction"       // of the hem against the body, per cent
	FigureFastened  = "fastened"        // what the closure, fastened, adds to the hem, mm
)

// Limits of a fit.
const (
	maxPlay      = 50.0 // mm
	maxReduction = 60.0 // per cent; a closed strip of the softest elastic
)

// Wire returns the wire of that name, or nil.
func (f Fit) Wire(name string) *Wire {
	for i := range f.Wires {
		if f.Wires[i].Name == name {
			return &f.Wires[i]
		}
	}
	return nil
}

func (f Fit) wireNames() []string {
	names := make([]string, len(f.Wires))
	for i, w := range f.Wires {
		names[i] = w.Name
	}
	return names
}

func (f Fit) validate() error {
	if err := atMost("wires", len(f.Wires), maxThings); err != nil {
		return err
	}
	if err := uniqueNames("wire", f.wireNames()); err != nil {
		return err
	}
	for _, w := range f.Wires {
		if !(w.Length > 0 && w.Length <= geom.Reach) {
			return fmt.Errorf("wire %q: a length of %g mm is not above 0; measure along the wire from tip to tip", w.Name, w.Length)
		}
		for _, play := range []float64{w.PlayStart, w.PlayEnd} {
			if !(play >= 0 && play <= maxPlay) {
				return fmt.Errorf("wire %q: a play of %g mm is not between 0 and %g mm", w.Name, play, maxPlay)
			}
		}
	}
	if !(f.Reduction >= 0 && f.Reduction <= maxReduction) {
		return fmt.Errorf("a reduction of %g %% is not between 0 and %g", f.Reduction, maxReduction)
	}
	if !(f.Closure >= 0 && f.Closure <= geom.Reach) {
		return fmt.Errorf("a closure that adds %g mm is not 0 or more", f.Closure)
	}
	return nil
}

// validateFit looks at the table and at what the sizes take from it.
func (r Run) validateFit() error {
	if err := r.Fit.validate(); err != nil {
		return err
	}
	for _, s := range r.Sizes {
		if s.Wire == "" {
			continue
		}
		w := r.Fit.Wire(s.Wire)
		if w == nil {
			return fmt.Errorf("size %s takes the wire %q, which the table does not have; it has %s", s.Label, s.Wire, quoted(r.Fit.wireNames()))
		}
		if own, ok := s.Pattern.Figures[FigureWire]; ok && own != w.Length {
			return fmt.Errorf("size %s takes the wire %q of %g mm and also states a wire of %g mm as a figure; take one of them out", s.Label, w.Name, w.Length, own)
		}
	}
	return nil
}

// Fitted returns the pattern of a size with the fit of the run among its
// figures.
func (r Run) Fitted(s Size) Pattern {
	p := s.Pattern
	given := map[string]float64{FigureReduction: r.Fit.Reduction, FigureFastened: r.Fit.Closure}
	if w := r.Fit.Wire(s.Wire); w != nil {
		given[FigureWire], given[FigurePlayStart], given[FigurePlayEnd] = w.Length, w.PlayStart, w.PlayEnd
	}
	maps.DeleteFunc(given, func(_ string, v float64) bool { return v == 0 })
	if len(given) == 0 {
		return p
	}
	figures := maps.Clone(p.Figures)
	if figures == nil {
		figures = given
	}
	maps.Copy(figures, given)
	p.Figures = figures
	return p
}

// SizeFits returns what is stated of each size, by its label.
func (r Run) SizeFits() map[string]SizeFit {
	fits := map[string]SizeFit{}
	for _, s := range r.Sizes {
		fits[s.Label] = SizeFit{s.Wire, s.Pattern.Figures[FigureUnderbust]}
	}
	return fits
}

// WithFit returns the run with another fit. Sizes that the map leaves out keep
// their wire and body measure. It is refused, and names the size or wire, when
// the map has a size the run lacks, when a size takes a wire the table lacks,
// or when a number cannot be.
func (r Run) WithFit(f Fit, sizes map[string]SizeFit) (Run, error) {
	for _, label := range slices.Sorted(maps.Keys(sizes)) {
		if _, ok := r.Size(label); !ok {
			return Run{}, fmt.Errorf("there is no size %q; the pattern has %s", label, quoted(r.Labels()))
		}
		if u := sizes[label].Underbust; !(u >= 0 && u <= geom.Reach) {
			return Run{}, fmt.Errorf("size %s: an underbust of %g mm is not above 0", label, u)
		}
	}
	f.Wires = slices.Clone(f.Wires)
	next := Run{Name: r.Name, Sizes: slices.Clone(r.Sizes), Fit: f}
	for i := range next.Sizes {
		s := &next.Sizes[i]
		if fit, ok := sizes[s.Label]; ok {
			s.Wire = fit.Wire
			s.Pattern.Figures = maps.Clone(s.Pattern.Figures)
			if s.Pattern.Figures == nil {
				s.Pattern.Figures = map[string]float64{}
			}
			s.Pattern.Figures[FigureUnderbust] = fit.Underbust
			if fit.Underbust == 0 {
				delete(s.Pattern.Figures, FigureUnderbust)
			}
		}
		if _, own := s.Pattern.Figures[FigureWire]; own && s.Wire != "" {
			s.Pattern.Figures = maps.Clone(s.Pattern.Figures)
			delete(s.Pattern.Figures, FigureWire) // the table says it from now on
		}
	}
	if err := next.validateFit(); err != nil {
		return Run{}, err
	}
	return next, nil
}

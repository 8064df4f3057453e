package step

import (
	"truemat/ops/pattern"
)

// Step is one alteration with its numbers. Steps are plain structs whose
// exported fields, with JSON tags, are what the file holds.
type Step interface {
	// Kind is the word by which the file and the commands call the step.
	Kind() string
	// Sentence tells in plain words what the step does.
	Sentence() string
	// Apply returns the altered pattern, or an error that says what is wrong,
	// where, and how to mend it. It must not change in.Pattern.
	Apply(in Input) (Output, error)
}

// Input is what a step is applied to.
type Input struct {
	Pattern pattern.Pattern // one size, as it is just before the step
	Size    string          // its label
	Figures Figures         // what earlier steps of this size reported
}

// Output is what a step made.
type Output struct {
	Pattern pattern.Pattern
	Map     pattern.Map
	// Figures are the step's own measures in mm (or degrees, mm²), by which
	// later steps may refer to it: "overlap", "turned_deg" …
	Figures map[string]float64
	// Notes are sentences the maker should read: what was lost, what to watch.
	Notes []string
}

// Figures holds the reported figures of earlier steps by "step id.name", and
// those of the pattern itself by "pattern.name".
type Figures map[string]float64

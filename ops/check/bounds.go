package check

import (
	"math"

	"truemat/ops/pattern"
)

// Bound is how far a measure may be off: up to Holds it holds, up to Look it
// deserves a look, beyond it is broken.
type Bound struct {
	Holds, Look float64
}

// slack is added to every bound, so that a measure that is meant to lie on it
// is not thrown over by rounding.
const slack = 1e-6

func (b Bound) Verdict(measured float64) Verdict {
	switch m := math.Abs(measured); {
	case m <= b.Holds+slack:
		return Holds
	case m <= b.Look+slack:
		return Look
	}
	return Broken
}

// least is the verdict of a measure that must not be under the bounds, of
// which Holds is the greater.
func (b Bound) Least(measured float64) Verdict {
	switch {
	case measured >= b.Holds-slack:
		return Holds
	case measured >= b.Look-slack:
		return Look
	}
	return Broken
}

// Bounds are the limits of all checks, in mm unless stated. They are common
// practice, without a published source.
type Bounds struct {
	WireLength  Bound
	WireOpening Bound // opening and depth
	WireSprings bool  // the wire's spring is known: a changed opening is not broken
	PlayLeast   float64
	PlayHolds   float64
	PlayMost    float64
	PlayOff     Bound // from the play that the wire table wants; above it only a look
	Seam        Bound
	Ease        Bound // per cent of the shorter side
	SeamEnds    Bound // how far a pressed allowance sticks out
	Kink        Bound // degrees, where a line goes from one edge to the next
	Corner      Bound // degrees, within an edge of a line
	Step        Bound
	FoldSquare  Bound // degrees from a right angle
	HemLength   Bound
	HemBody     Bound   // per cent of the body measure; one row of hooks and eyes is about 2
	Cloth       Bound   // between wire line and hem, when the pattern names no channelling and elastic
	ClothUnder  float64 // how far below channelling + elastic still only deserves a look
	Channelling float64 // when the pattern names none
	Lace        Bound
	TurnedBack  Bound // per cent by which the raw edge is too short where it is hollow
	TurnedRound Bound // per cent by which it is too long where it is round
	Closure     Bound
	Arrow       Bound // degrees
	Halves      Bound // of a piece that was on the fold
	Shortest    float64
}

// Defaults returns the bounds that apply unless the maker sets others.
func Defaults() Bounds {
	return Bounds{
		WireLength:  Bound{0.5, 1.5},
		WireOpening: Bound{5, 10},
		PlayLeast:   3, PlayHolds: 5, PlayMost: 7,
		PlayOff:     Bound{1, 3},
		Seam:        Bound{0.5, 1.5},
		Ease:        Bound{2, 3},
		SeamEnds:    Bound{0.5, 2},
		Kink:        Bound{3, 6},
		Corner:      Bound{3, 6},
		Step:        Bound{0.3, 1},
		FoldSquare:  Bound{0.5, 2},
		HemLength:   Bound{1, 6},
		HemBody:     Bound{2, 4},
		Cloth:       Bound{22, 18},
		ClothUnder:  4,
		Channelling: 10,
		Lace:        Bound{0.2, 0.5},
		TurnedBack:  Bound{10, 17},
		TurnedRound: Bound{5, 10},
		Closure:     Bound{0.5, 1},
		Arrow:       Bound{2, 5},
		Halves:      Bound{pattern.SymmetrySlack, 1.5},
		Shortest:    1,
	}
}

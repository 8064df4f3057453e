package tool

import (
	"truemat/geom"
	"truemat/ops/walk"
)

// Player is a tool that can go on by itself. While it plays the window tells
// it how much time went by and shows what it does; otherwise nothing runs.
type Player interface {
	// Playing reports whether it goes on by itself now.
	Playing() bool
	// Tick lets that many seconds go by.
	Tick(seconds float64)
}

// Layer is a tool that shows pieces elsewhere on the mat than they lie, such
// as one that rolls along another.
type Layer interface {
	// Lays gives the pose on the mat of each piece that is shown elsewhere.
	Lays() map[string]geom.Motion
}

// Tabler is a tool that compares both sides of a seam from notch to notch.
type Tabler interface {
	// Table returns the comparison as it would be; false while no seam is
	// chosen.
	Table() (walk.Table, bool)
	// Sides names the two sides by their pieces.
	Sides() [2]string
}

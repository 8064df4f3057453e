// Package tool holds the maker's tools as state machines: they are fed what
// pointer and keys do, in millimetres on the mat, and propose steps. They draw
// nothing and own nothing; the desk owns the document, the mat draws.
package tool

import (
	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Table is what a tool sees of the document: the pattern in the size shown.
type Table interface {
	Pattern() pattern.Pattern // as altered so far
	Source() pattern.Pattern  // as it came in
	Size() string
	Figures() step.Figures
	// Try applies steps after those of the recipe, in the size shown alone,
	// and keeps nothing.
	Try(steps ...step.Step) (step.Result, error)
	Selection() Selection
	Select(Selection)
}

// Selection is what is chosen on the mat; the zero value is nothing. Edge,
// Notch, Joint (the corner where Edge starts) and Inner (an inner line) narrow
// it within the piece.
type Selection struct {
	Piece string
	Edge  string
	Notch string
	Joint bool
	Inner string
}

// Tool is one of the maker's tools.
type Tool interface {
	Name() string // the word in the tray
	// Hint says in plain words what to do next.
	Hint() string
	// Pointer takes what the pointer did.
	Pointer(Event)
	// Key takes a key and reports whether the tool used it.
	Key(Key) bool
	// Fields are the numbers and choices that can be typed or picked now.
	Fields() []Field
	// Set takes what was typed or picked for a field; an error is a sentence.
	Set(field, text string) error
	// Proposal is what accepting would do; none while something is missing.
	Proposal() []step.Step
	// Overlay is what the tool shows over the mat.
	Overlay() Overlay
	// Reset drops what was begun, as Escape does; it reports whether there
	// was anything to drop.
	Reset() bool
}

// Event is what the pointer did.
type Event struct {
	Act   Act
	At    geom.Point // on the mat, mm
	Reach float64    // mm within which a thing counts as pointed at
	Shift bool
	Ctrl  bool
}

// Act is a kind of event.
type Act int

// The acts of a pointer. A drag begins with a press and ends with a release.
const (
	Hover Act = iota
	Press
	Drag
	Release
	Double
)

// Key is a key that tools know. Arrow keys nudge.
type Key struct {
	Name  KeyName
	Step  float64 // mm, for arrows: 1, or 0.1 and 10 with the modifiers; parts of an inch where these are read
	Count float64 // of what is no length, such as degrees or per cent: 1, or 0.1 and 10
}

// KeyName names a key.
type KeyName string

// The keys that tools know. Enter accepts and Escape resets before a tool is
// asked; Next and Previous walk through what can be chosen.
const (
	Left     KeyName = "left"
	Right    KeyName = "right"
	Up       KeyName = "up"
	Down     KeyName = "down"
	Next     KeyName = "next"
	Previous KeyName = "previous"
	Choose   KeyName = "choose" // space: take what is pointed at
	Delete   KeyName = "delete"
)

// Field is a number or a choice of a tool.
type Field struct {
	Name    string   // for Set
	Label   string   // for the person
	Text    string   // as it is now, with its unit
	Options []string // to pick from; free text when empty
	Wants   string   // what is to be written into it, told while it is blank
	Seldom  bool     // needed seldom: gives way where there are many
	Turns   bool     // chooses which other fields there are: has a place of its own
}

// Overlay is drawn over the mat, in mat coordinates (mm).
type Overlay struct {
	Strokes []Stroke
	Dots    []Dot
	Notes   []Note
	Signs   []Sign
}

// Stroke is a line of an overlay.
type Stroke struct {
	Path  geom.Path
	Style Style
}

// Dot marks a place.
type Dot struct {
	At    geom.Point
	Style Style
}

// Sign numbers a place that is to be pressed, among others.
type Sign struct {
	At   geom.Point
	Text string // a letter or two
}

// Note is a short text at a place, such as a live measure.
type Note struct {
	At   geom.Point
	Text string
}

// OfPiece stands in a note between the name of a piece and what is told of it;
// such a note stands on the piece, as its name does.
const OfPiece = " · "

// Style says what a mark of an overlay stands for; the mat decides how it looks.
type Style int

// The styles of overlay marks.
const (
	Pointed  Style = iota // what the pointer is over
	Chosen                // what was chosen
	Guide                 // a datum or a helping line
	Handle                // can be dragged
	Pin                   // stays put
	Good                  // touches, fits, snaps
	Poor                  // gap or overlap, does not fit
	Measured              // a way that is measured, neither good nor poor
)

package render

import (
	"image/color"

	"truemat/geom"
)

// Scene is a drawing at true size: figures and labels in mm, y up. Layers are
// drawn in order.
type Scene struct {
	Box     geom.Box // what the drawing covers, pens and labels included
	Figures []Figure
	Labels  []Label
}

// Figure is a path drawn with a pen, or filled, or both.
type Figure struct {
	Path geom.Path
	Pen  Pen         // no stroke when Width is 0
	Fill color.NRGBA // no fill when A is 0
}

// Pen is how a line is drawn; widths and dashes in mm.
type Pen struct {
	Width float64
	Color color.NRGBA
	Dash  []float64
}

// Label is text in the embedded typeface.
type Label struct {
	Text   string
	At     geom.Point // on the baseline, at the place Anchor names
	Height float64    // of capitals, in mm
	Angle  geom.Angle
	Anchor Anchor
	Color  color.NRGBA
	Bold   bool
}

// Anchor says which place of a label lies at its point.
type Anchor int

// The anchors of a label.
const (
	Left Anchor = iota
	Middle
	Right
)

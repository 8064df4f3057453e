package render

import (
	"image/color"

	"truemat/geom"
)

// Scene is a drawing at true size in mm, y up. Its layers are drawn in order.
type Scene struct {
	Box    geom.Box // what the drawing covers, pens and labels included
	Layers []Layer
	Told   string // what an SVG says of the pattern, see [Layer]
}

// Layer is a named part of a scene, such as a piece or a size: a group in an
// SVG, a switchable layer in a PDF that holds several sizes.
type Layer struct {
	Name    string
	Figures []Figure
	Labels  []Label // drawn over the figures
	// Told is what an SVG says of the piece in words of the model, as JSON, so
	// that the drawing can be brought back in; no other output has it.
	Told string
}

// Kind says what a figure stands for.
type Kind string

// The kinds of figure.
const (
	CutLine    Kind = "cut-line"
	SewLine    Kind = "sew-line"
	FoldLine   Kind = "fold-line"
	NotchMark  Kind = "notch"
	InnerLine  Kind = "inner-line"
	ArrowLine  Kind = "arrow"
	FoldSign   Kind = "fold-bracket"
	ApexSign   Kind = "apex"
	GhostLine  Kind = "ghost"
	Backing    Kind = "backing"   // white under a label
	Sample     Kind = "sample"    // a piece of line beside its explanation
	JoinMark   Kind = "join-mark" // what pages are joined by
	TestSquare Kind = "test-square"
	Furniture  Kind = "furniture" // other lines of a page
)

// Figure is a path drawn with a pen, or filled, or both.
type Figure struct {
	Kind Kind
	Name string // of the edge or inner line of which it is all, for an SVG; may be empty
	Path geom.Path
	Pen  Pen         // no stroke when Width is 0
	Fill color.NRGBA // no fill when A is 0
}

// Pen is how a line is drawn; widths and dashes in mm.
type Pen struct {
	Width float64
	Color color.NRGBA
	Dash  []float64 // drawn, left out, drawn …; solid when empty
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

// start returns where the baseline of l begins.
func (l Label) start() geom.Point {
	switch l.Anchor {
	case Middle:
		return l.At.Sub(l.Angle.Unit().Mul(TextWidth(l.Text, l.Height, l.Bold) / 2))
	case Right:
		return l.At.Sub(l.Angle.Unit().Mul(TextWidth(l.Text, l.Height, l.Bold)))
	}
	return l.At
}

// descent is how far letters reach below the baseline, as a share of the
// height of capitals.
const descent = 0.3

// ascent is how far small letters such as l reach above capitals, as a share
// of their height.
const ascent = 0.08

// quad returns the corners of the area that l covers, widened by gap mm.
func (l Label) quad(gap float64) [4]geom.Point {
	u := l.Angle.Unit()
	v := u.Perp()
	a := l.start().Sub(u.Mul(gap)).Sub(v.Mul(descent*l.Height + gap))
	w := TextWidth(l.Text, l.Height, l.Bold) + 2*gap
	h := (1+descent+ascent)*l.Height + 2*gap
	return [4]geom.Point{a, a.Add(u.Mul(w)), a.Add(u.Mul(w)).Add(v.Mul(h)), a.Add(v.Mul(h))}
}

// Transform returns the layer moved by a motion that does not mirror.
func (l Layer) Transform(m geom.Motion) Layer {
	turn, _, _ := m.Parts()
	r := Layer{Name: l.Name, Figures: make([]Figure, len(l.Figures)), Labels: make([]Label, len(l.Labels))}
	for i, f := range l.Figures {
		f.Path = f.Path.Transform(m)
		r.Figures[i] = f
	}
	for i, t := range l.Labels {
		t.At = m.Apply(t.At)
		t.Angle += turn
		r.Labels[i] = t
	}
	return r
}

// The inks of drawings. Every one has a contrast of at least 3:1 on white,
// those for text at least 4.5:1 (WCAG 2).
var (
	black = color.NRGBA{A: 255}
	dark  = color.NRGBA{R: 0x40, G: 0x40, B: 0x40, A: 255}
	grey  = color.NRGBA{R: 0x6a, G: 0x6a, B: 0x6a, A: 255}
	faint = color.NRGBA{R: 0x90, G: 0x90, B: 0x90, A: 255}
	white = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
)

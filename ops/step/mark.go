package step

import (
	"fmt"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("mark", func() Step { return &Mark{} }) }

// MarkHeight is the height of a mark's capitals in mm when none is given:
// large enough to be read across a table.
const MarkHeight = 12

// Mark writes a large text on pieces, so that they are not taken for the
// original, and may change how they are cut. The writing goes to the middle of
// the piece unless At says otherwise; where the middle lies outside, as on a
// hollow piece, to the widest place beside it. Several marks on a piece stand
// one below the other.
type Mark struct {
	Piece  string      `json:"piece,omitempty"`  // one piece
	Pieces []string    `json:"pieces,omitempty"` // or several
	Text   string      `json:"text,omitempty"`
	At     *geom.Point `json:"at,omitempty"` // in the piece's coordinates
	Height Number      `json:"height,omitzero"`
	// Count, Pair, Layers and Cloth change how the pieces are cut.
	Count  int     `json:"count,omitempty"`
	Pair   *bool   `json:"pair,omitempty"`
	Layers int     `json:"layers,omitempty"`
	Cloth  *string `json:"cloth,omitempty"`
}

// Kind returns "mark".
func (m *Mark) Kind() string { return "mark" }

// Sentence tells what the step does.
func (m *Mark) Sentence() string {
	names, _ := oneOrMore("piece", m.Piece, m.Pieces)
	var does []string
	if m.Text != "" {
		does = append(does, fmt.Sprintf("write %q on %s", m.Text, words(names)))
	}
	if m.cuts() {
		does = append(does, "set how often and from what "+words(names)+" is cut")
	}
	if len(does) == 0 {
		does = []string{"mark nothing"}
	}
	return sentence(words(does))
}

func (m *Mark) cuts() bool { return m.Count != 0 || m.Pair != nil || m.Layers != 0 || m.Cloth != nil }

// Apply writes the mark and sets the cut.
func (m *Mark) Apply(in Input) (Output, error) {
	names, err := oneOrMore("piece", m.Piece, m.Pieces)
	if err != nil {
		return Output{}, err
	}
	switch {
	case m.Text == "" && !m.cuts():
		return Output{}, fmt.Errorf("nothing is to be written on %s; give a \"text\", or how it is cut", words(names))
	case m.Text != "" && strings.TrimSpace(m.Text) == "":
		return Output{}, fmt.Errorf("the text for %s is blank; write a word", words(names))
	case m.Text == "" && (m.At != nil || !isNought(m.Height)):
		return Output{}, fmt.Errorf("a place or height is given for %s but no \"text\"", words(names))
	case m.At != nil && len(names) > 1:
		return Output{}, fmt.Errorf("one place cannot serve %s; mark them one by one, or leave out \"at\"", words(names))
	case m.At != nil && !m.At.Finite():
		return Output{}, fmt.Errorf("the place (%g, %g) for %q is beyond every piece", m.At.X, m.At.Y, m.Text)
	case m.Count < 0 || m.Layers < 0:
		return Output{}, fmt.Errorf("%s cannot be cut %d times in %d layers; give numbers above 0", words(names), m.Count, m.Layers)
	}
	p := in.Pattern.Clone()
	for _, name := range names {
		pc, err := pieceIn(p, name)
		if err != nil {
			return Output{}, err
		}
		if err := m.cut(pc); err != nil {
			return Output{}, err
		}
		if err := m.write(pc, in); err != nil {
			return Output{}, err
		}
	}
	return Output{Pattern: p}, nil
}

func (m *Mark) cut(pc *pattern.Piece) error {
	if m.Count != 0 {
		pc.Cut.Count = m.Count
	}
	if m.Layers != 0 {
		pc.Cut.Layers = m.Layers
	}
	if m.Cloth != nil {
		pc.Cut.Cloth = *m.Cloth
	}
	if m.Pair != nil {
		if *m.Pair && pc.Fold() != nil {
			return fmt.Errorf("%s is cut on the fold and cannot be a pair; leave out \"pair\"", pc.Name)
		}
		pc.Cut.Pair = *m.Pair
	}
	return nil
}

func (m *Mark) write(pc *pattern.Piece, in Input) error {
	if m.Text == "" {
		return nil
	}
	if slices.ContainsFunc(pc.Marks, func(o pattern.Mark) bool { return o.Text == m.Text }) {
		return fmt.Errorf("%s already carries the mark %q; one is enough", pc.Name, m.Text)
	}
	height := float64(MarkHeight)
	if !isNought(m.Height) {
		h, err := m.Height.In(in)
		if err != nil {
			return err
		}
		if !(h > 0 && h <= maxMarkHeight) {
			return fmt.Errorf("a mark %.4g mm high on %s is not between 0 and %d mm", h, pc.Name, maxMarkHeight)
		}
		height = h
	}
	at := m.At
	if at == nil {
		o, err := pc.Outline()
		if err != nil {
			return err
		}
		free := below(middle(o), height, pc.Marks)
		at = &free
	}
	pc.Marks = append(pc.Marks, pattern.Mark{Text: m.Text, At: *at, Height: height})
	return nil
}

// maxMarkHeight bounds the height of a mark, in mm.
const maxMarkHeight = 500

// middle returns the centre of gravity of an outline when it lies inside,
// else the middle of the widest stretch inside at its height or, when there is
// none, across its upright.
func middle(outline geom.Path) geom.Point {
	c := outline.Centroid()
	if outline.Contains(c) {
		return c
	}
	for _, dir := range []geom.Point{geom.Pt(1, 0), geom.Pt(0, 1)} {
		across := geom.Line{Point: c, Dir: dir}
		var along []float64
		for _, x := range outline.CrossLine(c, dir) {
			along = append(along, across.Along(x.Point))
		}
		slices.Sort(along)
		best, width := geom.Point{}, 0.0
		for i := 1; i < len(along); i++ {
			m := across.At((along[i-1] + along[i]) / 2)
			if w := along[i] - along[i-1]; w > width && outline.Contains(m) {
				best, width = m, w
			}
		}
		if width > 0 {
			return best
		}
	}
	return c
}

// below moves a place down until writing of that height there stands clear of
// the marks there are.
func below(at geom.Point, height float64, marks []pattern.Mark) geom.Point {
	for range len(marks) {
		for _, o := range marks {
			clear := lineSpacing * (height + o.Height) / 2
			if at.Dist(o.At) < clear {
				at = geom.Pt(at.X, o.At.Y-clear)
			}
		}
	}
	return at
}

// lineSpacing is the distance of two lines of writing, in heights of capitals.
const lineSpacing = 1.5

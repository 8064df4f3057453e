package pattern

import (
	"fmt"
	"slices"

	"truemat/geom"
)

// Run is a pattern in its sizes, the first of which is the one shown first.
type Run struct {
	Name  string `json:"name"`
	Sizes []Size `json:"sizes"`
	Fit   Fit    `json:"fit,omitzero"`
}

// Size is one size of a run.
type Size struct {
	Label   string  `json:"label"`
	Band    string  `json:"band,omitempty"`
	Cup     string  `json:"cup,omitempty"`
	Wire    string  `json:"wire,omitempty"` // its name in the table of the fit
	Pattern Pattern `json:"pattern"`
}

// Size returns the size with that label.
func (r Run) Size(label string) (Size, bool) {
	for _, s := range r.Sizes {
		if s.Label == label {
			return s, true
		}
	}
	return Size{}, false
}

// Labels returns the labels of the sizes in their order.
func (r Run) Labels() []string {
	labels := make([]string, len(r.Sizes))
	for i, s := range r.Sizes {
		labels[i] = s.Label
	}
	return labels
}

// Pattern is the set of pieces of one size with what joins them.
type Pattern struct {
	Pieces []Piece `json:"pieces"`
	Seams  []Seam  `json:"seams,omitempty"`
	Lines  []Line  `json:"lines,omitempty"`
	// Figures are measures that come with the size, in mm: see the Figure
	// constants.
	Figures map[string]float64 `json:"figures,omitempty"`
}

// Names of figures that checks and steps know.
const (
	FigureWire        = "wire"        // length of the wire, along it
	FigureClosure     = "closure"     // height of the bought closure
	FigureUnderbust   = "underbust"   // body measure under the bust
	FigureChannelling = "channelling" // width of the wire channelling
	FigureElastic     = "elastic"     // width of the hem elastic
)

// Clone returns a copy that shares no slice or map with p.
func (p Pattern) Clone() Pattern {
	q := Pattern{
		Pieces: slices.Clone(p.Pieces),
		Seams:  slices.Clone(p.Seams),
		Lines:  slices.Clone(p.Lines),
	}
	for i := range q.Pieces {
		q.Pieces[i] = q.Pieces[i].Clone()
	}
	for i := range q.Seams {
		q.Seams[i].A = slices.Clone(q.Seams[i].A)
		q.Seams[i].B = slices.Clone(q.Seams[i].B)
		q.Seams[i].Stretches = slices.Clone(q.Seams[i].Stretches)
	}
	for i := range q.Lines {
		q.Lines[i].Parts = slices.Clone(q.Lines[i].Parts)
	}
	if p.Figures != nil {
		q.Figures = make(map[string]float64, len(p.Figures))
		for k, v := range p.Figures {
			q.Figures[k] = v
		}
	}
	return q
}

// Piece returns a pointer to the piece of that name in p, or nil.
func (p Pattern) Piece(name string) *Piece {
	for i := range p.Pieces {
		if p.Pieces[i].Name == name {
			return &p.Pieces[i]
		}
	}
	return nil
}

// Edge returns the piece and edge of those names, or nils.
func (p Pattern) Edge(piece, edge string) (*Piece, *Edge) {
	pc := p.Piece(piece)
	if pc == nil {
		return nil, nil
	}
	return pc, pc.Edge(edge)
}

// Seam returns a pointer to the seam of that name in p, or nil.
func (p Pattern) Seam(name string) *Seam {
	for i := range p.Seams {
		if p.Seams[i].Name == name {
			return &p.Seams[i]
		}
	}
	return nil
}

// Line returns a pointer to the line of that name in p, or nil.
func (p Pattern) Line(name string) *Line {
	for i := range p.Lines {
		if p.Lines[i].Name == name {
			return &p.Lines[i]
		}
	}
	return nil
}

// LineWords calls a line by its name, and tells from where to where it runs when
// an edge is called so as well: "hem from fold to closure".
func (p Pattern) LineWords(line string) string {
	for i := range p.Pieces {
		if p.Pieces[i].Edge(line) == nil {
			continue
		}
		l := p.Line(line)
		if l == nil || len(l.Parts) == 0 {
			return line
		}
		from, to := p.meets(l.Parts[0].Backwards()), p.meets(l.Parts[len(l.Parts)-1])
		if from == "" || to == "" || from == to {
			return line + " over all pieces"
		}
		return fmt.Sprintf("%s from %s to %s", line, from, to)
	}
	return line
}

// meets names what a part ends at, the fold and the closure by what they are;
// "" when it ends within its edge.
func (p Pattern) meets(pt Part) string {
	pc, e := p.Edge(pt.Piece, pt.Edge)
	if e == nil || pt.To != 0 && pt.To != 1 {
		return ""
	}
	i := pc.EdgeIndex(e.Name)
	next := &pc.Edges[pc.Next(i)]
	if pt.To == 0 {
		next = &pc.Edges[pc.Prev(i)]
	}
	if next.Role == Fold || next.Role == Closure {
		return string(next.Role)
	}
	return next.Name
}

// Piece is one closed outline of edges with what is drawn on it, stored once,
// right side up, as the wearer's left, centre front to the left.
type Piece struct {
	Name string `json:"name"`
	// Edges run counter-clockwise; each starts where the one before it ends.
	Edges   []Edge      `json:"edges"`
	Notches []Notch     `json:"notches,omitempty"`
	Inner   []Inner     `json:"inner,omitempty"`
	Marks   []Mark      `json:"marks,omitempty"`
	Arrow   Arrow       `json:"arrow"`
	Cut     Cut         `json:"cut"`
	Pose    geom.Motion `json:"pose"`
	// Begun is of a piece that was begun here as a plain shape: nobody can take
	// what is made of it for an older pattern.
	Begun bool `json:"begun,omitempty"`
}

// Clone returns a copy that shares no slice with pc.
func (pc Piece) Clone() Piece {
	pc.Edges = slices.Clone(pc.Edges)
	pc.Notches = slices.Clone(pc.Notches)
	pc.Inner = slices.Clone(pc.Inner)
	pc.Marks = slices.Clone(pc.Marks)
	return pc
}

// Edge returns a pointer to the edge of that name in pc, or nil.
func (pc *Piece) Edge(name string) *Edge {
	if i := pc.EdgeIndex(name); i >= 0 {
		return &pc.Edges[i]
	}
	return nil
}

// EdgeIndex returns the place of the edge of that name in the outline, or −1.
func (pc *Piece) EdgeIndex(name string) int {
	return slices.IndexFunc(pc.Edges, func(e Edge) bool { return e.Name == name })
}

// Next returns the index of the edge after edge i, Prev of the one before.
func (pc *Piece) Next(i int) int { return (i + 1) % len(pc.Edges) }

// Prev returns the index of the edge before edge i.
func (pc *Piece) Prev(i int) int { return (i + len(pc.Edges) - 1) % len(pc.Edges) }

// Meets names the edge that another meets at one of its ends; "" where that
// does not tell the end, or there is no such edge.
func (pc *Piece) Meets(edge string, end EndName) string {
	i := pc.EdgeIndex(edge)
	if i < 0 {
		return ""
	}
	before, after := pc.Edges[pc.Prev(i)].Name, pc.Edges[pc.Next(i)].Name
	switch {
	case before == after:
		return ""
	case end == Start:
		return before
	}
	return after
}

// Notch returns a pointer to the notch of that name in pc, or nil.
func (pc *Piece) Notch(name string) *Notch {
	for i := range pc.Notches {
		if pc.Notches[i].Name == name {
			return &pc.Notches[i]
		}
	}
	return nil
}

// InnerLine returns the inner line with that name, nil when there is none.
func (pc *Piece) InnerLine(name string) *Inner {
	for i := range pc.Inner {
		if pc.Inner[i].Name == name {
			return &pc.Inner[i]
		}
	}
	return nil
}

// Outline returns the sew line as one closed path.
func (pc *Piece) Outline() (geom.Path, error) {
	paths := make([]geom.Path, len(pc.Edges))
	for i, e := range pc.Edges {
		paths[i] = e.Path
	}
	return geom.JoinClosed(paths...)
}

// Fold returns the edge on the fold of the cloth, or nil when the piece is
// not cut on a fold.
func (pc *Piece) Fold() *Edge {
	for i := range pc.Edges {
		if pc.Edges[i].Role == Fold {
			return &pc.Edges[i]
		}
	}
	return nil
}

// Altered reports whether the piece carries a mark that says it was altered.
func (pc *Piece) Altered() bool { return len(pc.Marks) > 0 }

// Arrow shows the grain or the direction of greatest stretch on a piece.
type Arrow struct {
	Kind ArrowKind  `json:"kind"`
	From geom.Point `json:"from"`
	To   geom.Point `json:"to"`
}

// ArrowKind says what an arrow shows.
type ArrowKind string

// The kinds of arrow.
const (
	Grain        ArrowKind = "grain"
	MostStretch  ArrowKind = "greatest-stretch"
	LeastStretch ArrowKind = "least-stretch"
)

var arrowKinds = []ArrowKind{Grain, MostStretch, LeastStretch}

// Inner is a line inside a piece, moving with it.
type Inner struct {
	Name string    `json:"name"`
	Kind InnerKind `json:"kind"`
	Path geom.Path `json:"path"`
}

// InnerKind says what an inner line stands for.
type InnerKind string

// The kinds of inner line.
const (
	Drawn    InnerKind = "drawn"     // drawn by the maker
	OldJoint InnerKind = "old-joint" // where two pieces were taped
	OldNotch InnerKind = "old-notch" // a notch whose edge is no more
	OldArrow InnerKind = "old-arrow" // the arrow of a piece taped on
	OldFold  InnerKind = "old-fold"  // where a whole piece was on the fold: both halves are meant to be alike
)

// ArrowOf names the inner line that keeps the arrow of a piece taped on.
func ArrowOf(piece string) string { return "arrow of " + piece }

var innerKinds = []InnerKind{Drawn, OldJoint, OldNotch, OldArrow, OldFold}

// Mark is large writing on a piece, so that it is not taken for the original.
type Mark struct {
	Text   string     `json:"text"`
	At     geom.Point `json:"at"`     // middle of the writing
	Height float64    `json:"height"` // of capitals, in mm
}

// Cut says how often and from what a piece is cut.
type Cut struct {
	Count  int    `json:"count"`            // pieces, or pairs when Pair
	Pair   bool   `json:"pair,omitempty"`   // also cut mirrored
	Layers int    `json:"layers,omitempty"` // 0 counts as 1
	Cloth  string `json:"cloth,omitempty"`
}

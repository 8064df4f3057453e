package step

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

func init() { register("fold", func() Step { return &Fold{} }) }

// Fold makes a half piece on the fold out of a whole one that is symmetric
// about an axis: an inner line, or the line from a spot of the outline to
// another. It is the reverse of Unfold.
//
// The half left of the axis in its direction is kept as it is, or that right
// of it. The other half goes, and must be its mirror image: outline within
// Tolerance, allowances, roles and notches alike. Seams and lines of the other
// half are those of the mirrored hand; where they only say what those of the
// kept half say, they go. Inner lines and marks of the other half are drawn on
// the kept one.
type Fold struct {
	Piece string `json:"piece"`
	// Along is the inner line along which the piece is folded; or From and To
	// are spots on its outline.
	Along string        `json:"along,omitempty"`
	From  *pattern.Spot `json:"from,omitempty"`
	To    *pattern.Spot `json:"to,omitempty"`
	// Keep is the half kept, left or right of the axis in its direction; left
	// when empty.
	Keep string `json:"keep,omitempty"`
	// Name is that of the edge on the fold; when empty that of the inner line,
	// else "fold".
	Name string `json:"name,omitempty"`
	// Tolerance is how far the halves may be from lying on each other, in mm;
	// half a millimetre when not given.
	Tolerance *Number `json:"tolerance,omitempty"`
}

// Kind returns "fold".
func (f *Fold) Kind() string { return "fold" }

// Sentence tells what the step does.
func (f *Fold) Sentence() string {
	axis := "along " + f.Along
	if f.From != nil && f.To != nil {
		axis = fmt.Sprintf("from %s to %s", spotOn(*f.From, f.Piece), spotOn(*f.To, f.Piece))
	}
	return sentence(fmt.Sprintf("fold %s %s and keep one half, on the fold", f.Piece, axis))
}

// Apply folds. It reports greatest_deviation, by how much at most the halves
// miss each other in mm; area_mm2, that of the half; and arrow_deg, the angle
// between arrow and fold, 0 to 90.
func (f *Fold) Apply(in Input) (Output, error) {
	tolerance, err := f.tolerance(in)
	if err != nil {
		return Output{}, err
	}
	h, err := f.halves(in.Pattern, tolerance)
	if err != nil {
		return Output{}, err
	}
	off, edge, err := h.pc.Asymmetry(h.a, h.b)
	if err != nil {
		return Output{}, err
	}
	if off > tolerance {
		return Output{}, fmt.Errorf("the halves of %s do not lie on each other: at %s they are %s apart, over the %.4g mm allowed; make both alike first, or choose another line", f.Piece, edge, unit.MM(off), tolerance)
	}
	name, err := f.foldName(h)
	if err != nil {
		return Output{}, err
	}
	if err := h.cut(name); err != nil {
		return Output{}, err
	}
	m, err := h.edgeMap(tolerance)
	if err != nil {
		return Output{}, err
	}
	if err := h.checkNotches(tolerance); err != nil {
		return Output{}, err
	}
	half := h.half(name)
	if err := checkOutline(h.pc, &half); err != nil {
		return Output{}, fmt.Errorf("folded, %w", err)
	}
	old := in.Pattern.Clone()
	notes := h.strip(old.Piece(f.Piece), f.Along, name, tolerance)
	next := in.Pattern.Clone()
	*next.Piece(f.Piece) = half
	p, carried, err := pattern.Carry(old, next, m)
	if err != nil {
		return Output{}, err
	}
	withoutOtherHand(&p, f.Piece)
	now := p.Piece(f.Piece)
	notes = append(carried.Notes, notes...)
	angle := h.arrow(now)
	if angle > arrowSlack && angle < 90-arrowSlack {
		notes = append(notes, fmt.Sprintf("The arrow of %s lies at %.1f° to the fold; cloth folded along its arrow or square to it cannot be cut so. Cut it whole instead.", f.Piece, angle))
	}
	if off > visibleDeviation {
		notes = append(notes, fmt.Sprintf("The half that goes differed from the kept one by up to %s, at %s; now both are as the kept one.", unit.MM(off), edge))
	}
	return Output{
		Pattern: p,
		Map:     m,
		Figures: map[string]float64{"greatest_deviation": off, "area_mm2": now.Area(), "arrow_deg": angle},
		Notes:   notes,
	}, nil
}

const (
	// arrowSlack is the angle in degrees by which an arrow may lie off the
	// fold, or off square to it (common practice).
	arrowSlack = 1
	// visibleDeviation is the least deviation in mm worth telling.
	visibleDeviation = 0.01
)

// Deviation returns by how much at most, in mm, the halves of the piece miss
// each other, and the edge on which that is; it does so too where they are too
// far apart to be folded.
func (f *Fold) Deviation(in Input) (mm float64, edge string, err error) {
	tolerance, err := f.tolerance(in)
	if err != nil {
		return 0, "", err
	}
	h, err := f.halves(in.Pattern, tolerance)
	if err != nil {
		return 0, "", err
	}
	return h.pc.Asymmetry(h.a, h.b)
}

func (f *Fold) tolerance(in Input) (float64, error) {
	if f.Tolerance == nil {
		return pattern.SymmetrySlack, nil
	}
	t, err := f.Tolerance.In(in)
	if err == nil && !(t >= 0 && t <= mostTolerance) {
		err = fmt.Errorf("a tolerance of %.4g mm is not between 0 and %d mm", t, mostTolerance)
	}
	return t, err
}

// mostTolerance bounds the tolerance of a fold, in mm.
const mostTolerance = 10

// halves is a whole piece to be folded, the kept half left of the way from a
// to b.
type halves struct {
	pc   *pattern.Piece
	o    *outline
	a, b pattern.Place
	over geom.Motion // across the axis
	axis geom.Line   // from a to b
	// The runs of the outline from b to a, which are kept, and from a to b.
	kept, gone []int
}

func (f *Fold) halves(p pattern.Pattern, tolerance float64) (*halves, error) {
	pc, err := pieceIn(p, f.Piece)
	switch {
	case err != nil:
		return nil, err
	case pc.Fold() != nil:
		return nil, fmt.Errorf("%s is on the fold already; unfold it first to fold it along another line", f.Piece)
	case pc.Cut.Pair:
		return nil, fmt.Errorf("%s is cut in pairs, which a fold cannot give; set it to be cut single first (step mark, \"pair\": false)", f.Piece)
	case (f.Along != "") == (f.From != nil && f.To != nil) || (f.From == nil) != (f.To == nil):
		return nil, fmt.Errorf("say where %s is folded: by \"along\", an inner line, or by the spots \"from\" and \"to\"", f.Piece)
	case f.Keep != "" && f.Keep != "left" && f.Keep != "right":
		return nil, fmt.Errorf("the half kept is \"left\" or \"right\" of the fold line in its direction, not %q", f.Keep)
	}
	r := newRedraw(p)
	o, err := r.piece(f.Piece)
	if err != nil {
		return nil, err
	}
	h := &halves{pc: pc, o: o}
	if f.Along != "" {
		h.a, h.b, err = alongInner(pc, f.Along, tolerance)
	} else if h.a, err = o.find(*f.From); err == nil {
		h.b, err = o.find(*f.To)
	}
	if err != nil {
		return nil, err
	}
	if f.Keep == "right" {
		h.a, h.b = h.b, h.a
	}
	if h.axis, err = geom.NewLine(h.a.Point, h.b.Point); err != nil {
		return nil, fmt.Errorf("the fold of %s needs two different places on its outline", f.Piece)
	}
	if h.over, err = geom.Mirror(h.a.Point, h.b.Point); err != nil {
		return nil, err
	}
	return h, nil
}

// alongInner returns where a straight inner line, run on, divides a piece.
func alongInner(pc *pattern.Piece, name string, tolerance float64) (a, b pattern.Place, err error) {
	in := pc.InnerLine(name)
	if in == nil {
		return a, b, fmt.Errorf("%s has no inner line %q; it has %s", pc.Name, name, quotedList(innerNames(pc)))
	}
	chord, err := geom.Polyline(in.Path.Start(), in.Path.End())
	if err != nil {
		return a, b, fmt.Errorf("inner line %q of %s ends where it starts; a fold is straight", name, pc.Name)
	}
	if bent, _ := in.Path.Farthest(chord); bent > max(tolerance, placeSlack) {
		return a, b, fmt.Errorf("inner line %q of %s is bent by %s; a fold is straight", name, pc.Name, unit.MM(bent))
	}
	l, err := geom.NewLine(in.Path.Start(), in.Path.End())
	if err != nil {
		return a, b, err
	}
	return pc.Axis(l, max(tolerance, placeSlack))
}

func innerNames(pc *pattern.Piece) []string {
	names := make([]string, len(pc.Inner))
	for i := range pc.Inner {
		names[i] = pc.Inner[i].Name
	}
	return names
}

func (f *Fold) foldName(h *halves) (string, error) {
	name := f.Name
	if name == "" {
		name = f.Along
	}
	if name == "" {
		name = "fold"
	}
	if h.pc.Edge(name) != nil {
		return "", fmt.Errorf("%s has an edge %q already; give the fold another name by \"name\"", f.Piece, name)
	}
	return name, nil
}

// cut makes joints at both ends of the axis and tells the runs of both halves.
func (h *halves) cut(fold string) error {
	i, n, err := h.o.between(h.b, h.a)
	if err != nil {
		return err
	}
	for range n {
		h.kept = append(h.kept, i)
		i = h.o.next(i)
	}
	for range len(h.o.runs) - n {
		h.gone = append(h.gone, i)
		i = h.o.next(i)
	}
	first, last := &h.o.runs[h.kept[0]].edge, &h.o.runs[h.kept[n-1]].edge
	if first != last && first.Name == last.Name {
		last.Name += " after " + fold
	}
	return nil
}

// half returns the half piece: the kept edges, and the fold where the others
// stood in the list.
func (h *halves) half(name string) pattern.Piece {
	made := h.pc.Clone()
	made.Edges = nil
	a, b := h.o.runs[h.kept[len(h.kept)-1]].edge.Path.End(), h.o.runs[h.kept[0]].edge.Path.Start()
	fold := pattern.Edge{Name: name, Role: pattern.Fold, Path: geom.Must(geom.Polyline(a, b)), Corner: alikeCorner(h.o.runs[h.gone[0]].edge.Corner)}
	at := h.gone[0]
	if h.gone[len(h.gone)-1] < at { // they run over the end of the list
		at = len(h.o.runs)
	}
	isKept := map[int]bool{}
	for _, i := range h.kept {
		isKept[i] = true
	}
	for i := range h.o.runs {
		if i == at {
			made.Edges = append(made.Edges, fold)
		}
		if isKept[i] {
			e := h.o.runs[i].edge
			if i == h.kept[0] {
				e.Corner = alikeCorner(e.Corner)
			}
			made.Edges = append(made.Edges, e)
		}
	}
	if at == len(h.o.runs) {
		made.Edges = append(made.Edges, fold)
	}
	return made
}

// arrow brings the arrow of the half onto it and returns its angle to the fold
// in degrees, 0 to 90.
func (h *halves) arrow(now *pattern.Piece) float64 {
	if h.axis.Distance(now.Arrow.From.Lerp(now.Arrow.To, 0.5)) < 0 {
		now.Arrow.From, now.Arrow.To = h.over.Apply(now.Arrow.From), h.over.Apply(now.Arrow.To)
	}
	deg := math.Abs(geom.Between(h.axis.Dir, now.Arrow.To.Sub(now.Arrow.From)).Degrees())
	return min(deg, 180-deg)
}

// Axis returns the ends of the fold in the piece's coordinates, the kept half
// left of the way from a to b.
func (f *Fold) Axis(in Input) (a, b geom.Point, err error) {
	tolerance, err := f.tolerance(in)
	if err != nil {
		return a, b, err
	}
	h, err := f.halves(in.Pattern, tolerance)
	if err != nil {
		return a, b, err
	}
	return h.a.Point, h.b.Point, nil
}

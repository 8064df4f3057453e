package pattern

import (
	"fmt"

	"truemat/geom"
)

// The least and the greatest width and height of a plain piece, in mm.
const (
	MinPlain = 1
	MaxPlain = 5000
)

const (
	// plainArrow is how much of a plain piece its arrow runs along, and
	// plainArrowMost its greatest length in mm.
	plainArrow     = 0.6
	plainArrowMost = 80
)

// Plain is a rectangle to be cut by its measures: a strip, a strap, a band, or
// the first shape of a piece that is drafted from there.
type Plain struct {
	Name          string
	Width, Height float64 // in mm, of the sew line; on the fold, of the half
	Allowance     float64 // in mm, of all edges but the fold
	// Fold says that its left edge lies on the fold of the cloth.
	Fold bool
	Cut  Cut // its count 1 when 0
	// Arrow is what the arrow shows, the grain when empty. It points up, or with
	// Across to the right.
	Arrow  ArrowKind
	Across bool
}

// Piece returns the piece with its lower left corner in the origin. Its edges
// are left (or fold), bottom, right and top, seams that have no partner yet. An
// error says which measure cannot be.
func (r Plain) Piece() (Piece, error) {
	if err := checkName("the piece", r.Name); err != nil {
		return Piece{}, err
	}
	for _, m := range []struct {
		what string
		mm   float64
	}{{"wide", r.Width}, {"high", r.Height}} {
		if !(m.mm >= MinPlain && m.mm <= MaxPlain) {
			return Piece{}, fmt.Errorf("%s cannot be %.4g mm %s; between %d mm and %d mm are possible", r.Name, m.mm, m.what, MinPlain, MaxPlain)
		}
	}
	switch {
	case !(r.Allowance >= 0 && r.Allowance <= MaxAllowance):
		return Piece{}, fmt.Errorf("an allowance of %.4g mm on %s is not between 0 and %d mm", r.Allowance, r.Name, MaxAllowance)
	case r.Fold && r.Cut.Pair:
		return Piece{}, fmt.Errorf("%s is cut on the fold and cannot be a pair as well; choose one of them", r.Name)
	}
	pc := Piece{Name: r.Name, Cut: r.Cut, Pose: geom.Identity(), Arrow: r.arrow(), Begun: true}
	pc.Cut.Count = max(pc.Cut.Count, 1)
	corners := []geom.Point{geom.Pt(0, r.Height), geom.Pt(0, 0), geom.Pt(r.Width, 0), geom.Pt(r.Width, r.Height)}
	for i, name := range []string{"left", "bottom", "right", "top"} {
		path, err := geom.NewPath(geom.Straight(corners[i], corners[(i+1)%len(corners)]))
		if err != nil {
			return Piece{}, err
		}
		e := Edge{Name: name, Role: SeamEdge, Path: path, Allowance: r.Allowance, Free: true}
		if i == 0 && r.Fold {
			e.Name, e.Role, e.Allowance, e.Free = "fold", Fold, 0, false
		}
		pc.Edges = append(pc.Edges, e)
	}
	return pc, nil
}

// arrow stands in the middle of the rectangle.
func (r Plain) arrow() Arrow {
	mid, dir, along := geom.Pt(r.Width/2, r.Height/2), geom.Pt(0, 1), r.Height
	if r.Across {
		dir, along = geom.Pt(1, 0), r.Width
	}
	half := dir.Mul(min(plainArrow*along, plainArrowMost) / 2)
	kind := r.Arrow
	if kind == "" {
		kind = Grain
	}
	return Arrow{Kind: kind, From: mid.Sub(half), To: mid.Add(half)}
}

package step

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// foldBow is how far in mm an edge of several parts may stray from the straight
// way between its ends and be laid on the fold as that.
const foldBow = 0.01

// applyFold says that an edge lies on the fold of the cloth: the piece is half
// of one, and both hands of the garment at once. The edge loses its allowance;
// a pair becomes single, since the unfolded piece is both of it.
func (a *Allow) applyFold(in Input, names []string) (Output, error) {
	if len(names) > 1 {
		return Output{}, fmt.Errorf("a piece has one fold; choose one of %s", words(names))
	}
	name := names[0]
	p := in.Pattern.Clone()
	pc, e, err := edgeIn(p, a.Piece, name)
	if err != nil {
		return Output{}, err
	}
	on := func(pt pattern.Part) bool { return pt.Piece == a.Piece && pt.Edge == name }
	switch fold := pc.Fold(); {
	case fold != nil && fold.Name == name:
		return Output{}, fmt.Errorf("%s of %s lies on the fold already", name, a.Piece)
	case fold != nil:
		return Output{}, fmt.Errorf("%s of %s lies on the fold, and a piece has one fold; unfold the piece first", fold.Name, a.Piece)
	case a.Width != nil && !isNought(*a.Width):
		return Output{}, fmt.Errorf("%s of %s cannot have an allowance on the fold; leave the width out", name, a.Piece)
	case a.Start != nil || a.End != nil || a.Free != nil:
		return Output{}, fmt.Errorf("on the fold %s of %s has neither corner ends nor a partner; leave them out", name, a.Piece)
	}
	for _, s := range p.Seams {
		if slices.ContainsFunc(slices.Concat(s.A, s.B), on) {
			return Output{}, fmt.Errorf("%s of %s is sewn in seam %q and cannot lie on the fold; take the seam apart first", name, a.Piece, s.Name)
		}
	}
	var notes []string
	for _, l := range p.Lines {
		switch {
		case slices.ContainsFunc(l.Parts, on):
			return Output{}, fmt.Errorf("%s of %s is part of line %q and cannot lie on the fold; forget that line first", name, a.Piece, l.Name)
		case !pc.Cut.Pair && slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool { return pt.Piece == a.Piece }):
			notes = append(notes, fmt.Sprintf("Line %q counts %d in the garment, as it did; say 2 where both halves of %s are meant.", l.Name, max(l.Count, 1), a.Piece))
		}
	}
	if slices.ContainsFunc(pc.Notches, func(n pattern.Notch) bool { return n.Edge == name }) {
		return Output{}, fmt.Errorf("%s of %s has notches, which cannot be cut on the fold; take them away first", name, a.Piece)
	}
	if e.Path, err = onFold(e.Path, name, a.Piece); err != nil {
		return Output{}, err
	}
	if pc.Cut.Pair {
		pc.Cut.Pair = false
		notes = append(notes, sentence(fmt.Sprintf("%s is no pair any more: unfolded it is both halves", pc.Name)))
	}
	was := e.Allowance
	e.Role, e.Allowance, e.Free = pattern.Fold, 0, false
	return Output{Pattern: p, Figures: map[string]float64{"before": was}, Notes: notes}, nil
}

// offFold takes an edge from the fold that is to have another role; it reports
// whether it did. What was half of one piece is a pair then: both are needed.
func (a *Allow) offFold(p pattern.Pattern, name string) (bool, error) {
	pc, e, err := edgeIn(p, a.Piece, name)
	if err != nil || e.Role != pattern.Fold || a.Role == "" {
		return false, err
	}
	others := slices.DeleteFunc(slices.Clone(pc.Edges), func(o pattern.Edge) bool { return o.Name == name })
	e.Role, e.Allowance = pattern.SeamEdge, usualAllowance(&pattern.Piece{Edges: others})
	pc.Cut.Pair = true
	return true, nil
}

// isOff tells what has become of a piece whose edge no longer lies on the fold.
func (a *Allow) isOff(p pattern.Pattern, name string) []string {
	notes := []string{sentence(fmt.Sprintf("%s is not unfolded any more: it was half of one piece and is cut as a pair", a.Piece))}
	_, e := p.Edge(a.Piece, name)
	if a.Width == nil {
		notes = append(notes, sentence(fmt.Sprintf("%s of %s has an allowance of %s, as its longest seam has", name, a.Piece, unit.MM(e.Allowance))))
	}
	if e.Role.Sewn() && !e.Free {
		notes = append(notes, sentence(fmt.Sprintf("%s of %s is sewn to nothing yet; sew it to its mirror image, where both halves meet", name, a.Piece)))
	}
	return notes
}

// onFold returns a path that lies on the fold: one straight line.
func onFold(path geom.Path, edge, piece string) (geom.Path, error) {
	if path.IsStraight() {
		return path, nil
	}
	from, to := path.Start(), path.End()
	l, err := geom.NewLine(from, to)
	if err != nil {
		return path, fmt.Errorf("%s of %s ends where it starts and cannot lie on the fold", edge, piece)
	}
	most := 0.0
	for _, q := range path.Flatten(foldBow / 10) {
		most = max(most, l.Distance(q), -l.Distance(q))
	}
	if most > foldBow {
		return path, fmt.Errorf("%s of %s bows by %.4g mm, and a fold is straight; rule it straight first", edge, piece, most)
	}
	return geom.NewPath(geom.Straight(from, to))
}

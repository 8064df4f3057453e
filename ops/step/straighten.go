package step

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("straighten", func() Step { return &Straighten{} }) }

// Straighten makes the run of the outline from one spot to another, taken
// counter-clockwise and over one or more edges, one straight edge. What
// remains of edges that were taken in part keeps its name; where both ends
// lie on the same edge, the part after the new edge is called
// "<edge> after <new edge>".
//
// Figures: filled and trimmed, the paper added and taken away in mm²; length
// of the new edge in mm.
type Straighten struct {
	Piece string       `json:"piece"`
	From  pattern.Spot `json:"from"`
	To    pattern.Spot `json:"to"`
	// Name of the straight edge. When it is empty, as role and allowance, it
	// is that of the first edge that is straightened whole.
	Name      string       `json:"name,omitempty"`
	Role      pattern.Role `json:"role,omitempty"`
	Allowance *Number      `json:"allowance,omitempty"`
}

// Kind returns "straighten".
func (s *Straighten) Kind() string { return "straighten" }

// Sentence tells in plain words what the step does.
func (s *Straighten) Sentence() string {
	text := fmt.Sprintf("Straighten %s from %s to %s", s.Piece, spotOn(s.From, s.Piece), spotOn(s.To, s.Piece))
	if s.Name != "" {
		text += ", as " + s.Name
	}
	if s.Role != "" {
		text += fmt.Sprintf(" (%s)", s.Role.Word())
	}
	return text + "."
}

// Apply straightens the run. Notches on a sewn edge keep their proportion of
// the run, on other edges they go to their foot of the perpendicular.
func (s *Straighten) Apply(in Input) (Output, error) {
	r := newRedraw(in.Pattern)
	o, err := r.piece(s.Piece)
	if err != nil {
		return Output{}, err
	}
	i, n, err := o.ends(s.From, s.To)
	if err != nil {
		return Output{}, err
	}
	was, stops, err := o.span(i, n)
	if err != nil {
		return Output{}, err
	}
	e, err := s.edge(in, o, i, n)
	if err != nil {
		return Output{}, err
	}
	if e.Path, err = geom.Polyline(was.Start(), was.End()); err != nil {
		return Output{}, fmt.Errorf("the two ends on %s lie at the same place; a straight edge needs two", s.Piece)
	}
	filled, trimmed := paperBetween(was, e.Path)
	o.nameRests(o.replace(i, n, e, feet(was, e.Path, stops, e.Role.Sewn())))
	return r.output(map[string]float64{"filled": filled, "trimmed": trimmed, "length": e.Length()})
}

// edge returns what the straight edge is apart from its path.
func (s *Straighten) edge(in Input, o *outline, i, n int) (pattern.Edge, error) {
	e, named := o.runs[i].edge, false
	for k := range n {
		if w := o.whole((i + k) % len(o.runs)); w != nil {
			e, named = *w, true
			break
		}
	}
	e.Corner = o.runs[i].edge.Corner
	switch {
	case s.Name != "":
		e.Name = s.Name
	case !named:
		return e, fmt.Errorf("only a part of %s of %s is straightened; give the new edge a name", e.Name, s.Piece)
	}
	return e, dress(&e, in, s.Role, s.Allowance)
}

// dress sets role and allowance of an edge where they are given.
func dress(e *pattern.Edge, in Input, role pattern.Role, allowance *Number) error {
	if role == pattern.DartEdge {
		return fmt.Errorf("%s cannot be made a dart by its role alone; spread the piece and leave a dart", e.Name)
	}
	if role != "" {
		e.Role = role
	}
	if !slices.Contains(pattern.Roles, e.Role) {
		return fmt.Errorf("there is no role %q; there are %v", e.Role, pattern.Roles)
	}
	if allowance == nil {
		return nil
	}
	w, err := allowance.In(in)
	if err != nil {
		return err
	}
	if !(w >= 0 && w <= pattern.MaxAllowance) {
		return fmt.Errorf("an allowance of %g mm on %s is not between 0 and %d", w, e.Name, pattern.MaxAllowance)
	}
	e.Allowance = w
	return nil
}

// usualAllowance returns the allowance of the longest sewn edge, else of the longest.
func usualAllowance(pc *pattern.Piece) float64 {
	longest := slices.MaxFunc(pc.Edges, func(a, b pattern.Edge) int {
		if a.Role.Sewn() != b.Role.Sewn() {
			if a.Role.Sewn() {
				return 1
			}
			return -1
		}
		if a.Length() > b.Length() {
			return 1
		}
		return -1
	})
	return longest.Allowance
}

// paperBetween returns the areas in mm² that lie between an old run of an
// outline and the straight line between its ends: left of the line, where
// paper is filled in, and right of it, where it is trimmed.
func paperBetween(was, line geom.Path) (filled, trimmed float64) {
	at := []float64{0}
	for _, c := range was.CrossLine(line.Start(), line.End().Sub(line.Start())) {
		at = append(at, c.S)
	}
	at = append(at, was.Length())
	slices.Sort(at)
	for k := 1; k < len(at); k++ {
		part, err := was.Sub(at[k-1], at[k])
		if err != nil {
			continue
		}
		segs := append(part.Segments(), geom.Straight(part.End(), part.Start()))
		loop, err := geom.NewClosed(segs...)
		if err != nil {
			continue
		}
		if a := loop.Area(); a > 0 {
			trimmed += a
		} else {
			filled -= a
		}
	}
	return filled, trimmed
}

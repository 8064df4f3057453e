package step

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("line-it", func() Step { return &LineIt{} }) }

// LineIt derives a lining or stabiliser from a piece: a piece of its own,
// without turn-backs, laid beside it. Finished edges (hem, lace edge,
// neckline, underarm, turned-back) lose their allowance and, if asked, are
// pulled in, so that nothing shows below; all others keep their allowance and
// their notches. Inner lines and marks stay behind; the lining carries its own
// name as a mark.
//
// It is sewn to nothing, its seam edges declared free; or each seam of the
// piece is declared once more for it, as "<name> <seam>", over the stretch of
// the partner that it reaches.
type LineIt struct {
	Piece  string `json:"piece"`
	Name   string `json:"name"`
	Cloth  string `json:"cloth,omitempty"`  // that of the piece when empty
	Layers int    `json:"layers,omitempty"` // those of the piece when 0
	// Finished names the edges that get no turn-back; by their role when empty.
	Finished []string `json:"finished,omitempty"`
	// PullIn is how far in mm the finished edges lie inside those of the
	// piece, Allowance the allowance they get; 0 when not given.
	PullIn    *Number `json:"pull-in,omitempty"`
	Allowance *Number `json:"allowance,omitempty"`
	// Shrink moves further edges in, by mm for each edge's name: less lining
	// than cloth keeps it from bagging.
	Shrink map[string]Number `json:"shrink,omitempty"`
	// Sewn sews the lining into the seams of the piece.
	Sewn bool `json:"sewn,omitempty"`
}

// Kind returns "line-it".
func (l *LineIt) Kind() string { return "line-it" }

// Sentence tells what the step does.
func (l *LineIt) Sentence() string {
	s := fmt.Sprintf("line %s with %q, without turn-backs", l.Piece, l.Name)
	if l.PullIn != nil && !isNought(*l.PullIn) {
		s += fmt.Sprintf(", pulled in by %s", *l.PullIn)
	}
	if l.Allowance != nil && !isNought(*l.Allowance) {
		s += fmt.Sprintf(", with an allowance of %s on its finished edges", *l.Allowance)
	}
	for _, name := range slices.Sorted(maps.Keys(l.Shrink)) {
		s += fmt.Sprintf(", smaller by %s at %s", l.Shrink[name], name)
	}
	if l.Sewn {
		s += ", sewn into its seams"
	}
	return sentence(s)
}

// finishedRoles are those of edges that are not sewn to another.
var finishedRoles = []pattern.Role{pattern.Hem, pattern.LaceEdge, pattern.Neckline, pattern.Underarm, pattern.TurnedBack}

// FinishedRole reports whether edges of a role are finished in a lining unless
// it is said otherwise.
func FinishedRole(r pattern.Role) bool { return slices.Contains(finishedRoles, r) }

// Apply adds the lining after all other pieces. It reports area_mm2, its area.
func (l *LineIt) Apply(in Input) (Output, error) {
	p := in.Pattern.Clone()
	pc, err := pieceIn(p, l.Piece)
	switch {
	case err != nil:
		return Output{}, err
	case l.Name == "":
		return Output{}, fmt.Errorf("the lining of %s needs a name of its own", l.Piece)
	case p.Piece(l.Name) != nil:
		return Output{}, fmt.Errorf("there already is a piece %q; give the lining of %s another name", l.Name, l.Piece)
	case l.Layers < 0:
		return Output{}, fmt.Errorf("%d layers of %q are too few; give a number above 0", l.Layers, l.Name)
	}
	pull, finished, err := l.pulls(in, pc)
	if err != nil {
		return Output{}, err
	}
	lining, err := l.shape(in, pc, pull, finished)
	if err != nil {
		return Output{}, err
	}
	notes := l.notches(pc, &lining, pull)
	if err := (&Mark{Text: strings.ToUpper(l.Name)}).write(&lining, in); err != nil {
		return Output{}, err
	}
	if err := layBeside(p, pc, &lining); err != nil {
		return Output{}, err
	}
	for i := range lining.Edges {
		if e := &lining.Edges[i]; e.Role.Sewn() && !l.Sewn {
			e.Free = true
		}
	}
	p.Pieces = append(p.Pieces, lining)
	if l.Sewn {
		more, err := l.sew(&p)
		if err != nil {
			return Output{}, err
		}
		notes = append(notes, more...)
	}
	return Output{Pattern: p, Figures: map[string]float64{"area_mm2": lining.Area()}, Notes: notes}, nil
}

// pulls returns by how much each edge is moved in, and which are finished.
func (l *LineIt) pulls(in Input, pc *pattern.Piece) (pull map[string]float64, finished []string, err error) {
	width := func(n *Number, what string) (float64, error) {
		if n == nil {
			return 0, nil
		}
		w, err := n.In(in)
		if err == nil && !(w >= 0 && w <= pattern.MaxAllowance) {
			err = fmt.Errorf("%s of %.4g mm is not between 0 and %d mm", what, w, pattern.MaxAllowance)
		}
		return w, err
	}
	by, err := width(l.PullIn, "pulling the finished edges in by a width")
	if err != nil {
		return nil, nil, err
	}
	finished = l.Finished
	if len(finished) == 0 {
		for i := range pc.Edges {
			if FinishedRole(pc.Edges[i].Role) {
				finished = append(finished, pc.Edges[i].Name)
			}
		}
	}
	pull = map[string]float64{}
	for _, name := range finished {
		pull[name] = by
	}
	for name := range l.Shrink {
		n := l.Shrink[name]
		more, err := width(&n, "shrinking "+name)
		if err != nil {
			return nil, nil, err
		}
		pull[name] += more
	}
	for name := range pull {
		if _, e, err := edgeIn(in.Pattern, l.Piece, name); err != nil {
			return nil, nil, err
		} else if e.Role == pattern.Fold {
			return nil, nil, fmt.Errorf("%s of %s lies on the fold and stays there; leave it out", name, l.Piece)
		}
	}
	return pull, finished, nil
}

// shape returns the lining with its edges and how it is cut.
func (l *LineIt) shape(in Input, pc *pattern.Piece, pull map[string]float64, finished []string) (pattern.Piece, error) {
	made := pc.Clone()
	made.Name, made.Notches, made.Inner, made.Marks = l.Name, nil, nil, nil
	if l.Cloth != "" {
		made.Cut.Cloth = l.Cloth
	}
	if l.Layers != 0 {
		made.Cut.Layers = l.Layers
	}
	moved := false
	for i := range made.Edges {
		e := &made.Edges[i]
		e.Allowance, e.Corner = pull[e.Name], pattern.Corner{}
		moved = moved || e.Allowance > 0
	}
	if moved {
		// The lining lies inside the piece as a sew line inside a cut line.
		edges, _, err := pattern.SewEdges(made.Edges)
		if err != nil {
			return made, fmt.Errorf("the lining of %s: %w; pull it in less", l.Piece, err)
		}
		made.Edges = edges
	}
	allowance := 0.0
	if l.Allowance != nil {
		var err error
		if allowance, err = l.Allowance.In(in); err != nil {
			return made, err
		}
		if !(allowance >= 0 && allowance <= pattern.MaxAllowance) {
			return made, fmt.Errorf("an allowance of %.4g mm on the finished edges of %q is not between 0 and %d mm", allowance, l.Name, pattern.MaxAllowance)
		}
	}
	for i := range made.Edges {
		e, was := &made.Edges[i], &pc.Edges[i]
		e.Allowance = was.Allowance
		if slices.Contains(finished, e.Name) {
			e.Allowance = allowance
		} else if !slices.Contains(finished, pc.Edges[pc.Prev(i)].Name) {
			e.Corner = was.Corner // what ended at a turn-back ends there no more
		}
	}
	if err := checkOutline(pc, &made); err != nil {
		return made, fmt.Errorf("pulled in so far, %w", err)
	}
	return made, nil
}

// notches puts the notches of the piece where they are on the lining.
func (l *LineIt) notches(pc, lining *pattern.Piece, pull map[string]float64) (notes []string) {
	for _, n := range pc.Notches {
		was, is := pc.Edge(n.Edge), lining.Edge(n.Edge)
		s := n.At(was.Length())
		switch from, to := reached(was, is); {
		case pull[n.Edge] > 0:
			s = is.Path.Nearest(was.Path.At(s)).S
		case s < from-placeSlack || s > to+placeSlack:
			notes = append(notes, fmt.Sprintf("Notch %q lies on what is pulled in and is not on %s.", n.Name, l.Name))
			continue
		default:
			s -= from
		}
		if from, _ := reached(was, is); from > placeSlack || is.Length() != was.Length() {
			n.Along = n.Along.Moved(min(max(s, 0), is.Length()), is.Length())
		}
		lining.Notches = append(lining.Notches, n)
	}
	return notes
}

// reached returns which stretch of an edge the lining's edge goes along.
func reached(was, is *pattern.Edge) (from, to float64) {
	from, to = was.Path.Nearest(is.Path.Start()).S, was.Path.Nearest(is.Path.End()).S
	if from <= placeSlack {
		from = 0
	}
	if l := was.Length(); to >= l-placeSlack {
		to = l
	}
	return from, to
}

// layBeside lays a piece made from another to the right of it on the mat, at
// the same height, where it covers no other piece.
func layBeside(p pattern.Pattern, pc, made *pattern.Piece) error {
	box := func(pc *pattern.Piece) (geom.Box, error) {
		o, err := pc.Outline()
		if err != nil {
			return geom.Box{}, err
		}
		return o.Transform(pc.Pose).Bounds().Grow(besideRoom), nil
	}
	was, err := box(pc)
	if err != nil {
		return err
	}
	is, err := box(made)
	if err != nil {
		return err
	}
	taken := make([]geom.Box, 0, len(p.Pieces))
	for i := range p.Pieces {
		if b, err := box(&p.Pieces[i]); err == nil {
			taken = append(taken, b)
		}
	}
	by := was.Max.X - is.Min.X
	for range taken { // each turn goes right beyond one more piece
		for _, b := range taken {
			at := geom.Box{Min: is.Min.Add(geom.Pt(by, 0)), Max: is.Max.Add(geom.Pt(by, 0))}
			if at.Overlaps(b) && b.Max.X > at.Min.X+placeSlack {
				by = b.Max.X - is.Min.X
			}
		}
	}
	made.Pose = made.Pose.Then(geom.Shift(geom.Pt(by, 0)))
	return nil
}

// besideRoom is the room in mm around a sew line on the mat, for allowances.
const besideRoom = 15

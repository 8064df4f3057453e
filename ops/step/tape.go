package step

import (
	"errors"
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
)

func init() { register("tape", func() Step { return &Tape{} }) }

// Tape joins two pieces into one as they lie on the mat, along an edge of each
// and pinned at one end of these edges.
//
// The new outline is the outer boundary of both together. Gaps between the
// taped edges become paper; where one piece lies over the other the lower one
// counts no more. At the far end both outlines are cut where they cross; where
// only a corner of one lies over the other, a stretch of the taped edge stays
// on the outline; a gap is bridged by a straight stretch. Such stretches become
// part of the edge of A next to the joint (of B, where that of A is a fold).
//
// Edges of one line that now follow each other, and two folds, become one
// edge; all others keep their names, but for those of B that A has too, which
// get B's name in front. The joined piece keeps the coordinates, pose and
// arrow of A. The taped edge of A, notches that lost their edge and the arrow
// of B stay as inner lines.
type Tape struct {
	// A and B are the edges to be taped, each with its pinned end.
	A EdgeEnd `json:"a"`
	B EdgeEnd `json:"b"`
	// Name is that of the joined piece; that of A when empty.
	Name string `json:"name,omitempty"`
	// Edges gives other names to edges that become one, by the name of A's.
	Edges map[string]string `json:"edges,omitempty"`
	// Datum is the line along which the overlap at the far end is measured;
	// the chord of A's edge next to it when none is given.
	Datum *pattern.Datum `json:"datum,omitempty"`
}

// pinSlack is the distance in mm within which pinned ends are joined: less
// than a sharp pencil shows. B is shifted by the rest, so that no length changes.
const pinSlack = 0.01

// notchStroke is the length in mm of the stroke that remains of a notch.
const notchStroke = 5.0

// Kind returns "tape".
func (t *Tape) Kind() string { return "tape" }

// Sentence tells what the step does.
func (t *Tape) Sentence() string {
	s := fmt.Sprintf("tape %s to %s along %s and %s, pinned at %s", t.B.Piece, t.A.Piece, t.B.Edge, t.A.Edge, t.A)
	if t.Name != "" && t.Name != t.A.Piece {
		s += fmt.Sprintf(", as %q", t.Name)
	}
	return sentence(s)
}

// Apply joins the pieces. It reports overlap, by how much they overlap at the
// far end along the datum (negative for a gap); overlap_mm2 and gap_mm2, the
// areas that went under and that became paper; and arrow_deg, the angle
// between both arrows, 0 to 90.
func (t *Tape) Apply(in Input) (Output, error) {
	j, err := t.lay(in.Pattern)
	if err != nil {
		return Output{}, err
	}
	overlap, err := t.overlap(in.Pattern, j)
	if err != nil {
		return Output{}, err
	}
	far, err := j.farEnd()
	if err != nil {
		return Output{}, err
	}
	ring, err := j.ring(in.Pattern, far)
	if err != nil {
		return Output{}, err
	}
	made, err := t.piece(j, ring)
	if err != nil {
		return Output{}, err
	}
	outline, err := made.Outline()
	if err != nil {
		return Output{}, err
	}
	under, paper, err := j.areas(far, outline)
	if err != nil {
		return Output{}, err
	}

	next := in.Pattern.Clone()
	next.Pieces = next.Pieces[:0]
	for _, pc := range in.Pattern.Pieces {
		switch pc.Name {
		case t.A.Piece:
			next.Pieces = append(next.Pieces, made)
		case t.B.Piece:
		default:
			next.Pieces = append(next.Pieces, pc)
		}
	}
	m := j.edgeMap(made.Name, ring)
	p, carried, err := pattern.Carry(in.Pattern, next, m)
	if err != nil {
		return Output{}, err
	}
	ring.runOn(p, made.Name)
	angle, notes, err := j.keepOld(p.Piece(made.Name), carried)
	if err != nil {
		return Output{}, err
	}
	return Output{
		Pattern: p,
		Map:     m,
		Figures: map[string]float64{"overlap": overlap, "overlap_mm2": under, "gap_mm2": paper, "arrow_deg": angle},
		Notes:   append(append(carried.Notes, ring.notes...), notes...),
	}, nil
}

// joint is two pieces laid together in the coordinates of A. Seen from the pin
// along the taped edges, the piece left has its taped edge starting at the
// pin, the piece right has it ending there; left and right are A and B in
// either order.
type joint struct {
	left, right half
	toA         geom.Motion // of B, from its own coordinates
	a, b        *half
}

// half is one of the pieces to be taped, in the coordinates of A.
type half struct {
	old   *pattern.Piece
	taped pattern.Edge
	// rest are the other edges in the order of the outline, which begins and
	// ends at the taped edge, and chain is their path.
	rest  []pattern.Edge
	chain geom.Path
}

func newHalf(pc *pattern.Piece, edge string, m geom.Motion) (half, error) {
	h := half{old: pc}
	paths := make([]geom.Path, 0, len(pc.Edges))
	k := pc.EdgeIndex(edge)
	for i := range pc.Edges {
		e := pc.Edges[(k+i)%len(pc.Edges)]
		e.Path = e.Path.Transform(m)
		if i == 0 {
			h.taped = e
			continue
		}
		h.rest = append(h.rest, e)
		paths = append(paths, e.Path)
	}
	var err error
	h.chain, err = geom.Join(paths...)
	return h, err
}

// outline returns the closed outline, beginning with the chain.
func (h *half) outline() (geom.Path, error) { return geom.JoinClosed(h.chain, h.taped.Path) }

// lay checks that the pieces can be taped as they lie and returns them in the
// coordinates of A.
func (t *Tape) lay(p pattern.Pattern) (*joint, error) {
	pa, ea, err := t.A.find(p)
	if err != nil {
		return nil, err
	}
	pb, eb, err := t.B.find(p)
	if err != nil {
		return nil, err
	}
	name := t.name()
	switch {
	case pa == pb:
		return nil, fmt.Errorf("%s cannot be taped to itself; name two pieces, or copy it first", pa.Name)
	case name != pa.Name && name != pb.Name && p.Piece(name) != nil:
		return nil, fmt.Errorf("there already is a piece %q; give the joined piece another name", name)
	case ea.Role == pattern.Fold || eb.Role == pattern.Fold:
		return nil, errors.New("a fold cannot be taped; unfold the piece first")
	case pa.Pose.Mirrors() != pb.Pose.Mirrors():
		return nil, fmt.Errorf("one of %s and %s lies turned over; pieces are taped right side up", pa.Name, pb.Name)
	case t.A.End == t.B.End:
		return nil, errors.New(opposite(t.B, t.A))
	}
	pin, _ := t.A.point(ea)
	end, _ := t.B.point(eb)
	toA := pb.Pose.Then(pa.Pose.Inverse())
	apart := pin.Sub(toA.Apply(end))
	if d := apart.Norm(); !(d <= pinSlack) {
		return nil, fmt.Errorf("%s lies %.4g mm from %s; pinned ends must meet: lay %s against %s first", t.B, d, t.A, t.B.Piece, t.A.Piece)
	}
	j := &joint{toA: toA.Then(geom.Shift(apart))}
	j.a, j.b = &j.left, &j.right
	if t.A.End == pattern.End {
		j.a, j.b = j.b, j.a
	}
	if *j.a, err = newHalf(pa, ea.Name, geom.Identity()); err != nil {
		return nil, err
	}
	if *j.b, err = newHalf(pb, eb.Name, j.toA); err != nil {
		return nil, err
	}
	return j, nil
}

func (t *Tape) name() string {
	if t.Name != "" {
		return t.Name
	}
	return t.A.Piece
}

// overlap measures at the far end along the datum, positive where the pieces
// overlap.
func (t *Tape) overlap(p pattern.Pattern, j *joint) (float64, error) {
	beside := j.left.rest[0]
	if j.a == &j.right {
		beside = j.right.rest[len(j.right.rest)-1]
	}
	dir := beside.Path.End().Sub(beside.Path.Start()).Unit()
	if t.Datum != nil {
		line, err := p.FindDatum(*t.Datum)
		if err != nil {
			return 0, err
		}
		dir = j.a.old.Pose.Inverse().Vector(line.Dir)
	}
	pin := j.left.taped.Path.Start()
	l, r := j.left.taped.Path.End(), j.right.taped.Path.Start()
	toLeft := l.Lerp(r, 0.5).Sub(pin).Unit().Perp()
	side := dir.Dot(toLeft)
	if math.Abs(side) <= squareSlack {
		return 0, errors.New("the overlap cannot be measured along the taped edges themselves; give a \"datum\" that runs across them, such as the line of the hem")
	}
	return math.Copysign(1, side) * r.Sub(l).Dot(dir), nil
}

// piece makes the joined piece, without what Carry brings.
func (t *Tape) piece(j *joint, r *ring) (pattern.Piece, error) {
	edges, err := r.made(t.Edges)
	if err != nil {
		return pattern.Piece{}, err
	}
	made := pattern.Piece{
		Name:  t.name(),
		Edges: edges,
		Arrow: j.a.old.Arrow,
		Cut:   j.cut(r),
		Pose:  j.a.old.Pose,
		Begun: j.a.old.Begun && j.b.old.Begun,
	}
	outline, err := made.Outline()
	if err != nil {
		return pattern.Piece{}, err
	}
	if cross := outline.SelfCrossings(); len(cross) > 0 {
		return pattern.Piece{}, fmt.Errorf("taped like this the outline would not be simple: %s and %s cross; turn or place %s so that it meets %s only along the taped edges",
			edgeAt(&made, cross[0].S), edgeAt(&made, cross[0].T), t.B.Piece, t.A.Piece)
	}
	return made, nil
}

// cut returns how the joined piece is cut: as the one on the fold, else in pairs when
// one of them is, so that no half is lost, else as A.
func (j *joint) cut(r *ring) pattern.Cut {
	a, b := j.a.old, j.b.old
	cut, other := a.Cut, b
	if a.Fold() == nil && b.Fold() != nil {
		cut, other = b.Cut, a
	}
	onFold := a.Fold() != nil || b.Fold() != nil
	switch {
	case onFold && other.Fold() == nil && !other.Cut.Pair:
		r.note("%s was not cut in pairs; on the fold it is now there on both sides.", other.Name)
	case !onFold && a.Cut.Pair != b.Cut.Pair:
		pair, single := a, b
		if b.Cut.Pair {
			pair, single = b, a
		}
		cut = pair.Cut
		if cut.Cloth == "" {
			cut.Cloth = single.Cut.Cloth
		}
		r.note("%s was cut in pairs, %s was not; the joined piece is cut in pairs, so %s is there on both sides.", pair.Name, single.Name, single.Name)
	}
	return cut
}

// keepOld puts on the joined piece what remains of the old ones as inner
// lines, and returns the angle between their arrows in degrees.
func (j *joint) keepOld(pc *pattern.Piece, carried pattern.Carried) (angle float64, notes []string, err error) {
	add := func(name string, kind pattern.InnerKind, path geom.Path) {
		pc.Inner = append(pc.Inner, pattern.Inner{Name: freeInner(pc, name), Kind: kind, Path: path})
	}
	a, b := j.a.old, j.b.old
	add(fmt.Sprintf("joint of %s and %s", a.Name, b.Name), pattern.OldJoint, j.a.taped.Path)
	for _, lost := range carried.LostNotches {
		h, m := j.a, geom.Identity()
		if lost.Piece == b.Name {
			h, m = j.b, j.toA
		}
		e := h.old.Edge(lost.Notch.Edge)
		across := e.Path.TangentAt(e.Path.Nearest(lost.Point).S).Perp().Mul(notchStroke / 2)
		stroke, err := geom.Polyline(m.Apply(lost.Point.Sub(across)), m.Apply(lost.Point.Add(across)))
		if err != nil {
			return 0, nil, err
		}
		add(pattern.NotchWords(lost.Notch.Name)+" of "+lost.Piece, pattern.OldNotch, stroke)
	}
	from, to := j.toA.Apply(b.Arrow.From), j.toA.Apply(b.Arrow.To)
	arrow, err := geom.Polyline(from, to)
	if err != nil {
		return 0, nil, err
	}
	add(pattern.ArrowOf(b.Name), pattern.OldArrow, arrow)
	angle = math.Abs(geom.Between(a.Arrow.To.Sub(a.Arrow.From), to.Sub(from)).Degrees())
	angle = min(angle, 180-angle)
	if a.Arrow.Kind != b.Arrow.Kind {
		notes = append(notes, fmt.Sprintf("The arrow of %s shows %s, that of %s %s; the joined piece keeps the former.", a.Name, a.Arrow.Kind, b.Name, b.Arrow.Kind))
	}
	return angle, notes, nil
}

// freeInner returns the name, with a number behind it when it is taken.
func freeInner(pc *pattern.Piece, name string) string {
	taken := func(n string) bool {
		for _, in := range pc.Inner {
			if in.Name == n {
				return true
			}
		}
		return false
	}
	free := name
	for i := 2; taken(free); i++ {
		free = fmt.Sprintf("%s %d", name, i)
	}
	return free
}

package tool

import (
	"fmt"
	"strings"

	"truemat/geom"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Split cuts a piece in two and sews the parts together again.
type Split struct {
	base
	cutting
	stays     string // the part that keeps the name: left or right of the way; "" is the larger
	kept      string // another name for that part
	other     string // the name of the other part
	name      string // of the seam
	allowance *float64
	apart     float64   // mm by which the other part is laid aside
	places    []float64 // of the notches, as shares
	told      bool      // that the places were chosen
	try       trial
}

// NewSplit returns the tool for a table.
func NewSplit(t Table) Tool { return &Split{base: base{table: t}} }

// Name returns "split".
func (s *Split) Name() string { return "split" }

// Hint says what to do next.
func (s *Split) Hint() string {
	from, to := s.ends(s.pattern())
	switch {
	case from == nil:
		return s.onRim(s.orAtOnce("Press the spot where the new seam is to start: a corner, a notch or a place on an edge."))
	case to == nil:
		return s.onRim(fmt.Sprintf("Now press the spot of %s where the new seam is to end.", from.Piece))
	}
	res, err := s.try.of(s.table, s.Proposal()...)
	if err != nil {
		return sentence(err)
	}
	if s.held != bentNone {
		return s.bending(&s.base, 1, s.report(res).Figures["length"])
	}
	text := []string{"Enter splits, Escape abandons. Drag a handle to curve it; press in the part that keeps its name." + s.way.kept(&s.base)}
	text = append(text, s.report(res).Notes...)
	return strings.Join(text, " ")
}

// report returns what the split itself reported, after which a part may have
// been laid aside.
func (s *Split) report(res step.Result) step.Report {
	for i := len(res.Reports) - 1; i >= 0; i-- {
		if r := res.Reports[i]; r.Kind == (*step.Split)(nil).Kind() {
			return r
		}
	}
	return step.Report{}
}

// keeper returns the side of the way whose part keeps the name.
func (s *Split) keeper() string {
	if s.stays != "" {
		return s.stays
	}
	p := s.pattern()
	there, ok1 := between(p, *s.from, *s.to)
	back, ok2 := between(p, *s.to, *s.from)
	if ok1 && ok2 && loopArea(there.path) > loopArea(back.path) {
		return keepRight // counter-clockwise the outline lies right of the way
	}
	return keepLeft
}

// called returns the names of the part that keeps the piece's name unless it
// was given another, and of the other one.
func (s *Split) called() (kept, other string) {
	p, piece := s.pattern(), s.from.Piece
	if kept = s.kept; kept == "" {
		kept = piece
	}
	if other = s.other; other == "" {
		other = piece + " part"
		for n := 2; p.Piece(other) != nil; n++ {
			other = fmt.Sprintf("%s part %d", piece, n)
		}
	}
	return kept, other
}

// sewn returns the name of the new seam.
func (s *Split) sewn() string {
	if s.name != "" {
		return s.name
	}
	p := s.pattern()
	pc := p.Piece(s.from.Piece)
	name := pc.Name + " seam"
	for n := 2; p.Seam(name) != nil || pc.Edge(name) != nil || pc.Notch(name) != nil; n++ {
		name = fmt.Sprintf("%s seam %d", pc.Name, n)
	}
	return name
}

// Pointer chooses the spots, then drags the handles of the seam or chooses the
// part that keeps the name.
func (s *Split) Pointer(e Event) {
	p := s.pattern()
	if s.bend(p, e) {
		s.drop()
		return
	}
	from, to := s.ends(p)
	if e.Act == Press && to != nil && !(from.At.Dist(e.At) <= e.Reach) && !(to.At.Dist(e.At) <= e.Reach) {
		if _, ok := Point(p, e.At, e.Reach, Ask{Kind: OnPiece, Only: from.Piece}); ok {
			s.drop()
			if part, ok := s.beyond(p, e.At); ok {
				s.stays = part
			}
			return
		}
	}
	if s.anew(p, func() { s.pointer(&s.base, e) }) {
		s.forget()
	}
}

// Key walks to the spots and slides the last one; the arrows up and down bend
// the seam, Delete makes it straight again.
func (s *Split) Key(k Key) (used bool) {
	p := s.pattern()
	if _, to := s.ends(p); to != nil && s.bentBy(p, k, 1) {
		return true
	}
	if s.anew(p, func() { used = s.key(&s.base, k) }) {
		s.forget()
	}
	return used
}

func (s *Split) forget() {
	*s = Split{base: s.base, cutting: s.cutting, try: s.try}
	s.plain()
}

// Proposal is the split, once both spots are chosen, and the other part laid
// aside when that is asked for.
func (s *Split) Proposal() []step.Step {
	from, to := s.ends(s.pattern())
	if to == nil {
		return nil
	}
	kept, other := s.called()
	out := &step.Split{Piece: from.Piece, From: from.Spot, To: to.Spot, Left: kept, Right: other, Name: s.sewn(), Notches: s.notches()}
	if s.keeper() == keepRight {
		out.Left, out.Right = other, kept
	}
	if s.allowance != nil {
		w := step.Lit(*s.allowance)
		out.Allowance = &w
	}
	out.Bulge, out.Curve = s.shape(1)
	if s.apart == 0 {
		return []step.Step{out}
	}
	// Off the seam, to the side of the part that is moved.
	a, b, pose, _ := s.frame(s.pattern())
	aside := pose.Vector(b.Sub(a).Unit().Perp()).Mul(s.apart)
	if s.keeper() == keepLeft {
		aside = aside.Mul(-1)
	}
	return []step.Step{out, &step.Move{Piece: other, DX: step.Lit(aside.X), DY: step.Lit(aside.Y)}}
}

// Overlay shows the new seam with its length and notches, and both parts by
// name and area.
func (s *Split) Overlay() Overlay {
	var o Overlay
	p := s.pattern()
	s.pointed(&o)
	s.show(&s.base, &o)
	if _, to := s.ends(p); to == nil {
		return o
	}
	res, err := s.try.of(s.table, s.Proposal()...)
	if err != nil {
		if line, lineErr := s.line(p); lineErr == nil {
			o.Strokes = append(o.Strokes, Stroke{line, Poor})
		}
		s.showShape(p, &o)
		return o
	}
	now := res.Size.Pattern
	kept, other := s.called()
	seam := s.sewn()
	for _, name := range []string{kept, other} {
		if pc := now.Piece(name); pc != nil {
			if out, err := pc.Outline(); err == nil {
				o.Notes = append(o.Notes, Note{pc.Pose.Apply(out.Centroid()), name + OfPiece + writtenArea(s.table, pc.Area())})
			}
		}
	}
	if pc, e := now.Edge(kept, seam); e != nil {
		s.settleSquare(p, e.Path)
		path := e.Path.Transform(pc.Pose)
		o.Strokes = append(o.Strokes, Stroke{path, Good})
		o.Notes = append(o.Notes, Note{s.beside(path), unit.MM(e.Length())})
	}
	s.showShape(p, &o)
	return o
}

// beside returns where the length of the seam is written: off its middle,
// where a handle and often a notch lie.
func (s *Split) beside(path geom.Path) geom.Point { return path.At(path.Length() / 6) }

// Reset forgets the split.
func (s *Split) Reset() bool {
	walked := s.drop()
	was := s.from != nil
	s.way = way{}
	s.forget()
	return was || walked
}

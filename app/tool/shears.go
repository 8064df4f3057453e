package tool

import (
	"fmt"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Shears cut a piece from a spot to a spot and take one part away.
type Shears struct {
	base
	cutting
	keep      string // "left" or "right" of the way; "" is the larger part
	name      string
	role      pattern.Role
	allowance *float64
	partner   step.Partner
	try       trial
}

// NewShears returns the shears for a table.
func NewShears(t Table) Tool { return &Shears{base: base{table: t}} }

// Name returns "shears".
func (s *Shears) Name() string { return "shears" }

// The two sides of a way.
const (
	keepLeft  = "left"
	keepRight = "right"
)

// Hint says what to do next.
func (s *Shears) Hint() string {
	from, to := s.ends(s.pattern())
	switch {
	case from == nil:
		return s.onRim(s.orAtOnce("Press the spot where the cut is to start: a corner, a notch or a place on an edge."))
	case to == nil:
		return s.onRim(fmt.Sprintf("Now press the spot of %s where the cut is to end.", from.Piece))
	}
	res, err := s.try.of(s.table, s.Proposal()...)
	if err != nil {
		return sentence(err)
	}
	if c, ok := s.laid(); ok && s.held != bentNone {
		return s.bending(&s.base, c.out(), figure(res, "length"))
	}
	text := []string{"Enter cuts, Escape abandons. Drag a handle to curve it; press in the part to keep." + s.kept(&s.base)}
	if n := len(res.Reports); n > 0 {
		text = append(text, res.Reports[n-1].Notes...)
	}
	return strings.Join(text, " ")
}

// cut is a way with what lies on its sides.
type cut struct {
	from, to Pointing
	keep     string
	gone     stretch // of the outline
}

// out is 1 where right of the way is outward from what is kept, else −1.
func (c cut) out() float64 {
	if c.keep == keepRight {
		return -1
	}
	return 1
}

// laid returns the cut, once both spots are chosen.
func (s *Shears) laid() (c cut, ok bool) {
	p := s.pattern()
	from, to := s.ends(p)
	if to == nil {
		return c, false
	}
	c = cut{from: *from, to: *to, keep: s.keep}
	there, ok1 := between(p, c.from, c.to)
	back, ok2 := between(p, c.to, c.from)
	if !ok1 || !ok2 {
		return c, false
	}
	if c.keep == "" {
		if c.keep = keepLeft; loopArea(there.path) > loopArea(back.path) {
			c.keep = keepRight
		}
	}
	// Counter-clockwise from the first spot to the second the outline lies
	// right of the way.
	if c.gone = there; c.keep == keepRight {
		c.gone = back
	}
	return c, true
}

// Pointer chooses the spots, then drags the handles of the cut or chooses the
// part that is kept.
func (s *Shears) Pointer(e Event) {
	p := s.pattern()
	if s.bend(p, e) {
		s.drop()
		return
	}
	from, to := s.ends(p)
	if e.Act == Press && to != nil && !(from.At.Dist(e.At) <= e.Reach) && !(to.At.Dist(e.At) <= e.Reach) {
		if _, ok := Point(p, e.At, e.Reach, Ask{Kind: OnPiece, Only: from.Piece}); ok {
			s.drop()
			s.keepAt(e.At)
			return
		}
	}
	if s.anew(p, func() { s.pointer(&s.base, e) }) {
		s.forget()
	}
}

// keepAt keeps the part in which a place on the mat lies.
func (s *Shears) keepAt(at geom.Point) {
	if part, ok := s.beyond(s.pattern(), at); ok {
		s.keep = part
	}
}

// Key walks to the spots and slides the last one; the arrows up and down make
// the cut bulge and hollow, Delete makes it straight again.
func (s *Shears) Key(k Key) (used bool) {
	p := s.pattern()
	if c, ok := s.laid(); ok && s.bentBy(p, k, c.out()) {
		return true
	}
	if s.anew(p, func() { used = s.key(&s.base, k) }) {
		s.forget()
	}
	return used
}

func (s *Shears) forget() {
	s.plain()
	s.keep, s.name, s.role, s.allowance, s.partner = "", "", "", nil, step.Partner{}
}

// would returns what the new edge is called and is, as far as nothing else was
// said: as the longest edge that is cut away whole, else like the longest that
// is cut, turned back where that was sewn.
func (s *Shears) would(c cut) (name string, role pattern.Role, allowance float64) {
	pc := s.pattern().Piece(c.from.Piece)
	among := c.gone.whole
	if len(among) == 0 {
		among = c.gone.edges
	}
	longest := pc.Edge(among[0])
	allowance = pc.Edge(c.gone.edges[0]).Allowance
	for _, n := range among {
		if e := pc.Edge(n); e.Length() > longest.Length() {
			longest = e
		}
	}
	if name = s.name; name == "" {
		name = unused(pc, "cut edge", nil)
		if slices.Contains(c.gone.whole, longest.Name) {
			name = longest.Name
		}
	}
	if role = s.role; role == "" {
		role = longest.Role
		if role.Sewn() || role == pattern.Fold {
			role = pattern.TurnedBack
		}
	}
	switch {
	case s.allowance != nil:
		allowance = *s.allowance
	case role == pattern.LaceEdge:
		allowance = 0
	}
	return name, role, allowance
}

// rests returns the edges of other pieces that the cut makes; S is their length.
func (s *Shears) rests(res step.Result) []Pointing {
	var out []Pointing
	p, now := s.pattern(), res.Size.Pattern
	for i := range now.Pieces {
		pc := &now.Pieces[i]
		if s.from == nil || pc.Name == s.from.Piece {
			continue
		}
		for j := range pc.Edges {
			e := &pc.Edges[j]
			if _, old := p.Edge(pc.Name, e.Name); old == nil || old.Role != e.Role {
				pt := middleOf(pc, e)
				pt.S = e.Length()
				out = append(out, pt)
			}
		}
	}
	return out
}

// going returns the notches that the cut takes from other pieces.
func (s *Shears) going(res step.Result) []Pointing {
	var out []Pointing
	p, now := s.pattern(), res.Size.Pattern
	for _, pc := range p.Pieces {
		is := now.Piece(pc.Name)
		if s.from == nil || is == nil || pc.Name == s.from.Piece {
			continue
		}
		for _, n := range pc.Notches {
			if is.Notch(n.Name) != nil {
				continue
			}
			spot := pattern.AtNotch(pc.Name, n.Name)
			if at, err := p.Find(spot); err == nil {
				out = append(out, Pointing{Kind: OnNotch, Piece: pc.Name, Notch: n.Name, Spot: spot, At: at.Mat})
			}
		}
	}
	return out
}

// Proposal is the cut, once both spots are chosen.
func (s *Shears) Proposal() []step.Step {
	c, ok := s.laid()
	if !ok {
		return nil
	}
	name, role, _ := s.would(c)
	out := &step.CutOff{Piece: c.from.Piece, From: c.from.Spot, To: c.to.Spot, Keep: c.keep, Name: name, Role: role, Partner: s.partner}
	if s.allowance != nil {
		w := step.Lit(*s.allowance)
		out.Allowance = &w
	}
	out.Bulge, out.Curve = s.shape(c.out())
	return []step.Step{out}
}

// Overlay shows the cut, what goes, and what becomes of the partner.
func (s *Shears) Overlay() Overlay {
	var o Overlay
	s.pointed(&o)
	s.show(&s.base, &o)
	c, ok := s.laid()
	if !ok {
		return o
	}
	o.Strokes = append(o.Strokes, Stroke{c.gone.path, Poor})
	name, _, _ := s.would(c)
	res, err := s.try.of(s.table, s.Proposal()...)
	if err != nil {
		if line, lineErr := s.line(s.pattern()); lineErr == nil {
			o.Strokes = append(o.Strokes, Stroke{line, Poor})
		}
		s.showShape(s.pattern(), &o)
		return o
	}
	if pc, e := res.Size.Pattern.Edge(c.from.Piece, name); e != nil {
		s.settleSquare(s.pattern(), e.Path)
		m := middleOf(pc, e)
		o.Strokes = append(o.Strokes, Stroke{e.Path.Transform(pc.Pose), Good})
		o.Notes = append(o.Notes, Note{m.At, unit.MM(e.Length())})
	}
	s.showShape(s.pattern(), &o)
	for _, r := range s.rests(res) {
		o.Show(res.Size.Pattern, r, Poor)
		o.Notes = append(o.Notes, Note{r.At, fmt.Sprintf("%s: %s not sewn", r.Edge, unit.MM(r.S))})
	}
	for _, n := range s.going(res) {
		o.Dots = append(o.Dots, Dot{n.At, Poor})
		o.Notes = append(o.Notes, Note{n.At, n.Notch + " goes"})
	}
	o.newNotches(s.pattern(), res.Size.Pattern, nil)
	return o
}

// Reset forgets the cut.
func (s *Shears) Reset() bool {
	walked := s.drop()
	was := s.from != nil
	s.way = way{}
	s.forget()
	return was || walked
}

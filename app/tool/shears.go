package tool

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Shears cut a piece from a spot to a spot and take one part away.
type Shears struct {
	base
	way
	keep      string // "left" or "right" of the way; "" is the larger part
	name      string
	role      pattern.Role
	allowance *float64
	bulge     float64 // mm
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
		return "Press the spot where the cut is to start: a corner, a notch or a place on an edge."
	case to == nil:
		return fmt.Sprintf("Now press the spot of %s where the cut is to end.", from.Piece)
	}
	res, err := s.try.of(s.table, s.Proposal()...)
	if err != nil {
		return sentence(err)
	}
	text := "Enter cuts; press in the part that is to be kept if it is the wrong one."
	for _, r := range s.rests(res) {
		text += fmt.Sprintf(" On %s %s, %s long, is then no longer sewn.", r.Piece, r.Edge, written(s.table, r.S))
	}
	if n := len(res.Reports); n > 0 {
		text = strings.Join(append([]string{text}, res.Reports[n-1].Notes...), " ")
	}
	return text
}

// cut is a way with what lies on its sides.
type cut struct {
	from, to Pointing
	keep     string
	gone     stretch // of the outline
}

// cutting returns the cut, once both spots are chosen.
func (s *Shears) cutting() (c cut, ok bool) {
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

// Pointer chooses the spots, then the part that is kept.
func (s *Shears) Pointer(e Event) {
	p := s.pattern()
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
	there, ok := between(s.pattern(), *s.from, *s.to)
	if !ok {
		return
	}
	l, err := loop(there.path)
	if err != nil {
		return
	}
	if s.keep = keepLeft; l.Contains(at) {
		s.keep = keepRight
	}
}

// Key walks to the spots and slides the last one; the arrows up and down make
// the cut bulge and hollow.
func (s *Shears) Key(k Key) (used bool) {
	p := s.pattern()
	if d, ok := arrow(k); ok && d.Y != 0 {
		if _, to := s.ends(p); to == nil || s.pulled != pullNone {
			return false
		}
		if v := s.bulge + d.Y; math.Abs(v) <= mostReach {
			s.bulge = math.Round(v*1e6) / 1e6 // steps of a tenth add up
		}
		return true
	}
	if s.anew(p, func() { used = s.key(&s.base, k) }) {
		s.forget()
	}
	return used
}

func (s *Shears) forget() {
	s.keep, s.name, s.role, s.allowance, s.bulge, s.partner = "", "", "", nil, 0, step.Partner{}
}

// would returns what the new edge is called and is, as far as nothing else was
// said: as the longest edge that is cut away, turned back where that was sewn.
func (s *Shears) would(c cut) (name string, role pattern.Role, allowance float64) {
	pc := s.pattern().Piece(c.from.Piece)
	longest := pc.Edge(c.gone.edges[0])
	allowance = longest.Allowance
	for _, n := range c.gone.edges {
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

const (
	keepLarger  = "the larger part"
	keepSmaller = "the smaller part"
)

// keeps returns the parts by their words, that left of the way first.
func (s *Shears) keeps(c cut) (left, right string) {
	p := s.pattern()
	there, _ := between(p, c.from, c.to)
	back, _ := between(p, c.to, c.from)
	if loopArea(there.path) > loopArea(back.path) {
		return keepSmaller, keepLarger
	}
	return keepLarger, keepSmaller
}

// Fields are the part kept, what the new edge is, the spots, and what becomes
// of the partner when there is one.
func (s *Shears) Fields() []Field {
	c, ok := s.cutting()
	if !ok {
		return nil
	}
	name, role, allowance := s.would(c)
	left, right := s.keeps(c)
	keep := Field{Name: "keep", Label: "Keep", Text: left, Options: []string{keepLarger, keepSmaller}}
	if c.keep == keepRight {
		keep.Text = right
	}
	out := []Field{
		{Name: "name", Label: "The new edge's name", Text: name},
		{Name: "role", Label: "The edge is", Text: string(role), Options: roles()},
		{Name: "allowance", Label: "Allowance", Text: written(s.table, allowance)},
		{Name: "bulge", Label: "Bulge", Text: written(s.table, s.bulge)},
		keep,
	}
	if res, err := s.try.of(s.table, s.Proposal()...); err == nil {
		if rests := s.rests(res); len(rests) > 0 {
			rest := s.partner
			if rest.Rest == "" {
				rest.Rest = rests[0].Edge
			}
			if rest.Role == "" {
				rest.Role = pattern.TurnedBack
			}
			if rest.Notch == "" {
				rest.Notch = name + " end"
			}
			out = append(out,
				Field{Name: "rest", Label: "Rest of " + rests[0].Piece, Text: rest.Rest},
				Field{Name: "rest role", Label: "The rest is", Text: string(rest.Role), Options: roles()},
				Field{Name: "notch", Label: "Notch where the seam ends", Text: rest.Notch})
		}
	}
	return append(out, s.fields(&s.base)...)
}

// Set takes a name, role, allowance, bulge, the part kept, what becomes of the
// partner's rest, or a spot.
func (s *Shears) Set(field, text string) error {
	c, ok := s.cutting()
	if !ok {
		return unknownField("the shears", field)
	}
	switch field {
	case "name":
		name, err := typedName(text)
		if err != nil {
			return err
		}
		if pc := s.pattern().Piece(c.from.Piece); unused(pc, name, c.gone.whole) != name {
			return fmt.Errorf("%s already has an edge %q; give the new one another name", c.from.Piece, name)
		}
		s.name = name
		return nil
	case "rest", "notch":
		name, err := typedName(text)
		if err != nil {
			return err
		}
		if field == "rest" {
			s.partner.Rest = name
		} else {
			s.partner.Notch = name
		}
		return nil
	case "role", "rest role":
		o, err := picked(text, roles())
		if err != nil {
			return err
		}
		if field == "role" {
			s.role = pattern.Role(o)
		} else {
			s.partner.Role = pattern.Role(o)
		}
		return nil
	case "allowance":
		w, err := typedAllowance(s.table, text)
		if err == nil {
			s.allowance = &w
		}
		return err
	case "bulge":
		v, err := typedLength(text)
		if err == nil && math.Abs(v) > mostReach {
			err = fmt.Errorf("a bulge of %s is more than can be cut; the most is %s", written(s.table, v), written(s.table, mostReach))
		}
		if err == nil {
			s.bulge = v
		}
		return err
	case "keep":
		o, err := picked(text, []string{keepLarger, keepSmaller})
		if err != nil {
			return err
		}
		left, _ := s.keeps(c)
		if s.keep = keepLeft; o != left {
			s.keep = keepRight
		}
		return nil
	case "from", "to":
		return s.set(&s.base, field, text)
	}
	return unknownField("the shears", field)
}

// Proposal is the cut, once both spots are chosen.
func (s *Shears) Proposal() []step.Step {
	c, ok := s.cutting()
	if !ok {
		return nil
	}
	name, role, _ := s.would(c)
	out := &step.CutOff{Piece: c.from.Piece, From: c.from.Spot, To: c.to.Spot, Keep: c.keep, Name: name, Role: role, Partner: s.partner}
	if s.allowance != nil {
		w := step.Lit(*s.allowance)
		out.Allowance = &w
	}
	if s.bulge != 0 {
		b := step.Lit(s.bulge)
		out.Bulge = &b
	}
	return []step.Step{out}
}

// Overlay shows the cut, what goes, and what becomes of the partner.
func (s *Shears) Overlay() Overlay {
	var o Overlay
	s.pointed(&o)
	s.show(&s.base, &o)
	c, ok := s.cutting()
	if !ok {
		return o
	}
	o.Strokes = append(o.Strokes, Stroke{c.gone.path, Poor})
	name, _, _ := s.would(c)
	res, err := s.try.of(s.table, s.Proposal()...)
	if err != nil {
		if line, lineErr := geom.Polyline(c.from.At, c.to.At); lineErr == nil {
			o.Strokes = append(o.Strokes, Stroke{line, Poor})
		}
		return o
	}
	if pc, e := res.Size.Pattern.Edge(c.from.Piece, name); e != nil {
		m := middleOf(pc, e)
		o.Strokes = append(o.Strokes, Stroke{e.Path.Transform(pc.Pose), Good})
		o.Notes = append(o.Notes, Note{m.At, written(s.table, e.Length())})
	}
	for _, r := range s.rests(res) {
		o.Show(res.Size.Pattern, r, Poor)
		o.Notes = append(o.Notes, Note{r.At, fmt.Sprintf("%s: %s not sewn", r.Edge, written(s.table, r.S))})
	}
	o.newNotches(s.pattern(), res.Size.Pattern)
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

package tool

import (
	"fmt"
	"math"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Smooth makes an edge fair about a place, a kink or a joint that its line
// runs over.
type Smooth struct {
	base
	at      *Pointing
	reach   [2]float64 // mm towards the start and the end of the edge
	dragged bool       // by hand, so that the stretch is held as a share
	keep    *bool      // the length; nil while nothing was said
	held    int        // the handle that is dragged: 1, 2 or 0
	try     trial
}

// NewSmooth returns the tool for a table.
func NewSmooth(t Table) Tool { return &Smooth{base: base{table: t}} }

// Name returns "smooth".
func (s *Smooth) Name() string { return "smooth" }

// unseen is in mm how far nobody sees an edge move.
const unseen = 0.005

// Hint says what to do next.
func (s *Smooth) Hint() string {
	st, ok := s.stretch()
	switch {
	case !ok:
		hint := "Press near a kink, or on the edge where it is to become smooth."
		if k, ok := s.kink(); ok {
			hint += fmt.Sprintf(" The space bar takes the kink in %s.", k.label(s.pattern()))
		}
		return hint
	case s.held != 0:
		return "Drag along the edge; both handles go together, with Shift this one alone."
	}
	res, err := s.trial()
	if err != nil {
		return sentence(err)
	}
	if !s.moves() {
		return fmt.Sprintf("Here %s is smooth already and nothing would move: press near a kink, or reach further.", st.first.Name)
	}
	text := fmt.Sprintf("Enter smooths %s, Escape abandons. ", st.first.Name)
	if n := len(res.Reports); n > 0 && len(res.Reports[n-1].Notes) > 0 {
		return text + res.Reports[n-1].Notes[0]
	}
	return text + "Drag a handle to reach further or less far."
}

// smoothed is the stretch that is smoothed: of one edge, or of two that follow
// each other.
type smoothed struct {
	pc            *pattern.Piece
	first, second *pattern.Edge // second is nil for one edge
	path          geom.Path     // of both
	middle        float64       // mm from its start; the joint when there are two
	from, to      float64
}

// stretch returns what is smoothed, once a place is chosen.
func (s *Smooth) stretch() (st smoothed, ok bool) {
	p := s.pattern()
	if s.at = anew(p, s.at); s.at == nil {
		s.forget()
		return st, false
	}
	st.pc = p.Piece(s.at.Piece)
	i := st.pc.EdgeIndex(s.at.Edge)
	st.first, st.middle = &st.pc.Edges[i], s.at.S
	switch {
	case s.at.S <= samePlace:
		st.first, st.second = &st.pc.Edges[st.pc.Prev(i)], st.first
		st.middle = st.first.Length()
	case s.at.S >= st.first.Length()-samePlace:
		st.second = &st.pc.Edges[st.pc.Next(i)]
		st.middle = st.first.Length()
	}
	st.path = st.first.Path
	if st.second != nil {
		both, err := geom.Join(st.first.Path, st.second.Path)
		if err != nil {
			return st, false
		}
		st.path = both
	}
	st.from = max(st.middle-s.reach[0], 0)
	st.to = min(st.middle+s.reach[1], st.path.Length())
	return st, st.to > st.from
}

// place returns a place of the stretch on the mat.
func (st smoothed) place(s float64) geom.Point { return st.pc.Pose.Apply(st.path.At(s)) }

// kinks returns where an edge turns within itself, mm from its start.
func kinks(e *pattern.Edge) []float64 { return e.Path.Corners(pattern.SmoothTurn) }

// runsOver reports whether a line of the pattern runs over the joint where
// edge i starts.
func runsOver(p pattern.Pattern, pc *pattern.Piece, i int) bool {
	a, b := pc.Edges[pc.Prev(i)].Name, pc.Edges[i].Name
	for _, l := range p.Lines {
		hasA, hasB := false, false
		for _, pt := range l.Parts {
			hasA = hasA || pt.Piece == pc.Name && pt.Edge == a
			hasB = hasB || pt.Piece == pc.Name && pt.Edge == b
		}
		if hasA && hasB {
			return true
		}
	}
	return false
}

// find returns what can be smoothed under the pointer: a joint that a line
// runs over, a kink, or a place on an edge.
func (s *Smooth) find(e Event) (Pointing, bool) {
	p := s.pattern()
	ask := Ask{Kind: OnEdge | OnJoint, Prefer: s.table.Selection().Piece}
	pt, ok := Point(p, e.At, e.Reach, ask)
	if !ok {
		return pt, false
	}
	pc := p.Piece(pt.Piece)
	if pt.Kind == OnJoint {
		if i := pc.EdgeIndex(pt.Edge); runsOver(p, pc, i) {
			return pt, true
		}
		ask.Kind = OnEdge
		if pt, ok = Point(p, e.At, e.Reach, ask); !ok {
			return pt, false
		}
		pc = p.Piece(pt.Piece)
	}
	edge := pc.Edge(pt.Edge)
	for _, k := range kinks(edge) {
		if at := onEdge(pc, edge, k); at.At.Dist(e.At) <= e.Reach {
			return at, true
		}
	}
	return within(pc, edge, pt.S), true
}

// within returns the place at s mm on an edge, but not at its ends: there
// smoothing would take the corner away.
func within(pc *pattern.Piece, e *pattern.Edge, s float64) Pointing {
	l := e.Length()
	inset := min(leastReach, l/2)
	return onEdge(pc, e, min(max(s, inset), l-inset))
}

// Pointer chooses the place and drags the handles.
func (s *Smooth) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	st, ok := s.stretch()
	switch e.Act {
	case Hover:
		s.over = Pointing{}
		if pt, ok := s.find(e); ok {
			s.over = pt
		}
	case Press:
		s.drop()
		if ok {
			a, b := st.place(st.from).Dist(e.At), st.place(st.to).Dist(e.At)
			switch {
			case a <= e.Reach && a <= b:
				s.held = 1
				return
			case b <= e.Reach:
				s.held = 2
				return
			}
		}
		if pt, ok := s.find(e); ok {
			s.take(pt)
		}
	case Drag:
		if !ok || s.held == 0 {
			return
		}
		foot := st.path.Nearest(st.pc.Pose.Inverse().Apply(e.At))
		v := st.middle - foot.S
		if s.held == 2 {
			v = -v
		}
		s.stretchTo(s.held, v, e.Shift)
		s.dragged = true
	case Release:
		s.held = 0
	}
}

// stretchTo sets a reach, of one handle (1, 2) alone or with the other.
func (s *Smooth) stretchTo(handle int, v float64, alone bool) {
	v = min(max(v, leastReach), mostReach)
	for i := range s.reach {
		if i == handle-1 || !alone {
			s.reach[i] = v
		}
	}
}

func (s *Smooth) take(pt Pointing) {
	s.forget()
	s.at = &pt
	s.reach = usualReaches(s.table)
	s.table.Select(Selection{Piece: pt.Piece, Edge: pt.Edge})
	s.walk.Reset()
}

func (s *Smooth) forget() { *s = Smooth{base: s.base, try: s.try} }

// kink returns the sharpest kink of the piece that is selected, or else of all,
// while no place is chosen.
func (s *Smooth) kink() (best Pointing, ok bool) {
	if s.at != nil {
		return best, false
	}
	p, own := s.pattern(), s.table.Selection().Piece
	most := 0.0
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for j := range pc.Edges {
			e := &pc.Edges[j]
			for _, at := range sharpest(e) {
				turn := turnAt(e, at)
				if fromDart(pc, e.Path.At(at), turn) {
					continue
				}
				if pc.Name == own {
					turn += math.Pi // before any other piece's
				}
				if turn > most {
					most, best = turn, onEdge(pc, e, at)
				}
			}
		}
	}
	return best, most > 0
}

// Key walks to an edge, where its sharpest kink is taken, or to a joint, first
// to the edge with a kink; Choose takes the kink at once. The arrows left and
// right slide the place, up and down change the reach.
func (s *Smooth) Key(k Key) bool {
	if s.held != 0 {
		return false
	}
	p := s.pattern()
	if d, ok := arrow(k); ok {
		if _, ok := s.stretch(); !ok {
			return false
		}
		if d.Y != 0 {
			for i := range s.reach {
				s.stretchTo(i+1, math.Round((s.reach[i]+d.Y)*1e6)/1e6, true)
			}
			s.dragged = false
		} else if pt, ok := slide(p, *s.at, d.X); ok {
			s.at = s.settle(pt)
		}
		return true
	}
	ask := Ask{Kind: OnEdge | OnJoint}
	if kink, ok := s.kink(); ok {
		if _, walking := s.walk.At(p); k.Name == Choose && !walking {
			s.take(kink)
			return true
		}
		ask.Begin = kink
	}
	chosen, took, used := s.keyed(k, ask)
	if took {
		if pc, e := p.Edge(chosen.Piece, chosen.Edge); chosen.Kind == OnEdge {
			for _, at := range sharpest(e) {
				chosen = onEdge(pc, e, at)
			}
		}
		s.take(*s.settle(chosen))
	}
	return used
}

// settle keeps a place off the corners that are no part of a line.
func (s *Smooth) settle(pt Pointing) *Pointing {
	p := s.pattern()
	pc, e := p.Edge(pt.Piece, pt.Edge)
	i := pc.EdgeIndex(pt.Edge)
	if pt.Spot.From == pattern.End {
		i = pc.Next(i)
	}
	if pt.Kind == OnJoint && runsOver(p, pc, i) {
		return &pt
	}
	pt = within(pc, e, pt.S)
	return &pt
}

// sharpest returns the place of the sharpest kink, none on an edge without one.
func sharpest(e *pattern.Edge) []float64 {
	var best []float64
	most := 0.0
	for _, at := range kinks(e) {
		if a := turnAt(e, at); a > most {
			most, best = a, []float64{at}
		}
	}
	return best
}

// turnAt is by how much an edge turns at a place, in radians.
func turnAt(e *pattern.Edge, at float64) float64 {
	return math.Abs(float64(geom.Between(e.Path.TangentBefore(at), e.Path.TangentAt(at))))
}

// keeps reports whether the length is kept: that of a sewn edge unless
// something else was said.
func (s *Smooth) keeps(st smoothed) bool {
	if s.keep != nil {
		return *s.keep
	}
	return st.first.Role.Sewn()
}

// Fields are the reach, whether the length is kept, and the place.
func (s *Smooth) Fields() []Field {
	st, ok := s.stretch()
	if !ok {
		return nil
	}
	var out []Field
	if s.reach[0] == s.reach[1] {
		out = append(out, Field{Name: "reach", Label: "Reach to each side", Text: written(s.table, s.reach[0])})
	} else {
		out = append(out,
			Field{Name: "before", Label: "Reach towards the start", Text: written(s.table, s.reach[0])},
			Field{Name: "after", Label: "Reach towards the end", Text: written(s.table, s.reach[1])})
	}
	return append(out,
		Field{Name: "keep", Label: "Keep its length", Text: yesNo(s.keeps(st)), Options: []string{yes, no}},
		Field{Name: "at", Label: "Place on " + fromStart(s.pattern(), *s.at), Text: written(s.table, s.at.S)})
}

// Set takes the reach to both sides, or "before" or "after" the place, the
// place, or whether the length is kept.
func (s *Smooth) Set(field, text string) error {
	if _, ok := s.stretch(); !ok {
		return unknownField("smooth", field)
	}
	switch field {
	case "reach", "before", "after":
		v, err := typedReach(s.table, text)
		if err != nil {
			return err
		}
		if field != "after" {
			s.reach[0] = v
		}
		if field != "before" {
			s.reach[1] = v
		}
		s.dragged = false
		return nil
	case "keep":
		o, err := picked(text, []string{yes, no})
		if err == nil {
			keep := o == yes
			s.keep = &keep
		}
		return err
	case "at":
		v, err := typedLength(s.table, text)
		if err != nil {
			return err
		}
		pc, e := s.pattern().Edge(s.at.Piece, s.at.Edge)
		if !(v >= 0 && v <= e.Length()) {
			return fmt.Errorf("%s is not on %s, which is %s long", unit.MM(v), e.Name, unit.MM(e.Length()))
		}
		s.at = s.settle(spotOn(pc, e, v))
		return nil
	}
	return unknownField("smooth", field)
}

// Proposal is the smoothing, once a place is chosen where something moves.
func (s *Smooth) Proposal() []step.Step {
	if steps := s.steps(); len(steps) > 0 && s.moves() {
		return steps
	}
	return nil
}

// moves reports whether smoothing moves anything, or is refused.
func (s *Smooth) moves() bool {
	res, err := s.trial()
	return err != nil || figure(res, "moved") >= unseen
}

// steps is the smoothing, once a place is chosen. A stretch that was typed has
// its reach in mm in every size; one that was dragged is a share of the edges.
func (s *Smooth) steps() []step.Step {
	st, ok := s.stretch()
	if !ok {
		return nil
	}
	out := &step.Smooth{Piece: st.pc.Name, Edge: st.first.Name}
	if s.keeps(st) {
		out.Keep = "length"
	}
	if !s.dragged && s.reach[0] == s.reach[1] {
		out.Edge = s.at.Edge
		at, reach := s.at.Spot.Along, step.Lit(s.reach[0])
		out.At, out.Reach = &at, &reach
		return []step.Step{out}
	}
	l := st.first.Length()
	out.From, out.To = &pattern.Along{Share: st.from / l}, &pattern.Along{Share: st.to / l}
	if !s.dragged {
		share := st.middle / l
		out.From = &pattern.Along{Share: share, MM: st.from - st.middle}
		out.To = &pattern.Along{Share: share, MM: st.to - st.middle}
	}
	if st.second != nil {
		out.Then = st.second.Name
		if out.To = (&pattern.Along{MM: st.to - st.middle}); s.dragged {
			out.To = &pattern.Along{Share: (st.to - st.middle) / st.second.Length()}
		}
	}
	return []step.Step{out}
}

func (s *Smooth) trial() (step.Result, error) { return s.try.of(s.table, s.steps()...) }

// Overlay shows kinks, the handles, and the smooth edge with how far it moves.
func (s *Smooth) Overlay() Overlay {
	var o Overlay
	s.pointed(&o)
	st, ok := s.stretch()
	if !ok {
		o.showKinks(s.pattern(), s.table.Selection().Piece)
		return o
	}
	if old, err := st.path.Sub(st.from, st.to); err == nil {
		o.Strokes = append(o.Strokes, Stroke{old.Transform(st.pc.Pose), Guide})
	}
	middle := st.place(st.middle)
	o.Dots = append(o.Dots, Dot{middle, Chosen}, Dot{st.place(st.from), Handle}, Dot{st.place(st.to), Handle})
	res, err := s.trial()
	if err != nil {
		return o
	}
	o.altered(s.pattern(), res.Size.Pattern, Good, func(piece string) bool { return piece == st.pc.Name })
	text := "moves " + unit.MM(figure(res, "moved"))
	if change := figure(res, "length_change"); math.Abs(change) > pinMeets {
		text += ", length " + signed(change)
	} else {
		text += ", length kept"
	}
	o.Notes = append(o.Notes, Note{middle, text})
	return o
}

// Reset forgets the place.
func (s *Smooth) Reset() bool {
	walked := s.drop()
	was := s.at != nil
	*s = Smooth{base: s.base}
	return was || walked
}

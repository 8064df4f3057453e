package tool

import (
	"fmt"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Ruler makes the run of an outline between two spots straight.
type Ruler struct {
	base
	way
	longer    bool // the longer of the two runs between the spots
	name      string
	role      pattern.Role
	allowance *float64
	try       trial
}

// NewRuler returns the ruler for a table.
func NewRuler(t Table) Tool { return &Ruler{base: base{table: t}} }

// Name returns "ruler".
func (r *Ruler) Name() string { return "ruler" }

// Hint says what to do next.
func (r *Ruler) Hint() string {
	from, to := r.ends(r.pattern())
	switch {
	case from == nil:
		return r.onRim(r.orAtOnce("Press the spot where the straight line is to start: a corner, a notch or a place on an edge."))
	case to == nil:
		return r.onRim(fmt.Sprintf("Now press the spot of %s where the straight line is to end.", from.Piece))
	}
	if _, err := r.try.of(r.table, r.Proposal()...); err != nil {
		return sentence(err)
	}
	st, _, _ := r.run()
	return fmt.Sprintf("Enter makes %s straight, Escape abandons; pull at an end to move it.", st.words()) + r.kept(&r.base)
}

// run returns the run that is straightened, in the direction of the outline.
func (r *Ruler) run() (st stretch, from, to *Pointing) {
	p := r.pattern()
	if from, to = r.ends(p); to == nil {
		return st, nil, nil
	}
	there, ok1 := between(p, *from, *to)
	back, ok2 := between(p, *to, *from)
	if !ok1 || !ok2 {
		return st, nil, nil
	}
	if (back.path.Length() < there.path.Length()-samePlace) != r.longer {
		return back, to, from
	}
	return there, from, to
}

// Pointer chooses the spots.
func (r *Ruler) Pointer(e Event) {
	if r.anew(r.pattern(), func() { r.pointer(&r.base, e) }) {
		r.forget()
	}
}

// Key walks to the spots and slides the last one.
func (r *Ruler) Key(k Key) (used bool) {
	if r.anew(r.pattern(), func() { used = r.key(&r.base, k) }) {
		r.forget()
	}
	return used
}

func (r *Ruler) forget() { r.longer, r.name, r.role, r.allowance = false, "", "", nil }

// would returns what the straight edge is called and is, as far as nothing
// else was said: as the first edge that goes whole.
func (r *Ruler) would(st stretch) (name string, role pattern.Role, allowance float64) {
	pc := r.pattern().Piece(r.from.Piece)
	e := pc.Edge(st.edges[0])
	name = unused(pc, "straight "+e.Name, nil)
	if len(st.whole) > 0 {
		e = pc.Edge(st.whole[0])
		name = e.Name
	}
	role, allowance = e.Role, e.Allowance
	if r.name != "" {
		name = r.name
	}
	if r.role != "" {
		role = r.role
	}
	switch {
	case r.allowance != nil:
		allowance = *r.allowance
	case r.role == pattern.LaceEdge:
		allowance = 0 // the border of the lace is the finished edge
	}
	return name, role, allowance
}

const (
	shorterRun = "the shorter way"
	longerRun  = "the longer way"
)

// Fields are the run, the spots, and what the new edge is.
func (r *Ruler) Fields() []Field {
	st, from, _ := r.run()
	if from == nil {
		return nil
	}
	name, role, allowance := r.would(st)
	which := shorterRun
	if r.longer {
		which = longerRun
	}
	out := []Field{
		{Name: "role", Label: "The edge is", Text: role.Word(), Options: roles()},
		{Name: "allowance", Label: "Allowance", Text: written(r.table, allowance)},
		{Name: "name", Label: "New edge", Text: name},
		{Name: "run", Label: "Straight", Text: which, Options: []string{shorterRun, longerRun}},
	}
	return append(out, r.fields(&r.base)...)
}

// Set takes a name, role, allowance, run or spot.
func (r *Ruler) Set(field, text string) error {
	st, from, _ := r.run()
	if from == nil {
		return unknownField("the ruler", field)
	}
	switch field {
	case "name":
		name, err := typedName(text)
		if err != nil {
			return err
		}
		if pc := r.pattern().Piece(from.Piece); unused(pc, name, st.whole) != name {
			return fmt.Errorf("%s already has an edge %q; give the new one another name", from.Piece, name)
		}
		r.name = name
		return nil
	case "role":
		o, err := roleOf(text, roles())
		if err == nil {
			r.role = o
		}
		return err
	case "allowance":
		w, err := typedAllowance(r.table, text)
		if err == nil {
			r.allowance = &w
		}
		return err
	case "run":
		o, err := picked(text, []string{shorterRun, longerRun})
		if err == nil {
			r.longer = o == longerRun
		}
		return err
	case "from", "to":
		return r.set(&r.base, field, text)
	}
	return unknownField("the ruler", field)
}

// Proposal is the straightening, once both spots are chosen.
func (r *Ruler) Proposal() []step.Step {
	st, from, to := r.run()
	if from == nil {
		return nil
	}
	name, role, allowance := r.would(st)
	s := &step.Straighten{Piece: from.Piece, From: from.Spot, To: to.Spot, Name: name, Role: r.role}
	if r.role != "" || r.allowance != nil {
		s.Role = role
		w := step.Lit(allowance)
		s.Allowance = &w
	}
	return []step.Step{s}
}

// Overlay shows the run, the straight line, and how far it lies off the run.
func (r *Ruler) Overlay() Overlay {
	var o Overlay
	r.pointed(&o)
	r.show(&r.base, &o)
	st, from, to := r.run()
	if from == nil {
		return o
	}
	o.Strokes = append(o.Strokes, Stroke{st.path, Guide})
	_, err := r.try.of(r.table, r.Proposal()...)
	style := Good
	text := unit.MM(from.At.Dist(to.At))
	if err != nil {
		style = Poor
	} else {
		text += ", " + offTheOld(st.path, r.pattern().Piece(from.Piece).Pose.Mirrors())
	}
	if line, err := geom.Polyline(from.At, to.At); err == nil {
		o.Strokes = append(o.Strokes, Stroke{line, style})
		o.Notes = append(o.Notes, Note{from.At.Lerp(to.At, 0.5), text})
	}
	return o
}

// offTheOld tells how far the straight line between the ends of a run of an
// outline lies off it, at most, on either side.
func offTheOld(run geom.Path, mirrored bool) string {
	level := geom.Turn(-run.End().Sub(run.Start()).Direction(), run.Start())
	box := run.Transform(level).Bounds()
	out, in := box.Max.Y-run.Start().Y, run.Start().Y-box.Min.Y // the cloth lies to the left of its outline
	if mirrored {
		out, in = in, out
	}
	var told []string
	if out >= leastOff {
		told = append(told, fmt.Sprintf("%s outside", unit.MM(out)))
	}
	if in >= leastOff {
		told = append(told, fmt.Sprintf("%s inside", unit.MM(in)))
	}
	if len(told) == 0 {
		return "on the old edge"
	}
	return "up to " + strings.Join(told, " and ") + " the old edge"
}

// leastOff is the distance in mm below which a line lies on an edge.
const leastOff = 0.005

// squareMMPerIn2 and squareMMPerCM2 are areas in mm².
const (
	squareMMPerIn2 = unit.Inch * unit.Inch
	squareMMPerCM2 = 100
)

// writtenArea writes an area in the square of the unit the maker reads, to a
// hundredth of it; mm² are too small to mean anything to the eye.
func writtenArea(t Table, mm2 float64) string {
	in, sign := float64(squareMMPerCM2), " cm²"
	if u, ok := t.(interface{ Unit() unit.System }); ok && u.Unit() == unit.InchFractions {
		in, sign = squareMMPerIn2, " sq in"
	}
	return strconv.FormatFloat(mm2/in, 'f', 2, 64) + sign
}

// Reset forgets the spots.
func (r *Ruler) Reset() bool {
	walked := r.drop()
	was := r.from != nil
	r.way = way{}
	r.forget()
	return was || walked
}

package tool

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Allowance sets the width of an edge's allowance, how it ends at the corners,
// and the role of the edge.
type Allowance struct {
	base
	piece string
	edges []string
	width *float64
	ends  [2]*pattern.Corner // at the start and the end of the edge
	role  pattern.Role
	both  bool          // the other edges of its seam get the same width
	press pattern.Press // of the seam of the edge; its corner ends are matched to it
	try   trial
}

// NewAllowance returns the allowance tool for a table.
func NewAllowance(t Table) Tool { return &Allowance{base: base{table: t}} }

// Name returns "allowance".
func (a *Allowance) Name() string { return "allowance" }

// Hint says what to do next.
func (a *Allowance) Hint() string {
	edges := a.chosen()
	switch {
	case len(edges) == 0:
		return "Press the edge whose allowance you want to change; with Shift several of one piece."
	case a.Proposal() == nil:
		return fmt.Sprintf("Write the width of the allowance on %s of %s; 0 takes it off.", strings.Join(edges, ", "), a.piece)
	}
	res, err := a.try.of(a.table, a.Proposal()...)
	if err != nil {
		return sentence(err)
	}
	if out := figure(res, "sticks_out"); a.press != "" && out > pinMeets {
		return fmt.Sprintf("At a corner too sharp or too blunt the allowance will stick out by %s; Enter accepts it all the same.", unit.MM(out))
	}
	return "Enter accepts, Escape leaves the allowance as it was."
}

// chosen returns the chosen edges that are still there.
func (a *Allowance) chosen() []string {
	p := a.pattern()
	a.edges = slices.DeleteFunc(a.edges, func(n string) bool { _, e := p.Edge(a.piece, n); return e == nil })
	return a.edges
}

// first returns the first chosen edge with its place in the outline.
func (a *Allowance) first() (*pattern.Piece, int) {
	edges := a.chosen()
	if len(edges) == 0 {
		return nil, -1
	}
	pc := a.pattern().Piece(a.piece)
	return pc, pc.EdgeIndex(edges[0])
}

// Pointer chooses an edge; with Shift one more of the same piece.
func (a *Allowance) Pointer(e Event) {
	ask := Ask{Kind: OnEdge, Prefer: a.table.Selection().Piece}
	switch e.Act {
	case Hover:
		a.hover(e, ask)
	case Press:
		a.drop()
		if pt, ok := Point(a.pattern(), e.At, e.Reach, ask); ok {
			a.take(pt, e.Shift)
		}
	}
}

func (a *Allowance) take(pt Pointing, more bool) {
	edges := a.chosen()
	i := slices.Index(edges, pt.Edge)
	switch {
	case !more || len(edges) == 0 || pt.Piece != a.piece:
		a.forget()
		a.piece, a.edges = pt.Piece, []string{pt.Edge}
	case i >= 0:
		a.edges = slices.Delete(slices.Clone(edges), i, i+1)
	default:
		a.edges = append(slices.Clone(edges), pt.Edge)
	}
	a.table.Select(pt.Selection())
}

func (a *Allowance) forget() {
	a.piece, a.edges, a.width, a.role, a.press, a.both = "", nil, nil, "", "", false
	a.ends = [2]*pattern.Corner{}
}

// Key walks to the edge; the arrows up and down make its allowance wider and
// narrower.
func (a *Allowance) Key(k Key) bool {
	if d, ok := arrow(k); ok {
		pc, i := a.first()
		if pc == nil || d.Y == 0 {
			return false
		}
		w := pc.Edges[i].Allowance
		if a.width != nil {
			w = *a.width
		}
		w = min(max(math.Round((w+d.Y)*1e6)/1e6, 0), pattern.MaxAllowance)
		a.width = &w
		return true
	}
	chosen, took, used := a.keyed(k, Ask{Kind: OnEdge})
	if took {
		a.take(chosen, false)
	}
	return used
}

// joint returns the joint at the start (0) or end (1) of the first edge.
func (a *Allowance) joint(end int) (*pattern.Piece, int) {
	pc, i := a.first()
	if pc != nil && end == 1 {
		i = pc.Next(i)
	}
	return pc, i
}

// roleOf returns the role that was picked or typed, as it is spoken or written
// in files.
func roleOf(text string, of []string) (pattern.Role, error) {
	o, err := picked(strings.ReplaceAll(text, "-", " "), of)
	return pattern.Role(strings.ReplaceAll(o, " ", "-")), err
}

// roles are those that an edge can be given, as they are spoken.
func roles() []string {
	var out []string
	for _, r := range pattern.Roles {
		if r != pattern.Fold && r != pattern.DartEdge {
			out = append(out, r.Word())
		}
	}
	return out
}

// Fields are the width, the ends at both corners and the role.
func (a *Allowance) Fields() []Field {
	pc, i := a.first()
	if pc == nil {
		return nil
	}
	e := &pc.Edges[i]
	width, role := e.Allowance, e.Role
	if a.width != nil {
		width = *a.width
	}
	if a.role != "" {
		role = a.role
	}
	out := []Field{{Name: "width", Label: "Allowance", Text: written(a.table, width)}}
	if f, ok := a.bothField(); ok {
		out = append(out, f)
	}
	if len(a.edges) == 1 {
		for end, f := range []Field{{Name: "start", Label: "Starts"}, {Name: "end", Label: "Ends"}} {
			_, k := a.joint(end)
			c := a.after(pc).Edges[k].Corner
			if a.ends[end] != nil {
				c = *a.ends[end]
			}
			of := pc.Edges[k].Name
			if c.Of == pattern.Before {
				of = pc.Edges[pc.Prev(k)].Name
			}
			f.Text = cornerWords(c.End, of)
			f.Options, _ = corners(pc, k)
			f.Label += " at " + pc.Edges[pc.Prev(k)].Name
			if end == 1 {
				f.Label = "Ends at " + pc.Edges[k].Name
			}
			out = append(out, f)
		}
	}
	if seam, words := a.pressed(); seam != nil {
		f := Field{Name: "press", Label: "The seam is pressed", Text: notPressed, Options: words}
		if seam.Press == "" {
			f.Options = append([]string{notPressed}, words...)
		}
		for k, press := range pattern.Presses {
			if press == a.press || a.press == "" && press == seam.Press {
				f.Text = words[k]
			}
		}
		out = append(out, f)
	}
	return append(out, Field{Name: "role", Label: "The edge is", Text: role.Word(), Options: a.roles()})
}

// roles are those that the chosen edges can be given: one can lie on the fold too.
func (a *Allowance) roles() []string {
	if len(a.edges) == 1 {
		return append(roles(), pattern.Fold.Word())
	}
	return roles()
}

// Set takes the width, a corner's end, the way of pressing or the role.
func (a *Allowance) Set(field, text string) error {
	pc, _ := a.first()
	if pc == nil {
		return unknownField("the allowance", field)
	}
	switch field {
	case "width":
		w, err := typedLength(a.table, text)
		if err != nil {
			return err
		}
		if !(w >= 0 && w <= pattern.MaxAllowance) {
			return fmt.Errorf("an allowance of %s is not between 0 and %d mm", unit.MM(w), pattern.MaxAllowance)
		}
		a.width = &w
		return nil
	case "both":
		if _, ok := a.bothField(); !ok {
			return unknownField("the allowance", field)
		}
		o, err := picked(text, []string{othersStay, othersToo})
		if err == nil {
			a.both = o == othersToo
		}
		return err
	case "start", "end":
		if len(a.edges) > 1 {
			return unknownField("the allowance of several edges", field)
		}
		end := 0
		if field == "end" {
			end = 1
		}
		_, k := a.joint(end)
		labels, ways := corners(pc, k)
		o, err := picked(text, labels)
		if err != nil {
			return err
		}
		a.ends[end] = &ways[slices.Index(labels, o)]
		return nil
	case "press":
		seam, words := a.pressed()
		if seam == nil {
			return unknownField("the allowance", field)
		}
		if seam.Press == "" && text == notPressed {
			a.press = ""
			return nil
		}
		o, err := picked(text, words)
		if err == nil {
			a.press = pattern.Presses[slices.Index(words, o)]
		}
		return err
	case "role":
		o, err := roleOf(text, a.roles())
		if err == nil {
			a.role = o
		}
		return err
	}
	return unknownField("the allowance", field)
}

// Proposal sets what differs from what the edges have, on request on the other
// side of the seam too, and matches the corner
// ends of both sides of a seam when it was said where that is pressed.
func (a *Allowance) Proposal() []step.Step {
	pc, _ := a.first()
	if pc == nil {
		return nil
	}
	s := &step.Allow{Piece: pc.Name}
	alters := func(differs func(e *pattern.Edge) bool) bool {
		return slices.ContainsFunc(a.edges, func(n string) bool { return differs(pc.Edge(n)) })
	}
	if a.width != nil && alters(func(e *pattern.Edge) bool { return e.Allowance != *a.width }) {
		w := step.Lit(*a.width)
		s.Width = &w
	}
	if a.role != "" && alters(func(e *pattern.Edge) bool { return e.Role != a.role }) {
		s.Role = a.role
	}
	if s.Role == pattern.Fold { // which has no allowance
		return []step.Step{&step.Allow{Piece: pc.Name, Edge: a.edges[0], Role: s.Role}}
	}
	if len(a.edges) == 1 {
		s.Edge = a.edges[0]
		for end, to := range []**pattern.Corner{&s.Start, &s.End} {
			if _, k := a.joint(end); a.ends[end] != nil && pc.Edges[k].Corner != *a.ends[end] {
				c := *a.ends[end]
				*to = &c
			}
		}
	} else {
		s.Edges = slices.Clone(a.edges)
	}
	out := a.others()
	if seam, _ := a.pressed(); seam != nil && a.press != "" {
		out = append(out, &step.Allow{Seam: seam.Name, Press: a.press})
	}
	if s.Width != nil || s.Role != "" || s.Start != nil || s.End != nil {
		out = append([]step.Step{s}, out...)
	}
	return out
}

// Overlay shows the edges and the width of their allowance.
func (a *Allowance) Overlay() Overlay {
	var o Overlay
	a.pointed(&o)
	p := a.pattern()
	for _, n := range a.chosen() {
		pc, e := p.Edge(a.piece, n)
		m := middleOf(pc, e)
		o.Show(p, m, Chosen)
		text := unit.MM(e.Allowance)
		if a.width != nil && *a.width != e.Allowance {
			text += " → " + unit.MM(*a.width)
		}
		o.Dots = append(o.Dots, Dot{At: m.At, Style: Chosen}) // to which the note leads, also of a piece that alters
		o.Notes = append(o.Notes, Note{m.At, text})
	}
	if seam, words := a.pressed(); seam != nil && a.press != "" {
		for _, pt := range slices.Concat(seam.A, seam.B) {
			if pc, e := p.Edge(pt.Piece, pt.Edge); e != nil && !(pt.Piece == a.piece && pt.Edge == a.edges[0]) {
				m := middleOf(pc, e)
				o.Show(p, m, Chosen)
				o.Notes = append(o.Notes, Note{m.At, "pressed " + words[slices.Index(pattern.Presses, a.press)]})
			}
		}
	}
	return o
}

// Reset forgets the edges and what was to be set.
func (a *Allowance) Reset() bool {
	walked := a.drop()
	was := len(a.edges) > 0
	a.forget()
	return was || walked
}

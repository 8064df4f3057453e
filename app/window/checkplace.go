package window

import (
	"math"
	"slices"

	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// showCheck goes to the place of a check and marks its sentence, brought into
// view, with the bounds that decide below it.
func (c *column) showCheck(ch check.Check) {
	c.bounds, c.wrong = checkAt(ch), nil
	for _, now := range c.checks {
		if checkAt(now) == c.bounds && now.Verdict == check.Holds {
			c.full = true
		}
	}
	c.goTo(ch)
	if u, ok := c.w.tool().(interface{ Unpoint() }); ok && !c.w.shown.asked {
		u.Unpoint() // the keys go on at its place
	}
	c.w.show() // its mark, also where its place was selected before
	c.refresh()
	c.toCheck(c.bounds)
}

// goTo selects the place of a check and shows it with all pieces it is about.
func (c *column) goTo(ch check.Check) {
	s := tool.Selection{Piece: ch.Piece, Edge: ch.Edge}
	p := c.w.desk.Pattern()
	var parts []pattern.Part
	if seam := p.Seam(ch.Seam); seam != nil {
		parts = seam.A
	} else if l := p.Line(ch.Line); l != nil {
		parts = l.Parts
	}
	if s.Piece == "" && len(parts) > 0 {
		s = tool.Selection{Piece: parts[0].Piece, Edge: parts[0].Edge}
	} else if s.Edge == "" {
		if i := slices.IndexFunc(parts, func(pt pattern.Part) bool { return pt.Piece == s.Piece }); i >= 0 {
			s.Edge = parts[i].Edge
		}
	}
	c.w.lookAt(s)
	box := geom.NoBox()
	for _, name := range concerned(p, ch, s.Piece) {
		if pc := p.Piece(name); pc != nil {
			for i := range pc.Edges {
				box = box.Union(pc.Edges[i].Path.Transform(pc.Pose).Bounds())
			}
		}
	}
	if !box.Empty() {
		c.w.mat.FitBox(box.Grow(around))
	}
}

// concerned names the pieces that a check is about: both sides of a seam, all on a
// line, both where it runs on from one to the other, else the one.
func concerned(p pattern.Pattern, ch check.Check, piece string) []string {
	names := []string{piece}
	if seam := p.Seam(ch.Seam); seam != nil {
		for _, pt := range slices.Concat(seam.A, seam.B) {
			names = append(names, pt.Piece)
		}
	}
	if a, b, ok := joined(p, ch); ok {
		return append(names, a.Piece, b.Piece)
	}
	if l := p.Line(ch.Line); l != nil && ch.ID != check.LineCorner {
		for _, pt := range l.Parts {
			names = append(names, pt.Piece)
		}
	}
	return names
}

// joined returns the parts of a line between which a check says how it runs on.
func joined(p pattern.Pattern, ch check.Check) (before, after pattern.Part, ok bool) {
	l := p.Line(ch.Line)
	if l == nil || ch.ID != check.RunOn {
		return before, after, false
	}
	for i := range max(len(l.Parts)-1, 0) {
		if pt := l.Parts[i]; pt.Piece == ch.Piece && pt.Edge == ch.Edge {
			return pt, l.Parts[i+1], true
		}
	}
	return before, after, false
}

// turnOf returns the corners in mm on the mat at which a check says how a line runs
// on, one on each piece; none of other checks.
func turnOf(p pattern.Pattern, ch check.Check) (out []geom.Point) {
	before, after, ok := joined(p, ch)
	if !ok {
		return nil
	}
	for _, pt := range []pattern.Part{before.Backwards(), after} {
		if path, err := p.PartPath(pt); err == nil {
			out = append(out, p.Piece(pt.Piece).Pose.Apply(path.Start()))
		}
	}
	return out
}

// turnShown is turnOf of the check whose sentence is marked, while its place is
// what is selected.
func (c *column) turnShown() []geom.Point {
	i := slices.IndexFunc(c.checks, func(ch check.Check) bool { return checkAt(ch) == c.bounds })
	if i < 0 || c.w.desk.Selection() != (tool.Selection{Piece: c.checks[i].Piece, Edge: c.checks[i].Edge}) {
		return nil
	}
	return turnOf(c.w.desk.Pattern(), c.checks[i])
}

// markCheck shows on the mat where the check is whose sentence is marked: the
// narrowest place, the stretch that does not turn flat, the corner of a line, both
// sides of the joint at which a line turns, or the notches that miss each other.
func (c *column) markCheck(o *tool.Overlay) {
	i := slices.IndexFunc(c.checks, func(ch check.Check) bool { return checkAt(ch) == c.bounds })
	if i < 0 || c.w.shown.asked {
		return
	}
	ch, p := c.checks[i], c.w.desk.Pattern()
	if at := (tool.Selection{Piece: ch.Piece, Edge: ch.Edge}); ch.Verdict == check.Holds && c.w.desk.Selection() != at {
		return // it was mended meanwhile
	}
	if _, rolled := c.w.walkTable(); rolled {
		return // its pieces lie elsewhere
	}
	if turn := turnOf(p, ch); len(turn) > 0 {
		for _, at := range turn {
			o.Dots = append(o.Dots, tool.Dot{At: at, Style: tool.Chosen})
		}
		return
	}
	if ch.ID == check.LineCorner {
		if pt, at, ok := check.CornerAt(p, ch); ok {
			pc, e := p.Edge(pt.Piece, pt.Edge)
			o.Dots = append(o.Dots, tool.Dot{At: pc.Pose.Apply(e.Path.At(at)), Style: tool.Chosen})
		}
		return
	}
	if seam := p.Seam(ch.Seam); seam != nil && ch.ID == check.SeamNotches {
		for _, m := range check.Missed(p, *seam, c.w.desk.Bounds()) {
			for _, n := range []pattern.SeamNotch{m.A, m.B} {
				markMissed(o, p, n, m)
			}
		}
		return
	}
	pc, e := p.Edge(ch.Piece, ch.Edge)
	if e == nil {
		return
	}
	if from, to, ok := check.TurnedWhere(ch, e, c.w.desk.Bounds()); ok {
		path := geom.Must(e.Path.Sub(from, to)).Transform(pc.Pose)
		o.Strokes = append(o.Strokes, tool.Stroke{Path: path, Style: tool.Measured})
		o.Notes = append(o.Notes, tool.Note{At: path.At(path.Length() / 2), Text: unit.MM(math.Round(to - from))})
		return
	}
	if ch.ID != check.ClothBelow {
		return
	}
	if a, b, ok := check.Narrowest(pc, e); ok {
		a, b = pc.Pose.Apply(a), pc.Pose.Apply(b)
		if line, err := geom.Polyline(a, b); err == nil {
			o.Strokes = append(o.Strokes, tool.Stroke{Path: line, Style: tool.Measured})
		}
		o.Notes = append(o.Notes, tool.Note{At: a.Lerp(b, 0.5), Text: unit.MM(a.Dist(b))})
	}
}

// markMissed marks one of two notches that miss each other, with how far, or how it
// is cut where that is what differs.
func markMissed(o *tool.Overlay, p pattern.Pattern, n pattern.SeamNotch, m check.Miss) {
	pc, e := p.Edge(n.Piece, n.Notch.Edge)
	if e == nil {
		return
	}
	at := pc.Pose.Apply(e.Path.At(n.Notch.At(e.Length())))
	told := "off by " + unit.MM(m.By)
	switch {
	case m.A.Notch.Double == m.B.Notch.Double:
	case n.Notch.Double:
		told = "double"
	default:
		told = "single"
	}
	o.Dots = append(o.Dots, tool.Dot{At: at, Style: tool.Chosen})
	o.Notes = append(o.Notes, tool.Note{At: at, Text: told})
}

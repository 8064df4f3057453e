package tool

import (
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Overlay shows both sides, how they will run, the handle, and the difference
// before and after.
func (l *Level) Overlay() Overlay {
	var o Overlay
	l.pointed(&o)
	p, s := l.chosen()
	if s == nil {
		return o
	}
	for _, pt := range slices.Concat(s.A, s.B) {
		if pc, e := p.Edge(pt.Piece, pt.Edge); e != nil {
			o.Show(p, middleOf(pc, e), Chosen)
		}
	}
	a, b, _ := l.rail()
	lengthA, lengthB := p.SeamLengths(*s)
	differs := func(d float64) string {
		if math.Abs(d) <= levelFine {
			return "level"
		}
		return unit.MM(math.Abs(d)) + " apart"
	}
	if l.Proposal() == nil {
		o.Notes = append(o.Notes, Note{a, differs(0)})
		return o
	}
	if line, err := geom.Polyline(a, b); err == nil {
		o.Strokes = append(o.Strokes, Stroke{line, Guide})
	}
	var ends Note // where an end moves
	if end := levelEnds[l.ends].moves; end != "" {
		at, other := l.endsWords(p, s)
		if end == pattern.End {
			at = other
		}
		side := s.A
		if l.bend == "b" {
			side = s.B
		}
		pt := side[0]
		if end == pattern.End {
			pt = side[len(side)-1].Backwards()
		}
		if path, err := p.PartPath(pt); err == nil {
			ends = Note{p.Piece(pt.Piece).Pose.Apply(path.Start()), at}
		}
	}
	at, _ := l.handle()
	o.Dots = append(o.Dots, Dot{at, Handle})
	before := lengthA - lengthB - s.Ease
	res, err := l.try.of(l.table, l.Proposal()...)
	if err != nil {
		o.Notes = append(o.Notes, Note{at, differs(before)})
		return o
	}
	o.altered(p, res.Size.Pattern, Good, anyPiece)
	after := before
	if is := res.Size.Pattern.Seam(s.Name); is != nil {
		x, y := res.Size.Pattern.SeamLengths(*is)
		after = x - y - is.Ease
	}
	o.Notes = append(o.Notes, Note{at, differs(before) + " → " + differs(after)})
	if moves := l.moves(res, a, b); moves.Text != "" {
		if ends.Text != "" {
			moves = Note{ends.At, moves.Text + " " + ends.Text}
		}
		o.Notes = append(o.Notes, moves)
	}
	return o
}

// moves tells by how much each side moves at most, in one note.
func (l *Level) moves(res step.Result, a, b geom.Point) Note {
	byA, byB := figure(res, "moved_a"), figure(res, "moved_b")
	textA, textB := unit.MM(byA), unit.MM(byB)
	switch {
	case byA > pinMeets && byB > pinMeets && textA == textB:
		return Note{a, "each side moves " + textA}
	case byA > pinMeets && byB > pinMeets:
		return Note{a, "moves " + textA + ", the other " + textB}
	case byA > pinMeets:
		return Note{a, "moves " + textA}
	case byB > pinMeets:
		return Note{b, "moves " + textB}
	}
	return Note{}
}

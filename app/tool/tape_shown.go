package tool

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Hint says what to do next.
func (t *Tape) Hint() string {
	a, b := t.chosen()
	if t.Proposal() != nil {
		res, err := t.trial()
		if err != nil {
			return sentence(err)
		}
		text := fmt.Sprintf("Enter tapes %s to %s, Escape abandons.", b.Piece, a.Piece) + t.unlike(a, b)
		for _, c := range t.lines(res) {
			if l := c.was - c.is; math.Abs(l) > pinMeets && written(t.table, l) != written(t.table, figure(res, "overlap")) {
				return text + fmt.Sprintf(" The overlap is measured straight, the %s along its edge.", c.name)
			}
		}
		return text
	}
	switch {
	case a != nil:
		return fmt.Sprintf("Now press the edge of another piece that is to be taped to %s.", a.label(t.pattern()))
	case len(t.offers()) > 0:
		o := t.offers()[0]
		hint := fmt.Sprintf("Press the two edges to be taped: %s and %s lie together.", edgeOf(o[0]), edgeOf(o[1]))
		if _, walking := t.walk.At(t.pattern()); walking {
			return hint + " The space bar takes what N is at; Escape leaves that."
		}
		return hint + " The space bar takes both."
	}
	return "Press the first edge, then the edge of another piece; their ends must have been laid together."
}

// unlike tells in what the two that are taped differ: how far one edge stands over
// the other, and that one piece is cut in pairs; "" in nothing.
func (t *Tape) unlike(a, b *Pointing) (text string) {
	p := t.pattern()
	pa, ea := p.Edge(a.Piece, a.Edge)
	pb, eb := p.Edge(b.Piece, b.Edge)
	long, by := a, ea.Length()-eb.Length()
	if by < 0 {
		long, by = b, -by
	}
	if by > standsOver {
		text += fmt.Sprintf(" %s is %s longer and stands over, which leaves a corner in the outline.", long.label(p), unit.MM(by))
	}
	if pa.Cut.Pair != pb.Cut.Pair && pa.Fold() == nil && pb.Fold() == nil {
		pair := pa.Name
		if pb.Cut.Pair {
			pair = pb.Name
		}
		text += fmt.Sprintf(" What is joined is cut in pairs, as %s is.", pair)
	}
	along := func(pc *pattern.Piece) geom.Point { return pc.Pose.Vector(pc.Arrow.To.Sub(pc.Arrow.From)) }
	if off := math.Abs(geom.Between(along(pa), along(pb)).Degrees()); min(off, 180-off) > arrowsApart {
		text += fmt.Sprintf(" It keeps the arrow of %s, the first of the two; that of %s is %.0f° off.", pa.Name, pb.Name, min(off, 180-off))
	}
	return text
}

// arrowsApart is in degrees from what angle on it is told which arrow is kept.
const arrowsApart = 10

// standsOver is in mm from what difference on it is told that one taped edge is
// longer than the other.
const standsOver = 0.5

// lineChange is what taping makes of a line that both pieces carry.
type lineChange struct {
	name    string
	was, is float64 // mm, all of it
}

// lines returns the lines that both pieces carry, those that change most first.
func (t *Tape) lines(res step.Result) []lineChange {
	p, next := t.pattern(), res.Size.Pattern
	a, b := t.chosen()
	var out []lineChange
	for _, l := range p.Lines {
		on := func(piece string) bool {
			return slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool { return pt.Piece == piece })
		}
		if now := next.Line(l.Name); now != nil && on(a.Piece) && on(b.Piece) {
			out = append(out, lineChange{l.Name, p.Length(l.Parts), next.Length(now.Parts)})
		}
	}
	slices.SortStableFunc(out, func(x, y lineChange) int {
		dx, dy := math.Abs(x.is-x.was), math.Abs(y.is-y.was)
		switch {
		case dx > dy+samePlace:
			return -1
		case dy > dx+samePlace:
			return 1
		}
		return 0
	})
	return out
}

// Tells gives what becomes of the lines that run through both pieces.
func (t *Tape) Tells() []string {
	if t.Proposal() == nil {
		return nil
	}
	res, err := t.trial()
	if err != nil {
		return nil
	}
	var out []string
	for _, c := range t.lines(res) {
		text := fmt.Sprintf("%s %s, ", res.Size.Pattern.LineWords(c.name), unit.MM(c.is))
		switch d := c.is - c.was; {
		case math.Abs(d) <= pinMeets/2:
			text += "as before"
		case d < 0:
			text += unit.MM(-d) + " shorter"
		default:
			text += unit.MM(d) + " longer"
		}
		out = append(out, text)
	}
	return out
}

// Traced names what lies on the other piece of the two that are to be taped.
func (t *Tape) Traced() map[string]bool {
	a, b := t.chosen()
	if b != nil {
		return nil
	}
	p := t.pattern()
	top := ""
	for _, e := range t.offered(a) {
		if top == "" || pieceIndex(p, e.Piece) > pieceIndex(p, top) {
			top = e.Piece
		}
	}
	if top == "" {
		return nil
	}
	return map[string]bool{top: true}
}

func pieceIndex(p pattern.Pattern, name string) int {
	return slices.IndexFunc(p.Pieces, func(pc pattern.Piece) bool { return pc.Name == name })
}

// offered returns the ends of the pair that is offered first, with the edge
// that is chosen already when one is.
func (t *Tape) offered(a *Pointing) []step.EdgeEnd {
	for _, o := range t.offers() {
		if a == nil || slices.ContainsFunc(o[:], func(e step.EdgeEnd) bool { return e.Piece == a.Piece && e.Edge == a.Edge }) {
			return o[:]
		}
	}
	return nil
}

// Overlay shows the edges with their names, the pin, and the overlap or gap at
// the far end.
func (t *Tape) Overlay() Overlay {
	var o Overlay
	t.pointed(&o)
	p := t.pattern()
	a, b := t.chosen()
	for _, c := range []*Pointing{a, b} {
		if c != nil {
			o.Show(p, *c, Chosen)
		}
	}
	if b == nil {
		t.showOffered(&o, a)
		return o
	}
	if t.Proposal() == nil {
		return o
	}
	pin, err := p.Find(pattern.AtEnd(a.Piece, a.Edge, t.end))
	if err != nil {
		return o
	}
	o.Dots = append(o.Dots, Dot{pin.Mat, Pin})
	far, errA := p.Find(pattern.AtEnd(a.Piece, a.Edge, otherEnd(t.end)))
	over, errB := p.Find(pattern.AtEnd(b.Piece, b.Edge, t.end))
	if errA != nil || errB != nil {
		return o
	}
	res, err := t.trial()
	if err != nil {
		if d := t.apart(t.end); d > pinMeets && !math.IsInf(d, 1) {
			o.Notes = append(o.Notes, Note{pin.Mat, unit.MM(d) + " apart"})
		}
		return o
	}
	overlap := figure(res, "overlap")
	text := "the edges meet"
	switch {
	case overlap > pinMeets:
		text = "overlap " + unit.MM(overlap) + ": the tape takes it"
	case overlap < -pinMeets:
		text = "gap " + unit.MM(-overlap) + ": paper fills it"
	default:
		o.Dots = append(o.Dots, Dot{far.Mat, Good})
	}
	if way, err := geom.Polyline(far.Mat, over.Mat); err == nil && math.Abs(overlap) > pinMeets {
		o.Strokes = append(o.Strokes, Stroke{way, Measured})
	}
	o.Notes = append(o.Notes, Note{far.Mat.Lerp(over.Mat, 0.5), text})
	return o
}

// showOffered shows the edges of the pair that is offered, each with its name
// and a number, the first near the end where they lie furthest apart.
func (t *Tape) showOffered(o *Overlay, a *Pointing) {
	p := t.pattern()
	for i, e := range t.offered(a) {
		at, ok := t.numberAt(i, e)
		if !ok {
			continue
		}
		number := fmt.Sprint(i + 1)
		if a == nil || a.Piece != e.Piece || a.Edge != e.Edge {
			o.Show(p, Pointing{Kind: OnEdge, Piece: e.Piece, Edge: e.Edge}, Handle)
			o.Signs = append(o.Signs, Sign{at, number})
		}
		o.Notes = append(o.Notes, Note{at, number + "  " + edgeOf(e)})
	}
}

// numberAt is where the edge of a pair, the first or second, bears its number.
func (t *Tape) numberAt(i int, e step.EdgeEnd) (geom.Point, bool) {
	pc, edge := t.pattern().Edge(e.Piece, e.Edge)
	if edge == nil {
		return geom.Point{}, false
	}
	share := offeredAt[i]
	if e.End == pattern.End {
		share = 1 - share
	}
	return pc.Pose.Apply(edge.Path.At(share * edge.Length())), true
}

// offeredAt is where the edges of a pair are marked, as shares from the pinned
// end: apart, so that either can be pressed.
var offeredAt = [2]float64{0.88, 0.5}

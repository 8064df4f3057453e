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

// Hand selects what lies on the mat and pushes pieces about.
type Hand struct {
	base
	piece    string // being pushed
	from     geom.Point
	corner   *geom.Point // where a corner that is held lay
	pressed  bool
	moving   bool
	dx, dy   float64
	place    *step.Place // instead of the shift, when it met another piece
	laid     *step.Place // the last of these
	finished bool
	sewing   sewing
}

// NewHand returns the hand for a table.
func NewHand(t Table) Tool { return &Hand{base: base{table: t}} }

// Name returns "hand".
func (h *Hand) Name() string { return "hand" }

// Hint says what to do next.
func (h *Hand) Hint() string {
	sel := h.table.Selection()
	switch {
	case h.sews():
		return h.sewHint()
	case h.place != nil && !h.pressed:
		return fmt.Sprintf("Enter lays %s with %s against %s, Escape leaves it where it was.", h.piece, h.place.Edge, h.place.Onto.Piece)
	case h.place != nil:
		return fmt.Sprintf("Let go and %s lies with %s against %s.", h.piece, h.place.Edge, h.place.Onto.Piece)
	case h.moving:
		return "Let go where the piece is to lie; near an edge it is sewn to it snaps, with Ctrl it does not."
	case h.Proposal() != nil:
		return "Enter accepts the move, Escape abandons it; the arrows push further."
	case sel.Piece != "":
		return fmt.Sprintf("Drag %s where you want it, or push it with the arrows; press another thing to select that.", sel.Piece)
	}
	return "Press a piece, an edge, a corner, a notch or a line to select it; drag a piece to move it."
}

// Pointer selects on a press, and moves the piece on a drag.
func (h *Hand) Pointer(e Event) {
	if !e.At.Finite() {
		return
	}
	if h.sews() {
		h.sewPointer(e)
		return
	}
	p := h.pattern()
	ask := Ask{Kind: OnAnything, Prefer: h.table.Selection().Piece}
	switch e.Act {
	case Hover:
		h.hover(e, ask)
	case Press:
		h.drop()
		h.putBack()
		pt, ok := Point(p, e.At, e.Reach, ask)
		if !ok {
			h.table.Select(Selection{})
			return
		}
		h.table.Select(pt.Selection())
		h.piece, h.from, h.pressed = pt.Piece, e.At, true
		if pt.Kind == OnJoint {
			h.corner = &pt.At
		}
	case Drag:
		if !h.pressed || p.Piece(h.piece) == nil {
			return
		}
		d := e.At.Sub(h.from)
		if !h.moving && d.Norm() <= e.Reach/2 {
			return
		}
		if sel := h.table.Selection(); !h.moving && (sel.Edge != "" && !sel.Joint || sel.Inner != "") {
			h.table.Select(Selection{Piece: h.piece}) // it is the piece that moves
		}
		h.moving, h.over = true, Pointing{}
		h.shift(p, d, e)
	case Release:
		h.finished = h.moving
		h.pressed, h.moving = false, false
	}
}

// shift moves the piece by d, or by what the things it meets make of it.
func (h *Hand) shift(p pattern.Pattern, d geom.Point, e Event) {
	if e.Shift {
		if math.Abs(d.X) > math.Abs(d.Y) {
			d.Y = 0
		} else {
			d.X = 0
		}
	}
	h.dx, h.dy, h.place = d.X, d.Y, nil
	if e.Ctrl {
		return
	}
	pitch := gridPitch(h.table)
	if h.place = h.meets(p, d, e.Reach); h.place == nil && h.corner != nil && !e.Shift {
		to := Snap(h.corner.Add(d), pitch, min(e.Reach/2, pitch/4)).Sub(*h.corner)
		h.dx, h.dy = to.X, to.Y
	}
}

// meets returns how the piece, shifted by d, is laid against another with the
// end of an edge when such ends are within reach: best along a seam, then with
// the end nearest to the hand, then with the least turn.
func (h *Hand) meets(p pattern.Pattern, d geom.Point, reach float64) *step.Place {
	own := p.Piece(h.piece)
	var best *step.Place
	var bestSeam bool
	var bestHand, bestTurn float64
	held := ends(own, anywhere)
	near := func(at geom.Point) bool {
		return slices.ContainsFunc(held, func(a edgeEnd) bool { return a.at.Add(d).Dist(at) <= reach })
	}
	for i := range p.Pieces {
		other := &p.Pieces[i]
		if other.Name == h.piece {
			continue
		}
		for _, b := range ends(other, near) {
			for _, a := range held {
				if !(a.at.Add(d).Dist(b.at) <= reach) || !sideBySide(own, a, other, b) {
					continue
				}
				seam := sewn(p, a.EdgeEnd, b.EdgeEnd)
				hand := a.at.Dist(h.from)
				turn := math.Abs(float64(geom.Between(a.along, b.along)))
				switch {
				case !seam && turn > mostTurn:
					continue
				case best == nil || seam != bestSeam:
					if bestSeam {
						continue
					}
				case hand > bestHand+samePlace || hand > bestHand-samePlace && turn >= bestTurn:
					continue
				}
				onto := b.EdgeEnd
				best = &step.Place{Piece: h.piece, Edge: a.Edge, End: a.End, Onto: &onto}
				bestSeam, bestHand, bestTurn = seam, hand, turn
			}
		}
	}
	return best
}

// mostTurn is the greatest turn, in radians, that a piece takes by itself to
// lie against an edge that it is not sewn to: more would surprise.
const mostTurn = math.Pi / 6

// edgeEnd is an end of an edge as it lies on the mat, with the direction from
// there along the edge.
type edgeEnd struct {
	step.EdgeEnd
	at, along geom.Point
}

func anywhere(geom.Point) bool { return true }

// ends returns the ends of a piece's edges that lie where they are wanted.
func ends(pc *pattern.Piece, wanted func(at geom.Point) bool) []edgeEnd {
	var out []edgeEnd
	for i := range pc.Edges {
		e := &pc.Edges[i]
		if e.Role == pattern.Fold {
			continue
		}
		if at := pc.Pose.Apply(e.Path.Start()); wanted(at) {
			out = append(out, edgeEnd{step.EdgeEnd{Piece: pc.Name, Edge: e.Name, End: pattern.Start},
				at, pc.Pose.Vector(e.Path.TangentAt(0))})
		}
		if at := pc.Pose.Apply(e.Path.End()); wanted(at) {
			out = append(out, edgeEnd{step.EdgeEnd{Piece: pc.Name, Edge: e.Name, End: pattern.End},
				at, pc.Pose.Vector(e.Path.TangentBefore(e.Length())).Mul(-1)})
		}
	}
	return out
}

// sideBySide reports whether the edges can run side by side from these ends
// with the pieces on opposite sides.
func sideBySide(own *pattern.Piece, a edgeEnd, other *pattern.Piece, b edgeEnd) bool {
	return ((a.End == pattern.Start) != own.Pose.Mirrors()) != ((b.End == pattern.Start) != other.Pose.Mirrors())
}

// sewn reports whether the ends are joined by a seam that starts or ends there.
func sewn(p pattern.Pattern, a, b step.EdgeEnd) bool {
	for _, s := range p.Seams {
		for _, pair := range seamEnds(s) {
			if pair == [2]step.EdgeEnd{a, b} || pair == [2]step.EdgeEnd{b, a} {
				return true
			}
		}
	}
	return false
}

// seamEnds returns the pairs of edge ends that a seam brings together, where
// its sides start and where they end.
func seamEnds(s pattern.Seam) [][2]step.EdgeEnd {
	if len(s.A) == 0 || len(s.B) == 0 {
		return nil
	}
	var out [][2]step.EdgeEnd
	add := func(a, b pattern.Part, atA, atB float64) {
		if a.Piece != b.Piece && (atA == 0 || atA == 1) && (atB == 0 || atB == 1) {
			out = append(out, [2]step.EdgeEnd{partEnd(a, atA), partEnd(b, atB)})
		}
	}
	a, b := s.A[len(s.A)-1], s.B[len(s.B)-1]
	add(s.A[0], s.B[0], s.A[0].From, s.B[0].From)
	add(a, b, a.To, b.To)
	return out
}

func partEnd(pt pattern.Part, at float64) step.EdgeEnd {
	end := pattern.Start
	if at == 1 {
		end = pattern.End
	}
	return step.EdgeEnd{Piece: pt.Piece, Edge: pt.Edge, End: end}
}

// Key pushes the selected piece with the arrows and walks with the others.
func (h *Hand) Key(k Key) bool {
	if h.pressed {
		return false
	}
	if h.sews() {
		return h.sewKey(k)
	}
	if d, ok := arrow(k); ok {
		sel := h.table.Selection()
		if h.pattern().Piece(sel.Piece) == nil {
			return false
		}
		if h.piece != sel.Piece || h.place != nil {
			h.putBack()
		}
		h.piece, h.finished = sel.Piece, true
		h.dx, h.dy = h.dx+d.X, h.dy+d.Y
		return true
	}
	chosen, took, used := h.keyed(k, Ask{Kind: OnAnything})
	if took {
		h.putBack()
		h.table.Select(chosen.Selection())
	}
	return used
}

// arrow returns the way of an arrow key in mm.
func arrow(k Key) (geom.Point, bool) { return pointed(k.Name, k.Step) }

// counted returns the way of an arrow key in degrees or per cent.
func counted(k Key) (geom.Point, bool) { return pointed(k.Name, k.Count) }

func pointed(k KeyName, by float64) (geom.Point, bool) {
	if !(math.Abs(by) <= longestNudge) {
		return geom.Point{}, false
	}
	switch k {
	case Left:
		return geom.Pt(-by, 0), true
	case Right:
		return geom.Pt(by, 0), true
	case Up:
		return geom.Pt(0, by), true
	case Down:
		return geom.Pt(0, -by), true
	}
	return geom.Point{}, false
}

// longestNudge is the longest way in mm that a key moves anything.
const longestNudge = 1000

// Fields are the shift, and the seams along which the piece can be laid.
func (h *Hand) Fields() []Field {
	sel := h.table.Selection()
	if h.pattern().Piece(sel.Piece) == nil || h.sews() {
		return nil
	}
	out := []Field{
		{Name: "x", Label: "Across", Text: written(h.table, h.shown().X)},
		{Name: "y", Label: "Up", Text: written(h.table, h.shown().Y)},
	}
	if places := h.places(sel.Piece); len(places) > 0 {
		f := Field{Name: "lay", Label: "Lay it", Text: layFree, Options: []string{layFree}}
		for _, pl := range places {
			label := h.layLabel(pl)
			f.Options = append(f.Options, label)
			switch {
			case h.place != nil && h.layLabel(h.place) == label:
				f.Text = label
			case h.Proposal() == nil && h.lies(pl) && (f.Text == layFree || h.laid != nil && h.layLabel(h.laid) == label):
				f.Text = label // of places that are one, that by which it came there
			}
		}
		out = append(out, f)
	}
	return out
}

func (h *Hand) shown() geom.Point {
	if h.piece != h.table.Selection().Piece {
		return geom.Point{}
	}
	return geom.Pt(h.dx, h.dy)
}

// places returns how a piece can be laid against those it is sewn to.
func (h *Hand) places(piece string) []*step.Place {
	p := h.pattern()
	var out []*step.Place
	for _, s := range p.Seams {
		for _, pair := range seamEnds(s) {
			a, b := pair[0], pair[1]
			if b.Piece == piece {
				a, b = b, a
			}
			if a.Piece != piece || a.End == b.End {
				continue
			}
			out = append(out, &step.Place{Piece: piece, Edge: a.Edge, End: a.End, Onto: &b})
		}
	}
	return out
}

// layFree is the choice of a place that no seam gives.
const layFree = "freely"

func (h *Hand) layLabel(pl *step.Place) string {
	return fmt.Sprintf("against %s of %s, together %s", pl.Onto.Edge, pl.Onto.Piece, endWords(h.pattern(), *pl.Onto))
}

// lies reports whether a piece lies as the place would lay it, whichever way
// it was turned since.
func (h *Hand) lies(pl *step.Place) bool {
	p := h.pattern()
	a, errA := p.Find(pattern.AtEnd(pl.Piece, pl.Edge, pl.End))
	b, errB := p.Find(pl.Onto.Spot())
	return errA == nil && errB == nil && a.Mat.Dist(b.Mat) <= pinMeets
}

// Set takes a typed shift or a seam to lie against.
func (h *Hand) Set(field, text string) error {
	sel := h.table.Selection()
	if h.pattern().Piece(sel.Piece) == nil {
		return unknownField("the hand", field)
	}
	switch field {
	case "x", "y":
		v, err := typedLength(h.table, text)
		if err != nil {
			return err
		}
		if h.piece != sel.Piece || h.place != nil {
			h.putBack()
		}
		h.piece, h.finished = sel.Piece, false
		if field == "x" {
			h.dx = v
		} else {
			h.dy = v
		}
		return nil
	case "lay":
		options := []string{layFree}
		places := h.places(sel.Piece)
		for _, pl := range places {
			options = append(options, h.layLabel(pl))
		}
		o, err := picked(text, options)
		if err != nil {
			return err
		}
		h.putBack()
		for _, pl := range places {
			if h.layLabel(pl) == o {
				h.piece, h.place = sel.Piece, pl
			}
		}
		return nil
	}
	return unknownField("the hand", field)
}

// Proposal is the move, or the piece laid against another.
func (h *Hand) Proposal() []step.Step {
	switch {
	case h.sewing.to != nil:
		return []step.Step{SewTo(h.pattern(), h.sewing.piece, h.sewing.edge, *h.sewing.to)}
	case h.pattern().Piece(h.piece) == nil:
		return nil
	case h.place != nil && h.pattern().Piece(h.place.Onto.Piece) != nil:
		return []step.Step{h.place}
	case h.place == nil && (h.dx != 0 || h.dy != 0):
		return []step.Step{&step.Move{Piece: h.piece, DX: step.Lit(h.dx), DY: step.Lit(h.dy)}}
	}
	return nil
}

// Done reports whether a piece was dragged and let go, or pushed by a key.
func (h *Hand) Done() bool { return h.finished && h.Proposal() != nil }

// Held reports whether a piece is being dragged.
func (h *Hand) Held() bool { return h.moving }

// Overlay shows what is pointed at and how far the piece is moved.
func (h *Hand) Overlay() Overlay {
	var o Overlay
	if h.sews() {
		h.sewOverlay(&o)
		return o
	}
	p := h.pattern()
	if h.Proposal() == nil {
		h.pointed(&o) // of what moves it would stay where that lay
	}
	switch {
	case h.Proposal() == nil:
	case h.place != nil:
		if _, e := p.Edge(h.place.Onto.Piece, h.place.Onto.Edge); e != nil {
			at := EndOf(p.Piece(h.place.Onto.Piece), e, h.place.Onto.End)
			o.Show(p, Pointing{Kind: OnEdge, Piece: at.Piece, Edge: at.Edge}, Good)
			o.Dots = append(o.Dots, Dot{at.At, Good})
			o.Notes = append(o.Notes, Note{at.At, h.place.Edge + " on " + h.place.Onto.Edge})
		}
	default:
		at := whole(p.Piece(h.piece)).At.Add(geom.Pt(h.dx, h.dy))
		o.Notes = append(o.Notes, Note{at, fmt.Sprintf("%s across, %s up", unit.MM(h.dx), unit.MM(h.dy))})
	}
	return o
}

// putBack forgets the move.
func (h *Hand) putBack() bool {
	was := h.place != nil || h.dx != 0 || h.dy != 0 || h.moving || h.sewing.edge != ""
	if h.sewing.edge != "" {
		h.sewing, h.over = sewing{}, Pointing{}
	}
	if h.place != nil {
		h.laid = h.place
	}
	h.piece, h.corner, h.place = "", nil, nil
	h.pressed, h.moving, h.finished = false, false, false
	h.dx, h.dy = 0, 0
	return was
}

// Reset puts the piece back, or with nothing moved leaves the walk; what is
// selected stays.
func (h *Hand) Reset() bool { return h.putBack() || h.drop() }

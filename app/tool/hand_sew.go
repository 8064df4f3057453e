package tool

import (
	"fmt"
	"regexp"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// sewing is an edge for which the hand looks for what it is sewn to.
type sewing struct {
	piece, edge string
	to          *pattern.Part // the edge that was pressed
	refused     string        // why an edge that was pressed cannot be it
}

// Sew lets the next edge that is pressed be sewn to this one; the names of all
// that can be are shown meanwhile.
func (h *Hand) Sew(piece, edge string) {
	h.Reset()
	h.sewing = sewing{piece: piece, edge: edge}
}

// sews reports whether a partner is looked for, for an edge that is there.
func (h *Hand) sews() bool {
	if h.sewing.edge == "" {
		return false
	}
	sel := h.table.Selection()
	if _, e := h.pattern().Edge(h.sewing.piece, h.sewing.edge); e == nil || sel.Piece != h.sewing.piece || sel.Edge != h.sewing.edge {
		h.sewing = sewing{}
		return false
	}
	return true
}

// Partners are the edges to which one can be sewn whole to whole: those that
// are to be sewn and in no seam, walked against their outline, as two pieces go
// round the same way.
func Partners(p pattern.Pattern, piece, edge string) []pattern.Part {
	var out []pattern.Part
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		for _, e := range pc.Edges {
			if e.Role.Sewn() && !(pc.Name == piece && e.Name == edge) && seamOf(p, pc.Name, e.Name) == nil {
				out = append(out, pattern.Whole(pc.Name, e.Name).Backwards())
			}
		}
	}
	return out
}

// seamOf returns a seam that an edge is in, or nil.
func seamOf(p pattern.Pattern, piece, edge string) *pattern.Seam {
	for i := range p.Seams {
		s := &p.Seams[i]
		if slices.ContainsFunc(slices.Concat(s.A, s.B), func(pt pattern.Part) bool { return pt.Piece == piece && pt.Edge == edge }) {
			return s
		}
	}
	return nil
}

// unnamed is an edge whose name says nothing, as a drawing gives it.
var unnamed = regexp.MustCompile(`^edge-\d+$`)

// SewTo sews an edge to another. The seam is called as they are; where that
// says nothing, by their pieces.
func SewTo(p pattern.Pattern, piece, edge string, to pattern.Part) *step.Sew {
	name := edge
	switch {
	case !unnamed.MatchString(edge):
	case !unnamed.MatchString(to.Edge):
		name = to.Edge
	case to.Piece != piece:
		name = piece + " to " + to.Piece
	}
	free := name
	for n := 2; p.Seam(free) != nil; n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return &step.Sew{Name: free, A: []pattern.Part{pattern.Whole(piece, edge)}, B: []pattern.Part{to}}
}

// sewHint says what to press, and what came of the last press.
func (h *Hand) sewHint() string {
	if h.sewing.refused != "" {
		return h.sewing.refused
	}
	return fmt.Sprintf("Press the edge that %s of %s is sewn to: one of those that are lit. N and P go through them, Escape leaves it unsewn.", h.sewing.edge, h.sewing.piece)
}

// sewPointer takes the edge that is pressed.
func (h *Hand) sewPointer(e Event) {
	pt, ok := h.hover(e, Ask{Kind: OnEdge})
	p := h.pattern()
	for _, to := range Partners(p, h.sewing.piece, h.sewing.edge) { // before what lies on it
		if near := nearestOn(p.Piece(to.Piece), p.Piece(to.Piece).Edge(to.Edge), e.At); near.Dist <= e.Reach && (!ok || near.Dist < pt.Dist+pinMeets) {
			pt, ok = near, true
		}
	}
	h.over = pt
	if e.Act != Press || !ok {
		return
	}
	h.drop()
	h.sewWith(pt)
}

// sewWith takes an edge, or says why it cannot be.
func (h *Hand) sewWith(pt Pointing) {
	p := h.pattern()
	for _, to := range Partners(p, h.sewing.piece, h.sewing.edge) {
		if to.Piece == pt.Piece && to.Edge == pt.Edge {
			h.sewing.to, h.finished = &to, true
			return
		}
	}
	name := pt.Edge + " of " + pt.Piece
	_, e := p.Edge(pt.Piece, pt.Edge)
	switch s := seamOf(p, pt.Piece, pt.Edge); {
	case pt.Piece == h.sewing.piece && pt.Edge == h.sewing.edge:
		h.sewing.refused = sentence(fmt.Errorf("%s is the edge itself; press the one that it is sewn to", name))
	case s != nil:
		h.sewing.refused = sentence(fmt.Errorf("%s is sewn in %q already; take that seam apart first, or press another edge", name, s.Name))
	case e != nil:
		h.sewing.refused = sentence(fmt.Errorf("%s is a %s; make its role a seam first, or press another edge", name, e.Role.Word()))
	}
}

// sewKey walks through the edges that can be sewn to.
func (h *Hand) sewKey(k Key) bool {
	list := Partners(h.pattern(), h.sewing.piece, h.sewing.edge)
	if len(list) == 0 {
		return false
	}
	i := slices.IndexFunc(list, func(pt pattern.Part) bool { return pt.Piece == h.over.Piece && pt.Edge == h.over.Edge })
	switch k.Name {
	case Next:
		i = (i + 1) % len(list)
	case Previous:
		i = (max(i, 0) + len(list) - 1) % len(list)
	case Choose:
		if i >= 0 {
			h.sewWith(h.over)
		}
		return i >= 0
	default:
		return false
	}
	pc, e := h.pattern().Edge(list[i].Piece, list[i].Edge)
	h.over, h.sewing.refused = middleOf(pc, e), ""
	return true
}

// sewOverlay lights the edge and names all that it can be sewn to.
func (h *Hand) sewOverlay(o *Overlay) {
	p := h.pattern()
	pc, e := p.Edge(h.sewing.piece, h.sewing.edge)
	o.Show(p, middleOf(pc, e), Chosen)
	for _, to := range Partners(p, h.sewing.piece, h.sewing.edge) {
		pc, e := p.Edge(to.Piece, to.Edge)
		m := middleOf(pc, e)
		style, name := Pointed, to.Edge
		if h.over.Piece == to.Piece && h.over.Edge == to.Edge {
			style, name = Good, m.label(p)
		}
		o.Show(p, m, style)
		o.Notes = append(o.Notes, Note{m.At, name})
	}
}

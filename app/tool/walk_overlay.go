package tool

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// Overlay shows the rolling piece where it lies, the standing side as it is
// laid, the place of contact with both walked lengths, and what was dropped.
func (w *Walk) Overlay() Overlay {
	var o Overlay
	w.pointed(&o)
	p := w.eased()
	if f := w.what.first; f != nil && w.what.next == nil {
		o.Show(p, Pointing{Kind: OnEdge, Piece: f.Piece, Edge: f.Edge}, Chosen)
	}
	wk, err := w.walked()
	if err != nil || !w.chosen() {
		return o
	}
	base := w.basePose(wk)
	c := wk.At(w.s, w.piv)
	w.standing(&o, p, wk, base)
	w.rolling(&o, p, wk, base)
	w.showDrops(&o, wk, base)
	at := base.Apply(c.Point)
	o.Dots = append(o.Dots, Dot{at, Handle})
	text := fmt.Sprintf("%s | %s, %s", unit.MM(c.A), unit.MM(c.B), differsBy(wk, c))
	if math.Abs(c.Ease) > pinMeets {
		text += fmt.Sprintf(", eased %s", unit.MM(c.Ease))
	}
	o.Notes = append(o.Notes, Note{at, text})
	if w.page == pageEase {
		w.showSpread(&o, wk, base)
	}
	if name := w.halted(wk); name != "" {
		o.Notes = append(o.Notes, Note{at, name})
	}
	return o
}

// differsBy tells by how much the notches passed last miss each other, ease
// apart, and at the end by how much side A is longer.
func differsBy(wk *walk.Walk, c walk.Contact) string {
	end, _ := wk.End()
	switch {
	case math.Abs(c.Difference) <= pinMeets:
		return "difference " + unit.MM(0)
	case end-c.A <= pinMeets:
		return "difference " + signed(c.Difference)
	}
	which := "the notches passed last"
	for _, pair := range wk.Pairs {
		if pair.A <= c.A+samePlace && (c.A-pair.A <= samePlace || math.Abs(c.B-pair.B) <= samePlace) {
			which = "the notches there"
		}
	}
	return which + " miss each other by " + unit.MM(math.Abs(c.Difference))
}

// showSpread tells at the middle of each stretch from notch to notch how much
// ease it takes.
func (w *Walk) showSpread(o *Overlay, wk *walk.Walk, base geom.Motion) {
	done := 0.0
	for _, r := range wk.Table().Rows {
		at := base.Apply(wk.At(done+r.A/2, 1).Point)
		done += r.A
		o.Notes = append(o.Notes, Note{at, "ease " + unit.MM(r.Ease)})
	}
}

// Table compares both sides from notch to notch, with the ease and the
// notches that are to be.
func (w *Walk) Table() (walk.Table, bool) {
	if !w.chosen() {
		return walk.Table{}, false
	}
	p := w.eased()
	if len(w.drops) > 0 {
		if res, err := w.try.of(w.table, w.Proposal()...); err == nil {
			p = res.Size.Pattern
		}
	}
	wk, err := w.walkOn(p, &w.noted)
	if err != nil {
		return walk.Table{}, false
	}
	t := wk.Table()
	if t.Seam == "" {
		t.Seam = noSeam
	}
	return t, true
}

// Sides names the two sides by their pieces.
func (w *Walk) Sides() [2]string {
	s := w.pattern().Seam(w.what.seam)
	switch {
	case s != nil:
	case w.what.next != nil:
		own := w.own()
		s = &own
	default:
		return [2]string{}
	}
	return sideWords(s)
}

// halted names what the walk has come to.
func (w *Walk) halted(wk *walk.Walk) string {
	var at []pattern.SeamNotch
	for _, st := range wk.Stops() {
		if st.What == walk.StopNotch && math.Abs(st.A-w.s) <= samePlace {
			at = append(at, *st.Of)
		}
	}
	switch {
	case len(at) == 0:
		return ""
	case len(at) == 2 && at[0].Notch.Name == at[1].Notch.Name:
		return pattern.NotchWords(at[0].Notch.Name) + " of both"
	}
	return pattern.NotchWords(at[0].Notch.Name) + " of " + at[0].Piece
}

// Lays shows the rolling piece where it lies on the standing one, and the
// pieces of the standing side as they are laid to the first of them. A piece
// that is walked along itself cannot lie in two places.
func (w *Walk) Lays() map[string]geom.Motion {
	wk, err := w.walked()
	if err != nil || !w.chosen() {
		return nil
	}
	p, base := w.eased(), w.basePose(wk)
	out := map[string]geom.Motion{}
	pieces, motions := wk.Laid()
	for i, name := range pieces {
		if m := motions[i].Then(base); p.Piece(name) != nil && !sameMotion(m, p.Piece(name).Pose) {
			out[name] = m
		}
	}
	if c := wk.At(w.s, w.piv); !slices.Contains(pieces, c.Rolling) {
		out[c.Rolling] = c.Pose.Then(base)
	}
	return out
}

// standing shows the standing side as it is laid.
func (w *Walk) standing(o *Overlay, p pattern.Pattern, wk *walk.Walk, base geom.Motion) {
	pieces, motions := wk.Laid()
	for i, name := range pieces {
		o.run(p, wk.Run(wk.Rolls().Other()).Parts, name, motions[i].Then(base), Pointed)
	}
}

// run shows the parts of a side that are on one piece, with their notches.
func (o *Overlay) run(p pattern.Pattern, parts []pattern.Part, piece string, m geom.Motion, style Style) {
	pc := p.Piece(piece)
	for _, pt := range parts {
		path, err := p.PartPath(pt)
		if err != nil || pt.Piece != piece {
			continue
		}
		o.Strokes = append(o.Strokes, Stroke{path.Transform(m), style})
		for _, n := range pc.Notches {
			if n.Edge == pt.Edge {
				o.ticks(pc.Edge(n.Edge), n, m)
			}
		}
	}
}

// ticks draws a notch across the sew line.
func (o *Overlay) ticks(e *pattern.Edge, n pattern.Notch, m geom.Motion) {
	for _, s := range notchStrokes(n, e.Length()) {
		at, out := e.Path.At(s), e.Path.TangentAt(s).Perp().Mul(notchTick)
		if line, err := geom.Polyline(m.Apply(at), m.Apply(at.Add(out))); err == nil {
			o.Strokes = append(o.Strokes, Stroke{line, Chosen})
		}
	}
}

func sameMotion(a, b geom.Motion) bool {
	return a.Apply(geom.Point{}).Dist(b.Apply(geom.Point{})) < samePlace && a.Apply(geom.Pt(100, 0)).Dist(b.Apply(geom.Pt(100, 0))) < samePlace && a.Mirrors() == b.Mirrors()
}

// rolling shows the side that rolls where it lies; a piece that is walked along
// itself with its sew line, and its cut line faintly.
func (w *Walk) rolling(o *Overlay, p pattern.Pattern, wk *walk.Walk, base geom.Motion) {
	c := wk.At(w.s, w.piv)
	pc := p.Piece(c.Rolling)
	if pc == nil {
		return
	}
	m := c.Pose.Then(base)
	o.run(p, wk.Run(wk.Rolls()).Parts, c.Rolling, m, Handle)
	if pieces, _ := wk.Laid(); !slices.Contains(pieces, c.Rolling) {
		return
	}
	if cut, ok := w.cutLine(p, pc); ok {
		o.Strokes = append(o.Strokes, Stroke{cut.Transform(m), Guide})
	}
	if out, err := pc.Outline(); err == nil {
		o.Strokes = append(o.Strokes, Stroke{out.Transform(m), Handle})
		o.Notes = append(o.Notes, Note{m.Apply(out.Centroid()), pc.Name})
	}
}

const (
	notchTick   = 4.0 // mm from the sew line inwards
	doubleApart = 3.0 // mm between the strokes of a double notch
)

func notchStrokes(n pattern.Notch, length float64) []float64 {
	at := min(max(n.At(length), 0), length)
	if !n.Double {
		return []float64{at}
	}
	return []float64{max(at-doubleApart/2, 0), min(at+doubleApart/2, length)}
}

// cutLine remembers the cut lines of the pattern.
func (w *Walk) cutLine(p pattern.Pattern, pc *pattern.Piece) (geom.Path, bool) {
	if w.of != &p.Pieces[0] {
		w.of, w.cuts = &p.Pieces[0], map[string]geom.Path{}
	}
	cut, ok := w.cuts[pc.Name]
	if !ok {
		cut, _ = pc.CutLine() // none is shown where there is none
		w.cuts[pc.Name] = cut
	}
	return cut, !cut.Empty()
}

// showDrops marks where notches will be: on the pieces as they lie on the mat,
// and along the seam that is walked.
func (w *Walk) showDrops(o *Overlay, wk *walk.Walk, base geom.Motion) {
	steps := w.Proposal()
	if len(steps) == 0 {
		return
	}
	res, err := w.try.of(w.table, steps...)
	if err != nil {
		return
	}
	was, now := w.pattern(), res.Size.Pattern
	o.newNotches(was, now, w.Lays())
	for _, h := range []walk.Hand{walk.A, walk.B} {
		for _, n := range now.SideNotches(wk.Run(h).Parts) {
			if old := was.Piece(n.Piece); old == nil || old.Notch(n.Notch.Name) != nil {
				continue
			}
			at := n.At
			if h == walk.B {
				at = wk.On(walk.A, at)
			}
			o.Dots = append(o.Dots, Dot{base.Apply(wk.At(at, 1).Point), Guide})
		}
	}
}

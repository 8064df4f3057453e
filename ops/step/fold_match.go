package step

import (
	"fmt"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
)

// edgeMap matches the half that goes with the kept one, stretch by stretch.
// It refuses stretches whose allowances or roles differ.
func (h *halves) edgeMap(tolerance float64) (pattern.Map, error) {
	var m pattern.Map
	piece := h.pc.Name
	for _, i := range h.kept {
		r := &h.o.runs[i]
		for _, t := range r.traces {
			m.HandSpan(
				pattern.Span{Piece: piece, Edge: t.edge, From: t.from, To: t.to}, pattern.ThisHand,
				pattern.Span{Piece: piece, Edge: r.edge.Name, From: t.a, To: min(t.b, r.edge.Length())}, pattern.ThisHand)
		}
	}
	image := slices.Clone(h.gone)
	slices.Reverse(image)
	knots := h.knots(image, tolerance)
	joints := h.joints(h.kept)
	walked := 0.0 // along the image of the half that goes
	for _, i := range image {
		r := &h.o.runs[i]
		length := r.edge.Length()
		stops := []float64{walked, walked + length}
		for _, k := range knots {
			stops = append(stops, k.s)
		}
		for _, s := range joints {
			stops = append(stops, carried(knots, s, true))
		}
		slices.Sort(stops)
		for k := 1; k < len(stops); k++ {
			lo, hi := max(stops[k-1], walked), min(stops[k], walked+length)
			if hi-lo <= placeSlack {
				continue
			}
			on, before := h.keptAt(carried(knots, (lo+hi)/2, false))
			if err := madeAlike(piece, &h.o.runs[on].edge, &r.edge); err != nil {
				return m, err
			}
			t := r.traces[0]
			old := func(s float64) float64 { return min(max(t.to-(s-walked), t.from), t.to) }
			now := func(s float64) float64 {
				return min(max(carried(knots, s, false)-before, 0), h.o.runs[on].edge.Length())
			}
			m.HandSpan(
				pattern.Span{Piece: piece, Edge: t.edge, From: old(lo), To: old(hi)}, pattern.ThisHand,
				pattern.Span{Piece: piece, Edge: h.o.runs[on].edge.Name, From: now(lo), To: now(hi)}, pattern.MirroredHand)
		}
		walked += length
	}
	return m, nil
}

// madeAlike refuses a stretch that differs from its mirror image.
func madeAlike(piece string, kept, gone *pattern.Edge) error {
	switch {
	case kept.Role != gone.Role:
		return fmt.Errorf("%s of %s is a %s edge but its mirror image %s a %s edge; make both halves alike first (step allow)", kept.Name, piece, kept.Role, gone.Name, gone.Role)
	case kept.Allowance-gone.Allowance > visibleDeviation || gone.Allowance-kept.Allowance > visibleDeviation:
		return fmt.Errorf("%s of %s has %.4g mm of allowance but its mirror image %s %.4g mm; make both halves alike first (step allow)", kept.Name, piece, kept.Allowance, gone.Name, gone.Allowance)
	}
	return nil
}

// joints returns the lengths along a chain of runs at which one run goes over
// into the next.
func (h *halves) joints(runs []int) []float64 {
	var at []float64
	sum := 0.0
	for _, i := range runs[:len(runs)-1] {
		sum += h.o.runs[i].edge.Length()
		at = append(at, sum)
	}
	return at
}

func (h *halves) length(runs []int) float64 {
	sum := 0.0
	for _, i := range runs {
		sum += h.o.runs[i].edge.Length()
	}
	return sum
}

// knots maps lengths along the image of the half that goes to lengths along
// the kept one: joints that lie on each other stay so, between them all keeps
// its proportion.
func (h *halves) knots(image []int, tolerance float64) []knot {
	knots := []knot{{0, 0}}
	end := knot{h.length(image), h.length(h.kept)}
	near := max(tolerance, placeSlack)
	from, walked := 0, 0.0
	for _, i := range image[:len(image)-1] {
		e := &h.o.runs[i].edge
		walked += e.Length()
		joint := h.over.Apply(e.Path.Start()) // the image runs the other way
		sum := 0.0
		for k, j := range h.kept[:len(h.kept)-1] {
			kept := &h.o.runs[j].edge
			sum += kept.Length()
			if k < from || kept.Path.End().Dist(joint) > near {
				continue
			}
			knots = append(knots, knot{walked, sum})
			from = k + 1
			break
		}
	}
	return append(knots, end)
}

// carried maps a length by knots, or back.
func carried(knots []knot, s float64, back bool) float64 {
	for k := 1; k < len(knots); k++ {
		p, q := knots[k-1], knots[k]
		if back {
			p, q = knot{p.t, p.s}, knot{q.t, q.s}
		}
		if s > q.s && k < len(knots)-1 {
			continue
		}
		switch s {
		case p.s:
			return p.t
		case q.s:
			return q.t
		}
		return p.t + (q.t-p.t)*(s-p.s)/(q.s-p.s)
	}
	return s
}

// keptAt returns the kept run at a length along the kept half, and the length
// before it.
func (h *halves) keptAt(s float64) (run int, before float64) {
	for k, i := range h.kept {
		length := h.o.runs[i].edge.Length()
		if s <= before+length || k == len(h.kept)-1 {
			return i, before
		}
		before += length
	}
	return h.kept[0], 0
}

// onGone reports whether a place on an old edge belongs to the half that goes;
// the ends of the axis belong to neither.
func (h *halves) onGone(edge string, s float64) bool {
	i, _, err := h.o.locate(edge, s)
	return err == nil && slices.Contains(h.gone, i)
}

// checkNotches refuses notches without a mirror image.
func (h *halves) checkNotches(tolerance float64) error {
	near := max(tolerance, placeSlack)
	at := func(n pattern.Notch) (geom.Point, bool) {
		e := h.pc.Edge(n.Edge)
		s := n.At(e.Length())
		return e.Path.At(s), h.onGone(n.Edge, s)
	}
	for _, n := range h.pc.Notches {
		p, gone := at(n)
		image := h.over.Apply(p)
		if p.Dist(image) <= near {
			continue // on the fold
		}
		found := slices.ContainsFunc(h.pc.Notches, func(o pattern.Notch) bool {
			q, other := at(o)
			return other != gone && o.Double == n.Double && q.Dist(image) <= near
		})
		if !found {
			return fmt.Errorf("%s on %s of %s has no mirror image on the other half; add it there, or delete this one", pattern.NotchSaid(n.Name), n.Edge, h.pc.Name)
		}
	}
	return nil
}

// strip takes off the old piece what lies on the half that goes and is, or is
// to be drawn, on the kept one too; along is the inner line that becomes the
// fold, and one on the fold that has its name goes too.
func (h *halves) strip(old *pattern.Piece, along, fold string, tolerance float64) (notes []string) {
	near := max(tolerance, placeSlack)
	old.Notches = slices.DeleteFunc(old.Notches, func(n pattern.Notch) bool {
		e := h.pc.Edge(n.Edge)
		s := n.At(e.Length())
		if !h.onGone(n.Edge, s) {
			return false
		}
		image := h.over.Apply(e.Path.At(s))
		return slices.ContainsFunc(h.pc.Notches, func(o pattern.Notch) bool {
			oe := h.pc.Edge(o.Edge)
			os := o.At(oe.Length())
			return !h.onGone(o.Edge, os) && oe.Path.At(os).Dist(image) <= near
		})
	})
	var kept []pattern.Inner
	for _, in := range old.Inner {
		if in.Name == along && along != "" {
			continue
		}
		lo, hi := h.reach(in.Path)
		image := in.Path.Transform(h.over)
		self := samePlaces(image, in.Path, near)
		twin := !self && slices.ContainsFunc(h.pc.Inner, func(o pattern.Inner) bool { return o.Name != in.Name && samePlaces(image, o.Path, near) })
		switch {
		case hi <= near && lo >= -near: // on the fold
			if in.Name == fold {
				continue
			}
		case twin:
			if h.axis.Distance(in.Path.At(in.Path.Length()/2)) < 0 {
				continue
			}
		case hi <= near:
			in.Path = image
		case lo >= -near || in.Kind == pattern.OldArrow:
		default:
			in.Path = h.keptPart(in.Path)
		}
		if !twin && !self && in.Kind != pattern.OldArrow && (hi > near || lo < -near) {
			notes = append(notes, fmt.Sprintf("Inner line %q of %s was not alike on both halves; on the fold it stands on both.", in.Name, h.pc.Name))
		}
		kept = append(kept, in)
	}
	old.Inner = kept
	for i := range old.Marks {
		if mk := &old.Marks[i]; h.axis.Distance(mk.At) < -near {
			mk.At = h.over.Apply(mk.At)
		}
	}
	return notes
}

// samePlaces reports whether two paths lie on each other, walked either way.
func samePlaces(a, b geom.Path, near float64) bool {
	there, _ := a.Farthest(b)
	back, _ := b.Farthest(a)
	return max(there, back) <= near
}

// reach returns how far a path lies to the left of the axis, least and most;
// below 0 it is on the half that goes.
func (h *halves) reach(path geom.Path) (lo, hi float64) {
	lo, hi = h.axis.Distance(path.Start()), h.axis.Distance(path.Start())
	for _, q := range path.Flatten(visibleDeviation) {
		d := h.axis.Distance(q)
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}

// keptPart returns the longest part of a path that lies left of the axis.
func (h *halves) keptPart(path geom.Path) geom.Path {
	at := []float64{0}
	for _, x := range path.CrossLine(h.axis.Point, h.axis.Dir) {
		at = append(at, x.S)
	}
	at = append(at, path.Length())
	slices.Sort(at)
	var longest geom.Path
	for k := 1; k < len(at); k++ {
		part, err := path.Sub(at[k-1], at[k])
		if err != nil || h.axis.Distance(part.At(part.Length()/2)) < 0 {
			continue
		}
		if longest.Empty() || part.Length() > longest.Length() {
			longest = part
		}
	}
	if longest.Empty() {
		return path
	}
	return longest
}

package step

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// stateEase states the ease of the seam, or of a stretch of it.
func (w *Walk) stateEase(in Input, out *Output) error {
	p := out.Pattern
	if w.Seam == "" {
		return fmt.Errorf("ease is stated for a seam; sew %s to %s first", partWords(w.A), partWords(w.B))
	}
	wk, err := w.whole(p)
	if err != nil {
		return err
	}
	ease, err := w.Ease.In(in)
	if err != nil {
		return err
	}
	s := p.Seam(w.Seam)
	if w.Between == nil {
		if len(s.Stretches) > 0 {
			out.Notes = append(out.Notes, fmt.Sprintf("The ease of seam %q is spread over all of it again.", s.Name))
		}
		s.Ease, s.Stretches = ease, nil
		return w.sewable(p, ease, p.Length(s.A), p.Length(s.B))
	}
	lo, hi, err := w.bounds(wk)
	if err != nil {
		return err
	}
	st := pattern.Stretch{From: onA(lo), To: onA(hi), Ease: ease}
	was := wk.Ease.EaseTo(hi.A) - wk.Ease.EaseTo(lo.A)
	s.Stretches = slices.DeleteFunc(slices.Clone(s.Stretches), func(o pattern.Stretch) bool { return o.From == st.From && o.To == st.To })
	s.Stretches = append(s.Stretches, st)
	s.Ease += ease - was
	if err := p.Validate(); err != nil {
		return fmt.Errorf("%w; state the ease of the whole seam first, which clears its stretches", err)
	}
	return w.sewable(p, ease, hi.A-lo.A, hi.B-lo.B)
}

// sewable refuses ease that leaves nothing of the other side.
func (w *Walk) sewable(p pattern.Pattern, ease, a, b float64) error {
	return sewable(p, p.Seam(w.Seam), ease, a, b)
}

// sewable refuses ease between sides that are a and b mm long that leaves
// nothing of one of them.
func sewable(p pattern.Pattern, s *pattern.Seam, ease, a, b float64) error {
	if math.Abs(ease) < min(a, b) && p.Spread(*s).Sewable() {
		return nil
	}
	return fmt.Errorf("%.4g mm of ease cannot be sewn in: the sides of seam %q are %.4g mm and %.4g mm long there; state less", ease, s.Name, a, b)
}

// onA names the notch of side A at a bound, nothing at an end of the seam.
func onA(pr walk.Pair) pattern.NotchName {
	return pattern.NotchName{Piece: pr.NotchA.Piece, Notch: pr.NotchA.Notch.Name}
}

// bounds returns the pairs of notches between which the stretch lies, the ends
// of the walk where none is named.
func (w *Walk) bounds(wk *walk.Walk) (lo, hi walk.Pair, err error) {
	hi = walk.Pair{A: wk.A.Length, B: wk.B.Length}
	if w.Between == nil {
		return lo, hi, nil
	}
	find := func(n pattern.NotchName, end walk.Pair) (walk.Pair, error) {
		if n == (pattern.NotchName{}) {
			return end, nil
		}
		is := func(m pattern.SeamNotch) bool { return m.Piece == n.Piece && m.Notch.Name == n.Notch }
		for _, pr := range wk.Pairs {
			if is(pr.NotchA) || is(pr.NotchB) {
				return pr, nil
			}
		}
		var names []string
		for _, pr := range wk.Pairs {
			names = append(names, pr.NotchA.Notch.Name+" of "+pr.NotchA.Piece)
		}
		if slices.ContainsFunc(wk.Unmatched(), func(l walk.Lone) bool { return l.Piece == n.Piece && l.Notch == n.Notch }) {
			return end, fmt.Errorf("%s has no partner across %s; drop one there first", n, wk.Name())
		}
		return end, fmt.Errorf("there is no %s on %s; it has %s", n, wk.Name(), quotedList(names))
	}
	if lo, err = find(w.Between.From, lo); err != nil {
		return lo, hi, err
	}
	if hi, err = find(w.Between.To, hi); err != nil {
		return lo, hi, err
	}
	if hi.A < lo.A {
		lo, hi = hi, lo
	}
	if !(hi.A-lo.A > placeSlack && hi.B-lo.B > placeSlack) {
		return lo, hi, fmt.Errorf("nothing of %s lies between the two notches; name two different ones", wk.Name())
	}
	return lo, hi, nil
}

// spread moves the notches of one side to where those of the other side fall
// when the difference between the bounds is spread evenly.
func (w *Walk) spread(out *Output) error {
	if w.Spread != walk.A && w.Spread != walk.B {
		return fmt.Errorf("the notches of side %q or %q are moved, not of %q", walk.A, walk.B, w.Spread)
	}
	p := out.Pattern
	wk, err := w.whole(p)
	if err != nil {
		return err
	}
	lo, hi, err := w.bounds(wk)
	if err != nil {
		return err
	}
	if s := p.Seam(w.Seam); s != nil && w.Ease == nil {
		had := len(s.Stretches)
		s.Stretches = slices.DeleteFunc(slices.Clone(s.Stretches), func(st pattern.Stretch) bool {
			from, to, err := p.StretchOn(*s, st)
			return err == nil && from >= lo.A-placeSlack && to <= hi.A+placeSlack
		})
		if len(s.Stretches) < had {
			out.Notes = append(out.Notes, fmt.Sprintf("The ease stated for stretches of seam %q is spread with the rest.", s.Name))
		}
	}
	inside := func(a float64) bool { return a > lo.A+placeSlack && a < hi.A-placeSlack }
	furthest := 0.0
	for _, pr := range wk.Pairs {
		if !inside(pr.A) {
			continue
		}
		of, was, at := pr.NotchB, pr.B, lo.B+(pr.A-lo.A)*(hi.B-lo.B)/(hi.A-lo.A)
		if w.Spread == walk.A {
			of, was, at = pr.NotchA, pr.A, lo.A+(pr.B-lo.B)*(hi.A-lo.A)/(hi.B-lo.B)
		}
		piece, edge, along, err := wk.Place(p, w.Spread, at)
		if err != nil {
			return err
		}
		if piece != of.Piece {
			return fmt.Errorf("to spread the ease evenly %s of %s would have to move by %.4g mm onto %s; choose notches closer together, or move those of the other side", pattern.NotchSaid(of.Notch.Name), of.Piece, math.Abs(at-was), piece)
		}
		if math.Abs(at-was) <= geom.Coincident {
			continue
		}
		pc := p.Piece(piece)
		n, length := pc.Notch(of.Notch.Name), pc.Edge(edge).Length()
		n.Edge, n.Along = edge, n.Moved(along.At(length), length)
		furthest = max(furthest, math.Abs(at-was))
		out.Notes = append(out.Notes, fmt.Sprintf("Notch %q of %s moved by %s.", n.Name, piece, unit.MM(math.Abs(at-was))))
	}
	for _, l := range wk.Unmatched() {
		a := l.At
		if l.Side == walk.B {
			a = l.Other
		}
		if l.Side == w.Spread && inside(a) {
			out.Notes = append(out.Notes, fmt.Sprintf("Notch %q of %s has no partner and stays.", l.Notch, l.Piece))
		}
	}
	out.Notes = append(out.Notes, p.Unstretch()...)
	out.Figures["moved"] = furthest
	return nil
}

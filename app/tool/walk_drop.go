package tool

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/walk"
)

// dropped is one act of dropping: a notch, or one on each side.
type dropped struct {
	start walkStart
	at    float64 // walked on side A
	how   walkHold
	drops []step.Drop
}

// offer is a way of dropping notches now.
type offer struct {
	label string // among the choices
	words string // in the hint
	drops []step.Drop
	move  *step.Notch // in place of dropping
}

// offer is what is dropped when nothing else is said: across from a notch or
// joint of the one side on the other, otherwise one on each side; nothing where
// both sides have their notch.
func (w *Walk) offer(wk *walk.Walk) offer {
	toA, onB := w.across(wk, walk.A)
	toB, onA := w.across(wk, walk.B)
	if end, _ := wk.End(); !onA && !onB && (w.s <= samePlace || w.s >= end-samePlace) {
		return offer{} // the ends need none
	}
	switch {
	case onA && onB && toA.Spot.Notch != "" && toB.Spot.Notch != "":
		return offer{}
	case onB && (!onA || toB.Spot.Notch == ""):
		return offer{words: "on " + sideLabel(wk, walk.A), drops: []step.Drop{toA}}
	case onA:
		return offer{words: "on " + sideLabel(wk, walk.B), drops: []step.Drop{toB}}
	}
	return w.onBoth(wk)
}

func (w *Walk) onBoth(wk *walk.Walk) offer {
	if ownMirror(wk) {
		return offer{words: "on both hands", drops: []step.Drop{w.on(wk, walk.A)}}
	}
	return offer{words: "on both sides", drops: []step.Drop{w.on(wk, walk.A), w.on(wk, walk.B)}}
}

// ownMirror reports whether a piece is sewn to its own mirror image along one
// edge: a notch of the one side is one of the other.
func ownMirror(wk *walk.Walk) bool {
	a, b := wk.A.Parts[0], wk.B.Parts[0]
	return a.Piece == b.Piece && a.Edge == b.Edge && a.Mirrored != b.Mirrored
}

// across drops on a side what lies across from a notch or joint of the other
// side at the contact.
func (w *Walk) across(wk *walk.Walk, h walk.Hand) (step.Drop, bool) {
	other := h.Other()
	for _, st := range wk.Stops() {
		if st.What == walk.StopNotch && st.Side == other && math.Abs(st.A-w.s) <= samePlace {
			spot := pattern.AtNotch(st.Of.Piece, st.Of.Notch.Name)
			return step.Drop{On: h, Spot: &spot}, true
		}
	}
	at := w.s
	if other == walk.B {
		at = wk.On(walk.B, w.s)
	}
	if spot, ok := wk.Joint(other, at); ok {
		return step.Drop{On: h, Spot: &spot}, true
	}
	return step.Drop{}, false
}

// on drops on a side at the contact: held to what lies across there, so that
// it is right in every size, otherwise at the walked length as it is to be kept.
func (w *Walk) on(wk *walk.Walk, h walk.Hand) step.Drop {
	if d, ok := w.across(wk, h); ok {
		return d
	}
	return w.holding(wk, w.s, w.holds).drop(wk, h)
}

// offers are all ways of dropping notches now, none on a notch that is there,
// and of moving one of the other side here.
func (w *Walk) offers(wk *walk.Walk) []offer {
	a, b := sideLabel(wk, walk.A), sideLabel(wk, walk.B)
	out := w.movesHere(wk)
	if !w.notched(wk, walk.A) && !w.notched(wk, walk.B) {
		both := w.onBoth(wk)
		both.label = "here on both sides"
		out = append(out, both)
	}
	for _, h := range []walk.Hand{walk.A, walk.B} {
		if !w.notched(wk, h) {
			out = append(out, offer{label: "here on " + sideLabel(wk, h), drops: []step.Drop{w.on(wk, h)}})
		}
	}
	lone := map[walk.Hand]bool{}
	for _, l := range wk.Unmatched() {
		lone[l.Side] = true
	}
	if lone[walk.B] {
		out = append(out, offer{label: "on " + a + " at all that lack one", drops: []step.Drop{{On: walk.A, All: true}}})
	}
	if lone[walk.A] {
		out = append(out, offer{label: "on " + b + " at all that lack one", drops: []step.Drop{{On: walk.B, All: true}}})
	}
	switch _, ends := wk.End(); ends {
	case walk.A:
		out = append(out, offer{label: "on " + b + " where " + a + " ends", drops: []step.Drop{{On: walk.B, End: true}}})
	case walk.B:
		out = append(out, offer{label: "on " + a + " where " + b + " ends", drops: []step.Drop{{On: walk.A, End: true}}})
	}
	return out
}

// let drops what is offered, under names that are free.
func (w *Walk) let(wk *walk.Walk, o offer) {
	if o.move != nil {
		w.letMove(*o.move)
	}
	if len(o.drops) == 0 {
		return
	}
	out := dropped{start: w.what.start, at: w.s, how: w.holds}
	for _, d := range o.drops {
		switch {
		case d.All:
		case d.Spot != nil && d.Spot.Notch != "" && w.free(wk, d.On, d.Spot.Notch, out):
		case len(out.drops) > 0 && w.free(wk, d.On, out.drops[0].Name, out):
			d.Name = out.drops[0].Name
		default:
			for n := 1; d.Name == "" || !w.free(wk, d.On, d.Name, out); n++ {
				d.Name = "notch " + strconv.Itoa(n)
			}
		}
		out.drops = append(out.drops, d)
	}
	w.drops = append(w.drops, out)
}

// free reports whether no piece of a side has a notch of that name, or is to
// get one.
func (w *Walk) free(wk *walk.Walk, h walk.Hand, name string, more dropped) bool {
	if name == "" {
		return false
	}
	var pieces []string
	for _, pt := range wk.Run(h).Parts {
		if pc := w.pattern().Piece(pt.Piece); pc != nil && pc.Notch(name) != nil {
			return false
		}
		pieces = append(pieces, pt.Piece)
	}
	for _, dr := range append(slices.Clone(w.drops), more) {
		for _, d := range dr.drops {
			if d.Name != name && (d.Name != "" || d.Spot == nil || d.Spot.Notch != name) {
				continue
			}
			if d.On == h || slices.ContainsFunc(wk.Run(d.On).Parts, func(pt pattern.Part) bool { return slices.Contains(pieces, pt.Piece) }) {
				return false
			}
		}
	}
	return true
}

// rename gives the notches dropped last another name.
func (w *Walk) rename(wk *walk.Walk, text string) error {
	name, err := typedName(text)
	if err != nil {
		return err
	}
	last := w.drops[len(w.drops)-1]
	w.drops = slices.Clip(w.drops[:len(w.drops)-1])
	defer func() { w.drops = append(w.drops, last) }()
	for _, d := range last.drops {
		if !w.free(wk, d.On, name, dropped{}) {
			return fmt.Errorf("%s already has a notch %q; choose another name", sideLabel(wk, d.On), name)
		}
	}
	last.drops = slices.Clone(last.drops)
	for i := range last.drops {
		last.drops[i].Name = name
		if i > 0 && !w.free(wk, last.drops[i].On, name, dropped{drops: last.drops[:i]}) {
			last.drops[i].Name = name + " " + strconv.Itoa(i+1)
		}
	}
	return nil
}

// easeSteps are the steps that state and spread ease.
func (w *Walk) easeSteps() []step.Step {
	if w.ease == nil && w.even == "" || !w.chosen() {
		return nil
	}
	s := &step.Walk{Spread: w.even}
	if w.ease != nil {
		e := step.Lit(*w.ease)
		s.Ease = &e
	}
	if w.what.seam == "" {
		s.A, s.B = []pattern.Part{*w.what.first}, []pattern.Part{*w.what.next}
	} else {
		s.Seam = w.what.seam
	}
	s.Between = w.bound
	return []step.Step{s}
}

// steps are what accepting would do: ease first, then the notches, those of
// one start in one step.
func (w *Walk) steps() []step.Step {
	out := append(w.easeSteps(), w.sewSteps()...)
	var last *step.Walk
	var of walkStart
	for _, d := range w.drops {
		if last == nil || !of.same(d.start) {
			last = &step.Walk{Seam: w.what.seam, From: d.start.from, StartA: d.start.a, StartB: d.start.b}
			if w.what.seam == "" && w.what.next != nil {
				last.A, last.B = []pattern.Part{*w.what.first}, []pattern.Part{*w.what.next}
			}
			of = d.start
			out = append(out, last)
		}
		last.Drop = append(last.Drop, d.drops...)
	}
	for _, m := range w.moves {
		out = append(out, &m)
	}
	return out
}

// sewSteps sew the two edges that are walked together.
func (w *Walk) sewSteps() []step.Step {
	if w.sewn == "" || w.what.next == nil {
		return nil
	}
	return []step.Step{&step.Sew{Name: w.sewn, A: []pattern.Part{*w.what.first}, B: []pattern.Part{*w.what.next}}}
}

// setSewn takes the name of the seam as which two edges are sewn together.
func (w *Walk) setSewn(text string) error {
	if w.what.next == nil {
		return fmt.Errorf("%s is a seam already; take it apart where an edge of it is selected, or walk two edges that no seam joins", w.what.seam)
	}
	if strings.TrimSpace(text) == "" {
		w.sewn = ""
		return nil
	}
	name, err := typedName(text)
	if err == nil && w.pattern().Seam(name) != nil {
		err = fmt.Errorf("there already is a seam %q; write another name", name)
	}
	if err != nil {
		return err
	}
	was := w.sewn
	w.sewn = name
	if _, err := w.table.Try(w.sewSteps()...); err != nil {
		w.sewn = was
		return err
	}
	return nil
}

// Proposal is what was dropped, stated and spread.
func (w *Walk) Proposal() []step.Step {
	if !w.chosen() {
		return nil
	}
	if _, err := w.walked(); err != nil {
		return w.sewSteps() // what does not meet yet can be sewn together
	}
	return w.steps()
}

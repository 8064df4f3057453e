package tool

import (
	"fmt"
	"math"
	"reflect"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// walkHold says what of a place along a walk is kept in every size.
type walkHold string

const (
	holdNearer walkHold = "" // the way from the nearer end, as is proposed
	holdStart  walkHold = "start"
	holdBack   walkHold = "back" // from where the edge starts that is walked last
	holdEnd    walkHold = "end"
	holdShare  walkHold = "share"
)

// held is a way in which a place along the first side of a walk is kept.
type held struct {
	how   walkHold
	label string        // among the choices
	words string        // in the hint
	from  float64       // mm
	spot  *pattern.Spot // nil for a walked length
}

// drop is a notch at that place on a side.
func (k held) drop(wk *walk.Walk, h walk.Hand) step.Drop {
	if k.spot != nil {
		spot := *k.spot
		return step.Drop{On: h, Spot: &spot}
	}
	at := k.from
	if h == walk.B {
		at = wk.On(walk.B, at)
	}
	mm := step.Lit(round4(at))
	return step.Drop{On: h, MM: &mm}
}

func round4(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// holdings are the ways in which the place at a length of the first side can
// be kept: by the way from where the walk starts, by that from either end of
// the edge it lies on, and as a share of the edge.
func (w *Walk) holdings(wk *walk.Walk, s float64) []held {
	p := w.pattern()
	first := wk.A.Parts[0]
	begins := "where the walk starts"
	if first.From == 0 || first.From == 1 {
		at := partEnd(first, first.From)
		begins = meets(p, at.Piece, at.Edge, at.End)
	}
	measured := func(how walkHold, from string, mm float64, spot *pattern.Spot) held {
		return held{how, "as far from " + from, fmt.Sprintf("%s from %s", unit.MM(mm), from), mm, spot}
	}
	all := []held{measured(holdStart, begins, s, nil)}
	piece, edge, along, err := wk.Place(p, walk.A, s)
	if err != nil {
		return all
	}
	_, e := p.Edge(piece, edge)
	if e == nil || e.Length() <= 0 {
		return all
	}
	l := e.Length()
	at := along.At(l)
	share := at / l
	at = round4(at)
	back, on := pattern.Along{From: pattern.Start, MM: at}, pattern.Along{From: pattern.End, MM: round4(l - at)}
	if along.From == pattern.End {
		back, on = on, back
	}
	spot := func(a pattern.Along) *pattern.Spot { return &pattern.Spot{Piece: piece, Edge: edge, Along: a} }
	if back.MM < s-samePlace {
		all = append(all, measured(holdBack, meets(p, piece, edge, back.From), back.MM, spot(back)))
	}
	all = append(all, measured(holdEnd, meets(p, piece, edge, on.From), on.MM, spot(on)))
	return append(all, held{holdShare, "the same part of " + edge, fmt.Sprintf("%.3g %% along %s", 100*share, edge), math.Inf(1),
		spot(pattern.Along{From: pattern.Start, Share: share})})
}

// holding is the way that is chosen, or else the shortest.
func (w *Walk) holding(wk *walk.Walk, s float64, how walkHold) held {
	all := w.holdings(wk, s)
	best := all[0]
	for _, k := range all {
		if how != holdNearer && k.how == how {
			return k
		}
		if k.from < best.from-samePlace {
			best = k
		}
	}
	return best
}

// loose returns the place of the walk at which a notch would be, or was last,
// held by a length alone: nothing lies there on either side. It is false where
// there is none, or only one size.
func (w *Walk) loose(wk *walk.Walk) (s float64, how walkHold, ok bool) {
	if !severalSizes(w.table) {
		return 0, how, false
	}
	if n := len(w.drops); n > 0 {
		for _, d := range w.drops[n-1].drops {
			if w.heldAs(wk, w.drops[n-1].at, d) {
				return w.drops[n-1].at, w.drops[n-1].how, true
			}
		}
		return 0, how, false
	}
	_, a := w.across(wk, walk.A)
	_, b := w.across(wk, walk.B)
	return w.s, w.holds, !a && !b && len(w.offer(wk).drops) > 0
}

// heldAs reports whether a drop is one of those held by a length at a place.
func (w *Walk) heldAs(wk *walk.Walk, s float64, d step.Drop) bool {
	for _, k := range w.holdings(wk, s) {
		if o := k.drop(wk, d.On); reflect.DeepEqual(o.MM, d.MM) && sameSpot(o.Spot, d.Spot) && !d.All && !d.End {
			return true
		}
	}
	return false
}

// holdField lets her choose what is kept in other sizes of the place.
func (w *Walk) holdField(wk *walk.Walk) []Field {
	s, how, ok := w.loose(wk)
	if !ok {
		return nil
	}
	f := Field{Name: "hold", Label: "In every size", Text: w.holding(wk, s, how).label}
	for _, k := range w.holdings(wk, s) {
		f.Options = append(f.Options, k.label)
	}
	return []Field{f}
}

// setHold takes it, for what is dropped next and for what was dropped last.
func (w *Walk) setHold(wk *walk.Walk, text string) error {
	s, _, ok := w.loose(wk)
	if !ok {
		return unknownField("the walk", "hold")
	}
	all := w.holdings(wk, s)
	labels := make([]string, len(all))
	for i, k := range all {
		labels[i] = k.label
	}
	o, err := picked(text, labels)
	if err != nil {
		return err
	}
	for _, k := range all {
		if k.label == o {
			if w.holds = k.how; len(w.drops) > 0 {
				w.rehold(wk, k)
			}
		}
	}
	return nil
}

// rehold keeps the notches that were dropped last in another way.
func (w *Walk) rehold(wk *walk.Walk, k held) {
	n := len(w.drops)
	last := w.drops[n-1]
	drops := make([]step.Drop, len(last.drops))
	for i, d := range last.drops {
		if w.heldAs(wk, last.at, d) {
			o := k.drop(wk, d.On)
			d.MM, d.Spot = o.MM, o.Spot
		}
		drops[i] = d
	}
	last.drops, last.how = drops, k.how
	w.drops = append(w.drops[:n-1:n-1], last)
}

// holdWords tell how the place is kept in other sizes, "" when nothing is to be
// told.
func (w *Walk) holdWords(wk *walk.Walk) string {
	s, how, ok := w.loose(wk)
	if !ok {
		return ""
	}
	return w.holding(wk, s, how).words
}

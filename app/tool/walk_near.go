package tool

import (
	"fmt"
	"math"
	"slices"

	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// nearNotch is the distance in mm within which one notch is easily taken for
// another at the table (common practice).
const nearNotch = 10

// nearCorner is the distance in mm from the end of its edge within which a notch
// is told to lie near what is met there: most allowances are wider, so that it
// is lost in the next seam (common practice).
const nearCorner = 5

// crowded tells of what lies near a notch that is dropped: a notch that is there
// already, which may be the one that was to be moved, or the end of its edge.
func (w *Walk) crowded(wk *walk.Walk, res step.Result) string {
	before := w.pattern()
	moved := "take it with the notch tool instead"
	if len(w.movesHere(wk)) > 0 {
		moved = "choose so under Drop a notch"
	}
	cornered := ""
	for i := range res.Size.Pattern.Pieces {
		is := &res.Size.Pattern.Pieces[i]
		was := before.Piece(is.Name)
		if was == nil {
			continue
		}
		for _, n := range is.Notches {
			e := is.Edge(n.Edge)
			if was.Notch(n.Name) != nil || e == nil {
				continue
			}
			at := n.At(e.Length())
			for _, old := range was.Notches {
				if old.Edge != n.Edge || w.ends(wk, is.Name, old.Name) {
					continue
				}
				if d := math.Abs(old.At(e.Length()) - at); d < nearNotch {
					return fmt.Sprintf(" On %s a notch lies %s from there already: if that one is to move, %s.", is.Name, unit.MM(d), moved)
				}
			}
			end, d := pattern.Start, at
			if e.Length()-at < d {
				end, d = pattern.End, e.Length()-at
			}
			if met := is.Meets(e.Name, end); met != "" && d < nearCorner {
				cornered = fmt.Sprintf(" On %s it lies only %s from %s.", is.Name, unit.MM(d), met)
			}
		}
	}
	return cornered
}

// ends reports whether a notch says where the other side of the seam ends: that
// is not one to be moved.
func (w *Walk) ends(wk *walk.Walk, piece, notch string) bool {
	at := func(h walk.Hand, n pattern.SeamNotch, other float64) bool {
		if n.Piece != piece || n.Notch.Name != notch {
			return false
		}
		return other <= samePlace || math.Abs(other-wk.Run(h.Other()).Length) <= samePlace
	}
	for _, pr := range wk.Pairs {
		if at(walk.A, pr.NotchA, pr.B) || at(walk.B, pr.NotchB, pr.A) {
			return true
		}
	}
	return slices.ContainsFunc(wk.Unmatched(), func(l walk.Lone) bool {
		return l.Piece == piece && l.Notch == notch && (l.Other <= samePlace || math.Abs(l.Other-wk.Run(l.Side.Other()).Length) <= samePlace)
	})
}

// notched reports whether a side has a notch at the contact, on which another
// would only lie.
func (w *Walk) notched(wk *walk.Walk, h walk.Hand) bool {
	return slices.ContainsFunc(wk.Stops(), func(st walk.Stop) bool {
		return st.What == walk.StopNotch && st.Side == h && math.Abs(st.A-w.s) <= samePlace
	})
}

// movesHere offers to move a notch to the contact, where that of the other side
// lies with which it is paired. Notches are judged from the start of the seam, so
// it is not offered where the walk starts elsewhere.
func (w *Walk) movesHere(wk *walk.Walk) (all []offer) {
	if w.what.seam == "" || !w.what.start.same(walkStart{}) {
		return nil
	}
	p := w.pattern()
	for _, pr := range wk.Pairs {
		b := wk.On(walk.A, pr.B)
		if math.Abs(pr.A-b) <= samePlace {
			continue
		}
		stays, goes := pr.NotchA, pr.NotchB
		switch {
		case math.Abs(pr.A-w.s) <= samePlace:
		case math.Abs(b-w.s) <= samePlace:
			stays, goes = goes, stays
		default:
			continue
		}
		spot := pattern.AtNotch(stays.Piece, stays.Notch.Name)
		if _, _, err := step.Across(p, w.what.seam, goes.Piece, spot); err != nil {
			continue // it meets another piece
		}
		all = append(all, offer{
			label: fmt.Sprintf("move %s of %s here", pattern.NotchWords(goes.Notch.Name), goes.Piece),
			move:  &step.Notch{Act: step.MoveNotch, Piece: goes.Piece, Name: goes.Notch.Name, Seam: w.what.seam, Spot: &spot},
		})
	}
	return all
}

// letMove moves a notch, in place of one that was dropped at the same place.
func (w *Walk) letMove(m step.Notch) {
	if n := len(w.drops); n > 0 && math.Abs(w.drops[n-1].at-w.s) <= samePlace {
		w.drops = w.drops[:n-1]
	}
	rest := slices.DeleteFunc(slices.Clone(w.moves), func(o step.Notch) bool { return o.Piece == m.Piece && o.Name == m.Name })
	w.moves = append(rest, m)
}

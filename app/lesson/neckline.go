package lesson

import (
	"fmt"
	"math"
	"slices"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
	"truemat/ops/walk"
)

// Names of the demo pattern that the second lesson speaks of.
const (
	inner, upper = "inner cup", "upper outer cup"
	vertical     = "vertical seam"
	aboveApex    = "above apex"
	wireEdge     = "wire"
	// mm before the end of the seam of a notch that keeps its top from creeping.
	notchLeast, notchBefore, notchMost = 5.0, 10.0, 16.0
	cupMark                            = "ALTERED · LACE"
)

// Second returns the lesson for the cup of the demo pattern: a straight
// neckline of the inner cup, up to a notch of its seam, and what becomes of the
// outer cup there.
func Second() Lesson {
	return Lesson{Title: "A neckline to a notch", Fits: fitsNeckline, End: "That is a neckline for a border of lace. Print it with Ctrl + P, or by File > Print. Beyond the notch the edge of the outer cup is turned back and stitched; the checks tell whether it lies flat.", Steps: []Act{
		{
			Title: "Cut the neckline straight",
			Text:  "Take the shears. Press the corner of the inner cup at 1, where its wire edge begins at the centre front, then the double notch on its vertical seam, at 2. Under \"The edge is\" choose lace edge. The part of the upper outer cup that is then no longer sewn is shown too: its edge will be turned back. Accept with Enter.",
			Keys:  "E takes the shears. N and Space go into the inner cup, where Space takes the corner of neckline and wire; N, pressed until the double notch above the apex is named, leads there, P back; Space takes it. Tab, pressed once, goes to \"The edge is\"; choose lace edge. Enter accepts.",
			Tool:  "shears",
			Aside: cutNotLace,
			Where: func(p pattern.Pattern) []geom.Point {
				return spots(p, pattern.AtEnd(inner, wireEdge, pattern.Start), pattern.AtNotch(inner, aboveApex))
			},
			Done: func(before, after Stage) bool {
				cut := func(p pattern.Pattern) bool { return rest(p) != nil && laceNeckline(p) }
				return !cut(before.Pattern) && cut(after.Pattern)
			},
			Do: func(s Stage) step.Step {
				kept := pattern.AtEnd(inner, wireEdge, pattern.End)
				return &step.CutOff{
					Piece: inner, From: pattern.AtEnd(inner, wireEdge, pattern.Start), To: pattern.AtNotch(inner, aboveApex), Kept: &kept,
					Name: "lace neckline", Role: pattern.LaceEdge,
				}
			},
		},
		{
			Title: "Walk the seam and drop a notch",
			Text:  "Take the walk and press the vertical seam of the inner cup, at 1. The two cups are laid seam to seam. Drag the ring where they meet along the seam, or hold an arrow key: one cup rolls along the other, and the line above the tools says how much is left to the end. With about " + handy(notchBefore) + " left (" + handy(notchLeast) + " to " + handy(notchMost) + " will do) press the space bar, or choose here on both sides under \"Drop a notch\": both cups get a notch, which keeps the top of the seam from creeping. Accept with Enter.",
			Keys:  "C takes the walk. N and Space go into the inner cup, where Space takes its vertical seam. N walks on to the next notch and, pressed again, at last to the end; from there Left comes back step by step, with Ctrl by smaller steps and with Shift by larger. With " + handy(notchBefore) + " left Space drops the notch on both. Enter accepts.",
			Tool:  "walk",
			Aside: both(misplaced, both(necklineCut, unmarked("act 3 writes it"))),
			Where: func(p pattern.Pattern) []geom.Point { return middles(p, inner, vertical) },
			Done:  droppedPair,
			Do: func(s Stage) step.Step {
				at := pattern.Spot{Piece: inner, Edge: vertical, Along: pattern.Along{From: pattern.End, MM: notchBefore}}
				name := freeNotch(s.Pattern, "below neckline")
				return &step.Walk{Seam: vertical, Drop: []step.Drop{{On: walk.A, Name: name, Spot: &at}, {On: walk.B, Name: name, Spot: &at}}}
			},
		},
		{
			Title: "Mark both cups",
			Text:  "Take the chalk, press the inner cup at 1, then the upper outer cup at 2 with Shift held, and accept with Enter. The other sizes were altered with this one: press one to look at it.",
			Keys:  "K takes the chalk. N and Space take the inner cup, N and Space the upper outer cup. Enter accepts.",
			Tool:  "chalk",
			Aside: unmarked("this act writes it"),
			Stay:  true,
			Where: func(p pattern.Pattern) []geom.Point {
				a, b := p.Piece(inner), p.Piece(upper)
				if a == nil || b == nil {
					return nil
				}
				return []geom.Point{within(a), within(b)}
			},
			Done: func(_, after Stage) bool {
				for _, name := range []string{inner, upper} {
					is, was := after.Pattern.Piece(name), after.Source.Piece(name)
					if is == nil || was == nil || len(is.Marks) <= len(was.Marks) {
						return false
					}
				}
				return true
			},
			Do: func(s Stage) step.Step { return &step.Mark{Pieces: []string{inner, upper}, Text: cupMark} },
		},
	}}
}

func fitsNeckline(source pattern.Pattern) bool {
	return len(spots(source, pattern.AtEnd(inner, wireEdge, pattern.Start), pattern.AtNotch(inner, aboveApex), pattern.AtNotch(upper, aboveApex))) == 3 &&
		source.Seam(vertical) != nil && rest(source) == nil
}

// cutNotLace tells that the neckline was cut but is no lace edge.
func cutNotLace(s Stage) string {
	if rest(s.Pattern) == nil || laceNeckline(s.Pattern) {
		return ""
	}
	return "The inner cup is cut, but not to a straight lace edge. Take it back by Undo and cut anew; or, where the cut itself is right, press its edge with the allowance tool and choose lace edge there."
}

// necklineCut tells what the cut made of the partner's notches, when there is
// one where the inner cup ends now.
func necklineCut(s Stage) string {
	if n := endNotch(s.Pattern); n == nil || !n.Double {
		return ""
	}
	return "The upper outer cup got a double notch where the inner cup ends now, so that nobody sews the seam further. Its old notch there met what is cut off and is gone."
}

// rest returns the turned-back edge that the upper outer cup has beside the
// shortened seam, or nil.
func rest(p pattern.Pattern) *pattern.Edge {
	pc := p.Piece(upper)
	if pc == nil || pc.Edge(vertical) == nil {
		return nil
	}
	i := pc.EdgeIndex(vertical)
	for _, j := range []int{pc.Prev(i), pc.Next(i)} {
		if pc.Edges[j].Role == pattern.TurnedBack {
			return &pc.Edges[j]
		}
	}
	return nil
}

// laceNeckline reports whether the inner cup has a straight lace edge from the
// start of its wire edge.
func laceNeckline(p pattern.Pattern) bool {
	pc := p.Piece(inner)
	if pc == nil || pc.Edge(wireEdge) == nil {
		return false
	}
	e := &pc.Edges[pc.Prev(pc.EdgeIndex(wireEdge))]
	return e.Role == pattern.LaceEdge && straight(e.Path)
}

// endNotch returns the notch of the upper outer cup where its sewn edge ends
// and the turned-back one begins, or nil.
func endNotch(p pattern.Pattern) *pattern.Notch {
	r, pc := rest(p), p.Piece(upper)
	if r == nil {
		return nil
	}
	e := pc.Edge(vertical)
	for i := range pc.Notches {
		n := &pc.Notches[i]
		if n.Edge == vertical && e.Path.At(n.At(e.Length())).Near(restJoint(pc, r), near) {
			return n
		}
	}
	return nil
}

// restJoint is where the turned-back edge meets the sewn one, in the piece.
func restJoint(pc *pattern.Piece, r *pattern.Edge) geom.Point {
	if pc.Edges[pc.Prev(pc.EdgeIndex(vertical))].Name == r.Name {
		return r.Path.End()
	}
	return r.Path.Start()
}

// toNeckline returns how far in mm before the neckline the notches of the inner
// cup lie that it did not come with.
func toNeckline(s Stage, was pattern.Pattern) []float64 {
	pc, e := s.Pattern.Edge(inner, vertical)
	if e == nil {
		return nil
	}
	old := was.Piece(inner)
	var out []float64
	for i := range pc.Notches {
		if n := &pc.Notches[i]; n.Edge == vertical && (old == nil || old.Notch(n.Name) == nil) {
			out = append(out, e.Length()-n.At(e.Length()))
		}
	}
	return out
}

func wellPlaced(mm float64) bool { return mm >= notchLeast-near && mm <= notchMost+near }

// misplaced tells that a notch was dropped elsewhere than is asked.
func misplaced(s Stage) string {
	for _, mm := range toNeckline(s, s.Source) {
		if !wellPlaced(mm) && mm > near {
			is := func(v float64) string { return unit.Format(v, unit.Millimetres) }
			return fmt.Sprintf("The notch you dropped lies %s before the neckline, which is not between %s and %s. Take it back by Undo and drop it there.", is(mm), handy(notchLeast), handy(notchMost))
		}
	}
	return ""
}

// droppedPair reports whether a walk dropped a notch on both sides of the
// vertical seam, where it is asked, and they meet.
func droppedPair(before, after Stage) bool {
	if rest(after.Pattern) == nil || len(after.Recipe) == 0 {
		return false
	}
	if last := after.Recipe[len(after.Recipe)-1]; last.Off || last.Step.Kind() != "walk" {
		return false
	}
	if !slices.ContainsFunc(toNeckline(after, before.Pattern), wellPlaced) {
		return false
	}
	was, err := walk.Seam(before.Pattern, vertical, walk.Way{})
	is, err2 := walk.Seam(after.Pattern, vertical, walk.Way{})
	if err != nil || err2 != nil || len(is.Pairs) <= len(was.Pairs) || len(is.Unmatched()) > 0 {
		return false
	}
	for _, r := range is.Table().Rows {
		if math.Abs(r.Difference) > near {
			return false
		}
	}
	return true
}

// freeNotch is a name that no notch of both cups has.
func freeNotch(p pattern.Pattern, name string) string {
	for {
		free := true
		for _, pc := range []string{inner, upper, "lower outer cup"} {
			if x := p.Piece(pc); x != nil && x.Notch(name) != nil {
				free = false
			}
		}
		if free {
			return name
		}
		name += " 2"
	}
}

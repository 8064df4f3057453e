package check

import (
	"fmt"
	"math"

	"truemat/ops/pattern"
)

// turning checks both ways in which the strip of an edge that is turned back
// may not lie flat.
func turning(s Subject, pc *pattern.Piece, e *pattern.Edge) []Check {
	return []Check{turnedHollow(s, pc, e), turnedRound(s, pc, e)}
}

// bends are a/r along an edge that is turned back by the width a, at places
// equally far apart; above 0 where it is hollow, or where it is round.
func bends(e *pattern.Edge, round bool) (list []float64, step float64) {
	n := int(e.Length()/sampleStep) + 1
	step = e.Length() / float64(n)
	for i := range n + 1 {
		// The outline runs counter-clockwise: it is round where it bends left.
		bend := e.Path.CurvatureAt(step*float64(i)) * e.Allowance
		if !round {
			bend = -bend
		}
		list = append(list, bend)
	}
	return list, step
}

// A tight is where the strip of an edge that is turned back lies worst.
type tight struct {
	percent  float64 // by which the raw edge is too short or too long
	from, to float64 // mm along the edge, within which it is so by more than holds
}

// turned returns by how many per cent the raw edge of the strip is too short
// where the edge is hollow, or too long where it is round, for the line on
// which it comes to lie, at worst, and the stretch around that place on which
// it is more than holds. The raw edge lies at the width a outside the
// fold, and at the same width inside it when turned: of a round edge of radius
// r the one has the radius r + a and the other r − a, of a hollow one the other
// way about, so that the longer is to the shorter as r + a to r − a (geometry).
// It is the mean over a stretch as long as the turning is wide, since what is
// uneven along one side of a strip evens out within about its width
// (Saint-Venant's principle): a tighter spot draws on what lies beside it.
// It is told at most as [mostTurned], where r is no more than a trifle over a.
func turned(e *pattern.Edge, round bool, holds float64) (worst tight) {
	list, step := bends(e, round)
	n := len(list) - 1
	width := min(max(int(e.Allowance/step+0.5), 1), n)
	sum := make([]float64, n+1) // of the bend up to each place
	for i := range n {
		sum[i+1] = sum[i] + (list[i]+list[i+1])/2
	}
	at := 0
	for i := range n - width + 1 {
		if p := longerBy((sum[i+width] - sum[i]) / float64(width)); p > worst.percent {
			worst.percent, at = p, i
		}
	}
	for i, end := at, at+width; i <= end; i++ { // the tightest place within
		if list[i] > list[at] {
			at = i
		}
	}
	lo, hi := at, at
	for lo > 0 && longerBy(list[lo-1]) > holds {
		lo--
	}
	for hi < n && longerBy(list[hi+1]) > holds {
		hi++
	}
	worst.from, worst.to = max(float64(lo)-0.5, 0)*step, min(float64(hi)+0.5, float64(n))*step
	return worst
}

// TurnedWhere returns the stretch of an edge, in mm along it, on which a check
// of its turning does not hold; false where it is of something else, or holds.
func TurnedWhere(c Check, e *pattern.Edge, b Bounds) (from, to float64, ok bool) {
	if c.Verdict == Holds {
		return 0, 0, false
	}
	switch c.ID {
	case TurnedBack:
		t := turned(e, false, b.TurnedBack.Holds)
		return t.from, t.to, true
	case TurnedRound:
		t := turned(e, true, b.TurnedRound.Holds)
		return t.from, t.to, true
	}
	return 0, 0, false
}

// over tells on which stretch of the edge it is so, by the end it is near; of
// nearly all of the edge it needs no telling.
func (t tight) over(pc *pattern.Piece, e *pattern.Edge) string {
	length := e.Length()
	if t.to-t.from > 0.9*length {
		return ""
	}
	i := pc.EdgeIndex(e.Name)
	if i < 0 {
		return fmt.Sprintf(", over %s", about(t.to-t.from))
	}
	n := len(pc.Edges)
	near, end := t.from, pc.Edges[(i+n-1)%n].Name
	if length-t.to < near {
		near, end = length-t.to, pc.Edges[(i+1)%n].Name
	}
	if near <= e.Allowance {
		return fmt.Sprintf(", over %s at its end at %s", about(t.to-t.from), end)
	}
	return fmt.Sprintf(", over %s that begin %s from %s", about(t.to-t.from), about(near), end)
}

// about writes a length to the millimetre, as the places looked at lie apart.
func about(v float64) string { return mm(math.Round(v)) }

// short reports whether the stretch is no longer than the turning is wide, so
// that a snip or two let it lie (common practice).
func (t tight) short(e *pattern.Edge) bool { return t.to-t.from <= e.Allowance }

// longerBy returns 100·((r+a)/(r−a) − 1) for bend a/r.
func longerBy(bend float64) float64 {
	if bend >= mostTurned/(200+mostTurned) {
		return mostTurned
	}
	return 200 * bend / (1 - bend)
}

// mostTurned is the most in per cent that the strip is told to be too short or
// too long; no cloth comes near it.
const mostTurned = 1000.0

func turnedHollow(s Subject, pc *pattern.Piece, e *pattern.Edge) Check {
	t := turned(e, false, s.Bounds.TurnedBack.Holds)
	c := Check{ID: TurnedBack, Piece: pc.Name, Edge: e.Name, Unit: "%", Measured: t.percent}
	was, would := fmt.Sprintf("Turned-back edge %s of %s has to stretch by up to %.1f %% at its raw edge, once turned in, where it is hollow", e.Name, pc.Name, t.percent), ""
	if s.Bounds.TurnedBack.Verdict(t.percent) != Holds {
		would = fmt.Sprintf("Turned-back edge %s of %s would have to stretch by up to %.1f %% at its raw edge, once turned in, where it is hollow%s", e.Name, pc.Name, t.percent, t.over(pc, e))
		was += t.over(pc, e)
	}
	return t.judge(c, e, s.Bounds.TurnedBack, was, would, "clip it there, or make it narrower",
		"snip it there to just before the fold, or make it narrower", "make the turning narrower, or face it instead")
}

func turnedRound(s Subject, pc *pattern.Piece, e *pattern.Edge) Check {
	t := turned(e, true, s.Bounds.TurnedRound.Holds)
	c := Check{ID: TurnedRound, Piece: pc.Name, Edge: e.Name, Unit: "%", Measured: t.percent}
	was, would := fmt.Sprintf("Turned-back edge %s of %s has up to %.1f %% too much cloth at its raw edge, once turned in, where it is round", e.Name, pc.Name, t.percent), ""
	if s.Bounds.TurnedRound.Verdict(t.percent) != Holds {
		would = fmt.Sprintf("Turned-back edge %s of %s would have up to %.1f %% too much cloth at its raw edge, once turned in, where it is round%s, which pleats", e.Name, pc.Name, t.percent, t.over(pc, e))
		was += t.over(pc, e)
	}
	return t.judge(c, e, s.Bounds.TurnedRound, was, would, "draw it in with a row of stitches, cut small notches out of the turning, or make it narrower",
		"cut a small notch or two out of the turning there, or make it narrower", "make the turning narrower, cut notches out of it, or bind or face the edge instead")
}

// judge completes the check of a turning. What would be broken is only to be
// looked at where it is so short that snips let it lie.
func (t tight) judge(c Check, e *pattern.Edge, b Bound, was, would, look, snip, broken string) Check {
	if b.Verdict(c.Measured) != Broken {
		c.Text = was
		return settle(c, b, look)
	}
	c.Text = would
	if !t.short(e) {
		return settle(c, b, broken)
	}
	c = settle(c, b, snip)
	c.Verdict = Look
	c.Allowed += fmt.Sprintf("; over no more than %s snips let it lie", mm(e.Allowance))
	return c
}

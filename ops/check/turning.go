package check

import (
	"fmt"

	"truemat/ops/pattern"
)

// turning checks both ways in which the strip of an edge that is turned back
// may not lie flat.
func turning(s Subject, pc *pattern.Piece, e *pattern.Edge) []Check {
	hollow, round := turned(e)
	return []Check{turnedHollow(s, pc, e, hollow), turnedRound(s, pc, e, round)}
}

// turned returns by how many per cent the raw edge of the strip is too short
// where the edge is hollow, and too long where it is round, for the line on
// which it comes to lie, at worst. The raw edge lies at the width a outside the
// fold, and at the same width inside it when turned: of a round edge of radius
// r the one has the radius r + a and the other r − a, of a hollow one the other
// way about, so that the longer is to the shorter as r + a to r − a (geometry).
// It is told at most as [mostTurned], where r is no more than a trifle over a.
func turned(e *pattern.Edge) (hollow, round float64) {
	n := int(e.Length()/sampleStep) + 1
	for i := range n + 1 {
		// The outline runs counter-clockwise: it is round where it bends left.
		bend := e.Path.CurvatureAt(e.Length()*float64(i)/float64(n)) * e.Allowance
		hollow, round = max(hollow, longerBy(-bend)), max(round, longerBy(bend))
	}
	return hollow, round
}

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

func turnedHollow(s Subject, pc *pattern.Piece, e *pattern.Edge, stretch float64) Check {
	c := Check{ID: TurnedBack, Piece: pc.Name, Edge: e.Name, Unit: "%", Measured: stretch}
	c.Text = fmt.Sprintf("Turned-back edge %s of %s has to stretch by %.1f %% at its raw edge where it is hollow", e.Name, pc.Name, stretch)
	c = settle(c, s.Bounds.TurnedBack, "clip it, or make it narrower")
	if c.Verdict == Broken {
		c.remedy = "make the turning narrower, or face it instead"
		c.Text = fmt.Sprintf("Turned-back edge %s of %s would have to stretch by %.1f %% at its raw edge where it is hollow: %s.", e.Name, pc.Name, stretch, c.remedy)
	}
	return c
}

func turnedRound(s Subject, pc *pattern.Piece, e *pattern.Edge, surplus float64) Check {
	c := Check{ID: TurnedRound, Piece: pc.Name, Edge: e.Name, Unit: "%", Measured: surplus}
	c.Text = fmt.Sprintf("Turned-back edge %s of %s has %.1f %% too much cloth at its raw edge where it is round", e.Name, pc.Name, surplus)
	c = settle(c, s.Bounds.TurnedRound, "draw it in with a row of stitches, cut small notches out of the turning, or make it narrower")
	if c.Verdict == Broken {
		c.remedy = "make the turning narrower, cut notches out of it, or bind or face the edge instead"
		c.Text = fmt.Sprintf("Turned-back edge %s of %s would have %.1f %% too much cloth at its raw edge where it is round, which pleats: %s.", e.Name, pc.Name, surplus, c.remedy)
	}
	return c
}

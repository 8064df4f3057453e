package check

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/pattern"
)

// arcEdge is a turned-back edge along a quarter of a circle of that radius in
// mm, round or hollow.
func arcEdge(t *testing.T, radius, width float64, round bool) *pattern.Edge {
	t.Helper()
	path, err := geom.Arc(geom.Pt(0, 0), radius, 0, 90*geom.Degree)
	require.NoError(t, err)
	if !round {
		path = path.Reverse()
	}
	return &pattern.Edge{Name: "top", Role: pattern.TurnedBack, Path: path, Allowance: width}
}

// Round, the raw edge is longer than where it comes to lie as r + a is to
// r − a; hollow, it is as much too short.
func TestATurnedEdgeIsTooLongWhereRoundAndTooShortWhereHollow(t *testing.T) {
	for _, c := range []struct {
		radius, width float64
		round         Verdict
		hollow        Verdict
	}{
		{60, 10, Broken, Broken}, {600, 10, Holds, Holds}, {250, 10, Look, Holds}, {150, 10, Broken, Look},
	} {
		want := 100 * ((c.radius+c.width)/(c.radius-c.width) - 1)
		pc := &pattern.Piece{Name: "pocket"}
		for _, round := range []bool{true, false} {
			got := turning(Subject{Bounds: Defaults()}, pc, arcEdge(t, c.radius, c.width, round))
			hollow, surplus := got[0], got[1]
			assert.Equal(t, []string{TurnedBack, TurnedRound}, []string{hollow.ID, surplus.ID})
			if round {
				assert.InDelta(t, want, surplus.Measured, 1e-3*want, "radius %g", c.radius)
				assert.Equal(t, c.round, surplus.Verdict, "radius %g", c.radius)
				assert.Zero(t, hollow.Measured)
			} else {
				assert.InDelta(t, want, hollow.Measured, 1e-3*want, "radius %g", c.radius)
				assert.Equal(t, c.hollow, hollow.Verdict, "radius %g", c.radius)
				assert.Zero(t, surplus.Measured)
			}
		}
	}
}

// What is told agrees with the lengths of the two parallels themselves.
func TestTheSurplusIsThatOfTheParallels(t *testing.T) {
	e := arcEdge(t, 80, 12, true)
	_, surplus := turned(e)
	raw, err := e.Path.Parallel(-12, 0.01)
	require.NoError(t, err)
	lies, err := e.Path.Parallel(12, 0.01)
	require.NoError(t, err)
	assert.InDelta(t, 100*(raw.Length()/lies.Length()-1), surplus, 0.1)
}

// An edge rounder than its turning is wide is told with a figure that can be
// written, and a straight or bound one not at all.
func TestATurningWiderThanItsRound(t *testing.T) {
	_, surplus := turned(arcEdge(t, 8, 10, true))
	assert.Equal(t, mostTurned, surplus)
	_, surplus = turned(arcEdge(t, 60, 0, true))
	assert.Zero(t, surplus)
	assert.InDelta(t, mostTurned, longerBy(math.Nextafter(mostTurned/(200+mostTurned), 0)), 1e-6)
	c := turnedRound(Subject{Bounds: Defaults()}, &pattern.Piece{Name: "pocket"}, arcEdge(t, 60, 10, true), 40)
	for _, remedy := range []string{"narrower", "notches", "bind", "face"} {
		assert.Contains(t, c.Text, remedy)
	}
}

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
	surplus := turned(e, true, 5).percent
	raw, err := e.Path.Parallel(-12, 0.01)
	require.NoError(t, err)
	lies, err := e.Path.Parallel(12, 0.01)
	require.NoError(t, err)
	assert.InDelta(t, 100*(raw.Length()/lies.Length()-1), surplus, 0.1)
}

// An edge rounder than its turning is wide is told with a figure that can be
// written, and a straight or bound one not at all.
func TestATurningWiderThanItsRound(t *testing.T) {
	surplus := turned(arcEdge(t, 8, 10, true), true, 5).percent
	assert.Equal(t, mostTurned, surplus)
	surplus = turned(arcEdge(t, 60, 0, true), true, 5).percent
	assert.Zero(t, surplus)
	assert.InDelta(t, mostTurned, longerBy(math.Nextafter(mostTurned/(200+mostTurned), 0)), 1e-6)
	c := turnedRound(Subject{Bounds: Defaults()}, &pattern.Piece{Name: "pocket"}, arcEdge(t, 60, 10, true))
	for _, remedy := range []string{"narrower", "notches", "bind", "face"} {
		assert.Contains(t, c.Text, remedy)
	}
}

// Between straight runs of 100 mm a hollow of 25 mm radius is as long as told.
// Over 4 mm its 200·(10/25)/(1 − 10/25) % are spread over the 10 mm that the
// turning is wide, mean bend 0.4·0.4, and a snip lets it lie; over 20 mm it is
// broken, and where it is told both times.
func TestAShortHollowIsSnippedAndIsToldWhereItIs(t *testing.T) {
	hollow := func(long, before, after float64) (*pattern.Piece, *pattern.Edge) {
		turn := geom.Angle(long / 25)
		arc, err := geom.Arc(geom.Pt(0, 25), 25, -90*geom.Degree, turn)
		require.NoError(t, err)
		arc = arc.Reverse() // bends right
		from, to := arc.TangentAt(0), arc.TangentAt(arc.Length())
		var segs []geom.Cubic
		line := func(a, b geom.Point) { segs = append(segs, geom.Must(geom.Polyline(a, b)).Segments()...) }
		if before > 0 {
			line(arc.Start().Sub(from.Mul(before)), arc.Start())
		}
		segs = append(segs, arc.Segments()...)
		if after > 0 {
			line(arc.End(), arc.End().Add(to.Mul(after)))
		}
		top := pattern.Edge{Name: "top", Role: pattern.TurnedBack, Path: geom.Must(geom.NewPath(segs...)), Allowance: 10}
		pc := &pattern.Piece{Name: "band", Edges: []pattern.Edge{{Name: "side seam"}, top, {Name: "closure"}}}
		return pc, &pc.Edges[1]
	}
	for _, c := range []struct {
		long, before, after float64
		mean                float64 // of the bend over 10 mm
		verdict             Verdict
		told, remedy        string
	}{
		{4, 100, 100, 0.16, Look, "that begin 100 mm from side seam", "snip it there"},
		{4, 100, 0, 0.16, Look, "at its end at closure", "snip it there"},
		{20, 100, 0, 0.4, Broken, "at its end at closure", "make the turning narrower"},
		{20, 100, 50, 0.4, Broken, "that begin 50 mm from closure", "make the turning narrower"},
	} {
		pc, e := hollow(c.long, c.before, c.after)
		got := turning(Subject{Bounds: Defaults()}, pc, e)[0]
		want := 200 * c.mean / (1 - c.mean)
		assert.InDelta(t, want, got.Measured, 0.1*want, got.Text)
		assert.Equal(t, c.verdict, got.Verdict, got.Text)
		from, to, ok := TurnedWhere(got, e, Defaults())
		assert.True(t, ok)
		assert.InDelta(t, c.before, from, 2*sampleStep)
		assert.InDelta(t, c.before+c.long, to, 2*sampleStep)
		assert.Contains(t, got.Text, c.remedy)
		if c.before == 100 && c.after == 0 {
			assert.Contains(t, got.Text, c.told)
		} else {
			assert.Regexp(t, `over \S+ mm that begin \S+ mm from (side seam|closure)`, got.Text)
		}
	}
}

package slice_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
	"truemat/geom"
	"truemat/ops/cloth/slice"
	"truemat/ops/pattern/patterntest"
)

func box(x, y, w, h float64) geom.Path {
	a := geom.Pt(x, y)
	return geom.Must(geom.JoinClosed(geom.Must(geom.Polyline(a, a.Add(geom.Pt(w, 0)), a.Add(geom.Pt(w, h)), a.Add(geom.Pt(0, h)), a))))
}

func TestBoxesThatOnlyTouchMayPassEachOther(t *testing.T) {
	low, high := slice.Of(box(0, 0, 30, 50), geom.Identity()), slice.Of(box(10, 50, 20, 10), geom.Identity())
	require.Empty(t, low.Taken(high))
	require.Equal(t, []slice.Span{{From: -30, To: 20}}, low.Taken(high.Raised(-1)), "30 mm less the 10 mm it already lies right")
	require.Equal(t, []slice.Span{{From: -37, To: 13}}, low.Taken(high.Raised(-1).Shifted(7)))
}

func TestAGrownProfileKeepsAGap(t *testing.T) {
	a := slice.Of(box(0, 0, 30, 50), geom.Identity()).Grown(5)
	require.Equal(t, []slice.Span{{From: -15, To: 35}}, a.Taken(slice.Of(box(0, 20, 10, 10), geom.Identity())))
	require.Equal(t, []slice.Span{{From: -15, To: 35}}, a.Taken(slice.Of(box(0, 54, 10, 10), geom.Identity())), "4 mm above")
	require.Empty(t, a.Taken(slice.Of(box(0, 55, 10, 10), geom.Identity())), "5 mm above")
}

// Every point of an outline lies between the profile's ends in its slice.
func TestAProfileHoldsItsOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pc := patterntest.Blob(t)
		o, err := pc.Outline()
		require.NoError(t, err)
		p := slice.Of(o, geom.Identity())
		b := o.Bounds()
		require.InDelta(t, b.Min.X, p.Min, 0.02)
		require.InDelta(t, b.Max.X, p.Max, 0.02)
		for _, q := range o.Flatten(0.5) {
			within := math.Mod(math.Mod(q.Y, slice.Band)+slice.Band, slice.Band)
			if within < 0.02 || within > slice.Band-0.02 {
				continue // by the error of the polyline it may count to the next slice
			}
			dot := slice.Of(box(q.X-1e-3, q.Y-1e-3, 2e-3, 2e-3), geom.Identity())
			from, to := math.Inf(1), math.Inf(-1)
			for _, s := range p.Taken(dot) {
				from, to = min(from, s.From), max(to, s.To)
			}
			require.LessOrEqual(t, from, 0.02, "the outline covers what lies on it")
			require.GreaterOrEqual(t, to, -0.02)
		}
	})
}

// A hollow is no part of the profile, and what is taken of a hollow outline is
// what it covers.
func TestAHollowIsFree(t *testing.T) {
	a := []geom.Point{geom.Pt(0, 0), geom.Pt(60, 0), geom.Pt(60, 10), geom.Pt(20, 10), geom.Pt(20, 30), geom.Pt(60, 30), geom.Pt(60, 40), geom.Pt(0, 40), geom.Pt(0, 0)}
	fork := slice.Of(geom.Must(geom.JoinClosed(geom.Must(geom.Polyline(a...)))), geom.Identity())
	bar := slice.Of(box(0, 10, 30, 20), geom.Identity())
	require.Equal(t, []slice.Span{{From: -30, To: 20}}, fork.Taken(bar))
	require.False(t, fork.Over(bar.Shifted(20)))
	require.True(t, fork.Over(bar.Shifted(19)))
	require.True(t, fork.Grown(1).Over(bar.Shifted(25)), "the bar fills the hollow")
	thin := slice.Of(box(0, 15, 30, 10), geom.Identity())
	require.False(t, fork.Grown(1).Over(thin.Shifted(25)))
	require.InDelta(t, 0, fork.Min, 1e-12)
	require.InDelta(t, 61, fork.Grown(1).Max, 1e-12)
}

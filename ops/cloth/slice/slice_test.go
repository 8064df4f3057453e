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
	require.True(t, math.IsInf(low.Apart(high), -1))
	require.InDelta(t, 20, low.Apart(high.Raised(-1)), 1e-12, "30 mm less the 10 mm it already lies right")
	require.InDelta(t, 13, low.Apart(high.Raised(-1).Shifted(7)), 1e-12)
}

func TestAGrownProfileKeepsAGap(t *testing.T) {
	a := slice.Of(box(0, 0, 30, 50), geom.Identity()).Grown(5)
	require.InDelta(t, 35, a.Apart(slice.Of(box(0, 20, 10, 10), geom.Identity())), 1e-9)
	require.InDelta(t, 35, a.Apart(slice.Of(box(0, 54, 10, 10), geom.Identity())), 1e-9, "4 mm above")
	require.True(t, math.IsInf(a.Apart(slice.Of(box(0, 55, 10, 10), geom.Identity())), -1), "5 mm above")
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
			require.GreaterOrEqual(t, p.Apart(dot), -0.02, "nothing to the right of the outline covers it")
			require.GreaterOrEqual(t, dot.Apart(p), -0.02)
		}
	})
}

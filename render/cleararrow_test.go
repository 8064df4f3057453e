package render

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

// An arrow that a line was brought upon is drawn beside it, in its direction and
// in the piece; one that is clear stays exactly where it is.
func TestAnArrowIsDrawnClearOfLines(t *testing.T) {
	box := rectangle(geom.Box{Min: geom.Pt(0, 0), Max: geom.Pt(100, 60)})
	arrow := func(x0, y0, x1, y1 float64) pattern.Arrow {
		return pattern.Arrow{Kind: pattern.LeastStretch, From: geom.Pt(x0, y0), To: geom.Pt(x1, y1)}
	}
	clear := arrow(20, 30, 60, 30)
	require.Equal(t, clear, ClearArrow(clear, box))

	for _, a := range []pattern.Arrow{arrow(20, 1, 60, 1), arrow(70, 30, 110, 30), arrow(2, 10, 2, 50), arrow(-10, 30, 110, 30)} {
		b := ClearArrow(a, box)
		u, v := a.To.Sub(a.From), b.To.Sub(b.From)
		require.InDelta(t, 0, u.Cross(v), 1e-6)
		require.Positive(t, u.Dot(v))
		require.True(t, geom.Box{Min: geom.Pt(arrowClear, arrowClear), Max: geom.Pt(100-arrowClear, 60-arrowClear)}.Contains(b.From), "%v", b)
		require.GreaterOrEqual(t, v.Norm(), arrowLeast*u.Norm()-1e-9)
		if u.Norm() < 90 {
			require.InDelta(t, u.Norm(), v.Norm(), 1e-9, "it has room whole")
		}
	}
	never := arrow(-40, 30, 180, 30)
	require.Equal(t, never, ClearArrow(never, box))
}

// No arrow of the Tern needs to be drawn elsewhere.
func TestTheArrowsOfTheTernStay(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	for _, size := range run.Sizes {
		for _, pc := range size.Pattern.Pieces {
			s, err := shapeOf(pc, geom.Identity())
			require.NoError(t, err)
			require.Equal(t, pc.Arrow, ClearArrow(pc.Arrow, s.cut, s.sewOutline()), "%s of %s", pc.Name, size.Label)
		}
	}
}

package geom

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFarthestPlaceFromAnotherPath(t *testing.T) {
	a := Must(Polyline(Pt(0, 0), Pt(100, 0)))
	b := Must(Polyline(Pt(0, 0), Pt(100, 5)))
	d, s := a.Farthest(b)
	// The end of a lies 5·cos(atan(5/100)) from the line of b, but its foot
	// would lie beyond b only if b were shorter.
	assert.InDelta(t, 5/Pt(1, 0.05).Norm(), d, 1e-9)
	assert.InDelta(t, 100, s, 1e-9)
	d, s = a.Farthest(a)
	assert.Zero(t, d)
	assert.Zero(t, s)
	// A half circle of 10 from its diameter.
	arc := Must(NewPath(
		Curve(Pt(10, 0), Pt(10, 10*0.5522847498), Pt(10*0.5522847498, 10), Pt(0, 10)),
		Curve(Pt(0, 10), Pt(-10*0.5522847498, 10), Pt(-10, 10*0.5522847498), Pt(-10, 0))))
	d, _ = arc.Farthest(Must(Polyline(Pt(-10, 0), Pt(10, 0))))
	assert.InDelta(t, 10, d, 1e-9)
}

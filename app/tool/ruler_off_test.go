package tool

import (
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
)

// A cubic whose inner points stand off its chord by h lies off it by 3/4 h at most.
func TestTheRulerTellsHowFarTheLineLiesOffTheOldEdge(t *testing.T) {
	out := geom.Cubic{P: [4]geom.Point{geom.Pt(0, 0), geom.Pt(10, -4), geom.Pt(20, -4), geom.Pt(30, 0)}}
	in := geom.Cubic{P: [4]geom.Point{geom.Pt(30, 0), geom.Pt(40, 2), geom.Pt(50, 2), geom.Pt(60, 0)}}
	for _, c := range []struct {
		segs     []geom.Cubic
		want     string
		mirrored string
	}{
		{[]geom.Cubic{out}, "up to 3 mm inside the old edge", "up to 3 mm outside the old edge"},
		{[]geom.Cubic{out, in}, "up to 1.5 mm outside and 3 mm inside the old edge", "up to 3 mm outside and 1.5 mm inside the old edge"},
		{[]geom.Cubic{geom.Straight(geom.Pt(0, 0), geom.Pt(0, 9))}, "on the old edge", "on the old edge"},
	} {
		run, err := geom.NewPath(c.segs...)
		require.NoError(t, err)
		turned := run.Transform(geom.Turn(0.7, geom.Pt(3, 5)))
		require.Equal(t, c.want, offTheOld(turned, false))
		require.Equal(t, c.mirrored, offTheOld(turned.Transform(geom.Identity()), true))
	}
}
